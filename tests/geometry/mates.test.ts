import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { along, type Line, type Mate } from '../../src/geometry/mate.ts';
import { bendMate, bendFigures } from '../../src/geometry/mates/bend.ts';
import { boxMate } from '../../src/geometry/mates/box.ts';
import { coneMate } from '../../src/geometry/mates/cone.ts';
import { cylinderMate } from '../../src/geometry/mates/cylinder.ts';
import { ellipsoidalHeadMate, torisphericalHeadMate } from '../../src/geometry/mates/head.ts';
import { prismMate } from '../../src/geometry/mates/prism.ts';
import { planeMate } from '../../src/geometry/mates/plane.ts';
import { plateMate } from '../../src/geometry/mates/plate.ts';
import { severalMate } from '../../src/geometry/mates/several.ts';
import { sphereMate } from '../../src/geometry/mates/sphere.ts';
import { torusMate } from '../../src/geometry/mates/torus.ts';
import type { Section } from '../../src/geometry/section.ts';
import {
  angleSection,
  beamSection,
  channelSection,
  ellipseSection,
  halfRoundSection,
  ovalSection,
  tubeSection,
} from '../../src/geometry/shapes.ts';
import { prismDistance } from '../../src/proof/contour.ts';
import {
  barDistance,
  bendDistance,
  coneThrough,
  cylinderDistance,
  ellipsoidalHeadDistance,
  obliqueConeDistance,
  planeDistance,
  sphereDistance,
  torisphericalHeadDistance,
  torusDistance,
  unionDistance,
  type Distance,
} from '../support/fit-up.ts';
import {
  axesAt,
  direction,
  inner,
  minus,
  outer,
  placeIn,
  plus,
  point,
  times,
  type Axes,
  type Vec3,
} from '../support/space.ts';

/**
 * Every mate against the signed distance to the same body (tests/support, which shares nothing with the product): a hit lies
 * on the surface, nothing of the line before it lies inside, a line said to miss stays outside, and the normal is the
 * distance's own gradient.
 */
interface Trial {
  readonly mate: Mate;
  readonly distance: Distance;
  /** A point that lines are aimed at, and how far about it. */
  readonly aim: Vec3;
  readonly spread: number;
  /** Where the distance is good; everywhere when left out. */
  readonly within?: (p: Vec3) => boolean;
}
/** A million steps from `min` to `max`, ends included: no numbers so small that a line is parallel to a body all but in name. */
const number = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((i) => min + ((max - min) * i) / 1_000_000);
const anyPoint = fc
  .tuple(number(-200, 200), number(-200, 200), number(-200, 200))
  .map(([x, y, z]) => point(x, y, z));
const anyDirection = fc
  .tuple(number(-Math.PI, Math.PI), number(-1, 1))
  .map(([a, h]) => point(Math.sqrt(1 - h * h) * Math.cos(a), Math.sqrt(1 - h * h) * Math.sin(a), h));
const frame = fc.tuple(anyPoint, anyDirection, number(-Math.PI, Math.PI)).map(([o, d, turn]): Axes => {
  const a = axesAt(o, d);
  const x = plus(times(a.x, Math.cos(turn)), times(a.y, Math.sin(turn)));
  return { ...a, x, y: outer(a.z, x) };
});
const radius = number(10, 400);

/** Any straight stock: its section by its sizes, with ends or without. */
const prism = (section: fc.Arbitrary<Section>): fc.Arbitrary<Trial> =>
  fc.tuple(frame, section, fc.option(number(20, 400), { nil: undefined })).map(([f, shape, length]) => ({
    mate: prismMate(shape, f.origin, times(f.z, 2), f.x, length),
    distance: prismDistance(shape.outside, f.origin, f.z, f.x, length),
    aim: f.origin,
    spread: 120,
  }));
const flanged = fc
  .tuple(
    number(80, 200),
    number(60, 120),
    number(4, 12),
    number(8, 16),
    number(0, 12),
    number(0, 3),
    number(0, 0.1),
  )
  .map(([depth, width, web, flange, root, toe, taper]) => ({
    depth,
    width,
    web,
    flange,
    root,
    toe,
    taper,
    meanAt: 25,
  }));

