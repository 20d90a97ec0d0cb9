import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  makeWrittenSheets,
  readRequest,
  UserError,
  type Texts,
  type WrittenSheet,
} from '../../../src/index.ts';
import {
  commonDistance,
  cylinderDistance,
  faceClearance,
  planeDistance,
  rollUp,
  unionDistance,
  type Distance,
} from '../../support/fit-up.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';
import {
  inner,
  minus,
  outer,
  placeIn,
  plus,
  point,
  times,
  type Axes,
  type Vec2,
  type Vec3,
} from '../../support/space.ts';

const degrees = Math.PI / 180;
const origin = point(0, 0, 0);

interface Leg {
  readonly heading: number;
  readonly rise?: number;
  readonly od: number;
  readonly wall: number;
}

/** Out along a leg: heading counter-clockwise on the plan seen from above, then raised. */
const out = ({ heading, rise = 0 }: Leg): Vec3 =>
  point(
    Math.cos(heading * degrees) * Math.cos(rise * degrees),
    Math.sin(heading * degrees) * Math.cos(rise * degrees),
    Math.sin(rise * degrees),
  );

/** A leg's stock frame: z into the crossing, x its top line, y = z × x. */
const frame = (leg: Leg): Axes => {
  const z = times(out(leg), -1);
  const level = point(Math.cos(leg.heading * degrees), Math.sin(leg.heading * degrees), 0);
  const rise = (leg.rise ?? 0) * degrees;
  const x = plus(times(point(0, 0, 1), Math.cos(rise)), times(level, -Math.sin(rise)));
  return { origin, x, y: outer(z, x), z };
};

const place = (leg: Leg, p: Vec2, radius: number): Vec3 =>
  placeIn(frame(leg), rollUp(p, { od: leg.od, paper: 0.1 }, radius));

/** A leg as a solid: its round bar on its own side of the plane halfway to each leg of its size. */
const solid = (leg: Leg, legs: readonly Leg[]): Distance =>
  commonDistance(
    cylinderDistance(origin, out(leg), leg.od / 2),
    ...legs
      .filter((other) => other !== leg && other.od === leg.od)
      .map((other) => planeDistance(origin, minus(out(other), out(leg)))),
  );

const write = ({ heading, rise, od, wall }: Leg): string =>
  `${heading}${rise === undefined ? '' : ` up ${rise}`} OD ${od}mm wall ${wall}mm`;

const textsOf = (legs: readonly Leg[], rest: Texts = {}): Texts => ({
  pipe: 'OD 100mm wall 5mm',
  leg: legs.map(write),
  paper: '36in-roll',
  ...rest,
});

const equal = (
  headings: readonly (readonly [heading: number, rise?: number])[],
  od = 168.3,
): readonly Leg[] => headings.map(([heading, rise]) => ({ heading, rise, od, wall: 7.11 }));

describe('legs of one size close on each other, from the bytes of the print', () => {
  it.each([
    ['true wye', equal([[0], [120], [240]])],
    ['three legs, uneven', equal([[0], [100], [225]])],
    ['three legs on one side', equal([[0], [60], [120]])],
    ['two legs', equal([[10], [130]])],
    ['cross', equal([[0], [90], [180], [270]])],
    [
      'out of plane',
      equal([
        [0, 20],
        [120, 35],
        [240, -10],
      ]),
    ],
  ] as const)('%s', async (_, legs) => {
    const { file } = await printAndRead('wye', textsOf(legs));
    for (const [i, leg] of legs.entries()) {
      const points = layerPoints(file, `leg ${i + 1}`, 'cut', 1).map((p) => place(leg, p, leg.od / 2));
      expect(points.length).toBeGreaterThan(100);
      for (const p of points) {
        // On a neighbor's outside too, in the plane between both, and with no other leg's axis nearer.
        const along = legs.map((other) => inner(p, out(other)));
        const own = along[i] as number;
        const others = along.filter((_value, j) => j !== i);
        expect(Math.abs(Math.max(...others) - own)).toBeLessThan(0.01);
        const met = legs[along.findIndex((value, j) => j !== i && value === Math.max(...others))] as Leg;
        expect(Math.abs(cylinderDistance(origin, out(met), met.od / 2)(p))).toBeLessThan(0.01);
      }
    }
  });
});

