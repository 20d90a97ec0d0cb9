import type { FuzzRequest } from './requests.ts';
import { tryRequest, type Result } from './try-request.ts';

/** What a request came to, the processor time it took, and the most memory this process has held so far. */
export interface Tried {
  readonly result: Result;
  readonly ms: number;
  readonly megabytes: number;
}

// A process that tries requests, so that one that hangs or eats up the memory can be ended, and its own time and memory are read.
process.on('message', (request: FuzzRequest) => {
  const before = process.cpuUsage();
  void tryRequest(request).then((result) => {
    const { user, system } = process.cpuUsage(before);
    const megabytes = process.resourceUsage().maxRSS / 1024;
    process.send?.({ result, ms: (user + system) / 1000, megabytes } satisfies Tried);
  });
});
