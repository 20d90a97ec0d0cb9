import fc from 'fast-check';
import { expect, it } from 'vitest';
import { requests } from '../.tools/fuzz/requests.ts';
import { tryRequest } from '../.tools/fuzz/try-request.ts';

/** A short share of `npm run fuzz`; SOAPSTONE_CASES sets how many. */
const cases = Number(process.env['SOAPSTONE_CASES'] ?? 60);

it('every request ends in a print that proves or in a refusal with its words', async () => {
  const ended = { printed: 0, refused: 0 };
  for (const request of fc.sample(requests, { seed: 7, numRuns: cases })) {
    const result = await tryRequest(request);
    if (result.kind === 'defect') expect.fail(`${JSON.stringify(request)}: ${result.what}`);
    ended[result.kind]++;
  }
  // The generator must not refuse its way through.
  expect(ended.printed).toBeGreaterThan(cases / 6);
});