const trials: Record<string, fc.Arbitrary<Trial>> = {
  plane: frame.map((f) => ({
    mate: planeMate(f.origin, times(f.z, 3)),
    distance: planeDistance(f.origin, f.z),
    aim: f.origin,
    spread: 300,
  })),
  cylinder: fc.tuple(frame, radius).map(([f, r]) => ({
    mate: cylinderMate(f.origin, times(f.z, 5), r),
    distance: cylinderDistance(f.origin, f.z, r),
    aim: f.origin,
    spread: 1.3 * r,
  })),
  sphere: fc.tuple(frame, radius).map(([f, r]) => ({
    mate: sphereMate(f.origin, r),
    distance: sphereDistance(f.origin, r),
    aim: f.origin,
    spread: r,
  })),
  'right cone': fc.tuple(frame, number(100, 300), number(20, 90), number(100, 400)).map(([f, r0, r1, h]) => {
    const to = placeIn(f, point(0, 0, h));
    return {
      mate: coneMate({ from: f.origin, radiusFrom: r0, to, radiusTo: r1, axis: f.z }),
      distance: coneThrough(f.origin, r0, to, r1),
      aim: placeIn(f, point(0, 0, h / 2)),
      spread: r0,
    };
  }),
  'oblique cone': fc
    .tuple(frame, number(100, 200), number(40, 90), number(150, 400), number(-60, 60))
    .map(([f, r0, r1, h, e]) => {
      const to = placeIn(f, point(e, 0, h));
      return {
        mate: coneMate({ from: f.origin, radiusFrom: r0, to, radiusTo: r1, axis: f.z }),
        distance: obliqueConeDistance(f.origin, r0, to, r1, f.z),
        aim: placeIn(f, point(e / 2, 0, h / 2)),
        spread: r1,
        within: (p) => Math.abs(inner(minus(p, f.origin), f.z) / h - 0.5) < 0.6,
      };
    }),
  ring: fc.tuple(frame, number(40, 400), number(0.1, 0.95)).map(([f, major, k]) => ({
    mate: torusMate({ centre: f.origin, axis: f.z, major, minor: k * major }),
    distance: torusDistance(f.origin, f.z, major, k * major),
    aim: f.origin,
    spread: major * (1 + k),
  })),
  'elbow with its legs': fc
    .tuple(frame, number(50, 400), number(0.2, 0.95), number(0.3, 2.6))
    .map(([f, major, k, turn]) => {
      const legs = [times(f.x, -1), plus(times(f.x, Math.cos(turn)), times(f.y, Math.sin(turn)))] as const;
      const bend = { corner: f.origin, legs, bendRadius: major, radius: k * major };
      const { centre } = bendFigures(bend);
      // The arc starts a take-off before the corner, and turns about +z of the frame.
      const start = minus(plus(f.origin, times(f.x, -major * Math.tan(turn / 2))), centre);
      return {
        mate: bendMate(bend),
        distance: bendDistance(centre, f.z, start, turn, major, k * major),
        aim: f.origin,
        spread: major,
      };
    }),
  'two mitered pipes': fc.tuple(frame, number(30, 200), number(0.2, 2)).map(([f, r, turn]) => {
    const legs = [times(f.x, -1), plus(times(f.x, Math.cos(turn)), times(f.y, Math.sin(turn)))] as const;
    return {
      mate: bendMate({ corner: f.origin, legs, bendRadius: 0, radius: r }),
      distance: mitered(f, r, turn),
      aim: f.origin,
      spread: 2 * r,
    };
  }),
  'tube with round corners': fc
    .tuple(frame, number(40, 200), number(40, 200), number(0, 0.5))
    .map(([f, width, depth, k]) => {
      const corner = k * Math.min(width, depth);
      return {
        mate: boxMate({ centre: f.origin, axis: f.z, across: f.x, width, depth, corner }),
        distance: barDistance({ centre: f.origin, axis: f.z, across: f.x }, width, depth, corner),
        aim: f.origin,
        spread: width,
      };
    }),
  'tube by its contour': prism(
    fc
      .tuple(number(40, 200), number(40, 200), number(0, 0.5))
      .map(([x, y, k]) => tubeSection(x, y, k * Math.min(x, y), 5)),
  ),
  'elliptical tube': prism(
    fc
      .tuple(number(60, 250), number(60, 250), number(-3, 3))
      .map(([x, y, turn]) => ellipseSection(x, y, 5, turn)),
  ),
  'bore of an elliptical tube': prism(
    fc.tuple(number(120, 250), number(120, 250), number(-3, 3), number(1, 20)).map(([x, y, turn, wall]) => {
      const { inside = [], thickness } = ellipseSection(x, y, wall, turn);
      return { outside: inside, thickness };
    }),
  ),
  'oval tube': prism(fc.tuple(number(60, 250), number(60, 250)).map(([x, y]) => ovalSection(x, y, 5))),
  'half-round': prism(number(60, 250).map((d) => halfRoundSection(d, 5))),
  angle: prism(
    fc
      .tuple(number(50, 150), number(50, 150), number(4, 15), number(0, 12), number(0, 0.5))
      .map(([long, short, thickness, root, k]) =>
        angleSection({ long, short, thickness, root, toe: k * thickness }),
      ),
  ),
  channel: prism(flanged.map(channelSection)),
  beam: prism(flanged.map(beamSection)),
  'plate of finite size': fc
    .tuple(frame, number(40, 300), number(40, 300), number(5, 50))
    .map(([f, width, length, thickness]) => ({
      mate: plateMate(f.origin, f.x, f.z, { length, width, thickness }),
      distance: barDistance(
        { centre: plus(f.origin, times(f.x, -thickness / 2)), axis: f.z, across: f.y },
        width,
        thickness,
        0,
        length,
      ),
      aim: f.origin,
      spread: width / 2,
    })),
  'ellipsoidal head': fc.tuple(frame, radius, number(0.2, 0.9)).map(([f, r, k]) => ({
    mate: ellipsoidalHeadMate({ tangent: f.origin, axis: f.z, radius: r }, k * r),
    distance: ellipsoidalHeadDistance(f.origin, f.z, r, k * r),
    aim: f.origin,
    spread: r,
  })),
  'torispherical head': fc
    .tuple(frame, radius, number(1, 2), number(0.06, 0.9))
    .map(([f, r, crown, knuckle]) => ({
      mate: torisphericalHeadMate({ tangent: f.origin, axis: f.z, radius: r }, crown * r, knuckle * r),
      distance: torisphericalHeadDistance(f.origin, f.z, r, crown * r, knuckle * r),
      aim: f.origin,
      spread: r,
    })),
  'brace, chord and plate': fc.tuple(frame, number(20, 80), number(90, 200)).map(([f, r, big]) => ({
    mate: severalMate([
      cylinderMate(f.origin, f.x, big),
      cylinderMate(f.origin, plus(f.x, f.z), r),
      planeMate(placeIn(f, point(0, 0, -big)), f.z),
    ]),
    distance: unionDistance(
      cylinderDistance(f.origin, f.x, big),
      cylinderDistance(f.origin, plus(f.x, f.z), r),
      planeDistance(placeIn(f, point(0, 0, -big)), f.z),
    ),
    aim: f.origin,
    spread: big,
  })),
};

