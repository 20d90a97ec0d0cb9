import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest, UserError, type Texts } from '../../src/index.ts';
import { samplePath, sheetStrokes } from '../support/pdf-reader.ts';
import { layerPoints, printAndRead, range } from '../support/print.ts';
import { strayStrokes } from '../support/strokes.ts';
import type { Vec2 } from '../support/space.ts';

const TURN = 2 * Math.PI;
/** Wide enough that the cut line is one stroke. */
const PAPER = '4000x3000mm';

const sheetOf = (layout: string, texts: Texts) => {
  const [sheet] = makeSheets(readRequest(layout, texts));
  if (!sheet) throw new Error('no sheet');
  return sheet;
};

/** The cut line's points by station in turns of the pipe, from the bytes of its print. */
const readCut = async (layout: string, texts: Texts, od: number, paper = 0.1): Promise<readonly Vec2[]> => {
  const { file } = await printAndRead(layout, { ...texts, paper: PAPER });
  const sheet = file.record?.sheets[0]?.name ?? '';
  const strokes = sheetStrokes(file, sheet, 'cut');
  expect(strokes).toHaveLength(1);
  return samplePath(strokes[0]!.path, 0.5).map(({ x, y }) => ({ x: x / (Math.PI * (od + paper)), y }));
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
    const { file } = await printAndRead('orange-peel', { pipe: 'OD 219.1mm wall 8.18mm', paper: PAPER });
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

/** Corners of a swage's cut line: where it turns sharply, between darts and tongues. */
const corners = (points: readonly Vec2[], od: number): readonly Vec2[] =>
  points.filter((p, i) => {
    const [a, b] = [points[i - 1], points[i + 1]];
    if (!a || !b) return false;
    const angle = (from: Vec2, to: Vec2): number => Math.atan2(to.y - from.y, (to.x - from.x) * Math.PI * od);
    return Math.abs(angle(a, p) - angle(p, b)) > 0.5;
  });

describe('a swage, from the bytes of its print', () => {
  it.each([
    [219.1, 8.18, 168.3, 152, 8, 'eccentric'],
    [114.3, 6.02, 88.9, 102, 5, 'eccentric'],
    [168.3, 7.11, 114.3, 140, 5, 'concentric'],
    [88.9, 5.49, 33.4, 60, 6, 'concentric'],
  ] as const)('OD %d wall %d to %d', async (od, wall, to, length, darts, form) => {
    const points = await readCut(
      'swage',
      {
        pipe: `OD ${od}mm wall ${wall}mm`,
        to: `OD ${to}mm wall 3mm`,
        length: `${length}mm`,
        darts: String(darts),
        form,
        seam: '0',
      },
      od,
    );
    const [large, small] = [(od - wall) / 2, (to - wall) / 2];
    const shift = form === 'eccentric' ? large - small : 0;
    const turns = corners(points, od);
    const tops = turns.filter(({ y }) => y > length / 2);
    // Every corner at the small end lies on the small end's circle once its tongue is bent straight in from the dart.
    const roots = Array.from({ length: darts }, (_, i) => 0.5 + (i + 0.5) / darts).flatMap((x) => [x - 1, x]);
    for (const { x, y } of tops) {
      const root = roots.reduce((best, at) => (Math.abs(at - x) < Math.abs(best - x) ? at : best));
      const inward = Math.sqrt(y * y - length * length);
      const angle = root * TURN;
      const at = { x: (large - inward) * Math.cos(angle) + shift, y: (large - inward) * Math.sin(angle) };
      expect(Math.abs(Math.hypot(at.x, at.y) - small)).toBeLessThan(0.02);
    }
    // Their widths make the small end's girth at mid-wall; the pipe's outside is cut by the same angle.
    const stops = tops.map(({ x }) => x).sort((a, b) => a - b);
    const [first, last] = [stops[0]!, stops[stops.length - 1]!];
    const spans = [...stops.slice(1).map((x, i) => [stops[i]!, x] as const), [last - 1, first] as const];
    expect(spans).toHaveLength(2 * darts);
    const open = spans.filter(([from, to_]) => roots.some((root) => root > from && root < to_));
    expect(open).toHaveLength(darts);
    const cutOut = open.reduce((sum, [from, to_]) => sum + to_ - from, 0);
    expect((1 - cutOut) * TURN * large).toBeCloseTo(TURN * small, 2);
    // The bottom tongue of an eccentric one is straight: as long as the taper.
    const bottom = points.filter(({ x, y }) => Math.abs(x - 0.5) < 0.005 && y > 0);
    const expected = form === 'eccentric' ? length : Math.hypot(length, large - small);
    for (const { y } of bottom) expect(y).toBeCloseTo(expected, 1);
    const top = points.reduce((most, { y }) => Math.max(most, y), 0);
    expect(top).toBeCloseTo(
      Math.hypot(length, form === 'eccentric' ? 2 * (large - small) : large - small),
      2,
    );
  });

  it('closes its tongues in one plane: every point of a small end is as far up as its tongue is long', async () => {
    const [od, wall, to, length, darts] = [219.1, 8.18, 168.3, 152, 6];
    const points = await readCut(
      'swage',
      {
        pipe: `OD ${od}mm wall ${wall}mm`,
        to: `OD ${to}mm wall 3mm`,
        length: `${length}mm`,
        darts: String(darts),
        form: 'eccentric',
        seam: '30',
      },
      od,
    );
    const [large, small] = [(od - wall) / 2, (to - wall) / 2];
    const shift = large - small;
    // The tongue about station 90: its centre line meets the small circle straight in from there.
    const centre = 120 / 360;
    const reach = (angle: number): number =>
      -shift * Math.cos(angle) + Math.sqrt(small * small - (shift * Math.sin(angle)) ** 2);
    const angle = centre * TURN;
    const start = Math.atan2(reach(angle) * Math.sin(angle), reach(angle) * Math.cos(angle) + shift);
    const tip = points.filter(({ x, y }) => Math.abs(x - centre) < 0.03 && y > length);
    expect(tip.length).toBeGreaterThan(20);
    for (const { x, y } of tip) {
      // Girth at mid-wall is kept: so far round the small circle from the tongue's middle.
      const about = start + ((x - centre) * TURN * large) / small;
      const at = { x: small * Math.cos(about) - shift, y: small * Math.sin(about) };
      const inward = large - Math.hypot(at.x, at.y);
      expect(y).toBeCloseTo(Math.hypot(length, inward), 2);
    }
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
      /less than 114/,
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
            expect(layout === 'swage' && (to >= od || to <= od * 0.75)).toBe(true);
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
