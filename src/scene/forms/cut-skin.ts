import earcut from 'earcut';
import { itemAt, numberAt } from '../../lists.ts';
import type { Vec3 } from '../../geometry/vector.ts';
import { addMixedNormal, addPoint, type Draft } from './form-draft.ts';
import type { Lens, SeenPlace } from './lens.ts';
import { walkRim, type Crossing, type Run } from './rim-walk.ts';
import { aside, next, pointOf, seenTiles, sharesIn, turn, type Tile, type Tiles } from './tiles.ts';

/** A place of a hole's edge on a skin, by the numbers of its point and of the skin's normal there. */
export interface RimPlace {
  readonly point: number;
  readonly normal: number;
  /** How far it lies toward the next of the given points; 0 for a given one. */
  readonly share: number;
}

/** A skin with a hole in it. */
export interface Trimmed {
  /** Triangles that the hole takes, by number. */
  readonly gone: ReadonlySet<number>;
  /** What is left of them, six numbers a triangle. */
  readonly left: readonly number[];
  /** Each given point of the edge, and the crossings with sides of triangles from it to the next. */
  readonly rim: readonly (readonly RimPlace[])[];
  /** Points that lie in the hole. */
  readonly lost: ReadonlySet<number>;
  /** Where the edge crosses a side of a triangle, by `sideOf` its ends, as the share from the one with the lower number. */
  readonly crossed: ReadonlyMap<string, readonly { readonly share: number; readonly point: number }[]>;
}

/** Names the side between two points, whichever comes first. */
export const sideOf = (p: number, q: number): string => (p < q ? `${p} ${q}` : `${q} ${p}`);

/** A corner of a polygon: of a tile, a crossing, or a given point of the edge. */
type Node =
  | { readonly kind: 'corner'; readonly k: 0 | 1 | 2 }
  | { readonly kind: 'crossing'; readonly crossing: Crossing; readonly exits: boolean }
  | { readonly kind: 'given'; readonly i: number };

/** The polygons that a hole leaves of a tile; the second list of one is a hole in it. */
const polygonsOf = (tile: Tile, runs: readonly Run[]): readonly (readonly (readonly Node[])[])[] => {
  const ring = [0, 1, 2].flatMap((n): readonly Node[] => {
    const k = n as 0 | 1 | 2;
    const over = runs.flatMap(({ enter, exit }) => [
      ...(exit?.side === k ? [{ crossing: exit, exits: true, share: exit.seenShare }] : []),
      ...(enter?.from.points[next(enter.side)] === tile.points[k]
        ? [{ crossing: enter, exits: false, share: 1 - enter.seenShare }]
        : []),
    ]);
    return [
      { kind: 'corner', k },
      ...over
        .sort((a, b) => a.share - b.share)
        .map(({ crossing, exits }): Node => ({ kind: 'crossing', crossing, exits })),
    ];
  });
  const given = (list: readonly number[]): readonly Node[] => list.map((i) => ({ kind: 'given', i }));
  const [only] = runs;
  if (only?.enter === undefined) return [[ring, given(only?.inner ?? [])]];
  const left = new Set(runs.map(({ enter }) => enter));
  const polygons: Node[][][] = [];
  for (const { enter } of runs) {
    if (!left.has(enter)) continue;
    const polygon: Node[] = [];
    // Along the sides from where the edge comes in to where it goes out, then back along its run.
    for (let from = enter; left.delete(from);) {
      let j = ring.findIndex((node) => node.kind === 'crossing' && !node.exits && node.crossing === from);
      for (;;) {
        const node = itemAt(ring, j);
        polygon.push(node);
        j = (j + 1) % ring.length;
        if (node.kind !== 'crossing' || !node.exits) continue;
        const run = runs.find(({ exit }) => exit === node.crossing) as Run;
        polygon.push(...given([...run.inner].reverse()));
        from = run.enter;
        break;
      }
    }
    polygons.push([polygon]);
  }
  return polygons;
};

/** A corner of a triangle that is left. */
interface Corner {
  readonly at: SeenPlace;
  readonly point: number;
  readonly normal: number;
}

/** The corners of triangles that fill a polygon, counter-clockwise. */
const fill = (polygon: readonly (readonly Corner[])[]): readonly Corner[] => {
  const all = polygon.flat();
  const holes = polygon.slice(1).map((_, i) => polygon.slice(0, i + 1).flat().length);
  const found = earcut(
    all.flatMap(({ at }) => [at.x, at.y]),
    holes,
  ).map((i) => itemAt(all, i));
  const [a, b, c] = found as [Corner, Corner, Corner];
  return turn(a.at, b.at, c.at) > 0 ? found : found.reverse();
};

