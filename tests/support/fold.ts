import { expect } from 'vitest';
import type { Texts } from '../../src/index.ts';
import { samplePath, sheetStrokes, type PathSegment, type PdfFile } from './pdf-reader.ts';
import { printAndRead } from './print.ts';
import { inner, minus, norm, outer, plus, times, type Vec2, type Vec3 } from './space.ts';

/**
 * Folds a finished pattern back into space. It shares nothing with the layouts: the surface is found as the convex hull
 * of many points of both outlines, laid flat triangle by triangle from the lengths of their sides, and the print's own
 * points are carried back over those triangles.
 */

/** A straight line of the surface, from its foot to its head. */
export interface Rule {
  readonly foot: Vec3;
  readonly head: Vec3;
}

/** Wide enough for a pattern in one piece. */
export const PAPER = '4800x4800mm';

export interface ReadPattern {
  readonly file: PdfFile;
  /** The cut line's points, the corners as drawn: the outline begins at the left foot and ends in the left head. */
  readonly points: readonly Vec2[];
  readonly leftFoot: Vec2;
  readonly leftHead: Vec2;
  readonly rightFoot: Vec2;
  readonly area: number;
  /** Ends of the bend lines, put together from their dashes. */
  readonly bends: readonly (readonly [Vec2, Vec2])[];
}

const cross = (a: Vec2, b: Vec2): number => a.x * b.y - a.y * b.x;

/** The one closed cut line of a sheet and its bend lines, from the bytes of its print. */
export const readPattern = async (layout: string, texts: Texts, sheet: string): Promise<ReadPattern> => {
  const { file } = await printAndRead(layout, { ...texts, paper: PAPER });
  return patternOf(file, sheet);
};

export const patternOf = (file: PdfFile, sheet: string): ReadPattern => {
  const strokes = sheetStrokes(file, sheet, 'cut');
  expect(strokes).toHaveLength(1);
  const path = strokes[0]!.path;
  expect(path).toHaveLength(1);
  const { start, segments } = path[0]!;
  const ends = [start, ...segments.map(({ to }: PathSegment) => to)];
  const points = samplePath(path, 2);
  const fine = samplePath(path, 0.25);
  const area = fine.reduce((sum, p, i) => sum + cross(p, fine[(i + 1) % fine.length]!) / 2, 0);
  const closing = segments[segments.length - 1]!;
  expect(closing.kind).toBe('line');
  const bends = sheetStrokes(file, sheet, 'bend').map((stroke): readonly [Vec2, Vec2] => {
    const dashes = stroke.path.flatMap((part) => [part.start, ...part.segments.map(({ to }) => to)]);
    return [dashes[0]!, dashes[dashes.length - 1]!];
  });
  // Crosses are punched at the feet first, left and right, each of two strokes about its middle.
  const cross2 = sheetStrokes(file, sheet, 'punch')[2]!.path[0]!;
  const tip = cross2.segments[0]!.to;
  return {
    file,
    points,
    leftFoot: start,
    leftHead: ends[ends.length - 2]!,
    rightFoot: { x: (cross2.start.x + tip.x) / 2, y: (cross2.start.y + tip.y) / 2 },
    area: Math.abs(area),
    bends,
  };
};

/**
 * The surface between two convex outlines in any position, as rules in order: from each one the hull goes on over that
 * next point, of the lower or the upper outline, whose triangle leaves the other one inside.
 * @param a points of the lower outline, counter-clockwise seen from the upper, the first where the pattern is cut open
 */
