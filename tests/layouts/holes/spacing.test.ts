import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { letteringBox } from '../../../src/drawing/lettering.ts';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { WIDE_PAPER } from '../../support/cut-line.ts';
import { readCrosses, readLines, worstMatch } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead, range } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { strayStrokes } from '../../support/strokes.ts';

/** Where ticks stand on the edge y = 0, each once, left to right. */
const readTicks = async (texts: Record<string, string>): Promise<readonly number[]> => {
  const { file } = await printAndRead('spacing', texts);
  const places: number[] = [];
  for (const [a, b] of readLines(file, 'spacing', 'station').sort(([p], [q]) => p.x - q.x)) {
    expect(Math.abs(a.x - b.x)).toBeLessThan(0.001);
    expect(Math.abs(Math.max(a.y, b.y))).toBeLessThan(0.01);
    if (places.length === 0 || a.x - (places[places.length - 1] as number) > 0.05) places.push(a.x);
  }
  return places;
};

const factsOf = (texts: Record<string, string>) =>
  new Map(makeWrittenSheets(readRequest('spacing', texts))[0]?.facts);

describe('a spacing strip, from the bytes of its print', () => {
  it.each([
    ['length', 2400, 18, 60, 45, 'a4'],
    ['length', 150, 60, 0, 0, 'letter'],
    ['length', 997, 7, 12.5, 0, 'letter'],
  ] as const)('%s %d in %d parts, first %d, last %d', async (kind, total, parts, first, last, paper) => {
    const ticks = await readTicks({
      [kind]: `${total}mm`,
      parts: `${parts}`,
      first: `${first}mm`,
      last: `${last}mm`,
      paper,
    });
    expect(ticks).toHaveLength(parts + 1);
    ticks.forEach((x, i) =>
      expect(Math.abs(x - (first + ((total - first - last) * i) / parts))).toBeLessThan(0.01),
    );
  });

  it.each([0, 0.1, 0.3])('a girth is drawn longer for paper %d thick: (D + t) / D', async (paper) => {
    const ticks = await readTicks({
      girth: '28in',
      parts: '16',
      'paper-thickness': `${paper}mm`,
      paper: 'letter',
    });
    const girth = 28 * 25.4;
    const stretch = (girth / Math.PI + paper) / (girth / Math.PI);
    expect(ticks).toHaveLength(17);
    ticks.forEach((x, i) => expect(Math.abs(x - ((girth * i) / 16) * stretch)).toBeLessThan(0.01));
  });

  it('crosses stand under their ticks, and the seam meets the start', async () => {
    const { file } = await printAndRead('spacing', {
      pipe: 'OD 168.3mm wall 7.1mm',
      parts: '8',
      'punch-line': '40mm',
      'paper-thickness': '0mm',
      paper: WIDE_PAPER,
    });
    const girth = Math.PI * 168.3;
    const wanted = Array.from({ length: 9 }, (_, i) => ({ x: (girth * i) / 8, y: -40 }));
    expect(worstMatch(readCrosses(file, 'spacing'), wanted)).toBeLessThan(0.01);
    const seam = readLines(file, 'spacing', 'reference');
    expect(seam).toHaveLength(1);
    expect(Math.abs((seam[0]?.[0].x ?? 0) - girth)).toBeLessThan(0.01);
    const [left] = range(layerPoints(file, 'spacing', 'cut').map(({ x }) => x));
    expect(Math.abs(left)).toBeLessThan(0.01);
  });
});