/** The normals of a skin along a hole's edge, each made once for all triangles that share it. */
const rimNormals = (draft: Draft) => {
  const known = new Map<string, number>();
  const once = (key: string, make: () => number): number => {
    const normal = known.get(key) ?? make();
    known.set(key, normal);
    return normal;
  };
  return {
    /** At a crossing, on one of the two tiles that it lies between. */
    crossing: ({ point, from, side, share }: Crossing, { points, normals }: Tile): number => {
      const [a, b] = [points.indexOf(from.points[side]), points.indexOf(from.points[next(side)])];
      const [n, m] = [numberAt(normals, a), numberAt(normals, b)];
      return once(`${point} ${sideOf(n, m)}`, () => addMixedNormal(draft, [n, m], [1 - share, share]));
    },
    /** At a given point of the edge, which lies in one tile. */
    given: (point: number, at: SeenPlace, tile: Tile): number =>
      once(`${point}`, () => addMixedNormal(draft, tile.normals, sharesIn(tile, at))),
  };
};

/**
 * Cuts a hole in one skin of a form.
 * @param rim points of the hole's edge on the skin, counter-clockwise seen from outside the body
 * @param inward true for the inside of a wall, which faces the eye behind the hole
 * @throws where the hole runs off the skin
 */
export const trimSkin = (draft: Draft, lens: Lens, rim: readonly Vec3[], inward: boolean): Trimmed => {
  const seenRim = rim.map((p, i) => aside(lens(p), i));
  const tiles = seenTiles(draft, lens, seenRim, inward);
  const { runs, crossings } = walkRim(draft, tiles, seenRim, itemAt(rim, 0));
  const tileOf = new Map(
    [...runs].flatMap(([tile, list]) => list.flatMap(({ inner }) => inner.map((i) => [i, tile] as const))),
  );
  const normals = rimNormals(draft);
  /** On the triangles themselves rather than on the surface that they stand for: what is left of them stays flat. */
  const given = seenRim.map((at, i) => {
    const tile = tileOf.get(i) as Tile;
    const point = addPoint(draft, pointOf(draft, tile, at));
    return { at, point, normal: normals.given(point, at, tile) };
  });
  const cornerOf = (node: Node, tile: Tile): Corner => {
    switch (node.kind) {
      case 'corner':
        return { at: tile.at[node.k], point: tile.points[node.k], normal: tile.normals[node.k] };
      case 'crossing':
        return { ...node.crossing, normal: normals.crossing(node.crossing, tile) };
      case 'given':
        return itemAt(given, node.i);
    }
  };
  const left: number[] = [];
  const kept = new Set<number>();
  for (const [tile, across] of runs)
    for (const polygon of polygonsOf(tile, across)) {
      const corners = polygon.map((list) => list.map((node) => cornerOf(node, tile)));
      const filled = fill(corners);
      for (const { point, normal } of inward ? [...filled].reverse() : filled) left.push(point, normal);
      for (const { point } of corners.flat()) kept.add(point);
    }
  return {
    ...swallowed(tiles, [...runs.keys()], kept),
    left,
    rim: given.map(({ point, normal }, i) => [
      { point, normal, share: 0 },
      ...crossings
        .filter(({ after }) => after === i)
        .map((crossing) => ({
          point: crossing.point,
          normal: normals.crossing(crossing, crossing.from),
          share: crossing.along,
        })),
    ]),
    crossed: bySideOf(crossings),
  };
};

/** The tiles in a hole, and the points of them that are in it: those that its edge crosses, and from these on all within. */
const swallowed = (
  { beyond }: Tiles,
  crossedTiles: readonly Tile[],
  kept: ReadonlySet<number>,
): Pick<Trimmed, 'gone' | 'lost'> => {
  const gone = new Set(crossedTiles.map(({ number }) => number));
  const lost = new Set(crossedTiles.flatMap(({ points }) => points).filter((point) => !kept.has(point)));
  const open = [...crossedTiles];
  for (let tile = open.pop(); tile; tile = open.pop())
    for (const k of [0, 1, 2] as const) {
      // A side with both ends in the hole that its edge does not cross.
      if (!lost.has(tile.points[k]) || !lost.has(tile.points[next(k)])) continue;
      const other = beyond(tile, k);
      if (!other || gone.has(other.number)) continue;
      gone.add(other.number);
      for (const point of other.points) lost.add(point);
      open.push(other);
    }
  return { gone, lost };
};

const bySideOf = (crossings: readonly Crossing[]): Trimmed['crossed'] => {
  const crossed = new Map<string, { readonly share: number; readonly point: number }[]>();
  for (const { from, side, share, point } of crossings) {
    const [p, q] = [from.points[side], from.points[next(side)]];
    const list = crossed.get(sideOf(p, q)) ?? [];
    list.push({ share: p < q ? share : 1 - share, point });
    crossed.set(sideOf(p, q), list);
  }
  return crossed;
};
