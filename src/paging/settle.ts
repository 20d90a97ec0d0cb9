import type { Box, Mark, Picture, Sheet } from '../drawing/model.ts';
import { mapPath } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';

/** Steps of a millimeter to which a drawing is rounded before it is laid on pages. */
const steps = 1e7;

const settle = (value: number): number => Math.round(value * steps) / steps;
const settlePoint = ({ x, y }: Vec2): Vec2 => ({ x: settle(x), y: settle(y) });

/** A box to a ten-millionth of a millimeter. */
export const settleBox = ({ minX, minY, maxX, maxY }: Box): Box => ({
  minX: settle(minX),
  minY: settle(minY),
  maxX: settle(maxX),
  maxY: settle(maxY),
});

const settleMark = (mark: Mark): Mark =>
  mark.kind === 'text'
    ? { ...mark, at: settlePoint(mark.at) }
    : { ...mark, path: mapPath(mark.path, settlePoint) };

const settlePicture = ({ title, marks, bounds }: Picture): Picture => ({
  title,
  marks: marks.map(settleMark),
  bounds: settleBox(bounds),
});

/**
 * A sheet with every coordinate to a ten-millionth of a millimeter. Engines differ in the last bits of sines and of arc
 * lengths; where two ways to lay a page are equally good, or something just goes in, those bits would decide.
 */
export const settleSheet = (sheet: Sheet): Sheet => ({
  ...sheet,
  marks: sheet.marks.map(settleMark),
  bounds: settleBox(sheet.bounds),
  pictures: sheet.pictures.map(settlePicture),
});
