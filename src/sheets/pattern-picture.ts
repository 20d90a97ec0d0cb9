import type { Mark, Picture } from '../drawing/model.ts';
import { FINE, MEDIUM } from '../drawing/shape.ts';
import { fitView, makePicture, viewLine, viewText, type Projection, type Sight } from '../drawing/view.ts';
import type { FlatStretch } from '../geometry/developable.ts';
import { cross3, dot3, vec3, type Vec3 } from '../geometry/vector.ts';

/** Seen from in front of station 300, from a little above: station 0 lies to the right, the upper end is open to the eye. */
const SIGHT: Sight = {
  right: vec3(Math.cos(0.5), Math.sin(0.5), 0),
  up: vec3(-Math.sin(0.5) * Math.sin(0.45), Math.cos(0.5) * Math.sin(0.45), Math.cos(0.45)),
};
const EYE = cross3(SIGHT.right, SIGHT.up);

const STEPS = 48;

/** A label at a place of the model. */
export interface PlaceLabel {
  readonly at: Vec3;
  readonly text: string;
}

/** Pieces of a curve by whether they are seen, drawn full or dashed. */
const seenLine = (
  project: Projection,
  points: readonly Vec3[],
  isSeen: readonly boolean[],
  width: number,
): readonly Mark[] => {
  const marks: Mark[] = [];
  let from = 0;
  for (let i = 1; i < points.length; i++) {
    if (i < points.length - 1 && isSeen[i] === isSeen[i - 1]) continue;
    const part = points.slice(from, i + 1);
    marks.push(
      isSeen[i - 1] === true
        ? viewLine(project, part, 'continuous', width)
        : viewLine(project, part, 'dashed', FINE),
    );
    from = i;
  }
  return marks;
};

/**
 * The finished part from its stretches once round: both ends, the seams heavy, bends and edges thin, what lies behind
 * dashed. Seen from station 300 or so, a little from above.
 */
export const surfacePicture = (
  title: string,
  parts: readonly (readonly FlatStretch[])[],
  labels: readonly PlaceLabel[] = [],
): Picture => {
  const us = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS);
  const all = parts.flat();
  const seen = (flat: FlatStretch, u: number): boolean =>
    dot3(flat.normal(Math.min(0.999, Math.max(0.001, u))), EYE) > 1e-6;
  const points = all.flatMap((flat) => us.flatMap((u) => Object.values(flat.space(u)) as Vec3[]));
  const { project } = fitView(SIGHT, points, 52, 48);
  const outlines = all.flatMap((flat): readonly Mark[] => {
    const rulings = us.map(flat.space);
    const isSeen = us.map((u) => seen(flat, u));
    const still = us.map(() => true);
    return [
      ...seenLine(
        project,
        rulings.map(({ foot }) => foot),
        isSeen,
        MEDIUM,
      ),
      ...seenLine(
        project,
        rulings.map(({ head }) => head),
        still,
        MEDIUM,
      ),
    ];
  });
  const edges = all.map((flat) => {
    const { foot, head } = flat.space(0);
    return seen(flat, 0)
      ? viewLine(project, [foot, head], 'continuous', FINE)
      : viewLine(project, [foot, head], 'dashed', FINE);
  });
  const silhouettes = all.flatMap((flat) =>
    us.slice(1).flatMap((u, i) => {
      if (seen(flat, u) === seen(flat, us[i] as number)) return [];
      const { foot, head } = flat.space(u);
      return [viewLine(project, [foot, head], 'continuous', MEDIUM)];
    }),
  );
  const seams = parts.map((part) => {
    const first = part[0] as FlatStretch;
    const { foot, head } = first.space(0);
    return viewLine(project, [foot, head], seen(first, 0) ? 'continuous' : 'dashed', MEDIUM * 1.4);
  });
  return makePicture(title, [
    ...edges,
    ...outlines,
    ...silhouettes,
    ...seams,
    ...labels.flatMap(({ at, text }) => viewText(project(at), text)),
  ]);
};
