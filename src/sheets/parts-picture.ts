import type { Picture } from '../drawing/model.ts';
import { FINE, MEDIUM } from '../drawing/shape.ts';
import { fitView, makePicture, viewLine, type Sight } from '../drawing/view.ts';
import type { FlatStretch } from '../geometry/developable.ts';
import { vec3, type Vec3 } from '../geometry/vector.ts';

/** Square on the plane of stations 0 and 180, a little from above. */
const SIGHT: Sight = { right: vec3(1, 0, 0), up: vec3(0, Math.sin(0.3), Math.cos(0.3)) };

/** A rolled part of a larger thing and where it lies; it is cut open at the station `seam`. */
export interface PlacedPart {
  readonly flat: FlatStretch;
  readonly place: (p: Vec3) => Vec3;
  readonly seam: number;
  readonly heavy: boolean;
}

const STEPS = 96;

/** All parts in place, their ends and outermost lines drawn, one of them heavy. */
export const partsPicture = (title: string, parts: readonly PlacedPart[]): Picture => {
  const us = Array.from({ length: STEPS + 1 }, (_, i) => i / STEPS);
  const lines = parts.map(({ flat, place }) =>
    us.map((u) => {
      const { foot, head } = flat.space(u);
      return { foot: place(foot), head: place(head) };
    }),
  );
  const points = lines.flat().flatMap(({ foot, head }) => [foot, head]);
  const { project } = fitView(SIGHT, points, 54, 54);
  const marks = lines.flatMap((rulings, i) => {
    const width = parts[i]?.heavy === true ? MEDIUM * 1.4 : FINE;
    const sides = [0, Math.PI].map((station) => {
      const turn = ((((station - (parts[i]?.seam ?? 0)) / (2 * Math.PI)) % 1) + 1) % 1;
      return rulings[Math.round(turn * STEPS)] as (typeof rulings)[number];
    });
    return [
      viewLine(
        project,
        rulings.map(({ foot }) => foot),
        'continuous',
        width,
      ),
      viewLine(
        project,
        rulings.map(({ head }) => head),
        'continuous',
        width,
      ),
      ...sides.map(({ foot, head }) => viewLine(project, [foot, head], 'continuous', width)),
    ];
  });
  return makePicture(title, marks);
};
