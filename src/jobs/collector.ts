import { setFlagsFromString } from 'node:v8';

/** Engines that were measured: Node 20. Later ones take no more processor time with helpers than without. */
const isMeasured = process.versions.node.startsWith('20.');

/**
 * Sweeps memory on the threads that fill it. Pieces leave so much behind that lasts no longer than they do that the engine's helper
 * threads take a quarter of the processor time, which the makers of pieces need themselves. Call it before they start.
 */
export const sweepWithoutHelpers = (): void => {
  if (!isMeasured) return;
  for (const flag of ['concurrent-marking', 'concurrent-sweeping', 'parallel-scavenge'])
    setFlagsFromString(`--no-${flag}`);
};
