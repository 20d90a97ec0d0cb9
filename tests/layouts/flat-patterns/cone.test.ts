import { printAndRead } from '../../support/print.ts';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import { describe, expect, it } from 'vitest';
import { align, foldBack, readPattern, surfaceArea, unroll, type Rule } from '../../support/fold.ts';
import { refused } from '../../support/refused.ts';
import { point, type Vec2, type Vec3 } from '../../support/space.ts';

const DEGREE = Math.PI / 180;
const TURN = 2 * Math.PI;

/** Rules of a cone from its definition: large circle about the origin, small one `height` up, `offset` toward station 0. */
const coneRules = (
  large: number,
  small: number,
  height: number,
  offset: number,
  seam: number,
  count = 1440,
): Rule[] =>
  Array.from({ length: count + 1 }, (_, i) => {
    const turn = seam * DEGREE + (TURN * i) / count;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return {
      foot: point((large / 2) * c, (large / 2) * s, 0),
      head: point(offset + (small / 2) * c, (small / 2) * s, height),
    };
  });

/** How far a point lies off a cone's side, measured level, mm. */
const offCone = ({ x, y, z }: Vec3, large: number, small: number, height: number, offset: number): number =>
  Math.hypot(x - (offset * z) / height, y) - (large / 2 + ((small - large) / 2) * (z / height));

const from = (p: Vec2, q: Vec2): number => Math.hypot(p.x - q.x, p.y - q.y);

/** The point where both seams of a right cone's pattern meet. */
const apexOf = ({
  leftFoot,
  leftHead,
  rightFoot,
}: {
  leftFoot: Vec2;
  leftHead: Vec2;
  rightFoot: Vec2;
}): Vec2 => {
  // By symmetry it lies where the left seam crosses the upright line halfway between the feet.
  const middle = (leftFoot.x + rightFoot.x) / 2;
  const t = (middle - leftFoot.x) / (leftHead.x - leftFoot.x);
  return { x: middle, y: leftFoot.y + t * (leftHead.y - leftFoot.y) };
};

describe('a right cone from its print', () => {
  /** Net of a frustum, diameters 5 and 8, 4 apart: radii 7.12 and 11.39, sector 126.4° (published by ceemrr.com; exact by similar triangles). */
  it('diameters 500 and 800, 400 apart', async () => {
    const pattern = await readPattern('cone', { large: '800mm', small: '500mm', height: '400mm' }, 'cone');
    const apex = apexOf(pattern);
    const radii = pattern.points.map((p) => from(p, apex));
    const [outer, inner] = [1139.2, 712.0];
    expect(Math.max(...radii)).toBeCloseTo(outer, 1);
    expect(Math.min(...radii)).toBeCloseTo(inner, 1);
    const exact = Math.hypot(400, 150) / 150;
    // Every point lies on one of both arcs or between them on a seam.
    for (const p of pattern.points) {
      const turn = Math.atan2(p.x - apex.x, apex.y - p.y);
      const onSeam = Math.abs(Math.abs(turn) - (126.404 / 2) * DEGREE) < 1e-5;
      const off = Math.min(Math.abs(from(p, apex) - 400 * exact), Math.abs(from(p, apex) - 250 * exact));
      expect(onSeam || off < 1e-3).toBe(true);
    }
    expect(pattern.area / (Math.PI * 650 * Math.hypot(400, 150))).toBeCloseTo(1, 5);
  });

  it('comes to a point', async () => {
    const pattern = await readPattern('cone', { large: '500mm', small: '0mm', height: '200mm' }, 'cone');
    expect(from(pattern.leftFoot, pattern.leftHead)).toBeCloseTo(Math.hypot(250, 200), 3);
    expect(pattern.area / (Math.PI * 250 * Math.hypot(250, 200))).toBeCloseTo(1, 5);
  });

  it('cut by a plane: ρ = z₀ / (cos a (1 - tan a tan b cos φ)), at flat angles φ sin a', async () => {
    // T. M. Apostol and M. A. Mnatsakanian on unwrapped conic sections: half angle 30°, plane leaned 20°, z₀ = 100.
    const large = 200 * Math.tan(30 * DEGREE);
    const pattern = await readPattern(
      'cone',
      {
        large: `${large.toFixed(9)}mm`,
        small: '0mm',
        height: '100mm',
        'large-end': 'plate angle 70',
        seam: '0',
      },
      'cone',
    );
    const apex = pattern.leftHead;
    // The plate leans one way or the other along station 0: then φ counts from there or from 180.
    const long = from(pattern.leftFoot, apex) > 120;
    expect(from(pattern.leftFoot, apex)).toBeCloseTo(long ? 146.19 : 95.419, 2);
    const [a, b] = [30 * DEGREE, 20 * DEGREE];
    const start = Math.atan2(pattern.leftFoot.x - apex.x, apex.y - pattern.leftFoot.y);
    let seen = 0;
    for (const p of pattern.points) {
      const turned = Math.atan2(p.x - apex.x, apex.y - p.y);
      // On a seam, or the apex itself.
      if (from(p, apex) < 1) continue;
      if (Math.abs(Math.abs(turned) - Math.abs(start)) < 1e-7) continue;
      const phi = (turned - start) / Math.sin(a) + (long ? 0 : Math.PI);
      const rho = 100 / (Math.cos(a) * (1 - Math.tan(a) * Math.tan(b) * Math.cos(phi)));
      expect(Math.abs(from(p, apex) - rho)).toBeLessThan(0.005);
      seen++;
    }
    expect(seen).toBeGreaterThan(100);
  });
});

