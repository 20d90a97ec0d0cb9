import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { arcPath, letter, linePath } from '../drawing/paths.ts';
import { itemAt } from '../lists.ts';
import { add2, polar2, scale2, type Vec2 } from '../geometry/vector.ts';
import { drawOutline, uprightAngle } from './flat-marks.ts';

/** A card to set a bevel or a blade by: a piece of a circle with its corner at `corner`, one edge along +x. */
export interface AngleCard {
  readonly corner: Vec2;
  readonly angle: number;
  readonly radius: number;
  /** What it is set to, in one or two words, and the angle as written. */
  readonly name: string;
  readonly value: string;
}

/** Where the words stand along the card's middle, from its corner, mm, and how high the name is. */
const wordsOn = ({
  angle,
  radius,
  name,
  value,
}: AngleCard): { readonly middle: number; readonly height: number } => {
  const tangent = Math.tan(Math.min(angle / 2, 1.5));
  const spans = [3.5, 2.5].map((height) => {
    const wide = Math.max(textWidth(name, height, false), textWidth(value, 5, true));
    return { height, wide, at: radius - 4 - wide / 2 };
  });
  // Words stand at the outer end; their inner end must lie where the card is 14 mm broad.
  const inside = spans.find(({ at, wide }) => angle > 2.6 || (at - wide / 2) * tangent > 7);
  if (inside === undefined) {
    const { height, wide } = itemAt(spans, 0);
    return { middle: radius + 4 + wide / 2, height };
  }
  const { at, wide, height } = inside;
  return { middle: Math.min(at, Math.max(radius * 0.6, wide / 2 + 7 / tangent + 2)), height };
};

/** The card's closed outline on `cut`, its words along its middle, smaller or past the arc where the card is too narrow. */
export const angleCard = (card: AngleCard): Mark[] => {
  const { corner, angle, radius, name, value } = card;
  const arc = arcPath(corner, radius, 0, angle);
  const half = angle / 2;
  const reading = uprightAngle(polar2(1, half));
  const up = polar2(1, reading + Math.PI / 2);
  const { middle, height } = wordsOn(card);
  const place = (off: number): Vec2 => add2(add2(corner, polar2(middle, half)), scale2(up, off));
  const style = { align: 'centre', valign: 'middle', angle: reading } as const;
  return [
    drawOutline({
      start: corner,
      segments: [...linePath(corner, arc.start).segments, ...arc.segments, { kind: 'line', to: corner }],
      closed: true,
    }),
    letter('text', place(3.2), value, 5, { ...style, bold: true }),
    letter('text', place(-3.2), name, height, style),
  ];
};
