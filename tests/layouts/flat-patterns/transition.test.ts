import { describe, expect, it } from 'vitest';
import {
  align,
  foldBack,
  hullRules,
  PAPER,
  patternOf,
  readPattern,
  ringDistance,
  surfaceArea,
  unroll,
} from '../../support/fold.ts';
import { ellipsePoints, placePoints, polygonPoints, rectanglePoints } from '../../support/outlines.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { inner, minus, norm, point, type Vec2, type Vec3 } from '../../support/space.ts';

const cases: readonly {
  readonly name: string;
  readonly texts: Record<string, string>;
  readonly lower: readonly Vec2[];
  readonly upper: readonly Vec2[];
  readonly at: Vec3;
  readonly tilt?: number;
  readonly turn?: number;
}[] = [
  {
    name: 'square 300 to round 200',
    texts: { from: 'rect 300x300mm', to: 'round 200mm', height: '250mm' },
    lower: rectanglePoints(300, 300, 0),
    upper: ellipsePoints(200, 200),
    at: point(0, 0, 250),
  },
  {
    name: 'rectangle to round, off center',
    texts: { from: 'rect 400x300mm', to: 'round 250mm', height: '300mm', offset: '50mm,20mm' },
    lower: rectanglePoints(400, 300, 0),
    upper: ellipsePoints(250, 250),
    at: point(50, 20, 300),
  },
  {
    name: 'round to round, tipped',
    texts: { from: 'round 300mm', to: 'round 200mm', height: '400mm', tilt: '30' },
    lower: ellipsePoints(300, 300),
    upper: ellipsePoints(200, 200),
    at: point(0, 0, 400),
    tilt: 30,
  },
  {
    name: 'rounded to oval, turned',
    texts: {
      from: 'rounded 300x200mm corner 40mm',
      to: 'oval 240x120mm',
      height: '200mm',
      turn: '90',
      offset: '10mm,-15mm',
    },
    lower: rectanglePoints(300, 200, 40),
    upper: rectanglePoints(240, 120, 60),
    at: point(10, -15, 200),
    turn: 90,
  },
  {
    name: 'hexagon to ellipse, tipped and turned',
    texts: {
      from: 'polygon 6 side 150mm',
      to: 'ellipse 240x160mm',
      height: '320mm',
      tilt: '-20',
      turn: '25',
      offset: '-40mm,30mm',
    },
    lower: polygonPoints(6, 150),
    upper: ellipsePoints(240, 160),
    at: point(-40, 30, 320),
    tilt: -20,
    turn: 25,
  },
  {
    name: 'rectangle to rectangle, turned 45',
    texts: { from: 'rect 300x200mm', to: 'rect 150x150mm', height: '180mm', turn: '45' },
    lower: rectanglePoints(300, 200, 0),
    upper: rectanglePoints(150, 150, 0),
    at: point(0, 0, 180),
    turn: 45,
  },
];

describe.each(cases)(
  'a transition folded back from its print: $name',
  ({ texts, lower, upper, at, tilt, turn }) => {
    it('has both ends on their outlines, keeps its rulings and its area', async () => {
      const [a, b] = [placePoints(lower), placePoints(upper, at, tilt, turn)];
      const rules = hullRules(a, b);
      const flats = unroll(rules);
      const pattern = await readPattern('transition', { ...texts, bends: '3' }, 'transition 1');
      const move = align(pattern, flats);
      const fold = foldBack(rules, flats);
      const folded = pattern.points.map((p) => fold(move(p)));
      const seam = [fold(move(pattern.leftFoot)), fold(move(pattern.leftHead))];
      expect(ringDistance(seam[1]!, b)).toBeLessThan(0.01);
      const misses = folded.map((p) =>
        Math.min(ringDistance(p, a), ringDistance(p, b), ringDistance(p, seam)),
      );
      expect(Math.max(...misses)).toBeLessThan(0.01);
      // Both ends are reached all round: their own points lie by the folded line.
      const onto = (ring: readonly Vec3[]) =>
        ring.filter((_, i) => i % 15 === 0).map((p) => Math.min(...folded.map((q) => norm(minus(p, q)))));
      expect(Math.max(...onto(a), ...onto(b))).toBeLessThan(1.2);
      expect(Math.abs(pattern.area / surfaceArea(rules) - 1)).toBeLessThan(1e-4);
      // Bend lines are straight on the folded part: rulings, as long there as on the paper.
      expect(pattern.bends.length).toBeGreaterThan(2);
      for (const [foot, head] of pattern.bends) {
        const [p, q] = [fold(move(foot)), fold(move(head))];
        const flat = Math.hypot(head.x - foot.x, head.y - foot.y);
        expect(Math.abs(norm(minus(p, q)) / flat - 1)).toBeLessThan(2e-5);
        const middle = fold(move({ x: (foot.x + head.x) / 2, y: (foot.y + head.y) / 2 }));
        expect(ringDistance(middle, [p, q])).toBeLessThan(0.01);
      }
      // The last ruling comes to lie on the first.
      const last = rules[rules.length - 1]!;
      expect(norm(minus(last.foot, rules[0]!.foot)) + norm(minus(last.head, rules[0]!.head))).toBe(0);
    });
  },
);

