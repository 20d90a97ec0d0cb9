import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cylinderDistance,
  firstTouch,
  headerAxis,
  layFlat,
  openingAtOutside,
  openingThroughWall,
  planeDistance,
  rollHeader,
  rollOn,
  rollUp,
  sphereDistance,
  touchAtRadius,
  touchThroughWall,
  walkedOrdinate,
  type HeaderPlace,
} from './fit-up.ts';
import { inner, minus, norm, outer, point, times, type Vec2, type Vec3 } from './space.ts';

const degrees = Math.PI / 180;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const wrap = { od: 168.3, paper: 0.1 };

/** Sheet x and y directions in space where a sheet point comes to lie, by central differences. */
const directionsAt = (roll: (p: Vec2) => Vec3, { x, y }: Vec2): readonly [Vec3, Vec3] => {
  const h = 1e-4;
  const slope = (a: Vec2, b: Vec2) => times(minus(roll(b), roll(a)), 1 / (2 * h));
  return [slope({ x: x - h, y }, { x: x + h, y }), slope({ x, y: y - h }, { x, y: y + h })];
};

describe('rolling', () => {
  it('puts station 0 on +x, station 90 on +y, and closes after the girth of the paper', () => {
    const girth = Math.PI * (wrap.od + wrap.paper);
    const at = (part: number) => rollUp({ x: part * girth, y: 7 }, wrap);
    for (const [part, want] of [
      [0, point(84.15, 0, 7)],
      [1 / 4, point(0, 84.15, 7)],
      [1 / 2, point(-84.15, 0, 7)],
      [3 / 4, point(0, -84.15, 7)],
      [1, point(84.15, 0, 7)],
    ] as const)
      expect(norm(minus(at(part), want))).toBeLessThan(1e-9);
  });

  it('is right-handed everywhere: x × y points outward, y runs along the axis', () => {
    fc.assert(
      fc.property(
        number(-300, 300),
        number(-200, 200),
        number(-60, 60),
        number(20, 160),
        (x, y, offset, deg) => {
          const branch = directionsAt((p) => rollUp(p, wrap), { x, y });
          const on = rollUp({ x, y }, wrap);
          expect(inner(outer(...branch), point(on.x / 84.15, on.y / 84.15, 0))).toBeGreaterThan(0.99);
          const place = { offset, angle: deg * degrees };
          const { through, along } = headerAxis(place);
          const header = directionsAt((p) => rollHeader(p, wrap, place), { x, y });
          const from = minus(rollHeader({ x, y }, wrap, place), through);
          const away = minus(from, times(along, inner(from, along)));
          expect(norm(away)).toBeCloseTo(84.15, 9);
          expect(inner(outer(...header), times(away, 1 / 84.15))).toBeGreaterThan(0.99);
          expect(inner(header[1], along)).toBeCloseTo(1, 6);
        },
      ),
    );
  });

  it('puts the header sheet’s origin on the line that faces the branch, at the work point', () => {
    const place = { offset: 12, angle: 60 * degrees };
    const { through, along } = headerAxis(place);
    const u = minus(rollHeader({ x: 0, y: 0 }, wrap, place), through);
    expect(inner(u, along)).toBeCloseTo(0, 12);
    // Of all directions square to the axis, u has the most of −z.
    expect(-u.z).toBeCloseTo(84.15 * Math.sin(60 * degrees), 9);
  });

  it('rolls on any pipe as on the header when it is placed the same way', () => {
    const place = { offset: -20, angle: 50 * degrees };
    const { through, along } = headerAxis(place);
    const p = { x: 37, y: -11 };
    const other = rollOn(p, wrap, through, along, point(0, 0, -1));
    expect(norm(minus(other, rollHeader(p, wrap, place)))).toBeLessThan(1e-9);
  });

  it('lays a flat sheet with its own axes', () => {
    const p = layFlat({ x: 3, y: 4 }, point(10, 0, 0), point(0, 1, 0), point(0, 1, 5));
    expect(p).toEqual(point(10, 3, 4));
  });
});

/**
 * Cylinder on cylinder: s = [√(R² − w²) − r cos φ cos β]/sin β from the axis crossing, arc = R asin(w/R), along the header
 * √(R² − w²) cot β − r cos φ/sin β, w = e + r sin φ (limit β = 90°, e = 0: Apostol & Mnatsakanian, Amer. Math. Monthly 114
 * (2007), Example 8). Rows computed apart from this code and checked by bisection. Their offset and their length along the
 * header are the negatives of ours.
 */
const table = {
  square: {
    header: 84.15,
    branch: 57.15,
    place: { offset: 0, angle: 90 * degrees },
    rows: [
      [0, 84.15, 0, -57.15],
      [45, 73.812, 42.152, -40.411],
      [90, 61.766, 62.826, 0],
      [157.5, 81.258, 22.124, 52.8],
    ],
  },
  lateral: {
    header: 84.15,
    branch: 51.13,
    place: { offset: 0, angle: 45 * degrees },
    rows: [
      [0, 67.876, 0, 11.841],
      [67.5, 78.92, 50.155, 41.969],
      [135, 143.617, 37.371, 127.117],
      [180, 170.136, 0, 156.459],
    ],
  },
  offset: {
    header: 109.55,
    branch: 57.15,
    place: { offset: -30, angle: 60 * degrees },
    rows: [
      [0, 88.666, 30.388, -5.16],
      [45, 73.577, 76.472, 1.792],
      [90, 76.647, 100.773, 38.324],
      [225, 149.256, -10.427, 109.625],
      [270, 122.551, -27.436, 61.276],
      [315, 102.594, -10.427, 16.3],
    ],
  },
} as const;

