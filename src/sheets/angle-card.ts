import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { arcPath, letter, linePath } from '../drawing/paths.ts';
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

/** The card's closed outline on `cut`, its words along its middle; past the arc where the card is too narrow. */
export const angleCard = ({ corner, angle, radius, name, value }: AngleCard): Mark[] => {
  const arc = arcPath(corner, radius, 0, angle);
  const half = angle / 2;
  const reading = uprightAngle(polar2(1, half));
  const up = polar2(1, reading + Math.PI / 2);
  const wide = Math.max(textWidth(name, 3.5, false), textWidth(value, 5, true));
  // Words stand at the outer end; their inner end must lie where the card is 14 mm broad.
  const at = radius - 4 - wide / 2;
  const fits = angle > 2.6 || (at - wide / 2) * Math.tan(Math.min(half, 1.5)) > 7;
  const middle = fits
    ? Math.min(at, Math.max(radius * 0.6, wide / 2 + 7 / Math.tan(Math.min(half, 1.5)) + 2))
    : radius + 4 + wide / 2;
  const place = (off: number): Vec2 => add2(add2(corner, polar2(middle, half)), scale2(up, off));
  const style = { align: 'centre', valign: 'middle', angle: reading } as const;
  return [
    drawOutline({
      start: corner,
      segments: [...linePath(corner, arc.start).segments, ...arc.segments, { kind: 'line', to: corner }],
      closed: true,
    }),
    letter('text', place(3.2), value, 5, { ...style, bold: true }),
    letter('text', place(-3.2), name, 3.5, style),
  ];
};
