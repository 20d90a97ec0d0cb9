import { numberAt } from '../../lists.ts';
import { length3, sub3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { vectorAt } from '../form.ts';
import type { Draft } from './form-draft.ts';
import type { Lens, SeenPlace } from './lens.ts';

type Three<T> = readonly [T, T, T];

/** A triangle of a skin as it is seen, its corners counter-clockwise. */
export interface Tile {
  readonly number: number;
  readonly points: Three<number>;
  readonly normals: Three<number>;
  readonly at: Three<SeenPlace>;
}

/** The tiles around a hole. */
export interface Tiles {
  readonly tiles: readonly Tile[];
  /** The tile beyond side `k` of a tile. */
  readonly beyond: (tile: Tile, k: 0 | 1 | 2) => Tile | undefined;
}

/** Twice the area of a triangle, positive where its corners run counter-clockwise: c is left of the way from a to b. */
export const turn = (a: SeenPlace, b: SeenPlace, c: SeenPlace): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

export const next = (k: number): 0 | 1 | 2 => ((k + 1) % 3) as 0 | 1 | 2;

/** Tells which triangles come near some places: their boxes meet that of the places. */
const nearness = (places: readonly SeenPlace[]) => {
  let [minX, maxX, minY, maxY] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { x, y } of places) {
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
  }
  return (a: SeenPlace, b: SeenPlace, c: SeenPlace): boolean =>
    Math.min(a.x, b.x, c.x) <= maxX &&
    minX <= Math.max(a.x, b.x, c.x) &&
    Math.min(a.y, b.y, c.y) <= maxY &&
    minY <= Math.max(a.y, b.y, c.y);
};

/** A place in (-1, 1) for a number, never such that three that follow one another lie in a row. */
const scatter = (i: number, by: number): number => 2 * ((i * i * by) % 1) - 1;

/** A length that does not matter, mm. */
export const HAIR = 1e-6;

/**
 * Lays a place of a hole's edge a hair aside. A hole that is symmetrical would else have corners and crossings right on sides of
 * triangles, where it is not clear which of two they belong to.
 */
export const aside = ({ x, y, ahead }: SeenPlace, i: number): SeenPlace => ({
  x: x + HAIR * scatter(i + 1, 0.618033988749895),
  y: y + HAIR * scatter(i + 1, 0.754877666246693),
  ahead,
});

/**
 * The triangles of a skin that a lens sees the right way round where a hole is, by their sides in order.
 * @param inward true for the inside of a wall, which faces the eye behind the hole
 */
export const seenTiles = (draft: Draft, lens: Lens, rim: readonly SeenPlace[], inward: boolean): Tiles => {
  const { corners, positions } = draft;
  const count = positions.length / 3;
  // Most of a body's triangles are passed over, and there are thousands.
  const places: (SeenPlace | undefined)[] = Array.from({ length: count });
  const see = (point: number): SeenPlace => (places[point] ??= lens(vectorAt(positions, point)));
  const isNear = nearness(rim);
  const [second, third] = inward ? [4, 2] : [2, 4];
  const tiles: Tile[] = [];
  const bySide = new Map<number, Tile>();
  for (let i = 0; i < corners.length; i += 6) {
    const a = numberAt(corners, i);
    const b = numberAt(corners, i + second);
    const c = numberAt(corners, i + third);
    const [atA, atB, atC] = [see(a), see(b), see(c)];
    if (turn(atA, atB, atC) <= 0 || !isNear(atA, atB, atC)) continue;
    const normalAt = (k: number): number => numberAt(corners, i + k + 1);
    const tile: Tile = {
      number: i / 6,
      points: [a, b, c],
      normals: [normalAt(0), normalAt(second), normalAt(third)],
      at: [atA, atB, atC],
    };
    tiles.push(tile);
    for (const k of [0, 1, 2] as const) bySide.set(tile.points[k] * count + tile.points[next(k)], tile);
  }
  return {
    tiles,
    beyond: ({ points }: Tile, k: 0 | 1 | 2): Tile | undefined =>
      bySide.get(points[next(k)] * count + points[k]),
  };
};

/** The shares of a tile's corners in a place that is seen in it; negative ones for a place beside it. */
export const sharesIn = ({ at: [a, b, c] }: Tile, p: SeenPlace): readonly number[] => {
  // Equal parts of what is seen are not equal in space where a corner lies farther ahead.
  const parts = [turn(b, c, p) / a.ahead, turn(c, a, p) / b.ahead, turn(a, b, p) / c.ahead];
  const sum = parts.reduce((x, y) => x + y, 0);
  return parts.map((part) => part / sum);
};

/** The point of a tile where a place is seen. */
export const pointOf = ({ positions }: Draft, tile: Tile, p: SeenPlace): Vec3 => {
  const shares = sharesIn(tile, p);
  const [x, y, z] = [0, 1, 2].map((axis) =>
    tile.points.reduce(
      (sum, point, k) => sum + numberAt(positions, 3 * point + axis) * numberAt(shares, k),
      0,
    ),
  ) as unknown as Three<number>;
  return vec3(x, y, z);
};

/** The tile that holds a place and is nearest to it. */
export const tileAt = (draft: Draft, tiles: readonly Tile[], at: SeenPlace, p: Vec3): Tile => {
  let best: { readonly far: number; readonly tile: Tile } | undefined;
  for (const tile of tiles) {
    if (Math.min(...sharesIn(tile, at)) < 0) continue;
    const far = length3(sub3(pointOf(draft, tile, at), p));
    if (!best || far < best.far) best = { far, tile };
  }
  if (!best) throw new Error('a hole begins off its body');
  return best.tile;
};
