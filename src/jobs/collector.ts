import { setFlagsFromString } from 'node:v8';

/** Engines that were measured: Node 20. Later ones take no more processor time with helpers than without. */
const isMeasured = process.versions.node.startsWith('20.');

/** How much the memory that lasts may grow before it is swept, percent. The engine alone lets so little fill four times as much. */
const GROWTH = 120;

/**
 * Sweeps memory on the threads that fill it, and before it has grown far. Pieces leave so much behind that lasts no longer than they
 * do that the engine's helper threads take a quarter of the processor time, which the makers of pieces need themselves. Call it
 * before they start.
 */
export const sweepWithoutHelpers = (): void => {
  if (!isMeasured) return;
  setFlagsFromString(`--heap-growing-percent=${GROWTH}`);
  for (const flag of ['concurrent-marking', 'concurrent-sweeping', 'parallel-scavenge'])
    setFlagsFromString(`--no-${flag}`);
};
