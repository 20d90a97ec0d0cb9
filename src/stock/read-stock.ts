import type { LengthOptions } from '../units/length.ts';
import { plainText, refusals } from '../units/notation.ts';
import { parsePipe } from './pipe.ts';
import type { Stock, StockKind } from './stock.ts';

/** How the designations of one kind of stock begin, and what reads them. Pipe has no word of its own: it is what is left. */
interface StockReader {
  readonly kind: StockKind;
  /** First words of its designations, lower case. */
  readonly words: readonly string[];
  readonly read: (text: string, options: LengthOptions) => Stock;
}

/** Every kind of stock but pipe. A new one adds its file and one entry here. */
const readers: readonly StockReader[] = [];

/**
 * Reads any stock by its designation: a pipe as `parsePipe` does, other stock by its first word.
 * @param kinds what may be given; left out, anything
 * Throws a request error that says which kinds may be given where another is.
 */
export const parseStock = (
  text: string,
  options: LengthOptions = {},
  kinds?: readonly StockKind[],
): Stock => {
  const word = /^[a-z][a-z-]*/.exec(plainText(text))?.[0] ?? '';
  const reader = readers.find(({ words }) => words.includes(word));
  const kind = reader?.kind ?? 'pipe';
  if (kinds && !kinds.includes(kind))
    throw refusals(options.path ?? 'stock')(
      'wrong-stock',
      `${text.trim()} is ${kind === 'angle' ? 'an' : 'a'} ${kind}`,
      `give ${kinds.length > 1 ? `${kinds.slice(0, -1).join(', ')} or ` : ''}${kinds.at(-1) ?? ''}`,
    );
  return reader ? reader.read(text, options) : parsePipe(text, options);
};
