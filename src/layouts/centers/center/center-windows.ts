import type { Path } from '../../../drawing/model.ts';
import { arcPath } from '../../../drawing/paths.ts';
import { DEGREE, modulo, TURN } from '../../../geometry/angle-units.ts';

/** A window's sweep about the center, radians. */
export interface WindowSpan {
  readonly from: number;
  readonly to: number;
}
/** Longest window along the edge, mm: longer ones let the paper sag. */
const longest = 55;
/** Shortest one that shows whether the edge meets the line, mm. */
const shortest = 6;
/** Paper left along the edge to both sides of a mark on it, mm. */
const aroundMark = 4;
/** Three windows show whether the paper is centered. */
const fewest = 3;

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
      const middle = ((i + 0.5) * TURN) / count;
      return { from: middle - sweep / 2, to: middle + sweep / 2 };
    }),
  };
};

/** What is left of a window on both sides of a mark on the edge. */
const spare = (window: WindowSpan, mark: number, radius: number): readonly WindowSpan[] => {
  const at = window.from + modulo(mark - window.from + aroundMark / radius, TURN) - aroundMark / radius;
  if (at - aroundMark / radius >= window.to) return [window];
  return [
    { from: window.from, to: at - aroundMark / radius },
    { from: at + aroundMark / radius, to: window.to },
  ].filter(({ from, to }) => (to - from) * radius >= shortest);
};

/** The windows with paper left at marks on the edge, which would be cut away; whole where too few would be left. */
export const windowsAround = (diameter: number, marks: readonly number[]): readonly WindowSpan[] => {
  const { spans } = placeWindows(diameter);
  const left = marks.reduce(
    (windows: readonly WindowSpan[], mark) => windows.flatMap((window) => spare(window, mark, diameter / 2)),
    spans,
  );
  return left.length < fewest ? spans : left;
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