export const hullRules = (a: readonly Vec3[], b: readonly Vec3[]): readonly Rule[] => {
  const at = (ring: readonly Vec3[], i: number): Vec3 =>
    ring[((i % ring.length) + ring.length) % ring.length]!;
  /** How far a point lies outside the plane through three that follow one another counter-clockwise seen from outside. */
  const outside = (p: Vec3, q: Vec3, r: Vec3, s: Vec3): number => {
    const n = outer(minus(q, p), minus(r, p));
    return inner(minus(s, p), n) / (norm(n) || 1);
  };
  // The head above the first foot: the plane along the outline there that has everything else inside.
  const along = minus(at(a, 1), at(a, -1));
  const worst = b.map((head) =>
    [...b, ...a].reduce((most, other) => Math.max(most, outside(a[0]!, plus(a[0]!, along), head, other)), 0),
  );
  // Several where a side of the upper outline lies along the lower one's: the middle of that side.
  const least = Math.min(...worst);
  const likely = b.flatMap((_, j) => (worst[j]! < least + 1e-9 ? [j] : []));
  const spread = (j: number): number => likely.reduce((sum, k) => sum + norm(minus(b[j]!, b[k]!)), 0);
  const best = likely.reduce((j, k) => (spread(k) < spread(j) - 1e-9 ? k : j), likely[0]!);
  const rules: Rule[] = [{ foot: a[0]!, head: at(b, best) }];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    const [foot, head] = [at(a, i), at(b, best + j)];
    const [nextFoot, nextHead] = [at(a, i + 1), at(b, best + j + 1)];
    const lower =
      j >= b.length ||
      (i < a.length && outside(foot, nextFoot, head, nextHead) <= outside(foot, nextHead, head, nextFoot));
    if (lower) i += 1;
    else j += 1;
    rules.push({ foot: at(a, i), head: at(b, best + j) });
  }
  return rules;
};

export interface FlatRule {
  readonly foot: Vec2;
  readonly head: Vec2;
}

/** Lays the triangles between rules flat by the lengths of their sides, to the right, seen from outside. */
export const unroll = (rules: readonly Rule[]): readonly FlatRule[] => {
  const gap = (p: Vec3, q: Vec3): number => norm(minus(p, q));
  const flats: FlatRule[] = [];
  /** The point to the right of the way from p to q, by its distances from both. */
  const third = (p: Vec2, q: Vec2, fromP: number, fromQ: number): Vec2 => {
    const d = Math.hypot(q.x - p.x, q.y - p.y);
    const x = (fromP * fromP - fromQ * fromQ + d * d) / (2 * d);
    const y = Math.sqrt(Math.max(0, fromP * fromP - x * x));
    const u = { x: (q.x - p.x) / d, y: (q.y - p.y) / d };
    return { x: p.x + u.x * x + u.y * y, y: p.y + u.y * x - u.x * y };
  };
  rules.forEach((rule, i) => {
    if (i === 0) {
      flats.push({ foot: { x: 0, y: 0 }, head: { x: 0, y: gap(rule.foot, rule.head) } });
      return;
    }
    const [before, flat] = [rules[i - 1]!, flats[i - 1]!];
    const foot =
      gap(rule.foot, before.foot) === 0
        ? flat.foot
        : third(flat.foot, flat.head, gap(rule.foot, before.foot), gap(rule.foot, before.head));
    const head =
      gap(rule.head, before.head) === 0
        ? flat.head
        : third(foot, flat.head, gap(rule.head, rule.foot), gap(rule.head, before.head));
    flats.push({ foot, head });
  });
  return flats;
};

/** The rigid motion of the plane, no mirroring, that brings both feet of a pattern's seam onto those laid flat. */
export const align = (pattern: Pick<ReadPattern, 'leftFoot' | 'rightFoot'>, flats: readonly FlatRule[]) => {
  const angle = (p: Vec2, q: Vec2): number => Math.atan2(q.y - p.y, q.x - p.x);
  const [first, last] = [flats[0]!.foot, flats[flats.length - 1]!.foot];
  const turn = angle(first, last) - angle(pattern.leftFoot, pattern.rightFoot);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return (p: Vec2): Vec2 => {
    const [x, y] = [p.x - pattern.leftFoot.x, p.y - pattern.leftFoot.y];
    return { x: first.x + c * x - s * y, y: first.y + s * x + c * y };
  };
};

