import { describe, expect, it } from 'vitest';
import { cylinderMate } from '../../src/geometry/mates/cylinder.ts';
import { developEnd } from '../../src/geometry/development.ts';
import { circleOutline } from '../../src/geometry/outline.ts';
import { flatSection } from '../../src/geometry/shapes.ts';
import { vec3 } from '../../src/geometry/vector.ts';
import { formParts, seeLines, type SeenLine } from '../../src/scene/hidden-lines.ts';
import type { Part } from '../../src/scene/scene.ts';
import { poseAlong, SCENE_POSE, type Shape } from '../../src/scene/shape.ts';
import type { Sight } from '../../src/scene/sight.ts';

const fineness = { step: 2, beside: 0.6, above: 0.3 };
const part = (id: string, shape: Shape, role: Part['role'] = 'work'): Part => ({ id, name: id, role, shape });
const see = (parts: readonly Part[], sight: Sight): readonly SeenLine[] =>
  seeLines(formParts(parts), sight, fineness);
const FRONT: Sight = { right: vec3(1, 0, 0), up: vec3(0, 0, 1) };
/** From 30° above the front. */
const RAISED: Sight = { right: vec3(1, 0, 0), up: vec3(0, Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)) };
const lengthOf = (lines: readonly SeenLine[]): number =>
  lines.reduce(
    (sum, { points }) =>
      sum + points.slice(1).reduce((s, q, i) => s + Math.hypot(q.x - points[i]!.x, q.y - points[i]!.y), 0),
    0,
  );

describe('contours against closed forms', () => {
  it('a ball is seen as a circle of its own radius, from anywhere', () => {
    const ball = part('ball', {
      kind: 'turned',
      pose: poseAlong(vec3(3, 4, 5), vec3(1, 2, -1)),
      profile: [{ kind: 'ellipse', center: [0, 0], half: [50, 50], from: -Math.PI / 2, to: Math.PI / 2 }],
    });
    for (const sight of [FRONT, RAISED]) {
      const lines = see([ball], sight).filter(({ kind }) => kind === 'contour');
      const [x, y] = [3 * sight.right.x, 3 * sight.up.x + 4 * sight.up.y + 5 * sight.up.z];
      for (const { points, seen } of lines) {
        expect(seen).toBe(true);
        for (const p of points) expect(Math.abs(Math.hypot(p.x - x, p.y - y) - 50)).toBeLessThan(0.1);
      }
      expect(lengthOf(lines)).toBeGreaterThan(2 * Math.PI * 50 * 0.999);
      expect(lengthOf(lines)).toBeLessThan(2 * Math.PI * 50 * 1.001);
    }
  });

  it('the sides of a cone seen from afar touch the circle of its foot: sin of their place is the slope times tan of the height', () => {
    const [r, h] = [50, 120];
    const cone = part('cone', {
      kind: 'cone',
      pose: SCENE_POSE,
      circles: [
        { at: vec3(0, 0, 0), radius: r },
        { at: vec3(0, 0, h), radius: 0 },
      ],
    });
    // Normal (h cos a, h sin a, r) is square to the eye (0, -cos b, sin b) where h sin a cos b = r sin b.
    const b = Math.PI / 6;
    const sine = (r / h) * Math.tan(b);
    const touch = { x: r * Math.sqrt(1 - sine ** 2), y: r * sine * Math.sin(b) };
    const tip = { x: 0, y: h * Math.cos(b) };
    const lines = see([cone], RAISED).filter(({ kind }) => kind === 'contour');
    for (const { points, seen } of lines) {
      expect(seen).toBe(true);
      for (const p of points) {
        // Straight from the place where it touches to the tip.
        const [dx, dy] = [tip.x - touch.x, tip.y - touch.y];
        const off = Math.abs((Math.abs(p.x) - touch.x) * dy - (p.y - touch.y) * dx) / Math.hypot(dx, dy);
        expect(off).toBeLessThan(0.1);
      }
    }
    expect(lengthOf(lines)).toBeCloseTo(2 * Math.hypot(tip.x - touch.x, tip.y - touch.y), 0);
  });
});

