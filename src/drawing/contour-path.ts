import type { Contour } from '../geometry/contour.ts';
import { lastOf } from '../lists.ts';
import type { Path, Segment } from './model.ts';
import { arcPath } from './paths.ts';

/** An outline of lines and arcs as one closed path. */
export const contourPath = (contour: Contour): Path => {
  const start = contour[0]?.from;
  if (!start) throw new Error('an outline needs at least one edge');
  const segments = contour.flatMap((edge): readonly Segment[] =>
    edge.kind === 'line'
      ? [{ kind: 'line', to: edge.to }]
      : arcPath(edge.centre, edge.radius, edge.start, edge.start + edge.sweep).segments,
  );
  const last = lastOf(segments);
  return { start, segments: [...segments.slice(0, -1), { ...last, to: start }], closed: true };
};
