import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest, type Texts } from '../../../src/index.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import {
  cylinderDistance,
  faceClearance,
  planeDistance,
  rollUp,
  sphereDistance,
  type Distance,
} from '../../support/fit-up.ts';
import { layerPoints, printAndRead, range, worst } from '../../support/print.ts';
import { plus, point, times, type Vec2, type Vec3 } from '../../support/space.ts';

const degrees = Math.PI / 180;
type Side = 'start' | 'finish';

/**
 * The piece in space: start joint's center at the origin, finish joint's at (0, 0, centers), station 0 on +x. Seen facing the
 * start end one looks along +z, and there the numbers rise counter-clockwise: with +x up, counter-clockwise is to the left,
 * which is z × x turned to the viewer's left: −y. So station φ points along (cos φ, −sin φ, 0) all along the pipe.
 */
const station = (angle: number): Vec3 => point(Math.cos(angle), -Math.sin(angle), 0);
const along = point(0, 0, 1);

/** A wrapped sheet's point in space. Each sheet is wrapped printed side out with its cut end away from the pipe's middle. */
const placeSheet = (side: Side, p: Vec2, od: number, centers: number, radius: number): Vec3 => {
  const q = rollUp(p, { od, paper: 0.1 }, radius);
  // Half a turn about x takes the start's outward axis to −z; the finish's already is +z.
  return side === 'start' ? point(q.x, -q.y, -q.z) : point(q.x, q.y, centers + q.z);
};

interface Case {
  readonly name: string;
  readonly pipe: readonly [od: number, wall: number];
  readonly start: string;
  readonly finish: string;
  readonly roll: number;
  readonly length: number;
  readonly between: string;
  readonly seam?: number;
  readonly gaps: readonly [start: number, finish: number];
  readonly bodies: (centers: number) => Readonly<Record<Side, Distance>>;
}

/** A plane through a joint's center whose long side (heel) lies at a station: `out` is the way out of that end. */
const miterPlane = (center: Vec3, out: 1 | -1, cut: number, heel: number): Distance =>
  planeDistance(center, plus(times(station(heel), Math.sin(cut)), times(along, -out * Math.cos(cut))));
/** A pipe whose axis leans by `angle` from the way out toward the heel's station, moved aside toward heel + 90. */
const seat = (center: Vec3, out: 1 | -1, radius: number, angle: number, heel: number, offset = 0): Distance =>
  cylinderDistance(
    plus(center, times(station(heel + Math.PI / 2), offset)),
    plus(times(station(heel), Math.sin(angle)), times(along, out * Math.cos(angle))),
    radius,
  );
const origin = point(0, 0, 0);
const far = (centers: number): Vec3 => point(0, 0, centers);

const cases: readonly Case[] = [
  {
    name: 'miter to lateral saddle, rolled and offset',
    pipe: [114.3, 6.02],
    start: 'miter 22.5',
    finish: 'saddle OD 168.3mm wall 7.11mm angle 60 offset 10mm gap 2mm',
    roll: 30,
    length: 420,
    between: 'centers',
    gaps: [0, 2],
    bodies: (centers) => ({
      start: miterPlane(origin, -1, 22.5 * degrees, 0),
      finish: seat(far(centers), 1, 84.15, 60 * degrees, 30 * degrees, 10),
    }),
  },
  {
    name: 'saddle to saddle a quarter turn apart, between short points, seam at the side',
    pipe: [60.3, 3.91],
    start: 'saddle OD 114.3mm wall 6.02mm offset -12mm',
    finish: 'saddle OD 88.9mm wall 5.49mm angle 120 offset 8mm',
    roll: -75,
    length: 300,
    between: 'short-points',
    seam: 90,
    gaps: [0, 0],
    bodies: (centers) => ({
      start: seat(origin, -1, 57.15, 90 * degrees, 0, -12),
      finish: seat(far(centers), 1, 44.45, 120 * degrees, -75 * degrees, 8),
    }),
  },
  {
    name: 'miters with a roll, overall, a gap at both',
    pipe: [219.1, 8.18],
    start: 'miter 45 gap 3mm',
    finish: 'miter 15 gap 1.5mm',
    roll: 200,
    length: 700,
    between: 'overall',
    gaps: [3, 1.5],
    bodies: (centers) => ({
      start: miterPlane(origin, -1, 45 * degrees, 0),
      finish: miterPlane(far(centers), 1, 15 * degrees, 200 * degrees),
    }),
  },
  {
    name: 'square to miter between long points',
    pipe: [168.3, 7.11],
    start: 'square',
    finish: 'miter 30',
    roll: 90,
    length: 500,
    between: 'long-points',
    gaps: [0, 0],
    bodies: (centers) => ({
      start: planeDistance(origin, along),
      finish: miterPlane(far(centers), 1, 30 * degrees, 90 * degrees),
    }),
  },
  {
    name: 'miter to an off-center sphere, told by its body',
    pipe: [88.9, 5.49],
    start: 'miter 30',
    finish: 'on sphere OD 600mm offset 60mm gap 2mm',
    roll: 130,
    length: 800,
    between: 'centers',
    gaps: [0, 2],
    // Station 0 off the center looks outward, so that the center lies toward 180; lengths run to where the axis meets the sphere.
    bodies: (centers) => ({
      start: miterPlane(origin, -1, 30 * degrees, 0),
      finish: sphereDistance(
        plus(far(centers + Math.sqrt(300 ** 2 - 60 ** 2)), times(station(130 * degrees), -60)),
        300,
      ),
    }),
  },
];

