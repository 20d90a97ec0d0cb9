import { edgeEnds, type SectionEdge } from './section.ts';
import { add2, cross2, distance2, scale2, sub2, unit2, type Vec2 } from './vector.ts';

const direction = ({ x, y }: { readonly x: number; readonly y: number }): number => Math.atan2(y, x);

/** Ends nearer than this meet, mm. */
const MEET = 1e-9;

/**
 * A contour `by` mm outside another, square to it: sides move out, corners that stand out are rounded by arcs of that
 * radius, and between straight sides those that stand in are cut back to where the sides cross. Rounded corners that stand in need
 * room for the distance.
 */
export const offsetSection = (contour: readonly SectionEdge[], by: number): readonly SectionEdge[] => {
  const moved = contour.map((edge): SectionEdge => {
    switch (edge.kind) {
      case 'line': {
        const [start, end] = edgeEnds(edge);
        return {
          ...edge,
          from: add2(start.point, scale2(start.out, by)),
          to: add2(end.point, scale2(end.out, by)),
        };
      }
      case 'arc':
        return { ...edge, radius: edge.radius + Math.sign(edge.sweep) * by };
      case 'ellipse':
        return { ...edge, inset: edge.inset - by };
    }
  });
  /** Where the moved sides before and after the corner at the end of an edge cross, if it stands in between straight ones. */
  const crossingAfter = (i: number): Vec2 | undefined => {
    const n = contour.length;
    const [edge, after] = [moved[(i + n) % n], moved[(i + 1 + n) % n]];
    if (edge?.kind !== 'line' || after?.kind !== 'line') return undefined;
    const [u, v] = [sub2(edge.to, edge.from), sub2(after.to, after.from)];
    // A corner that stands in turns to the right.
    if (cross2(unit2(u), unit2(v)) > -MEET) return undefined;
    return add2(edge.from, scale2(u, cross2(sub2(after.from, edge.from), v) / cross2(u, v)));
  };
  return moved.flatMap((edge, i) => {
    const [own, next] = [contour[i], contour[(i + 1) % contour.length]];
    const after = moved[(i + 1) % moved.length];
    const [from, to] = [crossingAfter(i - 1), crossingAfter(i)];
    const cut = edge.kind === 'line' ? { ...edge, from: from ?? edge.from, to: to ?? edge.to } : edge;
    if (!own || !next || !after || to || distance2(edgeEnds(edge)[1].point, edgeEnds(after)[0].point) < MEET)
      return [cut];
    const [end, beginning] = [edgeEnds(own)[1], edgeEnds(next)[0]];
    const start = direction(end.out);
    const sweep = (direction(beginning.out) - start + 4 * Math.PI) % (2 * Math.PI);
    return [cut, { kind: 'arc', face: own.face, centre: end.point, radius: by, start, sweep } as const];
  });
};
