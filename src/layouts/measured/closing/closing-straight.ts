import type { Fact, Sheet, Table } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { modulo, roundAngle, TURN } from '../../../geometry/angle-units.ts';
import { developEnd, type Development, type End } from '../../../geometry/development.ts';
import { vec3, type Vec3 } from '../../../geometry/vector.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import type { Solid } from '../../../joint/solid.ts';
import type { BandValues } from '../../../sheets/band-fields.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { drawCutBand, type CutBand } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { stationNumber } from '../../../stock/station.ts';
import { writeAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { PieceEnd } from '../../pipe-ends/piece/piece-end.ts';
import { brokenPieceScene } from '../../pipe-ends/piece/piece-scene.ts';
import type { Piece, SolvedEnd } from '../../pipe-ends/piece/piece-solve.ts';

import type { StraightPiece } from './closing-solve.ts';

/** What a straight closing piece is made to. Lengths in mm. */
export interface StraightRequest {
  readonly pipe: Pipe;
  readonly straight: StraightPiece;
  /** Root gap at each end, along the piece. */
  readonly gap: number;
  /** Left on the finish end, to be trimmed when the piece is offered up. */
  readonly green: number;
  /** Most that the edges of a joint may stand off one another. */
  readonly mismatch: number;
  readonly making: BandValues;
  /** What the piece is set between, in words, and what is taken off for it. */
  readonly between: readonly string[];
  /** How well the ends' places are known; none where they were given by coordinates. */
  readonly known: readonly Fact[];
  readonly cautions: readonly string[];
}

type Which = 'start' | 'finish';

/** How far an ellipse cut at a tilt stands outside the round it joins, mm: r (1 / cos − 1). */
export const edgeOffset = (radius: number, tilt: number): number => radius * (1 / Math.cos(tilt) - 1);

const WORDS = () => [say`TOP LINE`, '', '', ''] as const;
const ORIGIN = vec3(0, 0, 0);

interface Solved {
  readonly ends: Readonly<Record<Which, End>>;
  readonly solids: Readonly<Record<Which, Solid>>;
  readonly bands: Readonly<Record<Which, CutBand>>;
  readonly lengthAt: (station: number) => number;
  /** On the center line, from cut to cut. */
  readonly cut: number;
}

const solve = (request: StraightRequest, setting: Setting): Solved => {
  const { pipe, straight, gap, green, making } = request;
  const solidOf = (normal: Vec3): Solid => ({ kind: 'plane', through: ORIGIN, normal });
  const solids = { start: solidOf(straight.faces.start), finish: solidOf(straight.faces.finish) };
  const endOf = (which: Which): End => ({
    mate: solidMate(solids[which]),
    contact: 'od',
    gap: which === 'start' ? gap : gap - green,
  });
  const ends = { start: endOf('start'), finish: endOf('finish') };
  const draw = (which: Which): CutBand =>
    drawCutBand(pipe, ends[which], { ...making, numbersFall: which === 'start' }, WORDS(), setting);
  const bands = { start: draw('start'), finish: draw('finish') };
  const height = ({ development }: CutBand, sense: 1 | -1, station: number): number =>
    development.ordinate((sense * station * pipe.girth) / TURN);
  return {
    ends,
    solids,
    bands,
    lengthAt: (station) =>
      straight.length + height(bands.start, -1, station) + height(bands.finish, 1, station),
    cut: straight.length - 2 * gap + green,
  };
};

const shapeOf = (tilt: number): PieceEnd['shape'] =>
  tilt < 1e-7 ? { kind: 'square' } : { kind: 'miter', cut: roundAngle(tilt) };

/** The piece as the `piece` layout knows it, for its picture. */
const asPiece = (request: StraightRequest, { ends, lengthAt }: Solved): Piece => {
  const { pipe, straight } = request;
  const development = (end: End): Development => developEnd(pipe.outline, end);
  const solved = (which: Which): SolvedEnd => ({
    joint: { shape: shapeOf(straight.tilts[which].tilt), gap: ends[which].gap },
    numbering: { sense: which === 'start' ? 1 : -1, turn: 0 },
    stock: pipe,
    end: ends[which],
    development: development(ends[which]),
  });
  const [start, finish] = [solved('start'), solved('finish')];
  const lengths = Array.from({ length: 360 }, (_, i) => lengthAt((i * TURN) / 360));
  const find = (length: number) => ({ station: (lengths.indexOf(length) * TURN) / 360, length });
  return {
    request: {
      stock: pipe,
      start: start.joint,
      finish: finish.joint,
      roll: 0,
      length: straight.length,
      between: 'centers',
      contact: 'od',
    },
    start,
    finish,
    centers: straight.length,
    overall: straight.length + start.development.high + finish.development.high,
    shorts: straight.length + start.development.low + finish.development.low,
    lineLength: lengthAt,
    shortest: find(Math.min(...lengths)),
    longest: find(Math.max(...lengths)),
  };
};

const lineTable = (solved: Solved): Table => ({
  title: say`By tape: from cut line to cut line`,
  header: [say`Line`, say`length`],
  rows: Array.from({ length: 8 }, (_, i) => (i * TURN) / 8).map((station) => [
    stationNumber(station),
    lengthOf(solved.lengthAt(station)),
  ]),
});

const tiltWords = ({ tilts }: StraightPiece, which: Which): string => {
  const { tilt, longest } = tilts[which];
  return tilt < 1e-7
    ? say`cut square`
    : say`cut ${writeAngle(tilt)} from square, longest at line ${stationNumber(longest, 2)}`;
};

const endSheet = (
  request: StraightRequest,
  solved: Solved,
  piece: Piece,
  which: Which,
  setting: Setting,
): Sheet => {
  const { pipe, straight, gap, green, making, mismatch } = request;
  const band = solved.bands[which];
  const end = solved.ends[which];
  const isStart = which === 'start';
  const { tilt } = straight.tilts[which];
  const apart = straight.length + solved.bands.start.reference + solved.bands.finish.reference;
  const edges = apart >= 0 ? say`${writeBoth(apart, setting)} from` : say`${writeBoth(-apart, setting)} past`;
  const edgeLabel = apart >= 0 ? say`Between reference edges` : say`Reference edges overlap by`;
  const off = edgeOffset(pipe.od / 2, tilt);
  const greenHere = !isStart && green > 0;
  return bandSheet(
    {
      name: `${which} end`,
      heading: isStart ? say`Closing piece, end at A` : say`Closing piece, end at B`,
      stock: pipe,
      band,
      making,
      about: [say`This end meets end ${isStart ? 'A' : 'B'}: ${tiltWords(straight, which)}`],
      aboutMore: [
        ...request.between,
        isStart
          ? say`Lines are numbered as end A’s stations: line 0, the top line, meets A1. Seen facing this end they run clockwise`
          : say`The same lines as at end A. Line 0 meets end B at its station ${stationNumber(straight.meets, 2)}`,
      ],
      lines: [{ which: 'upper', contact: 'od', gap: end.gap, solids: [solved.solids[which]] }],
      before: isStart
        ? [
            say`Take a pipe of at least ${writeBoth(piece.overall, setting)}. Strike one straight line along it: the top line, 0 of both ends.`,
          ]
        : [],
      wrap: say`Wrap it printed side out, 0 on the top line, this end’s cut outward${isStart ? '' : say`, reference edge ${edges} that of the other sheet`}, until that edge meets itself.`,
      after: [
        isStart
          ? say`Lay out the other end from its own sheet before you cut: its reference edge is set from this one.`
          : say`Check the lengths between both cut lines by tape, on four lines at least, before you cut.`,
        greenHere
          ? say`This line leaves ${writeBoth(green, setting)} to trim. Offer the piece up, scribe what is over, trim, then bevel.`
          : say`Cut on the line, then bevel.`,
      ],
      facts: [
        [say`Cut to cut, on the center line`, lengthOf(solved.cut)],
        [say`Face to face, on the center line`, lengthOf(straight.length)],
        [edgeLabel, lengthOf(Math.abs(apart))],
        [say`Root gap, each end`, lengthOf(gap)],
        ...(green > 0 ? ([[say`Green, left at B`, lengthOf(green)]] as const) : []),
        [say`This end from square`, angleOf(roundAngle(tilt))],
        [say`Edges stand off at this joint`, lengthOf(off)],
        [say`Line 0 meets B at its station`, angleOf(modulo(roundAngle(straight.meets), TURN))],
        ...request.known,
      ],
      tables: isStart ? [band.table] : [band.table, lineTable(solved)],
      pictures: [
        ...scenePictures(brokenPieceScene(piece, setting)),
        endPicture(
          say`Facing the end at ${isStart ? 'A' : 'B'}`,
          pipe,
          [say`TOP LINE`, '', '', ''],
          [],
          isStart,
        ),
      ],
      cautions: [
        ...(off > mismatch
          ? [
              say`Cut at this tilt the edges stand off by ${writeBoth(off, setting)}, more than the ${writeBoth(mismatch, setting)} allowed: ask whoever answers for the weld before you cut.`,
            ]
          : []),
        ...request.cautions,
      ],
    },
    setting,
  );
};

/** The two bands of a straight closing piece. */
export const straightSheets = (request: StraightRequest, setting: Setting): readonly Sheet[] => {
  const solved = solve(request, setting);
  const piece = asPiece(request, solved);
  return (['start', 'finish'] as const).map((which) => endSheet(request, solved, piece, which, setting));
};

/** Lengths for programs, mm. */
export const straightFigures = (
  request: StraightRequest,
  setting: Setting,
): Readonly<Record<string, number>> => {
  const { cut } = solve(request, setting);
  return { cut, faceToFace: request.straight.length };
};
