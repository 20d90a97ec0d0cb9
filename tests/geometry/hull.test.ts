import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  alongFlat,
  layDevelopable,
  rulingAt,
  splitStretch,
  type FlatStretch,
} from '../../src/geometry/developable.ts';
import { developableHull, HullError, type PlacedProfile } from '../../src/geometry/hull.ts';
import {
  arcPoint,
  ellipseProfile,
  pointProfile,
  polygonProfile,
  profileGirth,
  rectangleProfile,
  regularProfile,
  type Profile,
} from '../../src/geometry/profile.ts';
import { inner, minus, norm, outer, plus, point, times, type Vec2, type Vec3 } from '../support/space.ts';

const DEGREE = Math.PI / 180;

/** A profile's plane leaned about x by `tilt`, turned about z by `turn` before that. */
const placed = (
  profile: Profile,
  {
    at = point(0, 0, 0),
    tilt = 0,
    turn = 0,
    lean = 0,
  }: { at?: Vec3; tilt?: number; turn?: number; lean?: number } = {},
): PlacedProfile => {
  const swing = ({ x, y, z }: Vec3): Vec3 => {
    const a = point(x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn), z);
    const b = point(
      a.x,
      a.y * Math.cos(tilt) - a.z * Math.sin(tilt),
      a.y * Math.sin(tilt) + a.z * Math.cos(tilt),
    );
    return point(
      b.x * Math.cos(lean) + b.z * Math.sin(lean),
      b.y,
      b.z * Math.cos(lean) - b.x * Math.sin(lean),
    );
  };
  return { profile, plane: { origin: at, x: swing(point(1, 0, 0)), y: swing(point(0, 1, 0)) } };
};

/** Points of a profile in space, by its own edges. */
const outlinePoints = ({ profile, plane }: PlacedProfile, count = 60): Vec3[] => {
  const at = (p: Vec2): Vec3 => plus(plane.origin, plus(times(plane.x, p.x), times(plane.y, p.y)));
  if (profile.edges.length === 0) return [at(profile.at)];
  return profile.edges.flatMap((edge) =>
    Array.from({ length: count }, (_, i) => {
      const u = i / count;
      if (edge.kind === 'arc') return at(arcPoint(edge, edge.start + u * edge.sweep));
      return at({
        x: edge.from.x + u * (edge.to.x - edge.from.x),
        y: edge.from.y + u * (edge.to.y - edge.from.y),
      });
    }),
  );
};

const flatArea = (flats: readonly FlatStretch[], steps = 400): number => {
  const us = Array.from({ length: steps + 1 }, (_, i) => i / steps);
  const feet = flats.flatMap(({ flat }) => us.map((u) => flat(u).foot));
  const heads = flats.flatMap(({ flat }) => us.map((u) => alongFlat(flat(u))));
  const ring = [...feet, ...heads.reverse()];
  return Math.abs(
    ring.reduce((sum, p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      return sum + (p.x * q.y - p.y * q.x) / 2;
    }, 0),
  );
};

const degrees = (flats: readonly FlatStretch[], kind: string): number[] =>
  flats.filter((f) => f.kind === kind).map(({ flat }) => (flat(1).angle - flat(0).angle) / DEGREE);