describe('legs of other sizes touch first anywhere through the wall, from the bytes of the print', () => {
  it('a small leg astride the seam of two large ones', async () => {
    const legs: readonly Leg[] = [
      { heading: 0, od: 168.3, wall: 7.11 },
      { heading: 140, od: 168.3, wall: 7.11 },
      { heading: 250, rise: 15, od: 88.9, wall: 5.49 },
    ];
    const { file } = await printAndRead('wye', textsOf(legs, { gap: '2mm' }));
    const [a, b, small] = legs as [Leg, Leg, Leg];
    const body = unionDistance(solid(a, [a, b]), solid(b, [a, b]));
    const off = layerPoints(file, 'leg 3', 'cut').map((p) =>
      faceClearance(
        (r) => place(small, { x: p.x, y: p.y + 2 }, r),
        small.od / 2 - small.wall,
        small.od / 2,
        body,
      ),
    );
    expect(off.length).toBeGreaterThan(100);
    expect(worst(off)).toBeLessThan(0.01);
  });

  it('two legs that meet on a header', async () => {
    const legs = equal([[45], [120]], 88.9);
    const { file } = await printAndRead('wye', textsOf(legs, { header: 'OD 114.3mm wall 6.02mm' }));
    const header = cylinderDistance(origin, point(1, 0, 0), 57.15);
    for (const [i, leg] of legs.entries()) {
      const other = legs[1 - i] as Leg;
      const body = unionDistance(header, planeDistance(origin, minus(out(leg), out(other))));
      const off = layerPoints(file, `leg ${i + 1}`, 'cut').map((p) =>
        faceClearance((r) => place(leg, p, r), leg.od / 2 - leg.wall, leg.od / 2, body),
      );
      expect(worst(off)).toBeLessThan(0.01);
    }
  });
});

const fact = (sheet: WrittenSheet | undefined, label: RegExp): number =>
  Number(/(-?[\d.]+) mm/.exec(sheet?.facts.find(([name]) => label.test(name))?.[1] ?? '')?.[1]);

describe('cutbacks', () => {
  /**
   * The protractor is set at half the open angle and the cutback read at the outside radius (NAVEDTRA 14251 p. 3-22): r / tan(a/2).
   * r = 84.15 mm: 120° 0.57735 r, 135° 0.41421 r, 90° r.
   */
  it.each([
    [120, 0.57735],
    [135, 0.41421],
    [90, 1],
    [60, 1.73205],
  ])('legs %d° open are cut back %d of the radius', (open, factor) => {
    const [sheet] = makeWrittenSheets(readRequest('wye', textsOf(equal([[0], [open]]))));
    expect(fact(sheet, /^Cutback to leg 2/)).toBeCloseTo(84.15 * factor, 1);
  });

  it('of a true wye and a cross have the same three and four legs', () => {
    for (const count of [3, 4]) {
      const sheets = makeWrittenSheets(
        readRequest(
          'wye',
          textsOf(equal(Array.from({ length: count }, (_, i) => [(i * 360) / count] as const))),
        ),
      );
      expect(sheets.map(({ name }) => name)).toEqual(Array.from({ length: count }, (_, i) => `leg ${i + 1}`));
      const ordinates = sheets.map((sheet) => (sheet.tables[0]?.rows ?? []).map((row) => Number(row[3])));
      expect(ordinates[0]).toHaveLength(24);
      for (const row of ordinates)
        for (const [k, up] of row.entries())
          expect(Math.abs(up - (ordinates[0]?.[k] as number))).toBeLessThan(0.11);
    }
  });

  it('steep cuts stay few curves: no node where the line does not turn', () => {
    const [sheet] = makeWrittenSheets(readRequest('wye', textsOf(equal([[0], [22]]))));
    const cut = sheet?.marks.find((mark) => mark.role === 'cut');
    expect(cut?.kind === 'stroke' ? cut.path.segments.length : NaN).toBeLessThan(30);
  });

  it('stations count toward the next leg: leg 2 of a wye at 0, 120, 240 lies at station 90 of leg 1', () => {
    const [sheet] = makeWrittenSheets(readRequest('wye', textsOf(equal([[0], [120], [240]]))));
    const words = sheet?.marks.flatMap((mark) =>
      mark.kind === 'text' && mark.text.startsWith('TO ') ? [mark] : [],
    );
    const girth = Math.PI * 168.4;
    expect(words?.find(({ text }) => text === 'TO NEXT LEG')?.at.x).toBeCloseTo(girth / 4, 6);
    expect(words?.find(({ text }) => text === 'TO PREVIOUS LEG')?.at.x).toBeCloseTo((girth * 3) / 4, 6);
  });
});

