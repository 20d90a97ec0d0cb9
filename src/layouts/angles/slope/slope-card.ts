import type { SheetFigures } from '../../../drawing/fit-up.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import type { Mark } from '../../../drawing/model.ts';
import {
  arcPath,
  FINE,
  letter,
  linePath,
  MEDIUM,
  NARROW,
  polylinePath,
  ruleLine,
  stroke,
} from '../../../drawing/paths.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { itemAt } from '../../../lists.ts';
import { polar2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { scaleDepth } from '../../../sheets/arc-scale.ts';
import { sideFigures } from '../../../sheets/fit-record.ts';
import { drawOutline, drawTarget } from '../../../sheets/flat-marks.ts';
import { say } from '../../../words/say.ts';
import { slopeScaleMarks, slopeScales } from './slope-scales.ts';

/** Paper past the outermost arc on the sides, and past it at the edges the card stands on, mm. */
const SIDE = 6;
const FOOT = 11;
const HEAD = 15;

/** From one scale's arc to the next, mm. */
const PITCH = scaleDepth() + 1.5;

/** The least string on which all four scales keep apart, mm. */
export const LEAST_STRING = 80;

/** Radii of the scales, the string's end first. */
export const scaleRadii = (string: number): readonly number[] =>
  slopeScales().map((_, i) => string - i * PITCH);

/**
 * The card's corners, counter-clockwise from the lower left end of its foot: the foot is level, the edges beside it stand at
 * 45°, the head is level. The pin is the origin; foot and 45° edges lie equally far from it.
 */
export const cardCorners = (string: number): readonly Vec2[] => {
  const foot = string + FOOT;
  const half = string * Math.sin(60 * DEGREE) + SIDE;
  const level = foot * (Math.SQRT2 - 1);
  const shoulder = foot * Math.SQRT2 - half;
  return [
    vec2(-level, -foot),
    vec2(level, -foot),
    vec2(half, -shoulder),
    vec2(half, HEAD),
    vec2(-half, HEAD),
    vec2(-half, -shoulder),
  ];
};

/** Marks past the degree arc where the line hangs at a slope, on both sides; none beyond the scale. */
const askedMarks = (string: number, slope: number): Mark[] =>
  slope > 60 * DEGREE
    ? []
    : [-1, 1].map((side) => {
        const at = -Math.PI / 2 + side * slope;
        return ruleLine('reference', polar2(string + 0.6, at), polar2(string + 4, at), MEDIUM);
      });

/** The card's sides. */
export const slopeCardFigures = (string: number): Partial<SheetFigures> => sideFigures(cardCorners(string));

/** The whole card: outline on `cut`, pin on `punch`, scales on `station`, the slope asked for on `reference`. */
export const slopeCardMarks = (string: number, slope?: number): Mark[] => {
  const radii = scaleRadii(string);
  const foot = string + FOOT;
  const words = (text: string, at: Vec2, angle: number, height = 2.5, bold = false): Mark =>
    letter('text', at, text, height, { align: 'centre', valign: 'middle', angle, bold });
  const low = polar2(string * 0.32, -Math.PI / 2 - 62 * DEGREE);
  return [
    drawOutline(polylinePath(cardCorners(string), true)),
    ...slopeScales().flatMap((scale, i) => {
      const radius = itemAt(radii, i);
      const reach = scale.angleOf(scale.most);
      return [
        stroke('station', arcPath(vec2(0, 0), radius, -Math.PI / 2 - reach, -Math.PI / 2 + reach), FINE),
        ...slopeScaleMarks(scale, radius),
        ...(scale.sign === '' ? scaleName(scale.name, radius) : []),
      ];
    }),
    ...(slope === undefined ? [] : askedMarks(string, slope)),
    // The line at rest.
    stroke(
      'centre',
      linePath(vec2(0, -6), vec2(0, -itemAt(radii, 3) + scaleDepth() + 1)),
      NARROW,
      'long-dash-dot',
    ),
    words(say`stand on this edge: level reads 0`, vec2(0, -foot + 3.2), 0),
    words(say`this edge: level reads 45`, polar2(foot - 3.2, -45 * DEGREE), 45 * DEGREE),
    words(say`this edge: level reads 45`, polar2(foot - 3.2, -135 * DEGREE), -45 * DEGREE),
    words(say`left end low`, low, 0, 3.5, true),
    words(say`right end low`, vec2(-low.x, low.y), 0, 3.5, true),
    words(say`hold under a pipe: this edge up`, vec2(0, HEAD - 3.4), 0),
    words(say`pin`, vec2(8, 0), 0),
    ...drawTarget(vec2(0, 0)),
  ];
};

/** A scale's name past its ends, reading along the arc. */
const scaleName = (name: string, radius: number): Mark[] => {
  const at = radius - 4;
  const turn = 49 * DEGREE + textWidth(name, 2.5, false) / 2 / at;
  return [-1, 1].map((side) =>
    letter('text', polar2(at, -Math.PI / 2 + side * turn), name, 2.5, {
      align: 'centre',
      valign: 'middle',
      angle: side * turn,
    }),
  );
};
