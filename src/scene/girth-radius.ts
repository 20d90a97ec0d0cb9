import { itemAround } from '../lists.ts';
import { contourLength } from '../geometry/section.ts';
import { length3, sub3 } from '../geometry/vector.ts';
import type { Shape } from './shape.ts';

/** The radius of a circle about as large as a part is across, mm: what its triangles are measured by in a picture. */
export const girthRadius = (shape: Shape): number => {
  switch (shape.kind) {
    case 'stock':
      return shape.outline.girth / (2 * Math.PI);
    case 'prism':
      return contourLength(shape.section.outside) / (2 * Math.PI);
    case 'cone':
      return Math.max(...shape.circles.map(({ radius }) => radius));
    case 'turned':
      return Math.max(
        ...shape.profile.map((run) =>
          run.kind === 'line' ? Math.max(run.from[1], run.to[1]) : run.center[1] + run.half[1],
        ),
      );
    case 'bend':
      return shape.radius;
    case 'opened':
      return girthRadius(shape.body);
    case 'shell':
      return (
        shape.rules.reduce((sum, { foot }, i) => {
          const next = itemAround(shape.rules, i + 1).foot;
          return sum + length3(sub3(next, foot));
        }, 0) /
        (2 * Math.PI)
      );
  }
};
