import { itemAround, itemAt, numberAt } from '../../lists.ts';
import { cross3, dot3, length3, sub3, unit3, type Vec3 } from '../../geometry/vector.ts';
import type { Form, FormEdge } from '../form.ts';
import { spreadAlong } from '../sampling.ts';
import type { Hole, HoleEdges } from '../shape.ts';
import { sideOf, trimSkin, type RimPlace, type Trimmed } from './cut-skin.ts';
import { addMixedNormal, addNormal, type Draft } from './form-draft.ts';
import { lensBehind, type Lens } from './lens.ts';
import { HAIR } from './tiles.ts';

/** Parts of a turn around a hole that are looked at first. */
const LOOKS = 16;
/** Faces of a hole's wall that turn by more than this, as a cosine, meet in a corner. */
const CORNER = 0.95;

interface Rim {
  readonly outer: readonly Vec3[];
  readonly inner: readonly Vec3[];
}

const edgesAt = ({ outer, inner }: HoleEdges): readonly Vec3[] => [outer, inner];

const placesAround = ({ at, joints }: Hole, deviation: number): Rim => {
  const given = [
    ...Array.from({ length: LOOKS + 1 }, (_, i) => i / LOOKS),
    ...joints.filter((t) => t > 0 && t < 1),
  ].sort((a, b) => a - b);
  const apart = given.filter((t, i) => i === 0 || t - numberAt(given, i - 1) > 1e-6);
  const all = spreadAlong((t) => edgesAt(at(t)), apart, deviation)
    .slice(0, -1)
    .map(at);
  // Where two holes are joined, the end of one stretch is the beginning of the next.
  const places = all.filter(({ outer }, i) => length3(sub3(outer, itemAround(all, i - 1).outer)) > HAIR);
  return { outer: places.map(({ outer }) => outer), inner: places.map(({ inner }) => inner) };
};

/** True where a closed line runs counter-clockwise as a lens sees it. */
const runsLeft = (lens: Lens, points: readonly Vec3[]): boolean => {
  const seen = points.map(lens);
  return (
    seen.reduce((sum, p, i) => {
      const q = itemAround(seen, i + 1);
      return sum + p.x * q.y - p.y * q.x;
    }, 0) > 0
  );
};

/** A body with a hole through its wall. */
export const openForm = (body: Form, hole: Hole, deviation: number): Form => {
  const found = placesAround(hole, deviation);
  const lens = lensBehind(body, found.outer, found.inner);
  const rim = runsLeft(lens, found.outer)
    ? found
    : { outer: [...found.outer].reverse(), inner: [...found.inner].reverse() };
  const draft: Draft = {
    positions: [...body.positions],
    normals: [...body.normals],
    corners: body.corners,
  };
  const outside = trimSkin(draft, lens, rim.outer, false);
  const inside = trimSkin(draft, lens, rim.inner, true);
  const wall = layWall(draft, rim, outside, inside);
  const corners: number[] = [];
  for (let i = 0; i < body.corners.length; i += 6) {
    if (outside.gone.has(i / 6) || inside.gone.has(i / 6)) continue;
    for (let k = 0; k < 6; k++) corners.push(numberAt(body.corners, i + k));
  }
  return {
    positions: draft.positions,
    normals: draft.normals,
    corners: [...corners, ...outside.left, ...inside.left, ...wall.corners],
    edges: [...body.edges.flatMap((edge) => clipEdge(draft, edge, [outside, inside])), ...wall.edges],
  };
};

/** A place of the hole's wall: its point, and the numbers of the wall's normal and of the skin's there. */
interface WallPlace {
  readonly point: number;
  readonly wall: number;
  readonly skin: number;
}

