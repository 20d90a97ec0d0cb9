import type { Fact, Figure, Mark, Table } from '../drawing/model.ts';
import { FINE, letter, ruleLine } from '../drawing/paths.ts';
import { once, worded } from '../drawing/worded.ts';
import { NONE } from '../drawing/written.ts';
import { radiusOfChord, riseAt } from '../geometry/chord.ts';
import { add2, type Vec2 } from '../geometry/vector.ts';
import { fineOf, givenOf, type Length, lengthOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeShort } from '../units/writing.ts';
import { onPaper } from './flat-marks.ts';
import { ORIGIN, apart, shown, taken, uprightAt } from './measured.ts';
import { say } from '../words/say.ts';

/** Parts of every sheet with an arc: ordinates from its chord, what light under a gauge shows, the plate to be rolled. */

/** An arc no larger than a half circle, by radius and chord. */
export interface ChordArc {
  readonly radius: number;
  readonly chord: number;
  readonly rise: number;
}

const roundSteps = {
  mm: [1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 5000],
  in: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 48, 96, 192].map((inches) => inches * 25.4),
} as const;

/** A round distance between ordinates: at most `most` of them from the middle to an end. */
export const roundStep = (half: number, { units }: Setting, most = 12): number =>
  roundSteps[units].find((step) => half / step <= most) ?? half / most;

/** Distances from the chord's middle at which ordinates stand: whole steps, then the end. */
export const ordinatePlaces = (half: number, step: number): readonly number[] => {
  const whole = Math.floor(half / step + 1e-9);
  const places = Array.from({ length: whole + 1 }, (_, i) => i * step);
  return half - whole * step > 1e-6 * half ? [...places, half] : places;
};

/** Arcs with less rise than this are given to 0.01 mm. */
const FLAT = 10;

/** A height of an arc with so much rise, mm: finer than other lengths, finer still where the rise is small. */
export const heightOf = (height: number, rise: number): Length => fineOf(height, rise < FLAT ? 2 : 1);

/** Ordinates from the chord, whose middle lies at `middle`, for striking the arc with square and straightedge through the points. */
export const ordinateTable = (
  { radius, chord, rise }: ChordArc,
  step: number,
  title = say`Ordinates from the chord, the same on both sides of its middle`,
  middle: Vec2 = { x: 0, y: 0 },
): Table => ({
  title,
  header: [say`from middle`, say`up`],
  rows: ordinatePlaces(chord / 2, step).map((x) => {
    const up = Math.max(0, riseAt(radius, rise, x));
    return [
      fineOf(x),
      shown(
        heightOf(up, rise),
        taken(apart(ORIGIN, uprightAt('cut', middle.x + x, middle.y + up), 'y'), 1, -middle.y),
      ),
    ];
  }),
});

/** A distance where space is short: whole millimetres without decimal and unit. */
export const writePlain = (length: number, setting: Setting): string =>
  writeShort(length, setting).replace(/\.0$/, '');

/**
 * The chord, and the ordinates over it with their distance from the middle under each. `middle` is the chord's middle.
 * Where the rise is more than `deepest` only the ends of the chord and of the ordinates are drawn: the table has the rest.
 */
export const ordinateMarks = (
  { radius, chord, rise }: ChordArc,
  middle: Vec2,
  step: number,
  setting: Setting,
  deepest = 100,
): Mark[] => {
  const at = (x: number, y: number): Vec2 => add2(middle, { x, y });
  const half = chord / 2;
  const places = ordinatePlaces(half, step);
  const signed = [...places, ...places.filter((x) => x > 0).map((x) => -x)].sort((a, b) => a - b);
  const whole = rise <= deepest;
  const tight = step < 6;
  const tail = (x: number, top: number): number =>
    whole ? 0 : Math.max(0, top - 12, x === 0 ? top - 25 : 0);
  return [
    ...(whole
      ? [ruleLine('reference', at(-half, 0), at(half, 0), FINE)]
      : [-1, 1].map((side) =>
          ruleLine('reference', at(side * half, 0), at(side * Math.max(0, half - 40), 0), FINE),
        )),
    ...signed
      .filter((x) => Math.abs(Math.abs(x) - half) > 1e-9)
      .map((x) => {
        const top = riseAt(radius, rise, x);
        return ruleLine('station', at(x, tail(x, top)), at(x, top), FINE);
      }),
    ...signed
      .filter((x, i) => Math.abs(x) < half - Math.min(step, 5) / 2 && (!tight || i % 2 === 0 || x === 0))
      .flatMap((x) => {
        const foot = tail(x, riseAt(radius, rise, x));
        const text = letter('text', at(x, foot - 1.2), writePlain(Math.abs(x), setting), 2.5, {
          align: 'right',
          valign: 'middle',
          angle: Math.PI / 2,
        });
        return onPaper(text, 0.3);
      }),
  ];
};

/** Gaps a fitter sees and feels against a gauge. */
const lights = {
  mm: [0.5, 1, 2, 3, 5],
  in: [1 / 64, 1 / 32, 1 / 16, 1 / 8, 3 / 16].map((gap) => gap * 25.4),
} as const;

/**
 * What light between gauge and plate shows: the plate's own radius, exact from the rise over the gauge's chord. `convex`
 * is a gauge that lies in the plate.
 */
export const lightTable = ({ chord, rise }: ChordArc, convex: boolean, { units }: Setting): Table => {
  const radiusAt = (change: number): Figure | string =>
    rise + change > rise / 100 && rise + change <= chord / 2
      ? fineOf(radiusOfChord(chord, rise + change))
      : NONE;
  const [middle, ends] = convex ? [1, -1] : [-1, 1];
  return {
    title: say`The radius rolled, by the light under the gauge`,
    header: [say`light`, say`in the middle`, say`at both ends`],
    rows: lights[units].map((gap) => [once(fineOf(gap)), radiusAt(middle * gap), radiusAt(ends * gap)]),
  };
};

/**
 * The flat length of plate to be rolled, on its mean radius; `radius` is that of the face named by `face`, `angle` what it
 * takes of the full turn. Nothing where no thickness is given.
 */
export const rolledFacts = (
  radius: number,
  face: 'inside' | 'outside',
  thickness: number | undefined,
  angle: number | undefined,
): readonly Fact[] => {
  if (thickness === undefined) return [];
  const mean = face === 'inside' ? radius + thickness / 2 : radius - thickness / 2;
  const other = face === 'inside' ? radius + thickness : radius - thickness;
  return [
    [
      say`Plate`,
      worded(
        (value) =>
          say`${value(givenOf(thickness))} thick, ${face === 'inside' ? say`outside` : say`inside`} radius ${value(lengthOf(other))}`,
      ),
    ],
    [say`Mean radius`, lengthOf(mean)],
    ...(angle === undefined
      ? []
      : ([[say`Plate for this arc, on the mean radius`, lengthOf(mean * angle)]] as const)),
    [say`Plate for a full turn, on the mean diameter`, lengthOf(2 * Math.PI * mean)],
  ];
};
