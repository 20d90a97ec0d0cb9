import { requestError } from '../issue.ts';
import { say } from '../words/say.ts';

/** One of so many equal shares of a job: `2/8` on the second of eight machines. */
export interface Share {
  /** From 1. */
  readonly index: number;
  readonly of: number;
}

const mostShares = 10_000;

/** Reads `2/8`. Throws a `request` UserError for anything else. */
export const readShare = (text: string): Share => {
  const [, index, of] = /^\s*(\d{1,5})\s*\/\s*(\d{1,5})\s*$/.exec(text) ?? [];
  const share = { index: Number(index), of: Number(of) };
  if (share.index >= 1 && share.index <= share.of && share.of <= mostShares) return share;
  throw requestError(
    'shard',
    'bad-share',
    say`"${text}" is not a share`,
    say`write 2/8 for the second of eight equal shares`,
  );
};

/** The share as it stands in names of files: `2-of-8`. */
export const tellShare = ({ index, of }: Share): string => `${index}-of-${of}`;

/** The works of a share: dealt out one by one, since neighbours in a list take about as long. */
export const worksOfShare = <Work>(works: readonly Work[], share: Share | undefined): readonly Work[] =>
  share === undefined ? works : works.filter((_, i) => i % share.of === share.index - 1);
