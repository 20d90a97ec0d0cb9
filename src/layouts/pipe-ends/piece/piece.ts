import type { Sheet } from '../../../drawing/model.ts';
import { pickWrap } from '../../../sheets/band-fields.ts';
import { type WrapValues } from '../../../sheets/band-fields.ts';
import { wrapFields } from '../../../sheets/band-fields.ts';
import { describeContact, usualContactField } from '../../../sheets/contact.ts';
import { drawCutBand, type CutBand } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { angleField, choiceField, lengthField, pipeField } from '../../../fields/fields.ts';
import { fitBand } from '../../../sheets/fit-record.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { type Setting } from '../../../units/setting.ts';
import { pieceEndField } from './piece-end.ts';
import { describeEnd, endSolids, endWords, writeStation } from './piece-joint.ts';
import { piecePicture } from './piece-picture.ts';
import { solvePiece, writeBetween, type Piece, type SolvedEnd } from './piece-solve.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  laySteps,
  wrapSteps,
} from '../../../sheets/band-paper.ts';
import { stationNumber } from '../../../stock/station.ts';
import { lengthCells } from '../../../units/writing.ts';
import { lengthColumns } from '../../../units/writing.ts';
import { writeBoth } from '../../../units/writing.ts';

const TURN = 2 * Math.PI;

/** A pipe with both its ends: each its own joint, the roll between them, and a length to hold. */
export const piece = defineLayout({
  id: 'piece',
  summary: 'a pipe with both its ends, the roll between them and its length, laid out from one top line',
  fields: {
    pipe: pipeField({ help: 'the pipe it is cut from', example: 'NPS 4 sch 40' }),
    start: pieceEndField(
      'the first end: square, miter with its angle from square, saddle with its pipe, angle and offset, or on with any body a branch can meet; gap if wanted',
      'miter 22.5',
    ),
    finish: pieceEndField('the other end, told the same way', 'saddle NPS 6 sch 40 angle 60 offset 10mm'),
    roll: angleField({
      help: 'station of the finish joint’s heel; the start joint’s is at 0',
      default: '0',
      example: '90',
      min: -TURN,
      max: TURN,
    }),
    length: lengthField({
      help: 'length between the points that between names',
      example: '1200mm',
      above: 0,
      max: 100_000,
    }),
    between: choiceField(['centers', 'long-points', 'short-points', 'overall'], {
      help: 'what the length runs between, along the pipe; overall is from long point to long point',
      default: 'centers',
    }),
    contact: usualContactField('wall at a saddle, od at a square or miter cut'),
    ...wrapFields,
  },
  examples: [
    'piece --pipe "NPS 4 sch 40" --start "miter 22.5" --finish "saddle NPS 6 sch 40" --length "2ft 3in"',
    'piece --pipe "DN 100 sch 40" --start "saddle DN 150 sch 40 angle 60 gap 2mm" --finish "miter 45" --roll 90 --length 900mm --between overall',
    'piece --pipe "NPS 4 sch 40" --start "on elbow NPS 8 LR extrados" --finish square --length 18in',
    'piece --pipe "NPS 2 sch 40" --start square --finish "miter 30" --length 18in --between long-points -o strut.pdf',
  ],
  draw: ({ pipe, start, finish, roll, length, between, contact, ...rest }, setting) => {
    const solved = solvePiece({ pipe, start, finish, roll, length, between, contact });
    return drawPiece(solved, pickWrap(rest), setting);
  },
});

/** The two sheets of a piece, `start end` and `finish end`. */
export const drawPiece = (solved: Piece, wrap: WrapValues, setting: Setting): readonly Sheet[] => {
  const { pipe } = solved.request;
  const draw = (end: SolvedEnd): CutBand =>
    drawCutBand(
      pipe,
      end.end,
      { ...wrap, numbersFall: end.numbering.sense < 0 },
      endWords(end.joint, pipe, end.numbering.turn),
      setting,
    );
  const bands = { start: draw(solved.start), finish: draw(solved.finish) };
  // Reference edges lie on the kept side of their centers, so that their heights are negative.
  const apart = solved.centers + bands.start.reference + bands.finish.reference;
  return (['start', 'finish'] as const).map((which) =>
    endSheet(solved, which, bands[which], apart, wrap, setting),
  );
};

