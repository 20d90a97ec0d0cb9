import { itemAround, itemAt } from '../../lists.ts';
import { vec3, type Vec3 } from '../../geometry/vector.ts';
import { vectorAt } from '../form.ts';
import { addPoint, type Draft } from './form-draft.ts';
import type { SeenPlace } from './lens.ts';
import { next, tileAt, turn, type Tile, type Tiles } from './tiles.ts';

/** Where the edge of a hole passes from one tile into the next. */
export interface Crossing {
  readonly from: Tile;
  readonly side: 0 | 1 | 2;
  readonly to: Tile;
  readonly point: number;
  readonly at: SeenPlace;
  /** Along the side of `from` as it is seen. */
  readonly seenShare: number;
  /** The same in space. */
  readonly share: number;
  /** The given point of the edge before it, and how far on toward the next. */
  readonly after: number;
  readonly along: number;
}

/** A run of the edge across a tile: from where it comes in over the given points in it to where it goes out. */
export interface Run {
  readonly enter: Crossing | undefined;
  readonly inner: readonly number[];
  readonly exit: Crossing | undefined;
}

/** The point where the way from a to b passes over side `k` of a tile. */
const crossSide = (
  draft: Draft,
  { tile, k, to }: { readonly tile: Tile; readonly k: 0 | 1 | 2; readonly to: Tile },
  a: SeenPlace,
  b: SeenPlace,
  after: number,
): Crossing => {
  const [p, q] = [tile.at[k], tile.at[next(k)]];
  const [left, right] = [turn(a, b, q), turn(a, b, p)];
  const seenShare = right / (right - left);
  // Equal parts of what is seen are not equal in space where one end lies farther ahead.
  const share = (seenShare * p.ahead) / (seenShare * p.ahead + (1 - seenShare) * q.ahead);
  const [from, end] = [
    vectorAt(draft.positions, tile.points[k]),
    vectorAt(draft.positions, tile.points[next(k)]),
  ];
  const between = (x: number, y: number, part: number): number => x + (y - x) * part;
  const at = {
    x: between(p.x, q.x, seenShare),
    y: between(p.y, q.y, seenShare),
    ahead: between(p.ahead, q.ahead, share),
  };
  return {
    from: tile,
    side: k,
    to,
    point: addPoint(
      draft,
      vec3(between(from.x, end.x, share), between(from.y, end.y, share), between(from.z, end.z, share)),
    ),
    at,
    seenShare,
    share,
    after,
    along: turn(p, q, a) / (turn(p, q, a) - turn(p, q, b)),
  };
};

/** Follows a hole's edge over the tiles: its runs by tile. */
export const walkRim = (
  draft: Draft,
  { tiles, beyond }: Tiles,
  rim: readonly SeenPlace[],
  first: Vec3,
): { readonly runs: ReadonlyMap<Tile, readonly Run[]>; readonly crossings: readonly Crossing[] } => {
  const start = tileAt(draft, tiles, itemAt(rim, 0), first);
  const runs = new Map<Tile, Run[]>();
  const crossings: Crossing[] = [];
  const add = (tile: Tile, run: Run): void => {
    const known = runs.get(tile);
    if (known) known.push(run);
    else runs.set(tile, [run]);
  };
  let tile = start;
  let enter: Crossing | undefined;
  let inner: number[] = [0];
  let opening: Run | undefined;
  rim.forEach((a, i) => {
    const b = itemAround(rim, i + 1);
    for (;;) {
      const { at } = tile;
      const k = ([0, 1, 2] as const).find(
        (j) => turn(at[j], at[next(j)], b) < 0 && turn(a, b, at[j]) < 0 && turn(a, b, at[next(j)]) > 0,
      );
      if (k === undefined) break;
      const to = beyond(tile, k);
      if (!to) throw new Error('a hole runs off its body');
      const exit = crossSide(draft, { tile, k, to }, a, b, i);
      crossings.push(exit);
      if (enter === undefined) opening = { enter, inner, exit };
      else add(tile, { enter, inner, exit });
      [tile, enter, inner] = [to, exit, []];
    }
    if (i + 1 < rim.length) inner.push(i + 1);
  });
  if (tile !== start) throw new Error('the edge of a hole does not close');
  add(start, { enter, inner: [...inner, ...(opening?.inner ?? [])], exit: opening?.exit });
  return { runs, crossings };
};
