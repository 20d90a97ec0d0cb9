import { edgeEnds, type SectionEdge } from './section.ts';
import { add2, distance2, scale2 } from './vector.ts';

const direction = ({ x, y }: { readonly x: number; readonly y: number }): number => Math.atan2(y, x);

/** Ends nearer than this meet, mm. */
const MEET = 1e-9;

/**
 * A contour `by` mm outside another, square to it: sides move out, corners that stand out are rounded by arcs of that
 * radius. Corners that stand in keep their edges, which then cross; give convex contours, or a distance they have room for.
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
  return moved.flatMap((edge, i) => {
    const [own, next] = [contour[i], contour[(i + 1) % contour.length]];
    const after = moved[(i + 1) % moved.length];
    if (!own || !next || !after || distance2(edgeEnds(edge)[1].point, edgeEnds(after)[0].point) < MEET)
      return [edge];
    const [from, to] = [edgeEnds(own)[1], edgeEnds(next)[0]];
    const start = direction(from.out);
    const sweep = (direction(to.out) - start + 4 * Math.PI) % (2 * Math.PI);
    return [edge, { kind: 'arc', face: own.face, centre: from.point, radius: by, start, sweep } as const];
  });
};
