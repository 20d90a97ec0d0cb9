import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import {
  barDistance,
  cylinderDistance,
  ellipsoidalHeadDistance,
  faceClearance,
  obliqueConeDistance,
  planeDistance,
  sphereDistance,
  torisphericalHeadDistance,
  touchAtRadius,
  touchThroughWall,
  unionDistance,
  type Distance,
} from '../../support/fit-up.ts';
import {
  aside,
  DEGREE,
  elbow,
  elbowByAngle,
  lie,
  miterHeel,
  NPS6,
  NPS8,
  ORIGIN,
  rightCone,
  turn,
  Z,
} from '../../support/placed-bodies.ts';
import { onCone, onPipe, onPlate, paper } from '../../support/placed-sheets.ts';
import { layerPoints, printAndRead, range, worst } from '../../support/print.ts';
import { inner, plus, point, times, type Vec2, type Vec3 } from '../../support/space.ts';

interface Case {
  readonly on: string;
  readonly branch: readonly [number, number];
  readonly body: Distance;
  readonly options?: Record<string, string>;
  /** The opening's points in space, on its outside or a depth under it, where there is an opening. */
  readonly opening?: (p: Vec2, depth: number) => Vec3;
  readonly wall?: number;
}

const cases: readonly Case[] = [
  {
    on: 'pipe OD 168.3mm wall 7mm angle 60 offset 30mm',
    branch: [88.9, 5],
    body: cylinderDistance(aside(30), lie(60).d, 168.3 / 2),
    opening: onPipe(60, 30, 168.3),
  },
  {
    on: 'tube 100x100x6mm angle 60',
    branch: [60.3, 4],
    body: barDistance({ centre: ORIGIN, axis: lie(60).d, across: point(0, 1, 0) }, 100, 100, 12),
    opening: onPlate(60, 50),
  },
  {
    on: 'tube 120x80x6mm corner 10mm turned 45deg offset 12mm',
    branch: [60.3, 4],
    body: barDistance({ centre: aside(12), axis: point(1, 0, 0), across: point(0, 1, 1) }, 120, 80, 10),
  },
  {
    on: 'plate angle 35',
    branch: [60.3, 4],
    body: planeDistance(ORIGIN, lie(35).u),
    opening: onPlate(35, 0),
  },
  {
    on: 'plate 300x200x12mm angle 50 offset 20mm',
    branch: [60.3, 4],
    body: planeDistance(ORIGIN, lie(50).u),
    opening: onPlate(50, 0, 20),
    options: { set: 'in', gap: '2mm' },
    wall: 12,
  },
  {
    on: 'reducer NPS 8 x 6',
    branch: [60.3, 4],
    body: rightCone(90, 0, NPS8, NPS6, 152.4, 76.2),
    opening: onCone(90, 0, NPS8, NPS6, 152.4, 76.2),
  },
  {
    on: 'cone OD 300mm to 200mm over 250mm at 110mm angle 70 offset 25mm',
    branch: [88.9, 5],
    body: rightCone(70, 25, 300, 200, 250, 110),
    opening: onCone(70, 25, 300, 200, 250, 110),
  },
  {
    on: 'cone OD 300mm to 200mm over 250mm wall 8mm square',
    branch: [60.3, 4],
    body: rightCone(90 + Math.atan(50 / 250) / DEGREE, 0, 300, 200, 250, 125),
    opening: onCone(90 + Math.atan(50 / 250) / DEGREE, 0, 300, 200, 250, 125),
    options: { set: 'in', gap: '1.5mm' },
    wall: 8,
  },
  {
    on: 'reducer NPS 8 x 6 eccentric flat 90deg at 60mm angle 80',
    branch: [60.3, 4],
    body: (() => {
      const { d } = lie(80);
      const from = times(d, -60);
      const to = plus(times(d, 92.4), aside((NPS8 - NPS6) / 2));
      return obliqueConeDistance(from, NPS8 / 2, to, NPS6 / 2, d);
    })(),
  },
  { on: 'elbow NPS 8 LR extrados', branch: [114.3, 6], body: elbow(NPS8 / 2, 304.8, 90, 0, 45) },
  { on: 'elbow NPS 8 LR intrados', branch: [114.3, 6], body: elbow(NPS8 / 2, 304.8, 90, 180, 45) },
  { on: 'elbow NPS 8 SR side at 20deg', branch: [114.3, 6], body: elbow(NPS8 / 2, 203.2, 90, 90, 20) },
  {
    on: 'elbow NPS 8 LR 45deg round 35deg at 5deg offset 15mm',
    branch: [114.3, 6],
    body: elbow(NPS8 / 2, 304.8, 45, 35, 5, 15),
  },
  { on: 'elbow NPS 8 LR angle 0', branch: [114.3, 6], body: elbowByAngle(NPS8 / 2, 304.8, 90, 0) },
  {
    on: 'elbow NPS 8 LR angle 90 offset 20mm',
    branch: [168.3, 7],
    body: elbowByAngle(NPS8 / 2, 304.8, 90, 90, 20),
  },
  { on: 'elbow NPS 8 LR 45deg angle 30deg', branch: [114.3, 6], body: elbowByAngle(NPS8 / 2, 304.8, 45, 30) },
  {
    on: 'elbow NPS 8 LR angle 45',
    branch: [NPS8, 8],
    body: elbowByAngle(NPS8 / 2, 304.8, 90, 45),
    options: { contact: 'od' },
  },
  { on: 'miter OD 219.1mm wall 8mm 45deg heel', branch: [114.3, 6], body: miterHeel(219.1 / 2, 45) },
  {
    on: 'sphere OD 1200mm offset 200mm',
    branch: [114.3, 6],
    body: sphereDistance(point(-200, 0, Math.sqrt(600 ** 2 - 200 ** 2)), 600),
  },
  {
    on: 'sphere OD 600mm wall 20mm',
    branch: [219.1, 8],
    body: sphereDistance(point(0, 0, 300), 280),
    options: { set: 'in' },
  },
  {
    on: 'head ellipsoidal OD 1000mm offset 300mm',
    branch: [114.3, 6],
    body: ellipsoidalHeadDistance(point(-300, 0, 250 * Math.sqrt(1 - 0.36)), point(0, 0, -1), 500, 250),
  },
  {
    on: 'head ellipsoidal OD 1000mm offset 440mm',
    branch: [114.3, 20],
    body: ellipsoidalHeadDistance(point(-440, 0, 250 * Math.sqrt(1 - 0.88 ** 2)), point(0, 0, -1), 500, 250),
  },
  {
    on: 'head torispherical OD 1000mm crown 1000mm knuckle 100mm offset 380mm',
    branch: [168.3, 7],
    // Height of the outside: on the crown sqrt(1000² - 380²) less the depth of its center, sqrt(900² - 400²).
    body: torisphericalHeadDistance(
      point(-380, 0, Math.sqrt(1000 ** 2 - 380 ** 2) - Math.sqrt(900 ** 2 - 400 ** 2)),
      point(0, 0, -1),
      500,
      1000,
      100,
    ),
  },
  {
    // A nozzle square to the crown: its axis passes through the crown's center.
    on: 'head torispherical OD 1000mm crown 1000mm knuckle 100mm offset 250mm square',
    branch: [114.3, 6],
    body: (() => {
      const lean = Math.asin(0.25);
      const axis = point(-Math.sin(lean), 0, -Math.cos(lean));
      const tangent = plus(point(0, 0, 1000), times(axis, Math.sqrt(900 ** 2 - 400 ** 2)));
      return torisphericalHeadDistance(tangent, axis, 500, 1000, 100);
    })(),
  },
  {
    on: 'tube 100x100x6mm angle 60',
    branch: [60.3, 4],
    body: barDistance({ centre: ORIGIN, axis: lie(60).d, across: point(0, 1, 0) }, 100, 100, 12),
    opening: onPlate(60, 50),
    options: { set: 'in', gap: '2mm' },
    wall: 6,
  },
  {
    // NPS 8 sch 40: wall 0.322 in.
    on: 'elbow NPS 8 LR sch 40 extrados',
    branch: [114.3, 6],
    body: elbow(NPS8 / 2, 304.8, 90, 0, 45),
    options: { set: 'in', gap: '3mm' },
    wall: 0.322 * 25.4,
  },
  {
    on: 'head torispherical OD 1000mm crown 1000mm knuckle 100mm wall 12mm offset 300mm',
    branch: [114.3, 6],
    body: torisphericalHeadDistance(
      point(-300, 0, Math.sqrt(1000 ** 2 - 300 ** 2) - Math.sqrt(900 ** 2 - 400 ** 2)),
      point(0, 0, -1),
      500,
      1000,
      100,
    ),
    options: { set: 'in' },
    wall: 12,
  },
  {
    // A brace that meets a chord and another brace.
    on: 'pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 90 ahead -60mm',
    branch: [88.9, 5],
    body: unionDistance(
      cylinderDistance(ORIGIN, lie(45).d, 168.3 / 2),
      cylinderDistance(point(0, 0, -60), point(1, 0, 0), 88.9 / 2),
    ),
  },
  {
    on: 'pipe OD 219.1mm wall 8mm angle 50 + pipe OD 88.9mm wall 5mm angle 80 roll 70deg offset 10mm ahead -90mm',
    branch: [114.3, 6],
    body: unionDistance(
      cylinderDistance(ORIGIN, lie(50).d, 219.1 / 2),
      cylinderDistance(plus(turn(aside(10), 70), point(0, 0, -90)), turn(lie(80).d, 70), 88.9 / 2),
    ),
  },
  {
    on: 'plate angle 45 + plate angle 45 roll 180',
    branch: [60.3, 4],
    body: unionDistance(planeDistance(ORIGIN, lie(45).u), planeDistance(ORIGIN, turn(lie(45).u, 180))),
  },
  {
    on: 'tube 150x150x8mm corner 16mm + plate angle 60 roll 90deg ahead -80mm',
    branch: [76.1, 4],
    body: unionDistance(
      barDistance({ centre: ORIGIN, axis: point(1, 0, 0), across: point(0, 1, 0) }, 150, 150, 16),
      planeDistance(point(0, 0, -80), turn(lie(60).u, 90)),
    ),
  },
];

