import { wrap, type Remote } from 'comlink';
import type { Core } from '../core/core.ts';

/** What lies packed in the page: its own text, unpacked again. */
const unpack = async (id: string): Promise<Uint8Array<ArrayBuffer>> => {
  const letters = atob(document.getElementById(id)?.textContent ?? '');
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i += 1) bytes[i] = letters.charCodeAt(i);
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
};

const startWorker = async (): Promise<Remote<Core>> => {
  const script = new Blob([await unpack('core')], { type: 'text/javascript' });
  return wrap<Core>(new Worker(URL.createObjectURL(script)));
};

/** The lettering of the sheets, also for the page's own words. */
const loadFonts = async (): Promise<readonly [Uint8Array, Uint8Array]> => {
  const [regular, bold] = await Promise.all([unpack('regular'), unpack('bold')]);
  document.fonts.add(new FontFace('Lettering', regular, { weight: '400' }));
  document.fonts.add(new FontFace('Lettering', bold, { weight: '700' }));
  return [regular, bold];
};

/** The program in its worker, which never blocks typing. */
export const core: Promise<Remote<Core>> = startWorker();

/** Done when the lettering can be shown, and written into files. */
export const fonts: Promise<void> = Promise.all([core, loadFonts()]).then(([program, [regular, bold]]) =>
  program.takeFonts(regular, bold),
);

/**
 * A call that follows what is typed: while one is under way the newest request waits, older ones are passed over, so that
 * the answer shown is never older than one call.
 */
export const followNewest = <A, T>(
  call: (asked: A) => Promise<T>,
  take: (answer: T, asked: A) => void,
  fail: (error: unknown) => void,
): ((asked: A) => void) => {
  let isBusy = false;
  let waiting: { readonly asked: A } | undefined;
  const run = async (asked: A): Promise<void> => {
    isBusy = true;
    try {
      const answer = await call(asked);
      take(answer, asked);
    } catch (error) {
      fail(error);
    } finally {
      isBusy = false;
      const next = waiting;
      waiting = undefined;
      if (next !== undefined) void run(next.asked);
    }
  };
  return (asked) => {
    if (isBusy) waiting = { asked };
    else void run(asked);
  };
};