interface Triangle {
  readonly flat: readonly [Vec2, Vec2, Vec2];
  readonly space: readonly [Vec3, Vec3, Vec3];
}

/** A point's weights in a triangle of the plane. */
const weights = ([a, b, c]: Triangle['flat'], p: Vec2): readonly [number, number, number] => {
  const [u, v, w] = [
    { x: b.x - a.x, y: b.y - a.y },
    { x: c.x - a.x, y: c.y - a.y },
    { x: p.x - a.x, y: p.y - a.y },
  ];
  const whole = cross(u, v);
  const [s, t] = [cross(w, v) / whole, cross(u, w) / whole];
  return [1 - s - t, s, t];
};

/** How high each corner of a triangle stands over the side across from it: what a weight of one is in mm. */
const heights = ([a, b, c]: Triangle['flat']): readonly [number, number, number] => {
  const side = (p: Vec2, q: Vec2): number => Math.hypot(q.x - p.x, q.y - p.y);
  const whole = Math.abs(cross({ x: b.x - a.x, y: b.y - a.y }, { x: c.x - a.x, y: c.y - a.y }));
  return [whole / side(b, c), whole / side(c, a), whole / side(a, b)];
};

/** Carries a point of the flat back into space by the triangle it lies in, or the nearest one. */
export const foldBack = (rules: readonly Rule[], flats: readonly FlatRule[]) => {
  const triangles = rules.slice(1).flatMap((rule, i): readonly Triangle[] => {
    const [before, a, b] = [rules[i]!, flats[i]!, flats[i + 1]!];
    const all: readonly Triangle[] = [
      { flat: [a.foot, a.head, b.foot], space: [before.foot, before.head, rule.foot] },
      { flat: [b.foot, a.head, b.head], space: [rule.foot, before.head, rule.head] },
    ];
    const size = ({ flat: [p, q, r] }: Triangle): number =>
      Math.abs(cross({ x: q.x - p.x, y: q.y - p.y }, { x: r.x - p.x, y: r.y - p.y }));
    return all.filter((triangle) => size(triangle) > 1e-9);
  });
  return (p: Vec2): Vec3 => {
    let found = { miss: Infinity, at: { x: 0, y: 0, z: 0 } };
    for (const { flat, space } of triangles) {
      const [i, j, k] = weights(flat, p);
      const reach = Math.hypot(flat[1].x - flat[0].x, flat[1].y - flat[0].y);
      const near = Math.min(...flat.map((q) => Math.hypot(q.x - p.x, q.y - p.y)));
      if (near > 4 * reach + 400) continue;
      const [a, b, c] = heights(flat);
      const miss = Math.max(0, -i * a, -j * b, -k * c);
      if (miss < found.miss)
        found = { miss, at: plus(times(space[0], i), plus(times(space[1], j), times(space[2], k))) };
      if (miss === 0) break;
    }
    return found.at;
  };
};

/** Area of the surface between rules, by its triangles. */
export const surfaceArea = (rules: readonly Rule[]): number =>
  rules.slice(1).reduce((sum, rule, i) => {
    const before = rules[i]!;
    const area = (p: Vec3, q: Vec3, r: Vec3): number => norm(outer(minus(q, p), minus(r, p))) / 2;
    return sum + area(before.foot, before.head, rule.foot) + area(rule.foot, rule.head, before.head);
  }, 0);

/** Distance of a point from the nearest of the sides of a closed ring of points. */
export const ringDistance = (p: Vec3, ring: readonly Vec3[]): number => {
  let least = Infinity;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const run = minus(b, a);
    const size = inner(run, run);
    const share = size === 0 ? 0 : Math.min(1, Math.max(0, inner(minus(p, a), run) / size));
    least = Math.min(least, norm(minus(p, plus(a, times(run, share)))));
  });
  return least;
};