describe('what is seen and what is hidden', () => {
  it('three edges of a block are hidden behind it, nine are seen', () => {
    const block = part('block', {
      kind: 'prism',
      pose: SCENE_POSE,
      section: flatSection(80, 60),
      start: 0,
      end: 40,
    });
    const a = Math.SQRT1_2;
    const corner: Sight = { right: vec3(a, a, 0), up: vec3(-a / 2, a / 2, Math.sqrt(3) / 2) };
    const lines = see([block], corner);
    const lengths = {
      seen: lengthOf(lines.filter((l) => l.seen)),
      hidden: lengthOf(lines.filter((l) => !l.seen)),
    };
    const [wide, deep, high] = [
      80 * Math.hypot(a, a / 2),
      60 * Math.hypot(a, a / 2),
      (40 * Math.sqrt(3)) / 2,
    ];
    expect(lengths.seen).toBeCloseTo(3 * (wide + deep + high), 0);
    expect(lengths.hidden).toBeCloseTo(wide + deep + high, 0);
  });

  it('a pipe behind another is hidden exactly across it', () => {
    const pipe = (id: string, y: number, z: number, along: 'x' | 'z', radius: number): Part =>
      part(id, {
        kind: 'cone',
        pose: poseAlong(
          along === 'x' ? vec3(-100, y, z) : vec3(0, y, -100),
          along === 'x' ? vec3(1, 0, 0) : vec3(0, 0, 1),
        ),
        circles: [0, 200].map((at) => ({ at: vec3(0, 0, at), radius })),
      });
    // The eye looks along +y: the upright one stands in front.
    const lines = see([pipe('upright', -60, 0, 'z', 20), pipe('level', 0, 0, 'x', 30)], FRONT);
    const sides = lines.filter((l) => l.part.id === 'level' && l.kind === 'contour');
    expect(lengthOf(sides.filter((l) => l.seen))).toBeCloseTo(2 * 160, 0);
    expect(lengthOf(sides.filter((l) => !l.seen))).toBeCloseTo(2 * 40, 0);
    expect(lengthOf(lines.filter((l) => l.part.id === 'upright' && l.kind === 'contour' && !l.seen))).toBe(0);
  });

  it('walls of a branch and its header are hidden in both views, the open end shows its bore', () => {
    const [r, R, wall] = [57.15, 84.15, 6];
    const angle = Math.PI / 3;
    const d = vec3(Math.sin(angle), 0, Math.cos(angle));
    const u = vec3(Math.cos(angle), 0, -Math.sin(angle));
    const outline = circleOutline(r, wall);
    const end = developEnd(outline, { mate: cylinderMate(vec3(0, 0, 0), d, R), contact: 'wall', gap: 0 });
    const parts = [
      part('branch', { kind: 'stock', pose: SCENE_POSE, outline, start: -260, end: end.ordinate }),
      part(
        'header',
        {
          kind: 'cone',
          pose: poseAlong(vec3(-200 * d.x, 0, -200 * d.z), d),
          circles: [0, 400].map((z) => ({ at: vec3(0, 0, z), radius: R, bore: R - wall })),
        },
        'mate',
      ),
    ];
    for (const sight of [
      { right: d, up: u },
      { right: vec3(0, 1, 0), up: u },
    ]) {
      const lines = see(parts, sight);
      const hiddenWalls = lines.filter((l) => !l.seen && l.kind === 'contour' && l.part.id === 'branch');
      expect(lengthOf(hiddenWalls)).toBeGreaterThan(200);
      // The outside edge of the cut end is seen on the near side.
      expect(lengthOf(lines.filter((l) => l.seen && l.kind === 'cut'))).toBeGreaterThan(100);
    }
    const endView = see(parts, { right: vec3(0, 1, 0), up: u });
    const bore = endView.filter((l) => l.seen && l.kind === 'inner' && l.part.id === 'header');
    // At the near end, and through the bore at the far one, in the same place.
    expect(lengthOf(bore)).toBeGreaterThan(2 * Math.PI * (R - wall) * 0.99);
  });

  it('a phantom hides nothing', () => {
    const disc = (y: number): Shape => ({
      kind: 'cone',
      pose: poseAlong(vec3(0, y, 0), vec3(0, 1, 0)),
      circles: [0, 5].map((z) => ({ at: vec3(0, 0, z), radius: y < 0 ? 60 : 30 })),
    });
    const hiddenBy = (role: Part['role']): number =>
      lengthOf(
        see([part('front', disc(-50), role), part('back', disc(0))], FRONT).filter(
          (l) => l.part.id === 'back' && l.seen,
        ),
      );
    expect(hiddenBy('mate')).toBe(0);
    expect(hiddenBy('next')).toBeGreaterThan(2 * Math.PI * 30 * 0.99);
  });
});
