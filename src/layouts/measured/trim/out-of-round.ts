import type { Mark, Sheet } from '../../../drawing/model.ts';
import { circlePath, FINE, MEDIUM, polylinePath } from '../../../drawing/paths.ts';
import { viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import type { Field } from '../../../fields/field.ts';
import { parsedField } from '../../../fields/fields.ts';
import { roundAngle } from '../../../geometry/angle-units.ts';
import {
  type DiameterReading,
  ellipseDiameter,
  fitOvality,
  type Ovality,
  ovalityOfMean,
  ovalityOfSum,
} from '../../../geometry/ellipse-fit.ts';
import { itemAt } from '../../../lists.ts';
import { polar2, type Vec2 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { stationNumber, stationOf } from '../../../stock/station.ts';
import { parseAngle } from '../../../units/angle.ts';
import { parseLength } from '../../../units/length.ts';
import { quoted, refusals } from '../../../units/notation.ts';
import { lengthOf, shareOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

const HINT = () => say`write station and diameter, with commas between: 0 169.8mm, 90 166.9mm`;

/** Diameters across the pipe: `0 169.8mm, 90 166.9mm`. */
export const diametersField = (help: string): Field<readonly DiameterReading[] | undefined> =>
  parsedField(help, {
    kind: 'designation',
    symbol: 'A L, …',
    optional: true,
    example: '0 169.8mm, 90 166.9mm',
    fromRows: (rows) => rows.map((row) => row.filter((cell) => cell !== '').join(' ')).join(', '),
    parse: (text, { units, path }) => {
      const refuse = refusals(path);
      return text
        .split(/[,;]/)
        .map((part) => part.trim())
        .filter((part) => part !== '')
        .map((part) => {
          const [, station = '', diameter = ''] = /^(\S+?)(?:°|deg)?[ :]+(.+)$/.exec(part) ?? [];
          if (diameter === '')
            throw refuse('not-understood', say`"${quoted(part)}" is not a station and a diameter`, HINT());
          const value = parseLength(diameter, { units, path });
          if (value <= 0)
            throw refuse('not-positive', say`the diameter at ${station} is not above zero`, HINT());
          return { station: parseAngle(station, { path }), diameter: value };
        });
    },
  });

/** The ellipse of the diameters. Throws a `joint` UserError where they do not fix one. */
export const solveOvality = (readings: readonly DiameterReading[]): Ovality => {
  const found = fitOvality(readings);
  if (found) return found;
  throw jointError(
    'diameters',
    'not-determined',
    say`these diameters do not fix an ellipse`,
    say`measure the largest and the smallest, which stand 90° apart, or three and more at different stations`,
  );
};

const sketch = (shape: Ovality, readings: readonly DiameterReading[]): Mark[] => {
  const R = 34;
  const mean = (shape.largest + shape.smallest) / 2;
  const swing = Math.max(
    shape.largest - mean,
    ...readings.map(({ diameter }) => Math.abs(diameter - mean)),
    1e-9,
  );
  const sizeOf = (diameter: number): number => R + (7 * (diameter - mean)) / swing;
  const at = (station: number, r: number): Vec2 => polar2(r, station + Math.PI / 2);
  const ellipse = Array.from({ length: 180 }, (_, i) => {
    const station = (i * Math.PI) / 90;
    return at(station, sizeOf(ellipseDiameter(shape, station)));
  });
  return [
    viewPath(circlePath({ x: 0, y: 0 }, R), FINE, 'dashed'),
    viewPath(polylinePath(ellipse, true), MEDIUM),
    viewRule(at(shape.station, R + 12), at(shape.station + Math.PI, R + 12), FINE, 'long-dash-dot'),
    ...readings.flatMap(({ station, diameter }) =>
      [0, Math.PI].map((half) => viewPath(circlePath(at(station + half, sizeOf(diameter)), 0.8))),
    ),
    ...[0, 1, 2, 3].flatMap((quarter) =>
      viewText(
        at((quarter * Math.PI) / 2, R + 16),
        quarter === 0 ? say`0° TDC` : stationNumber((quarter * Math.PI) / 2),
        'centre',
        quarter === 0,
      ),
    ),
  ];
};

/** The sheet `out-of-round`: largest and smallest diameter, where, and ovality by both definitions. */
export const outOfRoundSheet = (
  pipe: Pipe,
  readings: readonly DiameterReading[],
  setting: Setting,
): Sheet => {
  const shape = solveOvality(readings);
  const { largest, smallest, station, girth, residuals } = shape;
  const mean = girth / Math.PI;
  return plateSheet({
    name: 'out-of-round',
    heading: say`Out-of-round`,
    subject: [
      say`${pipe.designation}: largest ${writeBoth(largest, setting)} at station ${writeStation(station)}, smallest ${writeBoth(smallest, setting)}`,
      readings.length === 2
        ? say`From two diameters 90° apart`
        : say`Best ellipse through ${readings.length} diameters`,
      say`How far it is out of round is drawn larger; this sheet is not a full-size drawing`,
    ],
    marks: sketch(shape, readings),
    steps: [
      say`Measure each diameter through the center, from station to the station across, with calipers or a pin gauge.`,
      say`Work to the mean diameter, which a tape around the pipe gives too; turn the pipe so that the two largest diameters meet.`,
    ],
    facts: [
      [say`Largest diameter`, lengthOf(largest)],
      [say`Smallest diameter`, lengthOf(smallest)],
      [say`Largest stands at station`, stationOf(roundAngle(station, 10))],
      [say`Largest less smallest`, lengthOf(largest - smallest)],
      [say`Ovality, (max − min) / (max + min)`, shareOf(ovalityOfSum(shape), 2)],
      [say`Ovality, (max − min) / mean`, shareOf(ovalityOfMean(shape), 2)],
      [say`Mean diameter, girth / π`, lengthOf(mean)],
      [say`Girth`, lengthOf(girth)],
      [say`Off the pipe’s own diameter`, lengthOf(mean - pipe.od)],
    ],
    tables: [
      {
        title: say`Diameters as read, and how far each lies over the ellipse (− under)`,
        header: [say`Station`, say`diameter`, say`off, mm`],
        rows: readings.map((reading, i) => [
          stationNumber(reading.station),
          lengthOf(reading.diameter),
          `${itemAt(residuals, i) < 0 ? '−' : '+'}${Math.abs(itemAt(residuals, i)).toFixed(2)}`,
        ]),
      },
    ],
    cautions: [
      say`Say which ovality is meant: the second is twice the first. API 5L has used the first, bends and vessels the second; the standard that rules the pipe decides.`,
    ],
  });
};

/** A station to a tenth of a degree, as it is said. */
export const writeStation = (angle: number): string => stationNumber(roundAngle(angle, 10));

/** Both figures for programs. */
export const ovalityFigures = (readings: readonly DiameterReading[]): Readonly<Record<string, unknown>> => {
  const shape = solveOvality(readings);
  return { ...shape, ofSum: ovalityOfSum(shape), ofMean: ovalityOfMean(shape) };
};
