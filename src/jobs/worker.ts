import { parentPort } from 'node:worker_threads';
import { makePiece, type Order, type Outcome } from './piece-maker.ts';

/** An order on its way to a thread, and its outcome on the way back. */
export interface Message<Content> {
  readonly id: number;
  readonly content: Content;
}

// A thread that makes pieces, one after the other as they are asked for.
parentPort?.on('message', ({ id, content }: Message<Order>) => {
  void makePiece(content).then((outcome) => {
    parentPort?.postMessage({ id, content: outcome } satisfies Message<Outcome>);
  });
});