describe('a branch on any body, from the bytes of its print', () => {
  it.each(cases)('$on', async ({ on, branch: [od, wall], body, options = {}, opening, wall: through }) => {
    const { file } = await printAndRead('branch', {
      branch: `OD ${od}mm wall ${wall}mm`,
      on,
      paper: 'a3',
      ...options,
    });
    const branch = { od, wall, paper };
    const gap = Number.parseFloat(options.gap ?? '0');
    const cut = layerPoints(file, 'branch end', 'cut');
    // A set-in branch is drawn to the inside, which for these bodies lies the wall under the outside everywhere.
    const seat: Distance = options.set === 'in' && through !== undefined ? (p) => body(p) + through : body;
    const clearance =
      options.contact === 'od'
        ? touchAtRadius(cut, branch, seat, gap)
        : touchThroughWall(cut, branch, seat, gap);
    expect(worst(clearance)).toBeLessThan(0.01);
    // First touch: nothing of the kept pipe over the line, back along the branch, cuts into the body.
    const kept = cut
      .filter((_, i) => i % 7 === 0)
      .flatMap((p) => [2, 10, 40, 150, 500].map((back) => ({ x: p.x, y: p.y - back })));
    expect(Math.min(...touchAtRadius(kept, branch, seat, gap))).toBeGreaterThan(-0.01);
    const [left, right] = range(cut.map((p) => p.x));
    expect(right - left).toBeCloseTo(Math.PI * (od + paper), 5);

    if (!opening) return;
    const edge = layerPoints(file, on.startsWith('pipe') ? 'header opening' : 'opening', 'cut');
    expect(edge.length).toBeGreaterThan(50);
    const cutter = cylinderDistance(ORIGIN, Z, options.set === 'in' ? od / 2 + gap : od / 2 - wall);
    const off =
      options.set === 'in' && through !== undefined
        ? edge.map((p) => faceClearance((depth) => opening(p, depth), 0, through, cutter))
        : edge.map((p) => cutter(opening(p, 0)));
    expect(worst(off)).toBeLessThan(0.01);
    // It lies on the outside of the body, so it was rolled the right way round.
    expect(worst(edge.map((p) => body(opening(p, 0))))).toBeLessThan(0.01);
    // And it goes round the branch once, counted from the branch's own axis.
    const stations = edge.map((p) => {
      const q = opening(p, 0);
      return Math.atan2(inner(q, point(0, 1, 0)), q.x);
    });
    const [low, high] = range(stations);
    expect(high - low).toBeGreaterThan(6);
  });
});

describe('several bodies', () => {
  const untouched = (on: string, contact = 'wall'): readonly string[] =>
    makeWrittenSheets(readRequest('branch', { branch: 'OD 60mm wall 4mm', on, contact })).flatMap(
      ({ cautions }) => cautions.filter((caution) => caution.startsWith('The end does not touch')),
    );

  it('of which one lies behind the others: the sheet says so, by name', () => {
    expect(untouched('pipe OD 114.3mm wall 6mm + plate ahead 150mm')).toEqual([
      expect.stringContaining('touch plate:'),
    ]);
    // A plate through the pipe's axis is still behind its outside; one that cuts off the branch's sides is not.
    expect(untouched('pipe OD 114.3mm wall 6mm + plate')).toHaveLength(1);
    expect(untouched('pipe OD 114.3mm wall 6mm + plate ahead -53mm')).toEqual([]);
  });

  it('that are all touched: the sheet is silent', () => {
    expect(
      untouched('pipe OD 114.3mm wall 6mm angle 45 + pipe OD 88.9mm wall 5mm angle 135 ahead -20mm'),
    ).toEqual([]);
    expect(untouched('pipe OD 114.3mm wall 6mm')).toEqual([]);
  });
});
