import { markBounds } from '../../../drawing/extent.ts';
import type { Sheet, Table } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { growBox, letter, unionBox } from '../../../drawing/paths.ts';
import { angleField, choiceField, lengthField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import type { RollingOffset } from '../../../geometry/rolling-offset.ts';
import { bandFields, pickBand } from '../../../sheets/band-fields.ts';
import { gapField } from '../../../sheets/contact.ts';
import { elbowTrimSheet } from '../../../sheets/elbow-trim.ts';
import { nameElbow } from '../../../stock/elbow.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import type { Setting } from '../../../units/setting.ts';
import { type Piece, solvePiece } from '../piece/piece-solve.ts';
import { drawPiece } from '../piece/piece.ts';
import { boxScene, offsetScene } from './rolling-offset-scene.ts';
import { chooseFitting, cutLength, type Fitting, solveOffset } from './rolling-offset-solve.ts';

import { halfGap } from '../../../geometry/turn.ts';
import { describeStock } from '../../../sheets/band-words.ts';
import { writeAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
const known = (help: string, example: string) => lengthField(help, { example, max: 100_000, optional: true });

/** Two parallel runs joined by a travel piece, with elbows or mitered turns. */
export const rollingOffset = defineLayout({
  id: 'rolling-offset',
  summary: 'rolling offset: travel, turns, take-offs and cut length, with the bands it needs',
  family: 'pipe ends',
  words: ['offset', 'travel', 'take-off', 'takeout', 'run', 'set', 'elbow', '45'],
  fields: {
    stock: pipeField('the pipe of both runs and of the travel', {
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
    }),
    turns: choiceField(
      'how the pipe turns: butt-weld elbows by ASME B16.9, trimmed where none is made for the turn, or mitered',
      ['long-radius', 'short-radius', 'miter'],
      { default: 'long-radius' },
    ),
    set: known('how far the second run lies above the first, center to center', '12in'),
    roll: known('how far it lies to the side', '9in'),
    run: known('how far apart the turns are along the runs', '20in'),
    travel: known('center of turn to center of turn along the travel', '25in'),
    turn: angleField('change of direction at each turn', {
      example: '45',
      above: 0,
      max: 90 * DEGREE,
      optional: true,
    }),
    rollAngle: angleField('lean of the offset from plumb, with travel and turn', {
      example: '36.87',
      min: 0,
      max: 90 * DEGREE,
      optional: true,
    }),
    gap: gapField,
    ...bandFields,
  },
  sheets: ['rolling offset', 'elbow trim', 'start end', 'finish end'],
  examples: [
    'rolling-offset --stock "NPS 6 sch 40" --set 12in --roll 9in --turn 45',
    'rolling-offset --stock "DN 100 sch 40" --set 400mm --roll 300mm --run 600mm --gap 2mm --paper a4',
    'rolling-offset --stock "NPS 4 sch 40" --travel 30in --turn 60 --roll-angle 20 --turns miter',
  ],
  draw: ({ stock: pipe, turns, set, roll, run, travel, turn, rollAngle, gap, ...rest }, setting) => {
    const solved = solveOffset({ set, roll, run, travel, turn, rollAngle });
    const fitting = chooseFitting(pipe, turns, solved.turn);
    const making = pickBand(rest);
    if (!fitting.elbow) {
      const cut = {
        shape: { kind: 'miter', cut: solved.turn / 2 },
        gap: halfGap(gap, solved.turn / 2),
        joint: gap,
      } as const;
      const piece = solvePiece({
        stock: pipe,
        start: cut,
        finish: cut,
        roll: Math.PI,
        length: solved.travel,
        between: 'centers',
        contact: undefined,
      });
      return [offsetSheet(solved, fitting, pipe, gap, piece, setting), ...drawPiece(piece, making, setting)];
    }
    const main = offsetSheet(solved, fitting, pipe, gap, undefined, setting);
    const { elbow, trimmed, takeOff } = fitting;
    return trimmed
      ? [main, elbowTrimSheet({ pipe, elbow, turn: solved.turn, takeOff, needed: 2, making }, setting)]
      : [main];
  },
  scene: ({ stock, turns, gap, ...known }, setting) => {
    const solved = solveOffset(known);
    const fitting = chooseFitting(stock, turns, solved.turn);
    return offsetScene(solved, fitting, stock, cutLength(solved, fitting, gap), setting);
  },
});

const offsetSheet = (
  solved: RollingOffset,
  fitting: Fitting,
  pipe: Pipe,
  gap: number,
  piece: Piece | undefined,
  setting: Setting,
): Sheet => {
  const { turn, rollAngle } = solved;
  const cut = piece ? piece.overall : cutLength(solved, fitting, gap);
  const [box] = scenePictures(boxScene(solved, setting));
  const under = { x: box?.bounds.minX ?? 0, y: (box?.bounds.minY ?? 0) - 5 };
  const marks = [
    ...(box?.marks ?? []),
    letter('dimension', under, say`The offset from the side and above. Not to scale.`, 2.5),
  ];
  return {
    name: 'rolling offset',
    heading: say`Rolling offset`,
    subject: [
      say`${pipe.designation}, turns of ${writeAngle(turn)}: ${fitting.elbow ? nameElbow(fitting.elbow) : say`mitered`}`,
      describeStock(pipe, setting),
      say`All lengths run between center lines unless said otherwise; this sheet is not a full-size drawing`,
    ],
    marks,
    bounds: growBox(unionBox(marks.map(markBounds)), 1),
    steps: [
      say`Measure set, roll and run again between the center lines of the two runs, square to each other.`,
      piece
        ? say`Cut the travel from the sheets start end and finish end, ${writeAngle(turn / 2)} at both ends, the heels half a turn apart. Cut the end of each run to the same band.`
        : say`Cut the travel ${writeBoth(cut, setting)} long, both ends square.`,
      ...(fitting.trimmed
        ? [say`Trim two 90° elbows to ${writeAngle(turn)} by the sheet elbow trim.`]
        : piece
          ? []
          : [say`Take two elbows of ${writeAngle(turn)}.`]),
      say`Roll the first turn ${writeAngle(rollAngle)} from plumb, toward the roll; the second turns back in the same plane.`,
      say`Tack, then check set, roll and run before you weld out.`,
    ],
    facts: [
      [piece ? say`Pipe to cut, long to long` : say`Pipe to cut, square ends`, lengthOf(cut)],
      [say`Turn at each end`, angleOf(turn)],
      [say`Roll angle from plumb`, angleOf(rollAngle)],
      ...(piece
        ? []
        : ([
            [say`Take-off of each turn`, lengthOf(fitting.takeOff)],
            [say`Take-off from`, fitting.source],
          ] as const)),
    ],
    tables: [figures(solved, fitting, gap, cut, piece)],
    pictures: scenePictures(offsetScene(solved, fitting, pipe, cut, setting)),
    cautions: piece
      ? []
      : [
          say`Measure the fittings: a center to end differs from the table by what its maker’s tolerance allows.`,
        ],
  };
};

const figures = (
  { set, roll, offset, run, travel }: RollingOffset,
  { takeOff }: Fitting,
  gap: number,
  cut: number,
  piece: Piece | undefined,
): Table => {
  const rows: readonly (readonly [string, string, number])[] = [
    [say`Set`, '', set],
    [say`Roll, to the side`, '', roll],
    [say`True offset`, say`√(set² + roll²)`, offset],
    [say`Run, ahead`, say`true offset ÷ tan turn`, run],
    [say`Travel`, say`true offset ÷ sin turn`, travel],
    ...(piece
      ? ([
          [say`Long points`, say`travel + cutback`, piece.overall],
          [say`Short points`, say`travel − cutback`, piece.shorts],
        ] as const)
      : ([
          [say`Take-offs, both`, '', 2 * takeOff],
          ...(gap > 0 ? ([[say`Root gaps, both`, '', 2 * gap]] as const) : []),
          [say`Pipe to cut`, gap > 0 ? say`travel − take-offs − gaps` : say`travel − take-offs`, cut],
        ] as const)),
  ];
  return {
    title: say`Figures`,
    header: ['', say`from`, say`length`],
    rows: rows.map(([name, from, length]) => [name, from, lengthOf(length)]),
  };
};