describe('cones folded back from their prints', () => {
  it.each([
    [200, 0, 200, 100],
    [200, 120, 150, 80],
    [450, 250, 400, 180],
    [300, 300, 250, 90],
  ])('leaning, ⌀ %d to ⌀ %d, %d high, offset %d', async (large, small, height, offset) => {
    const rules = coneRules(large, small, height, offset, 180);
    const flats = unroll(rules);
    const pattern = await readPattern(
      'cone',
      { large: `${large}mm`, small: `${small}mm`, height: `${height}mm`, offset: `${offset}mm` },
      'cone',
    );
    const [move, fold] = [align(pattern, flats), foldBack(rules, flats)];
    const misses = pattern.points.map((p) => {
      const q = fold(move(p));
      const low = Math.hypot(Math.hypot(q.x, q.y) - large / 2, q.z);
      const high = Math.hypot(Math.hypot(q.x - offset, q.y) - small / 2, q.z - height);
      // On a seam: at station 180, y = 0.
      return Math.min(low, high, q.x <= (offset * q.z) / height + 1e-6 ? Math.abs(q.y) : Infinity);
    });
    expect(Math.max(...misses)).toBeLessThan(0.01);
    expect(Math.abs(pattern.area / surfaceArea(rules) - 1)).toBeLessThan(1e-4);
  });

  it('cut to a header: every point of its end touches the pipe', async () => {
    const [large, small, height] = [220, 114.3, 300];
    const rules = coneRules(large, small, height, 0, 180);
    const flats = unroll(rules);
    const pattern = await readPattern(
      'cone',
      {
        large: `${large}mm`,
        small: `${small}mm`,
        height: `${height}mm`,
        'large-end': 'pipe OD 323.9mm wall 8mm',
      },
      'cone',
    );
    // The lower end is not the circle, so the seam is laid by its direction: both are symmetric about station 0.
    const apex = apexOf(pattern);
    const own = (Math.hypot(large - small, 2 * height) / (large - small)) * large;
    const half = Math.PI * ((large - small) / Math.hypot(large - small, 2 * height));
    const misses = pattern.points.map((p) => {
      const slant = from(p, apex);
      const turn = Math.PI + (Math.atan2(p.x - apex.x, apex.y - p.y) / half) * Math.PI;
      const up = ((own / 2) * 2 - slant) / Math.hypot(1, (large - small) / 2 / height);
      const radius = large / 2 - ((large - small) / 2) * (up / height);
      const q = point(radius * Math.cos(turn + Math.PI), radius * Math.sin(turn + Math.PI), up);
      // The header runs along station 0, through the large circle's center.
      const onPipe = Math.abs(Math.hypot(q.y, q.z) - 323.9 / 2);
      const onTop = Math.abs(q.z - height);
      const onSeam = Math.abs(Math.abs(turn - Math.PI) - Math.PI) * radius;
      return Math.min(onPipe, onTop, onSeam);
    });
    expect(Math.max(...misses)).toBeLessThan(0.01);
    expect(flats.length).toBe(rules.length);
  });
});

