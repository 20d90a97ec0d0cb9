import { parentPort } from 'node:worker_threads';
import type { FuzzRequest } from './requests.ts';
import { tryRequest } from './try-request.ts';

// A thread that tries requests, so that the one that hangs or eats up the memory can be ended.
parentPort?.on('message', (request: FuzzRequest) => {
  const before = process.cpuUsage();
  void tryRequest(request).then((result) => {
    const { user, system } = process.cpuUsage(before);
    parentPort?.postMessage({ result, ms: (user + system) / 1000 });
  });
});
