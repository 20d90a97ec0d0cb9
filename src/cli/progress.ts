import { say } from '../words/say.ts';

/** The little of a terminal that progress needs. */
export interface Terminal {
  readonly isTTY?: boolean;
  readonly columns?: number;
  readonly write: (text: string) => unknown;
}

/** One line on a terminal that shows how far a long run is. */
export interface Progress {
  /** Tells that one more is done. `isWork` is false for what took no time because it was done before. */
  readonly step: (isWork: boolean) => void;
  /** Tells what is being done after the last step. */
  readonly tell: (text: string) => void;
  /** Takes the line away, so that other lines may be written. */
  readonly clear: () => void;
}

/** The line is not written more often than this, ms. */
const interval = 100;

/** `1 h 5 min`, `2 min 10 s`, `8 s`. */
const writeDuration = (ms: number): string => {
  const seconds = Math.ceil(ms / 1000);
  if (seconds < 60) return `${seconds} s`;
  const rounded = Math.round(seconds / 10) * 10;
  const minutes = Math.floor(rounded / 60);
  return minutes < 60
    ? say`${minutes} min ${rounded % 60} s`
    : say`${Math.floor(minutes / 60)} h ${minutes % 60} min`;
};

/**
 * Progress of `total` pieces on a terminal; nothing is written where there is none. The time left is that of the pieces yet to
 * come at the pace of those made so far. `now` gives ms.
 */
export const showProgress = (
  total: number,
  terminal: Terminal = process.stderr,
  now: () => number = () => performance.now(),
): Progress => {
  if (terminal.isTTY !== true)
    return { step: () => undefined, tell: () => undefined, clear: () => undefined };
  const began = now();
  let last = -Infinity;
  let done = 0;
  let worked = 0;
  const show = (text: string): void => {
    terminal.write(`\r\x1b[K${text.slice(0, (terminal.columns ?? 80) - 1)}`);
  };
  const timeLeft = (): string =>
    worked === 0 ? '' : say`, ${writeDuration(((now() - began) / worked) * (total - done))} left`;
  return {
    step: (isWork) => {
      done++;
      if (isWork) worked++;
      if (now() - last < interval && done < total) return;
      last = now();
      show(say`${done} of ${total} pieces${done < total ? timeLeft() : ''}`);
    },
    tell: show,
    clear: () => terminal.write('\r\x1b[K'),
  };
};
