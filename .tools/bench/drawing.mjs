/**
 * Times the published library as a shop's machine runs it: run from TypeScript, every function inside a function is named anew
 * each time. Answers each message with milliseconds: `{ develop }` for one of several developments of a saddle, `{ draw }` for the
 * sheets of a request.
 */
import { circleOutline, developEnd, makeSheets, readRequest, solidMate } from '../../dist/lib/index.js';

const timed = (run) => {
  const start = performance.now();
  run();
  return performance.now() - start;
};

const develop = ({ times, stock: [radius, wall], solid }) => {
  const [outline, mate] = [circleOutline(radius, wall), solidMate(solid)];
  return (
    timed(() => {
      for (let i = 0; i < times; i++) developEnd(outline, { mate, contact: 'wall', gap: 0 });
    }) / times
  );
};

process.on('message', (order) => {
  process.send(
    'develop' in order ? develop(order.develop) : timed(() => makeSheets(readRequest(...order.draw))),
  );
});
