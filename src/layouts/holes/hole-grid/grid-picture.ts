import type { Mark, Picture } from '../../../drawing/model.ts';
import { boxPath, circlePath, FINE, QUARTER, unionBox } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import type { Hole } from '../../../geometry/hole-pattern.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { slotPath } from '../../../sheets/flat-marks.ts';
import { say } from '../../../words/say.ts';

/** The field of holes seen on the drilled face, with its two equal diagonals where it is square. */
export const gridPicture = (
  holes: readonly Hole[],
  plate: { readonly width: number; readonly height: number; readonly centre: Vec2 } | undefined,
  square: boolean,
): Picture => {
  const around = unionBox([
    ...holes.map(({ at, diameter }) => ({
      minX: at.x - diameter,
      maxX: at.x + diameter,
      minY: at.y - diameter,
      maxY: at.y + diameter,
    })),
    ...(plate
      ? [
          {
            minX: plate.centre.x - plate.width / 2,
            maxX: plate.centre.x + plate.width / 2,
            minY: plate.centre.y - plate.height / 2,
            maxY: plate.centre.y + plate.height / 2,
          },
        ]
      : []),
  ]);
  const scale = Math.min(48 / (around.maxX - around.minX), 40 / (around.maxY - around.minY));
  const small = ({ x, y }: Vec2): Vec2 => ({ x: x * scale, y: y * scale });
  const marks: Mark[] = [
    viewPath(
      boxPath({
        minX: around.minX * scale,
        maxX: around.maxX * scale,
        minY: around.minY * scale,
        maxY: around.maxY * scale,
      }),
      plate ? QUARTER : FINE,
      plate ? 'continuous' : 'dashed',
    ),
    ...holes.map(({ at, diameter, slot }) =>
      viewPath(
        slot
          ? slotPath(small(at), diameter * scale, slot.length * scale, slot.along)
          : circlePath(small(at), Math.max(0.4, (diameter * scale) / 2)),
      ),
    ),
  ];
  const first = holes[0];
  const last = holes[holes.length - 1];
  if (square && first && last) {
    const [a, b] = [small(first.at), small(last.at)];
    marks.push(viewRule(a, b, FINE), viewRule({ x: a.x, y: b.y }, { x: b.x, y: a.y }, FINE));
  }
  if (first)
    marks.push(...viewText({ x: small(first.at).x, y: around.minY * scale - 3 }, '1', 'centre', true));
  return makePicture(
    square ? say`Both diagonals equal: the pattern is square` : say`Seen on the drilled face`,
    marks,
  );
};