describe('a breech folded back from its print', () => {
  it.each([
    [300, 200, 200, 300, 320],
    [300, 220, 160, 350, 340],
  ])(
    'level: trunk %d, outlets %d and %d, %d high, %d apart',
    async (trunk, first, second, height, spread) => {
      const texts = {
        trunk: `${trunk}mm`,
        legs: `${first}mm,${second}mm`,
        height: `${height}mm`,
        spread: `${spread}mm`,
      };
      for (const [own, other, name] of [
        [first, second, 'breech leg 1'],
        [second, first, 'breech leg 2'],
      ] as const) {
        const rules = coneRules(trunk, own, height, spread / 2, 0);
        const flats = unroll(rules);
        const pattern = await readPattern('breech', texts, name);
        const [move, fold] = [align(pattern, flats), foldBack(rules, flats)];
        const kinds = { trunk: 0, joint: 0 };
        const misses = pattern.points.map((p) => {
          const q = fold(move(p));
          const low = Math.abs(q.z);
          // The other leg leans the other way: the joint lies on its side as well.
          const joint = Math.abs(offCone(point(-q.x, q.y, q.z), trunk, other, height, spread / 2));
          const high = Math.abs(q.z - height);
          const seam = q.x > 0 ? Math.abs(q.y) : Infinity;
          if (low < 0.01) kinds.trunk++;
          else if (joint < 0.01 && q.z > 1 && q.z < height - 1) kinds.joint++;
          return Math.min(low, joint, high, seam);
        });
        expect(Math.max(...misses)).toBeLessThan(0.01);
        expect(kinds.trunk).toBeGreaterThan(50);
        expect(kinds.joint).toBeGreaterThan(50);
      }
    },
  );

  it('of right cones: legs and trunk meet on each other’s sides', async () => {
    const [trunk, outlet, length, angle] = [250, 180, 380, 45 * DEGREE];
    const texts = { trunk: '250mm', legs: '180mm', angle: '45', length: '380mm', 'trunk-length': '250mm' };
    const pattern = await readPattern('breech', texts, 'breech leg 1');
    // The leg's side touches the ball of the trunk's diameter: L sin b + r cos b = R, by halving.
    let [low, high] = [0, 0.5];
    for (let i = 0; i < 60; i++) {
      const b = (low + high) / 2;
      if (length * Math.sin(b) + (outlet / 2) * Math.cos(b) < trunk / 2) low = b;
      else high = b;
    }
    const foot = trunk / 2 / Math.cos(low);
    const apex = apexOf(pattern);
    const slantFoot = foot / Math.sin(low);
    const radiusAt = (along: number): number => foot - along * Math.tan(low);
    const misses = pattern.points.map((p) => {
      const slant = from(p, apex);
      const along = (slantFoot - slant) * Math.cos(low);
      const turn = Math.atan2(p.x - apex.x, apex.y - p.y) / Math.sin(low) + Math.PI;
      const [r, c, s] = [radiusAt(along), Math.cos(turn), Math.sin(turn)];
      // In the Y's frame: trunk down -z, this leg toward +x, its station 0 outside.
      const q = point(
        r * c * Math.cos(angle) + along * Math.sin(angle),
        r * s,
        along * Math.cos(angle) - r * c * Math.sin(angle),
      );
      const onTrunk = Math.abs(Math.hypot(q.x, q.y) - trunk / 2);
      const crotch = Math.abs(q.x);
      const top = Math.abs(along - length);
      const seam = c > 0 ? Math.abs(r * s) : Infinity;
      return Math.min(onTrunk, crotch, top, seam);
    });
    expect(Math.max(...misses)).toBeLessThan(0.01);
  });
});

describe('cone refuses', () => {
  it('ends that cross, and a small end that is larger', () => {
    const texts = { large: '300mm', small: '200mm', height: '100mm' };
    expect(refused('cone', { ...texts, 'small-end': 'plate angle 30' }).what).toBe('joint height ends-cross');
    expect(refused('cone', { ...texts, small: '400mm' }).what).toBe('joint small too-large');
    expect(refused('cone', { ...texts, large: '80mm', small: '0mm', step: '1' })).toEqual({
      what: 'request step too-close',
      message: 'bend lines every 1° lie only 0.7 mm apart at an end of 80 mm',
      hint: 'give a step of at least 2°',
    });
    expect(refused('cone', { ...texts, large: '7mm', small: '0mm' }).hint).toBe(
      'give a step of at least 18°',
    );
    expect(refused('cone', { ...texts, large: '1mm', small: '0mm' }).hint).toBe('give a larger cone');
    expect(refused('cone', { ...texts, step: '7' }).what).toBe('request step uneven-step');
    expect(refused('cone', { ...texts, height: '1mm' }).what).toBe('joint height too-flat');
  });

  it('outlets that run into each other', () =>
    expect(refused('breech', { trunk: '300mm', legs: '200mm', height: '300mm', spread: '150mm' }).what).toBe(
      'joint spread outlets-meet',
    ));
});

