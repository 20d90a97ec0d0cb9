import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markBounds } from '../../../src/drawing/extent.ts';
import { clipStroke } from '../../../src/drawing/path-clip.ts';
import { growBox } from '../../../src/drawing/paths.ts';
import { makeSheets, makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { readCut, WIDE_PAPER } from '../../support/cut-line.ts';
import { layerPoints, printAndRead, range } from '../../support/print.ts';
import { strayStrokes } from '../../support/strokes.ts';

const sheetOf = (layout: string, texts: Texts) => {
  const [sheet] = makeWrittenSheets(readRequest(layout, texts));
  if (!sheet) throw new Error('no sheet');
  return sheet;
};

describe('the number of arms', () => {
  /** Girth in inches over 5, nearest, never fewer than 5: NAVEDTRA 14251 p. 3-23; inches are from memory. */
  it.each([
    ['12.75', '8'],
    ['8.625', '5'],
    ['4.5', '5'],
  ])('for OD %s in is %s', (od, arms) => {
    expect(sheetOf('orange-peel', { pipe: `OD ${od}in wall 0.25in` }).facts).toContainEqual(['Arms', arms]);
  });
});

describe('an orange-peel head, from the bytes of its print', () => {
  it.each([
    [219.1, 8.18, undefined],
    [60.3, 8.74, '5'],
    [610, 9.53, '12'],
  ])('OD %d wall %d closes to a sphere', async (od, wall, arms) => {
    const points = await readCut(
      'orange-peel',
      { pipe: `OD ${od}mm wall ${wall}mm`, ...(arms ? { arms } : {}) },
      od,
    );
    const count = Number(arms ?? Math.max(5, Math.round((Math.PI * od) / 127)));
    const mean = (od - wall) / 2;
    const misses = points.map(({ x, y }) => {
      // Off its arm's centre line, as a part of the arm at the bend line; the sphere's parallel there is cos(y / mean) of it.
      const part = Math.abs(x * count - Math.floor(x * count) - 0.5) * 2;
      const across = (part - Math.cos(y / mean)) * ((Math.PI * od) / count / 2);
      const along = y - mean * Math.acos(Math.min(1, part));
      return Math.min(Math.abs(across), Math.abs(along));
    });
    expect(Math.max(...misses)).toBeLessThan(0.01);
    const [low, high] = range(points.map((p) => p.y));
    expect(low).toBeCloseTo(0, 4);
    expect(high).toBeCloseTo((Math.PI / 2) * mean, 3);
    const [left, right] = range(points.map((p) => p.x));
    expect(right - left).toBeCloseTo(1, 6);
  });

  it('follows an ellipse where the rise is given', async () => {
    const [od, wall, rise, count] = [323.8, 9.53, 78.57, 8];
    const points = await readCut(
      'orange-peel',
      { pipe: `OD ${od}mm wall ${wall}mm`, rise: `${rise}mm`, arms: String(count) },
      od,
    );
    const mean = (od - wall) / 2;
    // Ramanujan's second perimeter of an ellipse (1914), a quarter of it, good to 1e-6 here.
    const h = ((mean - rise) / (mean + rise)) ** 2;
    const quarter = (Math.PI / 4) * (mean + rise) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
    expect(range(points.map((p) => p.y))[1]).toBeCloseTo(quarter, 2);
  });

  it('has its bend lines on their own layer, right round at the root and across the arms', async () => {
    const { file } = await printAndRead('orange-peel', { pipe: 'OD 219.1mm wall 8.18mm', paper: WIDE_PAPER });
    const heights = layerPoints(file, 'orange peel', 'bend').map(({ y }) => y);
    const mean = (219.1 - 8.18) / 2;
    // On a hemisphere an arm has turned in by 15° every mean radius x 15°.
    for (let k = 0; k <= 5; k++)
      expect(heights.some((y) => Math.abs(y - (mean * k * Math.PI) / 12) < 0.001)).toBe(true);
    expect(new Set(heights.map((y) => y.toFixed(3))).size).toBe(6);
  });

  it('writes the lengths to check by tape', () => {
    const sheet = sheetOf('orange-peel', { pipe: 'OD 219.1mm wall 8.18mm', arms: '6' });
    const rows = sheet.tables.find(({ title }) => title.startsWith('One arm'))?.rows ?? [];
    // Half way in, 45°: 105.46 x π/4 = 82.8 up; π 219.1 / 6 = 114.7 wide at the root, cos 45° of it there = 81.1.
    expect(rows[0]?.slice(0, 4)).toEqual(['0°', '0.0', '0″', '114.7']);
    expect(rows[3]?.[1]).toBe('82.8');
    expect(rows[3]?.[3]).toBe('81.1');
  });
});

describe('a bull-plug pair, from the bytes of its print', () => {
  it.each([
    [168.3, 7.11, '5', '168.3mm'],
    [60.3, 3.91, '3', '20mm'],
  ])('OD %d: one straight zigzag, the same for both', async (od, wall, arms, rise) => {
    const points = await readCut('bull-plug', { pipe: `OD ${od}mm wall ${wall}mm`, arms, rise }, od);
    const length = Math.hypot(parseFloat(rise), (od - wall) / 2);
    for (const { x, y } of points) {
      const inArm = x * Number(arms) - Math.floor(x * Number(arms) + 1e-9);
      expect(Math.abs(y - length * (1 - Math.abs(2 * inArm - 1)))).toBeLessThan(0.005);
    }
    // The arms of the upper plug are what is left between those of the lower one: turned end for end the line is itself.
    const [low, high] = range(points.map((p) => p.y));
    expect(low + high).toBeCloseTo(length, 4);
  });

  it('has no scrap', () => {
    const words = sheetOf('bull-plug', { pipe: 'NPS 6 sch 40' }).marks.flatMap((mark) =>
      mark.kind === 'text' ? [mark.text] : [],
    );
    expect(words).not.toContain('SCRAP');
    expect(words).toEqual(
      expect.arrayContaining(['PLUG A ▲', 'PLUG B ▼', 'BEND LINE OF A', 'BEND LINE OF B']),
    );
  });
});

const refuse = (layout: string, texts: Texts): UserError => {
  try {
    sheetOf(layout, texts);
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('it was drawn');
};

describe('heads that cannot be made', () => {
  it.each([
    ['orange-peel', { pipe: 'NPS 6 sch 40', arms: '2' }, 'request', /out of range/, /3 to 36/],
    [
      'swage',
      { pipe: 'NPS 4 sch 40', to: 'NPS 6 sch 40', length: '4in' },
      'joint',
      /not smaller/,
      /less than 4 1\/2″/,
    ],
    [
      'swage',
      { pipe: 'NPS 6 sch 40', to: 'NPS 2 sch 40', length: '4in', form: 'eccentric' },
      'joint',
      /too small/,
      /more than 87\.7 mm|two steps/,
    ],
    [
      'swage',
      { pipe: 'NPS 6 sch 40', to: 'NPS 4 sch 40', length: '1mm' },
      'request',
      /out of range/,
      /5 mm to 3000/,
    ],
  ] as const)('%s %o', (layout, texts, failure, message, hint) => {
    const error = refuse(layout, texts);
    expect(error.failure).toBe(failure);
    expect(error.message).toMatch(message);
    expect(error.issues[0]?.hint).toMatch(hint);
  });
});

describe('any head or swage', () => {
  it('is refused with a limit, or has a finite line inside its bounds', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('orange-peel', 'bull-plug', 'swage'),
        fc.record({
          od: fc.integer({ min: 20, max: 1500 }),
          thin: fc.double({ min: 0.02, max: 0.45, noNaN: true }),
          arms: fc.integer({ min: 3, max: 36 }),
          rise: fc.integer({ min: 5, max: 2000 }),
          to: fc.integer({ min: 12, max: 1500 }),
          form: fc.constantFrom('concentric', 'eccentric'),
          seam: fc.integer({ min: -360, max: 360 }),
          from: fc.constantFrom('pipe', 'plate'),
          allowance: fc.integer({ min: -10, max: 60 }),
        }),
        (layout, { od, thin, arms, rise, to, form, seam, from, allowance }) => {
          const texts: Texts = {
            pipe: `OD ${od}mm wall ${(od * thin).toFixed(2)}mm`,
            seam: String(seam),
            'made-from': from,
            'seam-allowance': `${allowance}mm`,
            ...(layout === 'swage'
              ? { to: `OD ${to}mm wall 1mm`, length: `${rise}mm`, form, darts: String(arms) }
              : { arms: String(arms), rise: `${rise}mm` }),
          };
          let sheet;
          try {
            sheet = sheetOf(layout, texts);
          } catch (error) {
            if (!(error instanceof UserError)) throw error;
            expect(error.failure).toBe('joint');
            // The ends are compared on their mean diameters.
            const [large, small] = [od - Number((od * thin).toFixed(2)), to - 1];
            expect(layout === 'swage' && (to >= od || small >= large || small <= large * 0.75)).toBe(true);
            return;
          }
          expect(strayStrokes(sheet)).toBe(0);
          const cut = sheet.marks.flatMap((mark) =>
            mark.kind === 'stroke' && mark.role === 'cut' ? [mark.path] : [],
          );
          const xs = cut.flatMap(({ start, segments }) => [start.x, ...segments.map((s) => s.to.x)]);
          const wall = Number((od * thin).toFixed(2));
          const girth = from === 'plate' ? Math.PI * (od - wall) + allowance : Math.PI * (od + 0.1);
          expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(girth, 4);
        },
      ),
      { numRuns: 150 },
    );
  }, 120_000);
});

it.each(['NPS 1 sch 40', 'NPS 1-1/2 sch 40', 'NPS 2 sch 40', 'NPS 3 sch 40', 'NPS 6 sch 40'])(
  'names of the bend lines of a bull plug from %s keep off the cut',
  (stock) => {
    const [sheet] = makeSheets(readRequest('bull-plug', { stock }));
    const names = sheet!.marks.filter((mark) => mark.kind === 'text' && mark.text.startsWith('BEND LINE'));
    expect(names.length).toBeGreaterThan(1);
    for (const name of names)
      for (const mark of sheet!.marks)
        if (mark.kind === 'stroke' && mark.role === 'cut')
          expect(clipStroke(mark.path, growBox(markBounds(name), 0.8))).toEqual([]);
  },
);
