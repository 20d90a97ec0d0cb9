import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markBounds } from '../../../src/drawing/extent.ts';
import { makeSheets, makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import { sheetStrokes } from '../../support/pdf-reader.ts';
import { layerPoints, printAndRead, range } from '../../support/print.ts';

const stationXs = (file: Parameters<typeof sheetStrokes>[0]): readonly number[] => {
  const xs = sheetStrokes(file, 'band', 'station').map((stroke) => stroke.path[0]?.start.x ?? NaN);
  return [...new Set(xs.map((x) => Number(x.toFixed(5))))].sort((a, b) => a - b);
};

it.each(['en', 'es'])('what stands up along the tab stays inside the lowest band: %s', (language) => {
  const [sheet] = makeSheets(readRequest('band', { pipe: 'NPS 6 sch 40', height: '45mm', language }));
  const tab = sheet!.marks.filter((mark) => mark.kind === 'text' && /^(?:TAB|PESTAÑA)/.test(mark.text));
  expect(tab).toHaveLength(1);
  const { minY, maxY } = markBounds(tab[0]!);
  expect(minY).toBeGreaterThan(0);
  expect(maxY).toBeLessThan(45);
});

describe('a band, from the bytes of its print', () => {
  it.each([
    ['NPS 1/2 sch 40', 21.336, 'letter'],
    ['NPS 6 sch 40', 168.275, 'letter'],
    ['DN 150 sch 40', 168.3, 'a4'],
    ['NPS 24 sch 40', 609.6, 'letter'],
    ['DN 600 sch 40', 610, 'a4'],
    ['girth 530mm wall 7mm', 530 / Math.PI, 'a4'],
  ])('%s: girth π(D + t), stations every 15°', async (pipe, od, paper) => {
    const { file } = await printAndRead('band', { pipe, paper });
    const girth = Math.PI * (od + 0.1);
    const [left, right] = range(layerPoints(file, 'band', 'station').map((p) => p.x));
    expect(left).toBeCloseTo(0, 5);
    expect(right).toBeCloseTo(girth, 5);
    const xs = stationXs(file);
    expect(xs).toHaveLength(25);
    xs.forEach((x, i) => expect(x).toBeCloseTo((girth * i) / 24, 4));
  });

  it('marks any degree with its label', async () => {
    const { file } = await printAndRead('band', { pipe: 'DN 150 sch 40', mark: ['37.5:lug', '-10:drain'] });
    const girth = Math.PI * (168.3 + 0.1);
    for (const degrees of [37.5, 350])
      expect(stationXs(file).some((x) => Math.abs(x - (girth * degrees) / 360) < 1e-4)).toBe(true);
  });

  it('marks any degrees in any order, each on its own line, and proves', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.double({ min: 0, max: 360, noNaN: true }), { minLength: 1, maxLength: 6 }),
        fc.constantFrom('NPS 1/2 sch 40', 'NPS 3 sch 40'),
        async (degrees, pipe) => {
          const { file, bytes } = await printAndRead('band', {
            pipe,
            mark: degrees.map((angle, i) => `${angle.toFixed(2)}:nozzle N${i + 1}`),
          });
          const [left, right] = range(layerPoints(file, 'band', 'station').map((p) => p.x));
          const xs = stationXs(file);
          for (const angle of degrees) {
            const x = (right - left) * ((Number(angle.toFixed(2)) % 360) / 360);
            expect(xs.some((one) => Math.abs(one - x) < 1e-3)).toBe(true);
          }
          expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('has both long edges square', async () => {
    const { file } = await printAndRead('band', { pipe: 'NPS 3 sch 40', height: '80mm' });
    const edges = sheetStrokes(file, 'band', 'reference').flatMap((stroke) => stroke.path);
    const levels = edges.flatMap((edge) => [edge.start, ...edge.segments.map((s) => s.to)]).map((p) => p.y);
    for (const y of levels) expect(Math.min(Math.abs(y), Math.abs(y - 80))).toBeLessThan(1e-5);
  });
});

describe('a band in words', () => {
  /** M. Rose, Layout Procedures for Metals, 2019, ch. 3: NPS 4 (4.50 in) girth printed as 14.125 in, exact 14.1372. */
  it('tells the girth of NPS 4 as 14 1/8 in', () => {
    const [sheet] = makeWrittenSheets(readRequest('band', { pipe: 'NPS 4 sch 40' }));
    expect(sheet?.facts[0]?.[1]).toMatch(/^1′-2 1\/8″/);
  });

  it('tells that top dead center is half the outside in from the side (common practice, no source)', () => {
    const [sheet] = makeWrittenSheets(readRequest('band', { pipe: 'DN 150 sch 40' }));
    expect(sheet?.facts).toContainEqual(['TDC in from the side', '84.2 mm (3 5/16″)']);
  });

  it('keeps every station inside the band and the quarter lines always', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 120 }),
        fc.integer({ min: -360, max: 360 }),
        fc.double({ min: 15, max: 1500, noNaN: true }),
        (divisions, seam, od) => {
          const [sheet] = makeWrittenSheets(
            readRequest('band', {
              pipe: `OD ${od.toFixed(3)}mm wall 2mm`,
              divisions: String(divisions),
              seam: String(seam),
            }),
          );
          const girth = Math.PI * (Number(od.toFixed(3)) + 0.1);
          const xs = (sheet?.marks ?? []).flatMap((mark) =>
            mark.kind === 'stroke' && mark.role === 'station' ? [mark.path.start.x] : [],
          );
          const [left, right] = range(xs);
          expect(right - left).toBeCloseTo(girth, 6);
          for (let quarter = 0; quarter < 4; quarter++) {
            const on = xs.some((x) => {
              const turns = x / girth - quarter / 4;
              return Math.abs(turns - Math.round(turns)) < 1e-9;
            });
            expect(on).toBe(true);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