describe('what proof measures of a pattern', () => {
  it.each([
    ['cone', { large: '400mm', small: '200mm', height: '300mm' }, 'cone', 25],
    ['transition', { from: 'rect 12x8in', to: 'round 8in', height: '10in' }, 'transition 1', 0],
    ['turn', { stock: 'NPS 8 sch 40', to: 'NPS 6 sch 40', pieces: '4', radius: '12in' }, 'gore 2', 0],
  ] as const)('%s: every bend line and seam by its true length', async (layout, texts, sheet, count) => {
    const { bytes } = await printAndRead(layout, { ...texts, paper: 'a3' });
    const { findings } = proveFile(bytes);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);
    const [found] = findings.filter(
      ({ where, check }) => where === sheet && check.includes('straight lines'),
    );
    const measured = Number.parseInt(found?.check ?? '', 10);
    expect(measured).toBeGreaterThanOrEqual(Math.max(6, count));
  });
});

describe('the weld of a cone that is cut to a body', () => {
  const tellAngles = (texts: Readonly<Record<string, string>>): readonly (readonly [string, number])[] => {
    const [sheet] = makeWrittenSheets(
      readRequest('cone', { large: '400mm', small: '200mm', height: '300mm', ...texts }),
    );
    const table = sheet?.tables.find(({ title }) => title.startsWith('For the weld'));
    return (table?.rows ?? []).map(([station = '', angle = '']) => [station, parseFloat(angle)]);
  };
  /** How far a right cone leans, by its definition. */
  const lean = Math.atan2(100, 300) / DEGREE;

  it.each([
    ['small', 90 - lean],
    ['large', 90 + lean],
  ])('a plate square across the %s end stands the cone’s lean from square to it', (end, angle) => {
    const [sheet] = makeWrittenSheets(
      readRequest('cone', {
        large: '400mm',
        small: '200mm',
        height: '300mm',
        [`${end}-end`]: 'plate angle 90',
      }),
    );
    const [, told] = sheet?.facts.find(([label]) => label === `Surfaces at the ${end} end, all around`) ?? [];
    expect(parseFloat(told ?? '')).toBeCloseTo(angle, 1);
    // One angle needs no table.
    expect(sheet?.tables.filter(({ title }) => title.startsWith('For the weld'))).toEqual([]);
  });

  it('on a header is the angle between the two surfaces’ own normals, by their equations', () => {
    const [radius, thickness] = [150, 6];
    const angles = tellAngles({ 'small-end': 'pipe OD 300mm wall 8mm', thickness: '6mm', sizes: 'mean' });
    for (const [station, told] of angles) {
      const turn = parseFloat(station) * DEGREE;
      // The cone's outside: x² + y² = (200 + t/2 cos λ - (z - t/2 sin λ)/3)², t/2 outside its middle along the normal.
      const [c, s] = [Math.cos(lean * DEGREE), Math.sin(lean * DEGREE)];
      const place = (z: number): Vec3 => {
        const r = 200 - (100 * z) / 300 + (thickness / 2) * c;
        return point(r * Math.cos(turn), r * Math.sin(turn), z + (thickness / 2) * s);
      };
      // A pipe square to the cone runs along x through the center of the small end, 300 up; the cone comes from below.
      const inside = ({ y, z }: Vec3): boolean => Math.hypot(y, z - 300) < radius;
      let [low, high] = [-200, 300];
      for (let i = 0; i < 80; i++) {
        const middle = (low + high) / 2;
        if (inside(place(middle))) high = middle;
        else low = middle;
      }
      const p = place(low);
      const n = [c * Math.cos(turn), c * Math.sin(turn), s];
      const m = [0, p.y / radius, (p.z - 300) / radius];
      const cosine = -(n[0]! * m[0]! + n[1]! * m[1]! + n[2]! * m[2]!);
      expect(Math.abs(told - Math.acos(cosine) / DEGREE)).toBeLessThan(0.06);
    }
    expect(angles).toHaveLength(24);
  });
});
