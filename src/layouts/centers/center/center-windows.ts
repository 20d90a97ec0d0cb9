import type { Path } from '../../../drawing/model.ts';
import { arcPath } from '../../../drawing/shape.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';

/** A window's sweep about the center, radians. */
export interface WindowSpan {
  readonly from: number;
  readonly to: number;
}
/** Longest window along the edge, mm: longer ones let the paper sag. */
const longest = 55;

/**
 * Windows along an edge: `reach` mm to both sides of it, four between the quarter lines, eight on large circles, where
 * four would leave long stretches of edge unseen. They keep the quarter lines' paper whole.
 */
export const placeWindows = (
  diameter: number,
): { readonly reach: number; readonly spans: readonly WindowSpan[] } => {
  const radius = diameter / 2;
  const count = radius > 150 ? 8 : 4;
  const sweep = Math.min((360 / count - 40 / (count / 4)) * DEGREE, longest / radius);
  return {
    reach: Math.min(5, Math.max(1.5, radius * 0.1)),
    spans: Array.from({ length: count }, (_, i) => {
      const middle = ((i + 0.5) * 2 * Math.PI) / count;
      return { from: middle - sweep / 2, to: middle + sweep / 2 };
    }),
  };
};

/** A window's closed outline: two arcs and two radial ends. */
export const windowPath = (diameter: number, { from, to }: WindowSpan): Path => {
  const { reach } = placeWindows(diameter);
  const centre = { x: 0, y: 0 };
  const outer = arcPath(centre, diameter / 2 + reach, from, to);
  const inner = arcPath(centre, diameter / 2 - reach, to, from);
  return {
    start: outer.start,
    segments: [
      ...outer.segments,
      { kind: 'line', to: inner.start },
      ...inner.segments,
      { kind: 'line', to: outer.start },
    ],
    closed: true,
  };
};
