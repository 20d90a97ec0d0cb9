import type { Mark, Picture } from '../../../drawing/model.ts';
import { boxPath, FINE, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { vec2 } from '../../../geometry/vector.ts';
import { writePlain } from '../../../sheets/arcs.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';
import type { Spacing } from './spacing-marks.ts';

const WIDTH = 52;
const HEIGHT = 8;

/** The strip with its allowances and a few of its parts, broken in the middle. */
export const spacingPicture = (strip: Spacing, setting: Setting): Picture => {
  const { first, last, part, parts, total, wraps } = strip;
  const write = (length: number): string => writePlain(length, setting);
  const [start, end] = [first > 0 ? 11 : 0, last > 0 ? WIDTH - 11 : WIDTH];
  const shown = Math.min(parts, 4);
  const step = (end - start) / shown;
  const ticks = Array.from({ length: shown + 1 }, (_, i) => start + i * step);
  const number = (i: number): string =>
    i === shown ? `${parts}` : shown === parts || i < 2 ? `${i}` : i === 2 ? '…' : `${parts - 1}`;
  const marks: Mark[] = [
    viewPath(boxPath({ minX: 0, maxX: WIDTH, minY: -HEIGHT, maxY: 0 }), FINE),
    viewRule(vec2(0, 0), vec2(WIDTH, 0), WIDE),
    ...ticks.map((x) => viewRule(vec2(x, 0), vec2(x, -3))),
    ...ticks.flatMap((x, i) =>
      viewText(vec2(Math.min(WIDTH - 2.6, Math.max(2, x)), -5.4), number(i), 'centre', true),
    ),
    ...viewDimension(
      vec2(start, 0),
      vec2(start + step, 0),
      5,
      writePlain(part, { ...setting, denominator: 64 }),
    ),
    ...(first > 0 ? viewDimension(vec2(0, -HEIGHT), vec2(start, -HEIGHT), -4, write(first)) : []),
    ...(last > 0 ? viewDimension(vec2(end, -HEIGHT), vec2(WIDTH, -HEIGHT), -4, write(last)) : []),
    ...viewDimension(vec2(0, -HEIGHT), vec2(WIDTH, -HEIGHT), first + last > 0 ? -12 : -5, write(total)),
    ...viewText(vec2(WIDTH / 2 + (step < 20 ? 8 : 14), 3), say`mark along this edge`),
  ];
  return makePicture(wraps ? say`The strip, printed side out` : say`The strip, printed side up`, marks);
};
