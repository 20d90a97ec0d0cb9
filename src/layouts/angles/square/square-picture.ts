import type { Mark, Picture } from '../../../drawing/model.ts';
import { circlePath, FINE, linePath, polylinePath, QUARTER } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewText } from '../../../drawing/view.ts';
import type { RightTriangle } from '../../../geometry/right-angle.ts';
import { scale2, vec2 } from '../../../geometry/vector.ts';
import { say } from '../../../words/say.ts';

/** The longest whole triangle in its frame, seen from above. */
export const trianglePicture = (
  length: number,
  width: number,
  triangle: RightTriangle,
  write: (length: number) => string,
): Picture => {
  const [long, short] = [Math.max(length, width), Math.min(length, width)];
  const scale = Math.min(44 / long, 34 / short);
  const at = (x: number, y: number) => scale2(vec2(x, y), scale);
  const [o, x, y] = [at(0, 0), at(triangle.long, 0), at(0, triangle.short)];
  const marks: Mark[] = [
    viewPath(polylinePath([o, at(long, 0), at(long, short), at(0, short)], true)),
    viewPath(linePath(x, y), QUARTER, 'dashed'),
    viewPath(circlePath(x, 0.7), FINE),
    viewPath(circlePath(y, 0.7), FINE),
    ...viewDimension(x, o, 4.5, write(triangle.long)),
    ...viewDimension(o, y, 4.5, write(triangle.short)),
    ...viewText(scale2(at(triangle.long, triangle.short), 0.5), write(triangle.diagonal), 'centre', true),
  ];
  return makePicture(say`Mark both legs, tape across`, marks);
};