const refusal = (texts: Texts): UserError => {
  try {
    makeWrittenSheets(readRequest('wye', texts));
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('it was not refused');
};

describe('what cannot be made', () => {
  it('legs that do not meet: nothing closes the largest', () => {
    const error = refusal({ pipe: 'OD 168.3mm wall 7mm', leg: ['0', '120 OD 114.3mm wall 6mm'] });
    expect(error.failure).toBe('joint');
    expect(error.issues[0]?.message).toMatch(/168\.3 mm.*114\.3 mm/);
  });

  it('legs side by side, with their angle and the least', () => {
    const error = refusal({ pipe: 'OD 168.3mm wall 7mm', leg: ['0', '4', '180'] });
    expect(error.failure).toBe('joint');
    expect(error.issues[0]?.message).toContain('4°');
    expect(error.issues[0]?.hint).toContain('10°');
  });

  it('a leg larger than its header', () => {
    const error = refusal({ pipe: 'OD 168.3mm wall 7mm', header: 'OD 114.3mm wall 6mm', leg: ['45', '135'] });
    expect([error.failure, error.issues[0]?.path]).toEqual(['joint', 'header']);
  });

  it.each([[[]], [['0']], [['north', '90']], [['0 up 95', '90']], [['0', '90 NPS 99 sch 40']]])(
    '%j',
    (leg) => {
      expect(refusal({ pipe: 'NPS 6 sch 40', leg }).failure).toBe('request');
    },
  );
});

describe('any wye', () => {
  it('is refused in words or has closed finite cut lines', () => {
    const leg = fc
      .tuple(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.constantFrom(168.3, 114.3, 60.3),
      )
      .map(([heading, rise, od]) => `${heading.toFixed(3)} up ${rise.toFixed(3)} OD ${od}mm wall 5mm`);
    // The largest size twice, so that most of them can be made.
    const first = fc.double({ min: 20, max: 340, noNaN: true }).map((heading) => ['0', heading.toFixed(3)]);
    let drawn = 0;
    fc.assert(
      fc.property(first, fc.array(leg, { maxLength: 2 }), fc.boolean(), (pair, others, onHeader) => {
        const legs = onHeader ? [...pair.map((text) => `${text} up 40`), ...others] : [...pair, ...others];
        let sheets: readonly WrittenSheet[];
        try {
          sheets = makeWrittenSheets(
            readRequest('wye', {
              pipe: 'OD 168.3mm wall 7mm',
              leg: legs,
              ...(onHeader ? { header: 'OD 219.1mm wall 8mm' } : {}),
            }),
          );
        } catch (error) {
          expect(error).toBeInstanceOf(UserError);
          expect((error as UserError).issues[0]?.message).toMatch(/\d/);
          return;
        }
        drawn++;
        for (const sheet of sheets) {
          const cut = sheet.marks.find((mark) => mark.role === 'cut');
          if (cut?.kind !== 'stroke') throw new Error('no cut line');
          expect(cut.path.segments.at(-1)?.to.y).toBeCloseTo(cut.path.start.y, 5);
          expect(cut.path.segments.every(({ to }) => Number.isFinite(to.x) && Number.isFinite(to.y))).toBe(
            true,
          );
        }
      }),
      { numRuns: 20 },
    );
    expect(drawn).toBeGreaterThan(3);
  });
});

it('says no length below zero where the long point runs over the crossing', () => {
  const leg = ['0', '110', '235 up 15'];
  const sheets = makeWrittenSheets(readRequest('wye', { stock: 'DN 100 sch 40', leg, gap: '2mm' }));
  const facts = sheets.flatMap((sheet) => sheet.facts);
  expect(facts.filter(([, value]) => String(value).startsWith('-'))).toEqual([]);
  expect(facts.map(([label]) => label)).toContain('Long point past the crossing');
});