const textsOf = (c: Case): Texts => ({
  pipe: `OD ${c.pipe[0]}mm wall ${c.pipe[1]}mm`,
  start: c.start,
  finish: c.finish,
  roll: String(c.roll),
  length: `${c.length}mm`,
  between: c.between,
  seam: String(c.seam ?? 0),
  paper: '36in-roll',
});

describe('both ends, from the bytes of the print, fit both mates at once', () => {
  it.each(cases)('$name', async (c) => {
    const [od, wall] = c.pipe;
    const { file } = await printAndRead('piece', textsOf(c));
    const sheets = {
      start: layerPoints(file, 'start end', 'cut'),
      finish: layerPoints(file, 'finish end', 'cut'),
    };
    const heights = {
      start: range(sheets.start.map((p) => p.y)),
      finish: range(sheets.finish.map((p) => p.y)),
    };
    // The length asked for sets the centers by the printed lines' own long and short points.
    const centers =
      c.length -
      (c.between === 'centers'
        ? 0
        : c.between === 'short-points'
          ? heights.start[0] + heights.finish[0]
          : heights.start[1] + heights.finish[1]);
    const bodies = c.bodies(centers);
    for (const [i, side] of (['start', 'finish'] as const).entries()) {
      expect(sheets[side].length).toBeGreaterThan(100);
      const gap = c.gaps[i] as number;
      const saddle = /^(saddle|on)/.test(c[side]);
      const off = sheets[side].map((p) =>
        saddle
          ? faceClearance(
              (r) => placeSheet(side, { x: p.x, y: p.y + gap }, od, centers, r),
              od / 2 - wall,
              od / 2,
              bodies[side],
            )
          : bodies[side](placeSheet(side, { x: p.x, y: p.y + gap }, od, centers, od / 2)),
      );
      expect(worst(off)).toBeLessThan(0.02);
    }
    if (c.between === 'overall') {
      const zs = (['start', 'finish'] as const).flatMap((side) =>
        sheets[side].map((p) => placeSheet(side, p, od, centers, od / 2).z),
      );
      const [low, high] = range(zs);
      expect(high - low).toBeCloseTo(c.length, 3);
    }
  });
});

describe('what travels with the print', () => {
  it.each(cases.map(({ name }, i) => [name, i] as const))('proves it: %s', async (_, i) => {
    const { bytes } = await printAndRead('piece', textsOf(cases[i] as Case));
    const { findings } = proveFile(bytes);
    expect(findings.length).toBeGreaterThan(10);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);
  });
});

describe('the numbers', () => {
  it.each([0, 90, -37.5])('name the same lines along the pipe at both ends, seam at %d°', (seam) => {
    const sheets = makeSheets(readRequest('piece', { ...textsOf(cases[0] as Case), seam: String(seam) }));
    const seen = new Map<string, Vec3[]>();
    for (const [sheet, side] of [
      [sheets[0], 'start'],
      [sheets[1], 'finish'],
    ] as const) {
      const lines = (sheet?.marks ?? []).filter((mark) => mark.role === 'station' && mark.kind === 'stroke');
      const xs = [...new Set(lines.flatMap((mark) => (mark.kind === 'stroke' ? [mark.path.start.x] : [])))];
      for (const mark of sheet?.marks ?? []) {
        if (mark.kind !== 'text' || !/^[\d.]+°$/.test(mark.text) || mark.align !== 'centre') continue;
        const x = xs.reduce((a, b) => (Math.abs(b - mark.at.x) < Math.abs(a - mark.at.x) ? b : a));
        const at = placeSheet(side, { x, y: 0 }, 114.3, 0, 57.15);
        seen.set(mark.text, [...(seen.get(mark.text) ?? []), at]);
        const angle = parseFloat(mark.text) * degrees;
        expect(at.x).toBeCloseTo(57.15 * Math.cos(angle), 6);
        expect(at.y).toBeCloseTo(-57.15 * Math.sin(angle), 6);
      }
    }
    expect([...seen.values()].filter((places) => places.length === 2).length).toBeGreaterThanOrEqual(4);
  });

  it('say which way they run', () => {
    const [start, finish] = makeSheets(readRequest('piece', textsOf(cases[0] as Case)));
    expect(start?.subject.join(' ')).toContain('counter-clockwise seen facing this end');
    expect(finish?.subject.join(' ')).toContain('clockwise seen facing this end: each names the same line');
  });
});