/** Two half pipes cut in the plane that halves the angle between them: inside is inside both or on its own side. */
function mitered(f: Axes, r: number, turn: number): Distance {
  const second = plus(times(f.x, Math.cos(turn)), times(f.y, Math.sin(turn)));
  const [one, two] = [cylinderDistance(f.origin, f.x, r), cylinderDistance(f.origin, second, r)];
  const seam = direction(plus(f.x, second));
  return (p) => (inner(minus(p, f.origin), seam) <= 0 ? one(p) : two(p));
}

const lineAt = ({ aim, spread }: Trial): fc.Arbitrary<Line> =>
  fc.tuple(anyDirection, number(-1, 1), number(-1, 1), number(-500, 500)).map(([d, u, v, back]) => {
    const axes = axesAt(aim, d);
    return { origin: placeIn(axes, point(u * spread, v * spread, back)), direction: axes.z };
  });

const far = 3000;

describe.each(Object.entries(trials))('%s', (name, trial) => {
  it('is entered where its surface is', () => {
    fc.assert(
      fc.property(
        trial.chain((t) => fc.tuple(fc.constant(t), lineAt(t))),
        ([{ mate, distance, within = () => true }, line]) => {
          const hit = mate.enter(line);
          const start = Math.min(-far, (hit?.t ?? 0) - far);
          // A line that begins inside (along an endless body) has no first entry to speak of.
          fc.pre(distance(along(line, start)) > 0);
          const until = hit ? hit.t : far;
          for (let i = 0; i < 60; i++) {
            const t = start + ((until - start) * i) / 60;
            const q = along(line, t);
            if (within(q)) expect(distance(q)).toBeGreaterThan(-1e-8);
          }
          if (!hit) return;
          const p = along(line, hit.t);
          if (!within(p)) return;
          // The eccentric cone's distance is itself found by search, to about 1e-6.
          expect(Math.abs(distance(p))).toBeLessThan(name === 'oblique cone' ? 2e-6 : 1e-9);
          expect(Math.hypot(hit.normal.x, hit.normal.y, hit.normal.z)).toBeCloseTo(1, 12);
          expect(inner(hit.normal, line.direction)).toBeLessThan(1e-9);
          const out = distance(plus(p, times(hit.normal, 1e-3)));
          expect(out).toBeGreaterThan(1e-3 * 0.3);
        },
      ),
      { numRuns: 400, seed: 7, endOnFailure: true },
    );
  });
});