describe('transition', () => {
  it('is the same pattern whatever the number of bends', async () => {
    const texts = { from: 'rect 300x200mm', to: 'round 180mm', height: '220mm', offset: '20mm,10mm' };
    const [few, many] = [
      await readPattern('transition', { ...texts, bends: '2' }, 'transition 1'),
      await readPattern('transition', { ...texts, bends: '40' }, 'transition 1'),
    ];
    expect(many.points).toEqual(few.points);
    expect(many.bends.length).toBe(160);
  });

  it('cuts into parts that make up the whole', async () => {
    const texts = {
      from: 'rect 300x200mm',
      to: 'round 180mm',
      height: '220mm',
      offset: '20mm,10mm',
      seam: '20',
    };
    const whole = await readPattern('transition', texts, 'transition 1');
    const { file } = await printAndRead('transition', { ...texts, parts: '4', paper: PAPER });
    const area = [1, 2, 3, 4].reduce((sum, n) => sum + patternOf(file, `transition ${n}`).area, 0);
    expect(Math.abs(area / whole.area - 1)).toBeLessThan(1e-7);
  });

  it('adds a lap beyond one seam, flanges beyond both, and takes a root gap off', async () => {
    const texts = { from: 'rect 300x300mm', to: 'round 200mm', height: '250mm' };
    const plain = await readPattern('transition', texts, 'transition 1');
    const seam = Math.hypot(plain.leftHead.x - plain.leftFoot.x, plain.leftHead.y - plain.leftFoot.y);
    const more = async (join: string, seamAllowance: string) =>
      (await readPattern('transition', { ...texts, join, 'seam-allowance': seamAllowance }, 'transition 1'))
        .area - plain.area;
    expect(await more('lap', '12mm')).toBeCloseTo(12 * seam, 2);
    expect(await more('flange', '12mm')).toBeCloseTo(24 * seam, 2);
    // The ends near the seam are straight or nearly so.
    expect((await more('weld', '3mm')) / (-3 * seam)).toBeCloseTo(1, 2);
  });

  it('says why two outlines have no sheet round them', () => {
    const ends = { from: 'round 300mm', to: 'round 200mm' };
    expect(refused('transition', { ...ends, height: '40mm', tilt: '60' }).what).toBe('joint tilt ends-cross');
    expect(refused('transition', { ...ends, height: '0mm' }).what).toBe('joint height one-plane');
  });
});

describe('thickness', () => {
  it('takes round ends on the middle of the plate and folded corners on the inside', async () => {
    const outlines = [
      placePoints(rectanglePoints(300, 300, 0)),
      placePoints(ellipsePoints(203, 203), point(0, 0, 250)),
    ] as const;
    const rules = hullRules(...outlines);
    const pattern = await readPattern(
      'transition',
      { from: 'rect 300x300mm', to: 'round 200mm', height: '250mm', thickness: '3mm', sizes: 'inside' },
      'transition 1',
    );
    expect(Math.abs(pattern.area / surfaceArea(rules) - 1)).toBeLessThan(1e-4);
    expect(inner(rules[0]!.foot, rules[0]!.foot)).toBeCloseTo(150 ** 2, 6);
  });
});
