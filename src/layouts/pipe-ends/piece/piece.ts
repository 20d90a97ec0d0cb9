import type { Sheet, Table } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { angleField, choiceField, lengthField, stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { TURN } from '../../../geometry/angle-units.ts';
import { bandFields, type BandValues, countStations, pickBand } from '../../../sheets/band-fields.ts';
import { usualContactField } from '../../../sheets/contact.ts';
import { type CutBand, drawCutBand } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { insideSheets } from '../../../sheets/inside-faces.ts';
import { grooveField, weldData, type WeldData } from '../../../sheets/weld-data.ts';
import type { Setting } from '../../../units/setting.ts';
import { pieceEndField } from './piece-end.ts';
import { describeEnd, endMate, endSolids, endWords, writeStation } from './piece-joint.ts';
import { brokenPieceScene, pieceScene } from './piece-scene.ts';
import { type Piece, type SolvedEnd, solvePiece, writeBetween } from './piece-solve.ts';

import { bandSheet } from '../../../sheets/band-sheet.ts';
import { fromReference, rise, shown } from '../../../sheets/measured.ts';
import { stationNumber, stationOf } from '../../../stock/station.ts';
import { lengthOf } from '../../../units/quantity.ts';
import { writeBoth } from '../../../units/writing.ts';
import { worded } from '../../../drawing/worded.ts';
import { say, translate, translateName } from '../../../words/say.ts';

/** A pipe with both its ends: each its own joint, the roll between them, and a length to hold. */
export const piece = defineLayout({
  id: 'piece',
  summary: 'a pipe with both its ends, the roll between them and its length, laid out from one top line',
  family: 'pipe ends',
  words: ['spool', 'both ends', 'cut length', 'strut', 'brace', 'fishmouth', 'tubing', 'two ends'],
  fields: {
    stock: stockField('the pipe or other stock it is cut from', {
      example: 'NPS 4 sch 40',
      aliases: ['pipe'],
    }),
    start: pieceEndField(
      'the first end: square, miter with its angle from square, saddle with its pipe, angle and offset, or on with any body a branch can meet; gap if wanted',
      'miter 22.5',
    ),
    finish: pieceEndField('the other end, written the same way', 'saddle NPS 6 sch 40 angle 60 offset 10mm'),
    roll: angleField('station of the finish joint’s heel; the start joint’s is at 0', {
      default: '0',
      example: '90',
    }),
    length: lengthField('length between the points that between names', {
      example: '1200mm',
      above: 0,
      max: 100_000,
    }),
    between: choiceField(
      'what the length runs between, along the pipe; overall is from long point to long point',
      ['centers', 'long-points', 'short-points', 'overall'],
      { default: 'centers' },
    ),
    contact: usualContactField('wall at a saddle, od at a square or miter cut'),
    groove: grooveField,
    ...bandFields,
  },
  sheets: ['start end', 'finish end'],
  examples: [
    'piece --stock "NPS 4 sch 40" --start "miter 22.5" --finish "saddle NPS 6 sch 40" --length "2ft 3in"',
    'piece --stock "DN 100 sch 40" --start "saddle DN 150 sch 40 angle 60 gap 2mm" --finish "miter 45" --roll 90 --length 900mm --between overall',
    'piece --stock "NPS 4 sch 40" --start "on elbow NPS 8 LR heel" --finish square --length 18in',
    'piece --stock "NPS 2 sch 40" --start square --finish "miter 30" --length 18in --between long-points -o strut.pdf',
  ],
  draw: ({ stock, start, finish, roll, length, between, contact, groove, ...rest }, setting) => {
    const solved = solvePiece({ stock, start, finish, roll, length, between, contact });
    return drawPiece(solved, pickBand(rest), setting, { groove });
  },
  scene: (values, setting) => pieceScene(solvePiece(values), setting),
});

/**
 * The two sheets of a piece, `start end` and `finish end`, each followed by the templates of its inside faces.
 * @param welds says what the welds are like, with the groove they are to have
 */
export const drawPiece = (
  solved: Piece,
  making: BandValues,
  setting: Setting,
  welds?: Welds,
): readonly Sheet[] => {
  const draw = ({ stock, end, joint, numbering }: SolvedEnd): CutBand =>
    drawCutBand(
      stock,
      end,
      { ...making, numbersFall: numbering.sense < 0 },
      endWords(joint, stock, numbering.turn),
      setting,
    );
  const bands = { start: draw(solved.start), finish: draw(solved.finish) };
  // Reference edges lie on the kept side of their centers, so that their heights are negative.
  const apart = solved.centers + bands.start.reference + bands.finish.reference;
  return (['start', 'finish'] as const).flatMap((which) => [
    endSheet(
      solved,
      which,
      { band: bands[which], apart, weld: weldOf(solved[which], bands[which], making, welds) },
      making,
      setting,
    ),
    ...insideSheets(
      solved[which].stock,
      solved[which].end,
      endSolids(solved[which].joint, solved[which].stock, solved[which].numbering),
      [
        say`The ${translate(which)} end: ${describeEnd(solved[which].joint, solved[which].stock, solved[which].numbering.turn, setting)}`,
      ],
      setting,
      `${which} end, `,
    ),
  ]);
};

interface Welds {
  readonly groove: number | undefined;
}

/** What is said of an end's weld; nothing of a square end's, nor of the planes that shaped stock is mitered in. */
const weldOf = (
  { joint, stock, numbering, end }: SolvedEnd,
  band: CutBand,
  making: BandValues,
  welds: Welds | undefined,
): WeldData | undefined => {
  const isMiter = joint.shape.kind === 'miter';
  const isWelded = joint.shape.kind === 'bodies' || (isMiter && stock.kind === 'pipe');
  if (!welds || !isWelded) return undefined;
  return weldData(
    {
      stock,
      mate: endMate(joint, stock, numbering),
      mirrored: isMiter,
      groove: welds.groove,
      ...(end.contact === 'od' && { line: 'upper' }),
    },
    band.paper,
    countStations(making),
    numbering.sense < 0,
  );
};

interface EndDrawing {
  readonly band: CutBand;
  /** From the start sheet's reference edge. */
  readonly apart: number;
  readonly weld: WeldData | undefined;
}

const endSheet = (
  solved: Piece,
  which: 'start' | 'finish',
  { band, apart, weld }: EndDrawing,
  making: BandValues,
  setting: Setting,
): Sheet => {
  const { request } = solved;
  const { joint, numbering, end, stock } = solved[which];
  const { low, high } = band.development;
  const isStart = which === 'start';
  const other = isStart ? solved.finish : solved.start;
  const describe = (one: SolvedEnd): string => describeEnd(one.joint, one.stock, one.numbering.turn, setting);
  const gapBetween =
    apart >= 0
      ? say`${writeBoth(apart, setting)} from the start sheet’s reference edge`
      : say`${writeBoth(-apart, setting)} past the start sheet’s reference edge, toward the start`;
  const words = endWords(joint, stock, numbering.turn);
  return bandSheet(
    {
      name: `${which} end`,
      heading: isStart ? say`Piece, start end` : say`Piece, finish end`,
      stock,
      band,
      making,
      about: [say`This end: ${describe(solved[which])}`],
      aboutMore: [
        isStart ? say`Finish end: ${describe(other)}` : say`Start end: ${describe(other)}`,
        say`${writeBoth(request.length, setting)} ${writeBetween(request.between)}, roll ${writeStation(request.roll)}`,
        isStart
          ? say`Numbers rise to the right, counter-clockwise seen facing this end`
          : say`Numbers rise to the left, clockwise seen facing this end: each names the same line as at the start`,
      ],
      contact: end.contact,
      lines: [
        { which: 'upper', contact: end.contact, gap: end.gap, solids: endSolids(joint, stock, numbering) },
      ],
      before: isStart
        ? [
            say`Take a length of at least ${writeBoth(solved.overall, setting)}. Strike one straight line along it: station 0, TDC of both ends.`,
          ]
        : [],
      wrap: say`Wrap it printed side out, station 0 on the line you struck, this end’s cut outward${isStart ? '' : say`, reference edge ${gapBetween}`}, until that edge meets itself.`,
      after: [
        isStart
          ? say`Lay out the finish end from its own sheet before you cut: its reference edge is set from this one.`
          : say`Check the lengths between the two cut lines by tape, on at least four stations, before you cut.`,
        say`Cut on both lines, then bevel.`,
      ],
      facts: [
        [
          apart >= 0 ? say`Between reference edges` : say`Reference edges overlap by`,
          lengthOf(Math.abs(apart)),
        ],
        [say`Center to center`, lengthOf(solved.centers)],
        [say`Long point to long point`, lengthOf(solved.overall)],
        [say`Short point to short point`, lengthOf(solved.shorts)],
        [say`Cutback of this end`, shown(lengthOf(high - low), rise('upper'))],
        [say`Reference edge to center`, shown(lengthOf(-band.reference), fromReference(band))],
        [say`Roll`, worded((value) => say`${value(stationOf(request.roll))} from start to finish`)],
        ...(weld?.facts ?? []),
      ],
      tables: [band.table, ...(isStart ? [] : [lineTable(solved)]), ...(weld?.tables ?? [])],
      ...(weld && { cautions: weld.cautions }),
      pictures: [
        ...scenePictures(brokenPieceScene(solved, setting)),
        endPicture(
          say`Facing the ${translate(which)} end`,
          stock,
          words.map((word) => word.toLowerCase().replace('tdc', 'TDC')),
          [],
          !isStart,
        ),
      ],
    },
    setting,
  );
};

/** Lengths along the stock between both cut lines: on a pipe's quarter lines and between them, on shaped stock's own lines. */
const lineTable = (solved: Piece): Table => {
  const { kind, lines, girth } = solved.request.stock;
  const places =
    kind === 'pipe'
      ? Array.from({ length: 8 }, (_, i) => ({
          name: stationNumber((i * TURN) / 8),
          station: (i * TURN) / 8,
        }))
      : lines.map(({ name, s }) => ({ name: translateName(name), station: (s / girth) * TURN }));
  return {
    title: say`By tape: from cut line to cut line`,
    goesAround: true,
    header: [say`Station`, say`length`],
    rows: places.map(({ name, station }) => [name, lengthOf(solved.lineLength(station))]),
  };
};
