import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { programFolder } from './program.ts';
import type { Order, Outcome } from './piece-maker.ts';
import type { Message } from './worker.ts';

/** Threads that make pieces at the same time. */
export interface Pool {
  readonly run: (order: Order) => Promise<Outcome>;
  /** Ends the threads; nothing may be running. */
  readonly close: () => Promise<void>;
}

/** Starting a thread takes as long as making a few pieces. */
const piecesPerThread = 4;

/** Pieces leave much behind that lasts no longer than they do: with room for it, it is swept away less often. */
const resourceLimits = { maxYoungGenerationSizeMb: 96 };

/** Run from its sources the program has but one thread: a thread's file must be built. */
const isBuilt = !import.meta.url.endsWith('.ts');

/** How many threads make `pieces` pieces, where `asked` were asked for: none that would have nothing to do. */
export const countThreads = (pieces: number, asked: number): number =>
  isBuilt ? Math.max(1, Math.min(asked, Math.ceil(pieces / piecesPerThread))) : 1;

interface Waiting {
  readonly resolve: (outcome: Outcome) => void;
  readonly reject: (error: Error) => void;
}

interface Thread {
  readonly worker: Worker;
  readonly waiting: Map<number, Waiting>;
}

const startThread = (): Thread => {
  const worker = new Worker(join(programFolder(), 'job-worker.js'), { resourceLimits });
  const waiting = new Map<number, Waiting>();
  worker.on('message', ({ id, content }: Message<Outcome>) => {
    waiting.get(id)?.resolve(content);
    waiting.delete(id);
  });
  const fail = (error: Error): void => {
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  };
  worker.on('error', fail);
  worker.on('exit', (code) => fail(new Error(`a thread ended with code ${code}`)));
  return { worker, waiting };
};

/** Starts so many threads. */
export const openPool = (size: number): Pool => {
  const threads = Array.from({ length: size }, startThread);
  let count = 0;
  return {
    run: (order) =>
      new Promise((resolve, reject) => {
        // Whoever has least to do.
        const thread = threads.reduce((a, b) => (b.waiting.size < a.waiting.size ? b : a));
        const id = ++count;
        thread.waiting.set(id, { resolve, reject });
        thread.worker.postMessage({ id, content: order } satisfies Message<Order>);
      }),
    close: async () => {
      await Promise.all(threads.map(({ worker }) => worker.terminate()));
    },
  };
};
