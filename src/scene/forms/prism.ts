import earcut from 'earcut';
import { itemAround, itemAt, lastOf, numberAt } from '../../lists.ts';
import { onEllipse, runOf, type SectionEdge, type Spot } from '../../geometry/section.ts';
import { add2, cross3, dot2, scale2, sub3, unit2, unit3, vec3, type Vec2 } from '../../geometry/vector.ts';
import { makeForm, vectorAt, type Form, type FormMaker, type Row } from '../form.ts';
import { turnParts } from '../sampling.ts';
import { poseDirection, posePoint, type PrismEnd, type PrismShape } from '../shape.ts';
import { refineTriangles } from './refine.ts';

/** A corner of the sampled section with the outward normals of the sides that meet in it. */
interface Place {
  readonly at: Vec2;
  readonly before: Vec2;
  readonly after: Vec2;
}

const spotsOf = (edge: SectionEdge, deviation: number): readonly Spot[] => {
  if (edge.kind === 'line') {
    const run = runOf(edge);
    return [run.at(0), run.at(run.length)];
  }
  const radius = edge.kind === 'arc' ? edge.radius : Math.max(...edge.radii);
  const steps = Math.max(
    1,
    Math.ceil((turnParts(radius, deviation) * Math.abs(edge.sweep)) / (2 * Math.PI) - 1e-9),
  );
  const shares = Array.from({ length: steps + 1 }, (_, i) => i / steps);
  if (edge.kind === 'ellipse') return shares.map((share) => onEllipse(edge, edge.start + edge.sweep * share));
  const run = runOf(edge);
  return shares.map((share) => run.at(run.length * share));
};

const placesOf = (contour: readonly SectionEdge[], deviation: number): readonly Place[] => {
  const lists = contour.map((edge) => spotsOf(edge, deviation));
  return lists.flatMap((spots, i) => {
    const end = lastOf(itemAround(lists, i - 1));
    const places = spots
      .slice(0, -1)
      .map(({ point, out }, k) => ({ at: point, before: k === 0 ? end.out : out, after: out }));
    // Two straight edges in line are one: triangles of the ends would pass over the point between them.
    const runsOn = contour[i]?.kind === 'line' && contour.at(i - 1)?.kind === 'line';
    const [first] = places;
    return runsOn && first && dot2(first.before, first.after) > 1 - 1e-12 ? places.slice(1) : places;
  });
};

/** A contour run the other way, seen from its other side. */
const reversed = (places: readonly Place[]): readonly Place[] =>
  [...places]
    .reverse()
    .map(({ at, before, after }) => ({ at, before: scale2(after, -1), after: scale2(before, -1) }));

const isSharp = ({ before, after }: Place): boolean => dot2(before, after) < 0.9998;

/** A place of a contour by the number of its point. */
interface NumberedPlace extends Place {
  readonly number: number;
}

/** A section in triangles, with its contours by the same points. */
interface Tiled {
  readonly points: readonly Vec2[];
  readonly triangles: readonly number[];
  readonly loops: readonly (readonly NumberedPlace[])[];
}

/** Lays triangles over a section, as many as its cut ends need. */
const tile = (
  loops: readonly (readonly Place[])[],
  heights: (p: Vec2) => readonly number[],
  deviation: number,
): Tiled => {
  const corners = loops.flat().map(({ at }) => at);
  const starts = loops.map((_, i) => loops.slice(0, i).flat().length);
  const first = earcut(
    corners.flatMap(({ x, y }) => [x, y]),
    starts.slice(1),
  );
  const { points, triangles, along } = refineTriangles(corners, first, heights, deviation);
  return {
    points,
    triangles,
    loops: loops.map((loop, l) =>
      loop.flatMap((place, i): readonly NumberedPlace[] => {
        const next = (i + 1) % loop.length;
        const between = unit2(add2(place.after, itemAt(loop, next).before));
        const start = itemAt(starts, l);
        return along(start + i, start + next)
          .slice(0, -1)
          .map((number, k) =>
            k === 0
              ? { ...place, number }
              : { at: itemAt(points, number), before: between, after: between, number },
          );
      }),
    ),
  };
};

/** A section carried along an axis. Its ends may lean, or be cut to any height over the section. */
export const prismForm = ({ pose, section, start, end }: PrismShape, deviation: number): Form => {
  const maker = makeForm();
  const heightOf = (e: PrismEnd, p: Vec2): number => (typeof e === 'number' ? e : e(p));
  const cut = [start, end].filter((e) => typeof e === 'function');
  const { points, triangles, loops } = tile(
    [
      placesOf(section.outside, deviation),
      ...(section.inside ? [reversed(placesOf(section.inside, deviation))] : []),
    ],
    (p) => cut.map((e) => e(p)),
    deviation,
  );
  const over = (e: PrismEnd): readonly number[] =>
    points.map((p) => maker.point(posePoint(pose, vec3(p.x, p.y, heightOf(e, p)))));
  const [foot, top] = [over(start), over(end)];
  const direction = (n: Vec2): number => maker.normal(poseDirection(pose, vec3(n.x, n.y, 0)));
  const rows = loops.map((loop): readonly [Row, Row] => {
    const after = loop.map((place) => direction(place.after));
    const before = loop.map((place, i) => (isSharp(place) ? direction(place.before) : numberAt(after, i)));
    const row = (level: readonly number[]): Row => ({
      points: loop.map(({ number }) => numberAt(level, number)),
      before,
      after,
    });
    return [row(foot), row(top)];
  });
  for (const [low, high] of rows) {
    maker.strip(low, high, true);
    low.points.forEach((point, j) => {
      const [b, a] = [numberAt(low.before, j), numberAt(low.after, j)];
      if (a !== b)
        maker.edge({ points: [point, numberAt(high.points, j)], left: [b, b], right: [a, a], kind: 'edge' });
    });
  }
  const close = (e: PrismEnd, points: readonly number[], loops: readonly Row[], sign: 1 | -1): void =>
    closePrism(
      maker,
      { loops, corners: triangles.map((i) => numberAt(points, i)) },
      sign,
      typeof e === 'function',
    );
  close(
    start,
    foot,
    rows.map(([low]) => low),
    -1,
  );
  close(
    end,
    top,
    rows.map(([, high]) => high),
    1,
  );
  return maker.done();
};

/** The face at an end, by the corners of its triangles; `sign` 1 at the upper one. A cut one is as flat as each of its triangles. */
const closePrism = (
  maker: FormMaker,
  { loops, corners }: { readonly loops: readonly Row[]; readonly corners: readonly number[] },
  sign: 1 | -1,
  isCut: boolean,
): void => {
  const { positions } = maker.done();
  const facing = new Map<number, number>();
  for (let t = 0; t < corners.length; t += 3) {
    const triangle = [0, 1, 2].map((k) => numberAt(corners, t + k));
    const [a = 0, b = 0, c = 0] = sign > 0 ? triangle : [...triangle].reverse();
    const [p, q, r] = [vectorAt(positions, a), vectorAt(positions, b), vectorAt(positions, c)];
    const n = maker.normal(unit3(cross3(sub3(q, p), sub3(r, p))));
    maker.triangle(a, n, b, n, c, n);
    for (const corner of triangle) facing.set(corner, n);
  }
  for (const row of loops) {
    const list = row.points.map((p) => facing.get(p) ?? 0);
    const face: Row = { points: row.points, before: list, after: list };
    const kind = isCut ? 'cut' : 'edge';
    if (sign > 0) maker.edgeBetween(row, face, kind, true);
    else maker.edgeBetween(face, row, kind, true);
  }
};