describe('figures of a spacing strip', () => {
  it('girth 28 in in 16 parts is 1 3/4 in each (Longfield 1921, p. 63)', () => {
    const facts = factsOf({ girth: '28in', parts: '16' });
    expect(facts.get('Each part')).toMatch(/^1 3\/4″/);
    const rows =
      makeWrittenSheets(readRequest('spacing', { girth: '28in', parts: '16' }))[0]?.tables[0]?.rows ?? [];
    expect(rows).toHaveLength(17);
    expect(rows[1]?.[1]).toBe('1 3/4″');
    expect(rows[16]?.[1]).toBe('2′-4″');
  });

  it('writes no number against another, at the seam either', () => {
    for (const parts of ['7', '13', '24', '40']) {
      const [sheet] = makeWrittenSheets(readRequest('spacing', { pipe: 'NPS 1 sch 40', parts }));
      const numbers = sheet!.marks
        .filter((mark) => mark.kind === 'text')
        .filter(({ text, height }) => /^\d+$/.test(text) && height === 3.5)
        .map(letteringBox)
        .sort((a, b) => a.minX - b.minX);
      expect(numbers.length).toBeGreaterThan(2);
      numbers
        .slice(1)
        .forEach(({ minX }, i) => expect(minX - numbers[i]!.maxX, `${parts} parts`).toBeGreaterThan(0.8));
    }
  });

  it('says one part and the whole alike wherever they stand', () => {
    const [sheet] = makeWrittenSheets(
      readRequest('spacing', { length: '2400mm', parts: '18', first: '60mm', last: '60mm' }),
    );
    const drawn = sheet!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(new Map(sheet!.facts).get('Each part')).toBe('126.7 mm (4 63/64″)');
    expect(drawn).toContain('126.7 mm (4 63/64″)');
    expect(sheet!.subject[0]).toContain('2400.0 mm (7′-10 1/2″)');
    expect(new Map(sheet!.facts).get('Length')).toBe('2400.0 mm (7′-10 1/2″)');
    expect(sheet!.steps.join()).toContain('2400.0 mm (7′-10 1/2″)');
  });

  /** Chords stepped round instead of the arc: N sin(π/N) / π - 1 in percent, worked out by hand. */
  it.each([
    [12, -1.138],
    [16, -0.641],
    [24, -0.285],
  ])('dividers for %d parts: stepped along a straight line they fall short by %d %%', (parts, percent) => {
    const chord = /^([\d.]+) mm/.exec(
      factsOf({ girth: '90000mm', parts: `${parts}` }).get('One part straight across, for dividers') ?? '',
    )?.[1];
    expect(((Number(chord) * parts) / 90_000 - 1) * 100).toBeCloseTo(percent, 2);
  });

  it('parts and allowances make up the whole', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 5000, noNaN: true }),
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 0, max: 0.09, noNaN: true }),
        fc.double({ min: 0, max: 0.09, noNaN: true }),
        (length, parts, first, last) => {
          const [sheet] = makeWrittenSheets(
            readRequest('spacing', {
              length: `${length}mm`,
              parts: `${parts}`,
              first: `${(first * length).toFixed(6)}mm`,
              last: `${(last * length).toFixed(6)}mm`,
            }),
          );
          if (!sheet) throw new Error('no sheet');
          expect(strayStrokes(sheet)).toBe(0);
          const ticks = sheet.marks.flatMap((mark) =>
            mark.kind === 'stroke' && mark.role === 'station' ? [mark.path.start.x] : [],
          );
          expect(ticks).toHaveLength(parts + 1);
          expect(ticks[0]).toBeCloseTo(first * length, 4);
          expect(length - (ticks[parts] as number)).toBeCloseTo(last * length, 4);
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([
    [{ parts: '4' }, 'request length missing', /one of length, girth and pipe/],
    [{ length: '1m', girth: '1m', parts: '4' }, 'request girth given-twice', /one of/],
    [
      { length: '100mm', parts: '4', first: '60mm', last: '40mm' },
      'joint last nothing-to-part',
      /less than 100\.0 mm/,
    ],
    [{ length: '100mm', parts: '4', first: '120mm' }, 'joint first nothing-to-part', /less than 100\.0 mm/],
    [{ length: '100mm', parts: '200' }, 'joint parts parts-too-small', /at most 100 parts/],
    [{ length: '100mm', parts: '0' }, 'request parts out-of-range', /1 to 2000/],
  ] as const)('refuses %o', (texts, what, hint) => {
    const found = refused('spacing', texts);
    expect(found.what).toBe(what);
    expect(found.hint).toMatch(hint);
  });
});