describe('the hull against closed forms', () => {
  it('square 300 to round 200, 250 high: four triangles and four quarter cones', () => {
    const flats = layDevelopable(
      developableHull(
        placed(rectangleProfile(300, 300)),
        placed(ellipseProfile(200, 200), { at: point(0, 0, 250) }),
      ),
    );
    expect(flats.map(({ kind }) => kind)).toEqual([
      'flat',
      'curved',
      'flat',
      'curved',
      'flat',
      'curved',
      'flat',
      'curved',
    ]);
    // Corner to the round's quarter points and thirds between: √(h² + distance² in plan).
    const cone = flats[1]!;
    for (const [i, angle] of [0, 30, 60, 90].entries()) {
      const plan = Math.hypot(150 - 100 * Math.cos(angle * DEGREE), 150 - 100 * Math.sin(angle * DEGREE));
      expect(cone.flat(i / 3).length).toBeCloseTo(Math.hypot(plan, 250), 9);
    }
    expect([0, 1, 2, 3].map((i) => Number(cone.flat(i / 3).length.toFixed(3)))).toEqual([
      295.804, 276.621, 276.621, 295.804,
    ]);
    // Angle at the corner and the whole area, by numerical integration of the oblique cone (30.3562°, 236 734.21 mm²).
    for (const angle of degrees(flats, 'curved')) expect(Math.abs(angle)).toBeCloseTo(30.3562, 4);
    expect(flatArea(flats)).toBeCloseTo(236734.21, 0);
    // Volume h/3 (S² + SD + πD²/4) (Minkowski sections; a published article has it too), from the surface and both ends.
    const volume = flats.reduce(
      (sum, { space }) => {
        const rules = Array.from({ length: 401 }, (_, i) => space(i / 400));
        return rules.slice(1).reduce((part, b, i) => {
          const a = rules[i]!;
          const cone = (p: Vec3, q: Vec3, r: Vec3): number => inner(p, outer(q, r)) / 6;
          return part + cone(a.foot, b.foot, b.head) + cone(a.foot, b.head, a.head);
        }, sum);
      },
      (250 * (Math.PI * 100 ** 2)) / 3,
    );
    expect(volume / 15_117_993.9).toBeCloseTo(1, 5);
    // Middle of a side: the triangle's height √(250² + 50²).
    expect(flats[0]!.flat(0.5).length).toBeCloseTo(254.951, 3);
  });

  it('a leaning cone to its apex: rulings √(h² + r² + e² - 2 r e cos φ)', () => {
    const flats = layDevelopable(
      developableHull(placed(ellipseProfile(200, 200)), placed(pointProfile(), { at: point(100, 0, 200) })),
    );
    expect(flats).toHaveLength(1);
    const expected = [282.843, 278.066, 264.575, 244.949, 223.607, 206.59, 200];
    // The first ruling stands at station 270; the longest at 180.
    expected.forEach((length, i) =>
      expect(flats[0]!.flat(((180 - 30 * i + 90 + 360) % 360) / 360).length).toBeCloseTo(length, 3),
    );
    expect(Math.abs(degrees(flats, 'curved')[0]!)).toBeCloseTo(143.54, 2);
    expect(flatArea(flats, 20000)).toBeCloseTo(73050.67, 1);
  });

  it('rounds 200 and 120, 150 high, offset 80: rulings 0.4 of those to the apex', () => {
    const flats = layDevelopable(
      developableHull(
        placed(ellipseProfile(200, 200)),
        placed(ellipseProfile(120, 120), { at: point(80, 0, 150) }),
      ),
    );
    const toApex = [388.104, 394.948, 413.068, 436.606, 458.939, 474.622, 480.234];
    toApex.forEach((length, i) =>
      expect(flats[0]!.flat(((30 * i + 90) % 360) / 360).length).toBeCloseTo(0.4 * length, 3),
    );
  });

  it('a right frustum: the sector of its slant heights', () => {
    const [flat] = layDevelopable(
      developableHull(placed(ellipseProfile(8, 8)), placed(ellipseProfile(5, 5), { at: point(0, 0, 4) })),
    );
    expect(flat!.flat(1).angle - flat!.flat(0).angle).toBeCloseTo(
      (2 * Math.PI * 1.5) / Math.hypot(1.5, 4),
      12,
    );
  });

  it('a hopper 300 to 120 square, 200 high: slant 219.317, hip 237.065', () => {
    const flats = layDevelopable(
      developableHull(
        placed(rectangleProfile(300, 300)),
        placed(rectangleProfile(120, 120), { at: point(0, 0, 200) }),
      ),
    );
    expect(flats.map(({ kind }) => kind)).toEqual(['flat', 'flat', 'flat', 'flat']);
    for (const { flat } of flats) {
      expect(flat(0).length).toBeCloseTo(237.065, 3);
      expect(flat(0.5).length).toBeCloseTo(219.317, 3);
    }
    const [a, b] = [flats[0]!.normal(0), flats[1]!.normal(0)];
    expect(180 - Math.acos(inner(a, b)) / DEGREE).toBeCloseTo(99.695, 3);
  });

  it('two equal circles side by side: a cylinder of the shadow girth', () => {
    const flats = layDevelopable(
      developableHull(
        placed(ellipseProfile(100, 100)),
        placed(ellipseProfile(100, 100), { at: point(60, 0, 80) }),
      ),
    );
    // Girth of the ellipse 100 × 100·cos(lean), area girth × length; exact by the complete elliptic integral.
    expect(flatArea(flats)).toBeCloseTo(100 * profileGirth(ellipseProfile(100, 80)), 0);
  });
});

