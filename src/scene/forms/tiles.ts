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

type Range = readonly [low: number, high: number];

const boxOf = (places: readonly SeenPlace[]): readonly [x: Range, y: Range] => {
  const [xs, ys] = [places.map(({ x }) => x), places.map(({ y }) => y)];
  return [
    [Math.min(...xs), Math.max(...xs)],
    [Math.min(...ys), Math.max(...ys)],
  ];
};

const meets = (a: ReturnType<typeof boxOf>, b: ReturnType<typeof boxOf>): boolean =>
  ([0, 1] as const).every((k) => a[k][0] <= b[k][1] && b[k][0] <= a[k][1]);

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
  const places = new Map<number, SeenPlace>();
  const see = (point: number): SeenPlace => {
    const place = places.get(point) ?? lens(vectorAt(draft.positions, point));
    places.set(point, place);
    return place;
  };
  const box = boxOf(rim);
  const tiles: Tile[] = [];
  const bySide = new Map<string, Tile>();
  const { corners } = draft;
  for (let i = 0; i < corners.length; i += 6) {
    const order = inward ? [0, 4, 2] : [0, 2, 4];
    const points = order.map((k) => numberAt(corners, i + k)) as unknown as Three<number>;
    const at = points.map(see) as unknown as Three<SeenPlace>;
    if (turn(...at) <= 0 || !meets(boxOf(at), box)) continue;
    const normals = order.map((k) => numberAt(corners, i + k + 1)) as unknown as Three<number>;
    const tile: Tile = { number: i / 6, points, normals, at };
    tiles.push(tile);
    for (const k of [0, 1, 2] as const) bySide.set(`${points[k]} ${points[next(k)]}`, tile);
  }
  return {
    tiles,
    beyond: ({ points }: Tile, k: 0 | 1 | 2): Tile | undefined =>
      bySide.get(`${points[next(k)]} ${points[k]}`),
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
