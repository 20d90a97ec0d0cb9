import { markBounds } from '../../../drawing/extent.ts';
import type { Sheet, Table } from '../../../drawing/model.ts';
import { growBox, unionBox } from '../../../drawing/shape.ts';
import { angleField, choiceField, lengthField, optional, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import type { RollingOffset } from '../../../geometry/rolling-offset.ts';
import { vec3 } from '../../../geometry/vector.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import type { Solid } from '../../../joint/solid.ts';
import { bandFields, pickBand, type BandValues } from '../../../sheets/band-fields.ts';
import { gapField } from '../../../sheets/contact.ts';
import { drawCutBand } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { type Setting } from '../../../units/setting.ts';
import { solvePiece, type Piece } from '../piece/piece-solve.ts';
import { drawPiece } from '../piece/piece.ts';
import { alongRunPicture, offsetSketch, trueViewPicture } from './rolling-offset-picture.ts';
import { chooseFitting, cutLength, solveOffset, writeAngle, type Fitting } from './rolling-offset-solve.ts';

import { WRAPPED } from '../../../sheets/band-paper.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { describeStock } from '../../../sheets/band-words.ts';
import { stationNumber } from '../../../stock/station.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import { writeBoth } from '../../../units/writing.ts';

const TURN = 2 * Math.PI;
const DEGREE = Math.PI / 180;
const known = (help: string, example: string) => optional(lengthField({ help, example, max: 100_000 }));

/** Two parallel runs joined by a travel piece, with elbows or mitered turns. */
export const rollingOffset = defineLayout({
  id: 'rolling-offset',
  summary: 'rolling offset: travel, turns, take-offs and cut length, with the bands it needs',
  family: 'pipe ends',
  words: ['offset', 'travel', 'take-off', 'takeout', 'run', 'set', 'elbow', '45'],
  fields: {
    stock: pipeField({
      help: 'the pipe of both runs and of the travel',
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
    }),
    turns: choiceField(['long-radius', 'short-radius', 'miter'], {
      help: 'how the pipe turns: butt-weld elbows by ASME B16.9, trimmed where none is made for the turn, or mitered',
      default: 'long-radius',
    }),
    set: known('how far the second run lies above the first, center to center', '12in'),
    roll: known('how far it lies to the side', '9in'),
    run: known('how far apart the turns are along the runs', '20in'),
    travel: known('center of turn to center of turn along the travel', '25in'),
    turn: optional(
      angleField({ help: 'change of direction at each turn', example: '45', above: 0, max: 90 * DEGREE }),
    ),
    rollAngle: optional(
      angleField({
        help: 'lean of the offset from plumb, with travel and turn',
        example: '36.87',
        min: 0,
        max: 90 * DEGREE,
      }),
    ),
    gap: gapField,
    ...bandFields,
  },
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
      const cut = { shape: { kind: 'miter', cut: solved.turn / 2 }, gap } as const;
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
    return fitting.trimmed ? [main, trimSheet(solved, fitting, pipe, making, setting)] : [main];
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
  const marks = offsetSketch(solved, setting);
  return {
    name: 'rolling offset',
    heading: 'Rolling offset',
    laidOn: 'pipe',
    subject: [
      `${pipe.designation}, turns of ${writeAngle(turn)}: ${fitting.elbow ? fitting.elbow.designation : 'mitered'}`,
      describeStock(pipe, setting),
      'All lengths run between center lines unless said otherwise; this sheet is not a full-size drawing',
    ],
    marks,
    bounds: growBox(unionBox(marks.map(markBounds)), 1),
    steps: [
      'Measure set, roll and run again between the center lines of the two runs, square to each other.',
      piece
        ? `Cut the travel from the sheets start end and finish end, ${writeAngle(turn / 2)} at both ends, the heels half a turn apart. Cut the end of each run to the same band.`
        : `Cut the travel ${writeBoth(cut, setting)} long, both ends square.`,
      ...(fitting.trimmed
        ? [`Trim two 90° elbows to ${writeAngle(turn)} by the sheet elbow trim.`]
        : piece
          ? []
          : [`Take two elbows of ${writeAngle(turn)}.`]),
      `Roll the first turn ${writeAngle(rollAngle)} from plumb, toward the roll; the second turns back in the same plane.`,
      'Tack, then check set, roll and run before you weld out.',
    ],
    facts: [
      [piece ? 'Pipe to cut, long to long' : 'Pipe to cut, square ends', lengthOf(cut)],
      ['Travel, center to center', lengthOf(solved.travel)],
      ['Turn at each end', angleOf(turn)],
      ['Roll angle from plumb', angleOf(rollAngle)],
      ['Take-off of each turn', lengthOf(fitting.takeOff)],
      ['Take-off from', fitting.source],
    ],
    tables: [figures(solved, fitting, gap, cut, piece)],
    pictures: [trueViewPicture(solved, fitting, pipe, cut, setting), alongRunPicture(solved, pipe, setting)],
    cautions: [
      'Measure the fittings: a center to end differs from the table by what its maker’s tolerance allows.',
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
    ['Set', '', set],
    ['Roll', '', roll],
    ['True offset', '√(set² + roll²)', offset],
    ['Run', 'true offset ÷ tan turn', run],
    ['Travel', 'true offset ÷ sin turn', travel],
    ...(piece
      ? ([
          ['Long points', 'travel + cutback', piece.overall],
          ['Short points', 'travel − cutback', piece.shorts],
        ] as const)
      : ([
          ['Take-offs, both', '', 2 * takeOff],
          ['Root gaps, both', '', 2 * gap],
          ['Pipe to cut', 'travel − take-offs − gaps', cut],
        ] as const)),
  ];
  return {
    title: 'Figures',
    header: ['', 'from', 'length'],
    rows: rows.map(([name, from, length]) => [name, from, lengthOf(length)]),
  };
};

/** A 90° elbow cut to the turn: the cut is square to its center line, a plane circle that a straight paper edge follows. */
const trimSheet = (
  { turn }: RollingOffset,
  { elbow, takeOff }: Fitting,
  pipe: Pipe,
  making: BandValues,
  setting: Setting,
): Sheet => {
  if (!elbow) throw new Error('only an elbow is trimmed');
  const words = ['HEEL · TDC', 'SIDE', 'THROAT', 'SIDE'] as const;
  const plane: Solid = { kind: 'plane', through: vec3(0, 0, 0), normal: vec3(0, 0, -1) };
  const end = { mate: solidMate(plane), contact: 'od', gap: 0 } as const;
  const band = drawCutBand(pipe, end, { ...making, madeFrom: 'pipe' }, words, setting);
  const arc = (station: number): number => turn * (elbow.bendRadius + (pipe.od / 2) * Math.cos(station));
  return bandSheet(
    {
      name: 'elbow trim',
      heading: 'Elbow trim',
      stock: pipe,
      band,
      making: WRAPPED,
      about: [`90° ${elbow.designation} cut to ${writeAngle(turn)}; two are needed`],
      aboutMore: [`Bend radius ${writeBoth(elbow.bendRadius, setting)}, ${elbow.source}`],
      lines: [{ which: 'upper', contact: 'od', gap: 0, solids: [plane] }],
      before: [
        'Chalk the heel, throat and side lines along the elbow from its quarter points.',
        `From the face you keep, step off along the elbow: ${writeBoth(arc(0), setting)} on the heel, ${writeBoth(arc(Math.PI), setting)} on the throat, ${writeBoth(arc(Math.PI / 2), setting)} on both sides.`,
        'Slit the paper on the station lines to just under the cut line, so that it lies down on the bend.',
      ],
      wrap: 'Lay the cut line through the marks, heel on heel, KEEP toward the face you kept.',
      after: [
        `Cut square to the elbow’s center line and bevel. Check: center to end is ${writeBoth(takeOff, setting)}.`,
      ],
      facts: [
        ['Heel, along the elbow', lengthOf(arc(0))],
        ['Sides, along the elbow', lengthOf(arc(Math.PI / 2))],
        ['Throat, along the elbow', lengthOf(arc(Math.PI))],
        ['Center to end after the cut', lengthOf(takeOff)],
      ],
      tables: [
        {
          title: 'By tape: along the elbow’s outside from the face you keep',
          header: ['Station', 'length'],
          rows: Array.from({ length: 16 }, (_, i) => (i * TURN) / 16).map((station) => [
            stationNumber(station),
            lengthOf(arc(station)),
          ]),
        },
      ],
      pictures: [
        endPicture('Facing the cut end of the elbow', pipe, ['heel, TDC', 'side', 'throat', 'side']),
      ],
      cautions: [
        'A trimmed elbow keeps its wall only where the maker left it: measure it at the cut before you bevel.',
      ],
    },
    setting,
  );
};
