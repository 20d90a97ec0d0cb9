import fc from 'fast-check';
import { expect, it } from 'vitest';
import { requests, type FuzzRequest } from '../.tools/fuzz/requests.ts';
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

const found: readonly Omit<FuzzRequest, 'also'>[] = [
  { layout: 'ring', texts: { outside: '400mm', inside: '325mm', gap: '0.3319in' } },
  { layout: 'gores', texts: { sphere: '600mm', count: '9', from: '89.9999999' } },
  {
    layout: 'pad',
    texts: { branch: 'OD 3mm wall 0.01mm', header: 'NPS 8 sch 40', width: '3-1/2in', offset: '0.1505ft' },
  },
  {
    layout: 'piece',
    texts: {
      stock: 'OD 3mm wall 0.04296mm',
      start: 'miter 22.5',
      finish: 'saddle NPS 6 sch 40',
      length: '2ft 3in',
    },
  },
  {
    layout: 'hole-grid',
    texts: {
      columns: '3',
      'column-pitch': '60mm',
      rows: '3',
      'row-pitch': '52mm',
      hole: '14mm',
      notes: 'none',
    },
  },
  { layout: 'miter', texts: { stock: 'OD 3mm wall 0.2622mm', cut: '45' } },
  {
    layout: 'cone',
    texts: {
      large: '20in',
      small: '0in',
      height: '9in',
      thickness: '135.4mm',
      sizes: 'inside',
      'seam-allowance': '1/2in',
    },
  },
  { layout: 'orange-peel', texts: { stock: 'OD 14.56mm wall 0.1456mm', arms: '10', rise: '800mm' } },
];

it.each(found)('what was once found at fault holds: $layout $texts', async (request) => {
  expect(await tryRequest({ ...request, also: 'dxf' })).not.toMatchObject({ kind: 'defect' });
});
