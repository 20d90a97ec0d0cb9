import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { parseLength } from '../units/length.ts';
import { quoted, refusals } from '../units/notation.ts';
import type { Reading } from '../units/reading.ts';
import { parsedField } from './fields.ts';
import { say } from '../words/say.ts';

const rowsToText = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => row.filter((cell) => cell !== '').join(',')).join('; ');

/** Reads `x,y; x,y; …`: so many lengths a point, semicolons between points. */
const readPoints = (
  text: string,
  names: readonly string[],
  least: number,
  { units, path }: Reading,
): readonly (readonly number[])[] => {
  const refuse = refusals(path);
  const form = names.join(',');
  const hint = say`write ${form}; ${form}; … with a semicolon between points`;
  const points = text
    .split(/[;\n]/)
    .map((point) => point.trim())
    .filter((point) => point !== '')
    .map((point) => {
      const cells = point.split(',').map((cell) => cell.trim());
      if (cells.length !== names.length)
        throw refuse('not-a-point', say`"${quoted(point)}" is not a point ${form}`, hint);
      return cells.map((cell) => parseLength(cell, { units, path }));
    });
  if (points.length < least)
    throw refuse('too-few-points', say`${points.length} points are given`, say`give at least ${least}`);
  if (points.length > 10_000)
    throw refuse('too-many-points', say`${points.length} points are given`, say`give at most 10,000`);
  return points;
};

/** Points of so many named coordinates each, `least` of them or more; a CSV file may hold them, one a row. */
const pointsOf =
  <T>(names: readonly string[], make: (point: readonly number[]) => T) =>
  <O extends boolean = false>(
    help: string,
    { least, ...told }: { readonly example: string; readonly least: number; readonly optional?: O },
  ) =>
    parsedField(help, {
      ...told,
      kind: 'length',
      symbol: 'POINTS',
      fromRows: rowsToText,
      parse: (text, reading): readonly T[] => readPoints(text, names, least, reading).map(make),
    });

/** Points of a plane, `x,y; x,y; …`, or a CSV file with one a row. */
export const pointsField = pointsOf(['x', 'y'], ([x = 0, y = 0]): Vec2 => ({ x, y }));

/** Points in space, `x,y,z; x,y,z; …`, or a CSV file with one a row. */
export const spacePointsField = pointsOf(['x', 'y', 'z'], ([x = 0, y = 0, z = 0]): Vec3 => ({ x, y, z }));
