import { setFlagsFromString } from 'node:v8';

/** Settings of the engine for this program, before it does anything else. Only engines that were measured are set: Node 20. */
const set = (...flags: readonly string[]): void => {
  if (process.versions.node.startsWith('20.')) for (const flag of flags) setFlagsFromString(`--${flag}`);
};

/**
 * How much a function must have done before it is compiled anew for speed, bytes of its code. It is some fifteen times what the
 * engine takes: a print is made in half a second, and most of what is hot in it is so only once.
 */
const WORTH_COMPILING = 1_000_000;

/** Compiles only what is hot for long: a third less processor time for one print, a sixth for three hundred. */
export const compileLess = (): void => set(`interrupt-budget=${WORTH_COMPILING}`);

/** How much the memory that lasts may grow before it is swept, percent. The engine alone lets so little fill four times as much. */
const GROWTH = 120;

/**
 * Sweeps memory on the threads that fill it, and before it has grown far. Pieces leave so much behind that lasts no longer than they
 * do that the engine's helper threads take a quarter of the processor time, which the makers of pieces need themselves. Nor is
 * anything set among what lasts because things like it lasted a piece: each sweep of what lasts also drops the compiled code of
 * functions that are made anew for every piece. Call it before they start.
 */
export const sweepWithoutHelpers = (): void =>
  set(
    'no-concurrent-marking',
    'no-concurrent-sweeping',
    'no-parallel-scavenge',
    'no-allocation-site-pretenuring',
    `heap-growing-percent=${GROWTH}`,
  );