const size = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1000 }).map((i) => min + ((max - min) * i) / 1000);
const profiles: fc.Arbitrary<Profile> = fc.oneof(
  fc.tuple(size(20, 400), size(20, 400)).map(([w, h]) => ellipseProfile(w, h)),
  size(20, 400).map((d) => ellipseProfile(d, d)),
  fc
    .tuple(size(20, 400), size(20, 400), size(0, 1))
    .map(([w, h, c]) => rectangleProfile(w, h, c < 0.2 ? 0 : (c * Math.min(w, h)) / 2)),
  fc.tuple(fc.integer({ min: 3, max: 9 }), size(20, 200)).map(([n, side]) => regularProfile(n, side)),
  fc
    .tuple(
      fc.uniqueArray(fc.integer({ min: 0, max: 35 }), { minLength: 4, maxLength: 9 }),
      size(30, 200),
      size(30, 200),
    )
    .map(([turns, w, h]) =>
      turns.sort((a, b) => a - b).map((t) => ({ x: w * Math.cos(t / 5.73), y: h * Math.sin(t / 5.73) })),
    )
    .map((points) => polygonProfile(points)),
);
/** None, any, or one so small that the planes meet far away. */
const angle = (most: number) =>
  fc.oneof(fc.constant(0), size(-most, most), fc.double({ min: -1e-3, max: 1e-3, noNaN: true }));
const position = fc.record({
  at: fc.record({ x: size(-300, 300), y: size(-300, 300), z: size(20, 400) }),
  tilt: angle(1.5),
  lean: angle(1.5),
  turn: angle(3),
});