describe('cylinder on cylinder, against the published form', () => {
  it.each(Object.entries(table))('%s: branch end and header opening meet in space', (_, joint) => {
    const { header, branch, place } = joint;
    const { through, along } = headerAxis(place);
    const body = cylinderDistance(through, along, header);
    for (const [deg, s, arc, x] of joint.rows) {
      const angle = deg * degrees;
      const end = rollUp({ x: angle * branch, y: -s }, { od: 2 * branch, paper: 0 });
      const opening = rollHeader({ x: arc, y: -x }, { od: 2 * header, paper: 0 }, place);
      expect(norm(minus(end, opening))).toBeLessThan(2e-3);
      expect(Math.abs(body(end))).toBeLessThan(1e-3);
      const walked = firstTouch(
        (z) => point(branch * Math.cos(angle), branch * Math.sin(angle), z),
        body,
        -1e3,
        0,
      );
      expect(walked).toBeCloseTo(-s, 3);
    }
  });

  it('a mirrored opening does not meet its branch', () => {
    const { header, place, rows } = table.offset;
    const [deg, s, arc, x] = rows[1];
    const end = rollUp({ x: deg * degrees * 57.15, y: -s }, { od: 114.3, paper: 0 });
    for (const p of [
      { x: -arc, y: -x },
      { x: arc, y: x },
    ])
      expect(norm(minus(end, rollHeader(p, { od: 2 * header, paper: 0 }, place)))).toBeGreaterThan(3);
  });
});

describe('contact through the wall', () => {
  const pipe = { od: 114.3, wall: 8.56, paper: 0.1 };
  const place: HeaderPlace = { offset: 15, angle: 60 * degrees };
  const { through, along } = headerAxis(place);
  const header = cylinderDistance(through, along, 109.55);
  const sheetX = (deg: number) => (deg * degrees * (pipe.od + pipe.paper)) / 2;
  const ordinates = Array.from({ length: 24 }, (_, i) => {
    const y = walkedOrdinate(i * 15 * degrees, pipe, header, -1e3, 1e3);
    return { x: sheetX(i * 15), y: y! };
  });

  it('agrees with walking along the generators', () => {
    for (const d of touchThroughWall(ordinates, pipe, header)) expect(Math.abs(d)).toBeLessThan(1e-6);
  });

  it('sees a cut 0.05 mm too long as metal cut into and too short as a gap', () => {
    const moved = (by: number) =>
      touchThroughWall(
        ordinates.map((p) => ({ x: p.x, y: p.y + by })),
        pipe,
        header,
      );
    expect(Math.max(...moved(0.05))).toBeLessThan(-0.02);
    expect(Math.min(...moved(-0.05))).toBeGreaterThan(0.02);
    const gapped = touchThroughWall(
      ordinates.map((p) => ({ x: p.x, y: p.y - 3 })),
      pipe,
      header,
      3,
    );
    for (const d of gapped) expect(Math.abs(d)).toBeLessThan(1e-6);
  });

  it('sees a turn of the print by half a degree', () => {
    const turned = ordinates.map((p) => ({ x: p.x + sheetX(0.5), y: p.y }));
    expect(Math.max(...touchThroughWall(turned, pipe, header).map(Math.abs))).toBeGreaterThan(0.2);
  });

  it('on a miter touches with the outside on the long side, the bore on the other', () => {
    // A plane through the axis crossing at 30° from square: z = x tan 30° bounds the mate above it.
    const plane = planeDistance(point(0, 0, 0), point(Math.sin(30 * degrees), 0, -Math.cos(30 * degrees)));
    const tan = Math.tan(30 * degrees);
    const y = (deg: number) => walkedOrdinate(deg * degrees, pipe, plane, -500, 500);
    // The body lies above the plane, so the first touch is the lowest point of the plane over the wall.
    expect(y(0)).toBeCloseTo((57.15 - 8.56) * tan, 6);
    expect(y(180)).toBeCloseTo(-57.15 * tan, 6);
    const outside = [{ x: sheetX(0), y: 57.15 * tan }];
    expect(touchAtRadius(outside, pipe, plane)[0]).toBeCloseTo(0, 9);
    expect(touchThroughWall(outside, pipe, plane)[0]).toBeLessThan(-1);
  });

  it('measures openings on the outside and through the wall', () => {
    const big = { od: 219.1, wall: 8.18, paper: 0 };
    const bore = cylinderDistance(point(0, 0, 0), point(0, 0, 1), 48.59);
    const square: HeaderPlace = { offset: 0, angle: 90 * degrees };
    // Heel and crotch of a square tee lie the branch's radius from its axis; the sides where the header's arc has that half chord.
    const side = 109.55 * Math.asin(48.59 / 109.55);
    const on = [
      { x: 0, y: 48.59 },
      { x: 0, y: -48.59 },
      { x: side, y: 0 },
      { x: -side, y: 0 },
    ];
    for (const d of openingAtOutside(on, big, square, bore)) expect(Math.abs(d)).toBeLessThan(1e-9);
    const through = openingThroughWall(on, big, square, bore);
    expect(through[0]).toBeCloseTo(0, 9);
    // A radial cut leans in below the outside: at the bore the half chord is shorter by the ratio of the radii.
    expect(through[2]).toBeCloseTo(48.59 * ((109.55 - 8.18) / 109.55) - 48.59, 9);
  });

  it('finds nothing where nothing is met, and refuses to start inside', () => {
    const far = sphereDistance(point(500, 0, 0), 10);
    expect(walkedOrdinate(0, pipe, far, -500, 500)).toBeUndefined();
    expect(() => firstTouch((z) => point(0, 0, z), sphereDistance(point(0, 0, 0), 10), 0, 50)).toThrow(
      /inside/,
    );
  });
});
