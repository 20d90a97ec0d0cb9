import { edgeRule, RULE_DEPTH } from '../../../sheets/edge-rule.ts';
import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Mark } from '../../../drawing/model.ts';
import { uprightAngle } from '../../../sheets/flat-marks.ts';
import { drawOutline } from '../../../sheets/flat-marks.ts';
import { FINE, letter, polylinePath, ruleLine } from '../../../drawing/paths.ts';
import { fitTriangle, type RightTriangle } from '../../../geometry/right-angle.ts';
import { polygonContour } from '../../../geometry/contour.ts';
import { vec2, type Vec2 } from '../../../geometry/vector.ts';
import { formatLength } from '../../../units/format.ts';
import type { Setting } from '../../../units/setting.ts';
import { say } from '../../../words/say.ts';

/** The paper corner: 3-4-5 in whole steps of 5 mm or 1/4 in, no longer than asked. */
export const cornerTriangle = (corner: number | undefined, { units }: Setting): RightTriangle => {
  const long = corner ?? (units === 'in' ? 6 * 25.4 : 160);
  const fitted = fitTriangle({ short: 3, long: 4, diagonal: 5 }, long, long, units === 'in' ? 6.35 : 5);
  if (!fitted) throw new Error('the corner field lets through a leg too short');
  return fitted;
};

const outlineOf = ({ short, long }: RightTriangle, snip: number): readonly Vec2[] => {
  const [x, y] = [vec2(long, 0), vec2(0, short)];
  return snip > 0 ? [vec2(snip, 0), x, y, vec2(0, snip)] : [vec2(0, 0), x, y];
};

/** Both legs and the slope of the paper corner, and its right angle where that is not snipped off. */
export const cornerFigures = (triangle: RightTriangle, snip: number): Partial<SheetFigures> => ({
  lines: polygonContour(outlineOf(triangle, snip)).map(({ from, to }) => ({ from, to })),
  ...(snip === 0 && { corners: [{ angle: Math.PI / 2 }] }),
});

/** The triangle's outline with a rule along both legs, its right angle at the origin. */
export const cornerMarks = (
  { short, long, diagonal }: RightTriangle,
  snip: number,
  setting: Setting,
): Mark[] => {
  const o = vec2(0, 0);
  const outline = outlineOf({ short, long, diagonal }, snip);
  const nearCorner = RULE_DEPTH + 3;
  const { units } = setting;
  const write = (value: number): string => formatLength(value, setting);
  const angle = uprightAngle(vec2(-long, short));
  // Square to the long side, inside it, where the triangle is broad.
  const inward = { x: (-short / diagonal) * 5, y: (-long / diagonal) * 5 };
  return [
    drawOutline(polylinePath(outline, true)),
    ...edgeRule({
      start: o,
      along: vec2(1, 0),
      length: long,
      side: 1,
      units,
      room: (at) => (at < nearCorner ? 0 : short * (1 - at / long)),
    }),
    ...edgeRule({
      start: o,
      along: vec2(0, 1),
      length: short,
      side: -1,
      units,
      room: (at) => (at < nearCorner ? 0 : long * (1 - at / short)),
    }),
    ruleLine('dimension', vec2(snip + 4, snip), vec2(snip + 4, snip + 4), FINE),
    ruleLine('dimension', vec2(snip, snip + 4), vec2(snip + 4, snip + 4), FINE),
    letter('text', vec2(long * 0.2, short * 0.3), '90°', 7, { bold: true }),
    letter('text', vec2(long * 0.2, short * 0.3 - 6), say`${write(long)} along, ${write(short)} up`, 2.5),
    letter('text', { x: long / 2 + inward.x, y: short / 2 + inward.y }, say`${write(diagonal)} across`, 3.5, {
      align: 'centre',
      valign: 'middle',
      angle,
    }),
  ];
};