describe('the hull of any two convex profiles in any position', () => {
  it('closes, lies outside both along one plane a ruling, and keeps every length; or says what crosses', () => {
    const seen = { made: 0, crossed: 0 };
    fc.assert(
      fc.property(profiles, profiles, position, (low, high, where) => {
        const [a, b] = [placed(low), placed(high, where)];
        const flats = ((): readonly FlatStretch[] | undefined => {
          try {
            return layDevelopable(developableHull(a, b));
          } catch (error) {
            if (!(error instanceof HullError)) throw error;
            seen.crossed++;
            // Then some of one profile really lies on or past the other's plane, or close to where the planes meet.
            const [na, nb] = [outer(a.plane.x, a.plane.y), outer(b.plane.x, b.plane.y)];
            const past = (points: Vec3[], plane: Vec3, normal: Vec3) =>
              points.map((p) => inner(minus(p, plane), normal));
            const [ofB, ofA] = [
              past(outlinePoints(b), a.plane.origin, na),
              past(outlinePoints(a), b.plane.origin, nb),
            ];
            const oneSided = (list: number[]) => Math.min(...list) > 0.5 || Math.max(...list) < -0.5;
            expect(oneSided(ofB) && oneSided(ofA)).toBe(false);
            return undefined;
          }
        })();
        if (!flats) return;
        seen.made++;
        const all = [...outlinePoints(a), ...outlinePoints(b)];
        const extent = Math.max(...all.map(norm));
        const worst = { closing: 0, outside: 0, ruling: 0, length: 0 };
        const note = (what: keyof typeof worst, by: number): void =>
          void (worst[what] = Math.max(worst[what], by));
        flats.forEach((stretch, i) => {
          const next = flats[(i + 1) % flats.length]!;
          const [end, start] = [stretch.space(1), next.space(0)];
          note('closing', norm(minus(end.foot, start.foot)));
          note('closing', norm(minus(end.head, start.head)));
          for (const u of [0.01, 0.3, 0.5, 0.9]) {
            const [{ foot, head }, normal] = [stretch.space(u), stretch.normal(u)];
            // The plane along a ruling has both profiles on its inner side: nothing of the hull is cut.
            for (const p of all) note('outside', inner(minus(p, foot), normal));
            note('ruling', Math.abs(stretch.flat(u).length / norm(minus(head, foot)) - 1));
          }
          // Short steps along both edges and across the middle are as long on the flat as in space.
          const step = 1e-5;
          for (const u of [0.002, 0.1, 0.35, 0.5, 0.77, 0.99]) {
            const [p, q] = [stretch.space(u), stretch.space(u + step)];
            const [r, s] = [stretch.flat(u), stretch.flat(u + step)];
            for (const share of [0, 0.5, 1]) {
              const at3 = (ruling: typeof p) =>
                plus(times(ruling.foot, 1 - share), times(ruling.head, share));
              const at2 = (ruling: typeof r) => alongFlat(ruling, share * ruling.length);
              const [d3, d2] = [
                norm(minus(at3(q), at3(p))),
                Math.hypot(at2(s).x - at2(r).x, at2(s).y - at2(r).y),
              ];
              note('length', Math.abs(d3 - d2) - 1e-4 * d3);
            }
          }
        });
        expect(worst.closing).toBeLessThan(1e-6 * extent);
        expect(worst.outside).toBeLessThan(1e-6 * extent);
        expect(worst.ruling).toBeLessThan(1e-9);
        expect(worst.length).toBeLessThan(1e-9 * extent);
      }),
      { numRuns: 100, endOnFailure: true },
    );
    expect(seen.made).toBeGreaterThan(30);
    expect(seen.crossed).toBeGreaterThan(5);
  });

  it('stays the same when a stretch is cut in two', () => {
    const hull = developableHull(
      placed(rectangleProfile(300, 200, 40)),
      placed(ellipseProfile(150, 90), { at: point(30, 20, 250), tilt: 0.3, turn: 0.5 }),
    );
    const whole = layDevelopable(hull);
    const cut = layDevelopable(hull.flatMap((stretch) => splitStretch(stretch, 0.37)));
    const [a, b] = [whole[whole.length - 1]!.flat(1), cut[cut.length - 1]!.flat(1)];
    expect(Math.hypot(a.foot.x - b.foot.x, a.foot.y - b.foot.y)).toBeLessThan(1e-8);
    expect(a.angle - b.angle).toBeCloseTo(0, 11);
    const [p, q] = [rulingAt(hull[1]!, 0.37), cut[2]!.space(1)];
    expect(norm(minus(p.foot, q.foot))).toBeLessThan(1e-9);
  });
});

describe('profiles', () => {
  it('measure their girth', () => {
    expect(profileGirth(ellipseProfile(200, 200))).toBeCloseTo(200 * Math.PI, 9);
    // Ellipse 2a = 4, 2b = 2: 9.688448220547675 (complete elliptic integral, DLMF 19.4).
    expect(profileGirth(ellipseProfile(4, 2))).toBeCloseTo(9.688448220547675, 10);
    expect(profileGirth(rectangleProfile(400, 200, 100))).toBeCloseTo(400 + 200 * Math.PI, 9);
  });

  it('have no hull in one plane', () =>
    expect(() =>
      developableHull(placed(ellipseProfile(10, 10)), placed(ellipseProfile(5, 5), { at: point(50, 0, 0) })),
    ).toThrow(HullError));
});