const endSheet = (
  solved: Piece,
  which: 'start' | 'finish',
  band: CutBand,
  apart: number,
  wrap: WrapValues,
  setting: Setting,
): Sheet => {
  const { request, start, finish } = solved;
  const { pipe } = request;
  const { joint, numbering, end } = solved[which];
  const { low, high } = band.development;
  const solids = endSolids(joint, pipe, numbering);
  const isStart = which === 'start';
  const gapBetween =
    apart >= 0
      ? `${writeBoth(apart, setting)} from the start sheet’s reference edge`
      : `${writeBoth(-apart, setting)} past the start sheet’s reference edge, toward the start`;
  const sense = isStart
    ? 'Numbers rise to the right, counter-clockwise seen facing this end'
    : 'Numbers rise to the left, clockwise seen facing this end: each names the same line as at the start';
  return {
    name: `${which} end`,
    heading: isStart ? 'Piece, start end' : 'Piece, finish end',
    subject: [
      `This end: ${describeEnd(joint, pipe, numbering.turn, setting)}`,
      describePipe(pipe, setting),
      isStart
        ? `Finish end: ${describeEnd(finish.joint, pipe, finish.numbering.turn, setting)}`
        : `Start end: ${describeEnd(start.joint, pipe, start.numbering.turn, setting)}`,
      `${writeBoth(request.length, setting)} ${writeBetween(request.between)}, roll ${writeStation(request.roll)}`,
      sense,
      `${describeContact(end.contact)}. ${describeSource(pipe)}. ${describePaper(setting, wrap)}`,
    ],
    marks: band.marks,
    bounds: band.bounds,
    fit: fitBand(pipe, band.paper, [{ which: 'upper', contact: end.contact, gap: end.gap, solids }]),
    steps: [
      ...wrapSteps(pipe, setting, wrap),
      ...(isStart
        ? [
            `Take a pipe of at least ${writeBoth(solved.overall, setting)}. Strike one straight line along it: station 0, TDC of both ends.`,
          ]
        : []),
      ...laySteps(
        pipe,
        setting,
        wrap,
        `Wrap it printed side out, station 0 on the line you struck, this end’s cut outward${isStart ? '' : `, reference edge ${gapBetween}`}, until that edge meets itself.`,
      ),
      isStart
        ? 'Lay out the finish end from its own sheet before you cut: its reference edge is set from this one.'
        : 'Check the lengths between the two cut lines by tape, on at least four stations, before you cut.',
      'Cut on both lines, then bevel.',
    ],
    facts: [
      girthFact(pipe, setting, wrap),
      [
        'Between reference edges',
        apart >= 0 ? writeBoth(apart, setting) : `overlap ${writeBoth(-apart, setting)}`,
      ],
      ['Center to center', writeBoth(solved.centers, setting)],
      ['Long point to long point', writeBoth(solved.overall, setting)],
      ['Short point to short point', writeBoth(solved.shorts, setting)],
      ['Cutback of this end', writeBoth(high - low, setting)],
      ['Reference edge to center', writeBoth(-band.reference, setting)],
      ['Roll', `${writeStation(request.roll)} from start to finish`],
    ],
    tables: isStart ? [band.table] : [band.table, lineTable(solved, setting)],
    pictures: [
      piecePicture(solved, setting),
      endPicture(
        `Facing the ${which} end`,
        pipe,
        endWords(joint, pipe, numbering.turn).map((word) => word.toLowerCase().replace('tdc', 'TDC')) as [
          string,
          string,
          string,
          string,
        ],
        [],
        !isStart,
      ),
    ],
    cautions: [],
  };
};

/** Lengths along the pipe between both cut lines, on the quarter lines and between them. */
const lineTable = (solved: Piece, setting: Setting) => ({
  title: 'By tape: from cut line to cut line',
  header: ['Station', ...lengthColumns('length', setting)],
  rows: Array.from({ length: 8 }, (_, i) => (i * TURN) / 8).map((station) => [
    stationNumber(station),
    ...lengthCells(solved.lineLength(station), setting),
  ]),
});
