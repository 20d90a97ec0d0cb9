import type { Measured } from '../drawing/measured.ts';
import type { Sheet } from '../drawing/model.ts';
import { TURN } from '../geometry/angle-units.ts';
import { vec3 } from '../geometry/vector.ts';
import { solidMate } from '../joint/solid-mate.ts';
import type { Solid } from '../joint/solid.ts';
import { nameElbow, type Elbow } from '../stock/elbow.ts';
import type { Pipe } from '../stock/pipe.ts';
import { stationNumber } from '../stock/station.ts';
import { formatAngle } from '../units/angle.ts';
import { angleOf, lengthOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import { say } from '../words/say.ts';
import type { BandValues } from './band-fields.ts';
import { WRAPPED } from './band-paper.ts';
import { bandSheet } from './band-sheet.ts';
import { drawCutBand } from './cut-band.ts';
import { endPicture } from './end-picture.ts';
import { shown, taken } from './measured.ts';

/** A 90° elbow cut to a smaller turn. Lengths in mm, angles in radians. */
export interface ElbowTrim {
  readonly pipe: Pipe;
  readonly elbow: Elbow;
  readonly turn: number;
  /** Center to end after the cut. */
  readonly takeOff: number;
  /** How many are cut so. */
  readonly needed: number;
  readonly making: BandValues;
  /** The sheet's name, where a print has more than one. */
  readonly name?: string;
}

/** Length of the elbow's outside along a station's line through the turn: (bend radius + r cos station) · turn; heel 0. */
export const elbowArc = (bendRadius: number, radius: number, turn: number, station: number): number =>
  turn * (bendRadius + radius * Math.cos(station));

/**
 * The sheet `elbow trim`: the cut is square to the elbow's center line, a plane circle that a straight paper edge follows;
 * where it lies is stepped off along heel, throat and sides.
 */
export const elbowTrimSheet = (
  { pipe, elbow, turn, takeOff, needed, making, name = 'elbow trim' }: ElbowTrim,
  setting: Setting,
): Sheet => {
  const words = [say`HEEL · TDC`, say`SIDE`, say`THROAT`, say`SIDE`] as const;
  const plane: Solid = { kind: 'plane', through: vec3(0, 0, 0), normal: vec3(0, 0, -1) };
  const end = { mate: solidMate(plane), contact: 'od', gap: 0 } as const;
  const band = drawCutBand(pipe, end, { ...making, madeFrom: 'pipe' }, words, setting);
  /** Along the elbow it turns about the bend's center, farther out at the heel by half of what a tape around the pipe says. */
  const onElbow = (station: number): Measured =>
    taken({ kind: 'girth' }, (turn * Math.cos(station)) / TURN, turn * elbow.bendRadius);
  const arc = (station: number): number => elbowArc(elbow.bendRadius, pipe.od / 2, turn, station);
  const rest = Math.PI / 2 - turn;
  return bandSheet(
    {
      name,
      heading: say`Elbow trim`,
      stock: pipe,
      band,
      making: WRAPPED,
      about: [
        say`90° ${nameElbow(elbow)} cut to ${formatAngle(turn, 2)}${needed > 1 ? say`; ${needed === 2 ? say`two` : needed} are needed` : ''}`,
      ],
      aboutMore: [say`Bend radius ${writeBoth(elbow.bendRadius, setting)}, ${elbow.source}`],
      lines: [{ which: 'upper', contact: 'od', gap: 0, solids: [plane] }],
      before: [
        say`Chalk the heel, throat and side lines along the elbow from its quarter points.`,
        say`From the face you keep, step off along the elbow: ${writeBoth(arc(0), setting)} on the heel, ${writeBoth(arc(Math.PI), setting)} on the throat, ${writeBoth(arc(Math.PI / 2), setting)} on both sides.`,
        say`Slit the paper on the station lines to just under the cut line, so that it lies down on the bend.`,
      ],
      wrap: say`Lay the cut line through the marks, heel on heel, KEEP toward the face you kept.`,
      after: [
        say`Cut square to the elbow’s center line and bevel. Check: center to end is ${writeBoth(takeOff, setting)}.`,
      ],
      facts: [
        [say`Heel, along the elbow`, shown(lengthOf(arc(0)), onElbow(0))],
        [say`Sides, along the elbow`, shown(lengthOf(arc(Math.PI / 2)), onElbow(Math.PI / 2))],
        [say`Throat, along the elbow`, shown(lengthOf(arc(Math.PI)), onElbow(Math.PI))],
        [say`Center to end after the cut`, lengthOf(takeOff)],
        ...(rest > 1e-9
          ? ([
              [say`The piece cut off turns`, angleOf(rest)],
              [say`Its center to end`, lengthOf(elbow.bendRadius * Math.tan(rest / 2))],
            ] as const)
          : []),
      ],
      tables: [
        {
          title: say`By tape: along the elbow’s outside from the face you keep`,
          goesAround: true,
          header: [say`Station`, say`length`],
          rows: Array.from({ length: 16 }, (_, i) => (i * TURN) / 16).map((station) => [
            stationNumber(station),
            shown(lengthOf(arc(station)), onElbow(station)),
          ]),
        },
      ],
      pictures: [
        endPicture(say`Facing the cut end of the elbow`, pipe, [
          say`heel, TDC`,
          say`side`,
          say`throat`,
          say`side`,
        ]),
      ],
      cautions: [
        say`A trimmed elbow keeps its wall only where the maker left it: measure it at the cut before you bevel.`,
      ],
    },
    setting,
  );
};