/** The wall of a hole between its two edges, and these edges. */
const layWall = (
  draft: Draft,
  { outer, inner }: Rim,
  outside: Trimmed,
  inside: Trimmed,
): { readonly corners: readonly number[]; readonly edges: readonly FormEdge[] } => {
  const count = outer.length;
  const after = (i: number): number => (i + 1) % count;
  /** Of the wall between a place and the next: it looks into the hole. */
  const faces = outer.map((p, i) =>
    unit3(cross3(sub3(p, itemAt(inner, i)), sub3(itemAt(outer, after(i)), p))),
  );
  /** At each place, on the wall before it and after it. */
  const normals = faces.map((ahead, i): readonly [number, number] => {
    const behind = itemAt(faces, (i + count - 1) % count);
    if (dot3(ahead, behind) < CORNER) return [addNormal(draft, behind), addNormal(draft, ahead)];
    const middle = addNormal(
      draft,
      unit3({ x: ahead.x + behind.x, y: ahead.y + behind.y, z: ahead.z + behind.z }),
    );
    return [middle, middle];
  });
  /** The places of an edge from one given point to the next, both with it. */
  const stretch = ({ rim }: Trimmed, i: number): readonly WallPlace[] => {
    const [from, to] = [itemAt(normals, i)[1], itemAt(normals, after(i))[0]];
    const end = rim[after(i)]?.[0] as RimPlace;
    return [...(rim[i] ?? []), { ...end, share: 1 }].map(({ point, normal, share }) => ({
      point,
      skin: normal,
      wall:
        share === 0 || from === to
          ? from
          : share === 1
            ? to
            : addMixedNormal(draft, [from, to], [1 - share, share]),
    }));
  };
  const corners: number[] = [];
  // Both are mostly out of sight behind what goes through the hole, and close to its own lines.
  const [outerEdge, innerEdge] = [startEdge('inner'), startEdge('inner')];
  for (let i = 0; i < count; i++) {
    const [high, low] = [stretch(outside, i), stretch(inside, i)];
    ladder(corners, high, low);
    extendEdge(outerEdge, high, (place) => [place.wall, place.skin]);
    extendEdge(innerEdge, low, (place) => [place.skin, place.wall]);
  }
  return { corners, edges: [outerEdge, innerEdge] };
};

/** An edge that grows. */
interface GrowingEdge extends FormEdge {
  readonly points: number[];
  readonly left: number[];
  readonly right: number[];
}

const startEdge = (kind: FormEdge['kind']): GrowingEdge => ({ points: [], left: [], right: [], kind });

const extendEdge = (
  { points, left, right }: GrowingEdge,
  places: readonly WallPlace[],
  sides: (place: WallPlace) => readonly [left: number, right: number],
): void =>
  places.forEach((place, i) => {
    if (i > 0 || points.length === 0) points.push(place.point);
    const next = places[i + 1];
    if (!next) return;
    const [from, to] = [sides(place), sides(next)];
    left.push(from[0], to[0]);
    right.push(from[1], to[1]);
  });

/** Triangles between the two edges of a stretch of wall, of which `high` is the one on the outside. */
const ladder = (corners: number[], high: readonly WallPlace[], low: readonly WallPlace[]): void => {
  let [i, j] = [0, 0];
  while (i < high.length - 1 || j < low.length - 1) {
    const onHigh = i < high.length - 1 && (j === low.length - 1 || i / high.length <= j / low.length);
    const [a, b] = [itemAt(high, i), itemAt(low, j)];
    const c = (onHigh ? high[++i] : low[++j]) as WallPlace;
    for (const { point, wall } of [a, c, b]) corners.push(point, wall);
  }
};

/** What holes leave of an edge of their body. */
const clipEdge = (
  draft: Draft,
  { points, left, right, kind }: FormEdge,
  skins: readonly Trimmed[],
): readonly FormEdge[] => {
  const isTouched = points.some((p, i) => {
    const q = points[i + 1];
    return skins.some(({ lost, crossed }) => lost.has(p) || (q !== undefined && crossed.has(sideOf(p, q))));
  });
  if (!isTouched) return [{ points, left, right, kind }];
  const runs: GrowingEdge[] = [];
  let run: GrowingEdge | undefined;
  for (let i = 0; i + 1 < points.length; i++) {
    const [p, q] = [numberAt(points, i), numberAt(points, i + 1)];
    const stops = skins
      .flatMap(({ crossed }) => crossed.get(sideOf(p, q)) ?? [])
      .map(({ share, point }) => ({ share: p < q ? share : 1 - share, point }))
      .sort((a, b) => a.share - b.share);
    const places = [{ share: 0, point: p }, ...stops, { share: 1, point: q }];
    const mixed = (list: readonly number[], share: number): number => {
      const [from, to] = [numberAt(list, 2 * i), numberAt(list, 2 * i + 1)];
      if (from === to || share === 0) return from;
      return share === 1 ? to : addMixedNormal(draft, [from, to], [1 - share, share]);
    };
    let isLost = skins.some(({ lost }) => lost.has(p));
    places.slice(1).forEach((place, j) => {
      const before = itemAt(places, j);
      if (isLost) run = undefined;
      else {
        if (!run) runs.push((run = { points: [before.point], left: [], right: [], kind }));
        run.points.push(place.point);
        run.left.push(mixed(left, before.share), mixed(left, place.share));
        run.right.push(mixed(right, before.share), mixed(right, place.share));
      }
      isLost = !isLost;
    });
  }
  return runs;
};
