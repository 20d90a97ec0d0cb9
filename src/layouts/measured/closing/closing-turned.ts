import type { Fact, Mark, Sheet, Table } from '../../../drawing/model.ts';
import { circlePath, FINE, MEDIUM, QUARTER, WIDE } from '../../../drawing/paths.ts';
import { makePicture, viewDimension, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { itemAt } from '../../../lists.ts';
import type { Pose } from '../../../geometry/pose-by-tape.ts';
import { add3, length3, scale3, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import type { BandValues } from '../../../sheets/band-fields.ts';
import { describeStock } from '../../../sheets/band-words.ts';
import { elbowTrimSheet } from '../../../sheets/elbow-trim.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { writeAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeShort } from '../../../units/writing.ts';
import { say, translate, translateName } from '../../../words/say.ts';
import type { PieceEnd } from '../../pipe-ends/piece/piece-end.ts';
import { solvePiece, type Piece } from '../../pipe-ends/piece/piece-solve.ts';
import { drawPiece } from '../../pipe-ends/piece/piece.ts';
import { chooseFitting, type Fitting } from '../../pipe-ends/rolling-offset/rolling-offset-solve.ts';
import { worded } from '../../../drawing/worded.ts';
import { stationOf } from '../../../stock/station.ts';
import { pathWith, setBack, shortestPath, type TurnedPath } from './closing-solve.ts';

/** What a closing piece with two turns is made to. Lengths in mm. */
export interface TurnedRequest {
  readonly pipe: Pipe;
  readonly pose: Pose;
  readonly turns: 'elbow' | 'miter';
  /** From each face to the center of its turn, where they were asked for. */
  readonly legs: readonly [number, number] | undefined;
  /** Pipe kept straight beyond each turn where they were not. */
  readonly least: number;
  readonly back: number;
  readonly gap: number;
  readonly green: number;
  readonly making: BandValues;
  readonly between: readonly string[];
  readonly known: readonly Fact[];
  readonly cautions: readonly string[];
}

/** The path, and how much of each straight its turns take up. */
export interface TurnedPiece {
  readonly path: TurnedPath;
  readonly fittings: readonly [Fitting, Fitting];
  /** Pipe to cut, center line, from cut to cut. */
  readonly cuts: readonly [number, number, number];
}

const NAMES = () => [say`at A`, say`in the middle`, say`at B`] as const;
/** The same places in the names of sheets. */
const PLACES = ['at A', 'middle', 'at B'] as const;
const HALF = Math.PI;

/** A turn smaller than this needs no fitting: a straight piece reaches both ends. */
const LEAST_TURN = (0.25 * Math.PI) / 180;

/** From a miter's center to its short points, along the pipe: r tan(turn / 2). */
const miterTakeOff = (pipe: Pipe, turn: number): number => (pipe.od / 2) * Math.tan(turn / 2);

/** Solves for the turns. Throws a `joint` UserError where there is no turn, one is too sharp, or no pipe is left between them. */
export const solveTurned = (request: TurnedRequest): TurnedPiece => {
  const { pipe, pose, turns, legs, least, back, gap, green } = request;
  const kind = turns === 'elbow' ? 'long-radius' : 'miter';
  const sharp = (turn: number): boolean => turns === 'elbow' && turn > HALF / 2 + 1e-9;
  const takeOff = (turn: number): number =>
    turns === 'elbow'
      ? chooseFitting(pipe, kind, Math.min(turn, HALF / 2)).takeOff + gap
      : miterTakeOff(pipe, turn);
  if (length3(pose.at) < 1e-6)
    throw jointError(
      'to',
      'same-place',
      say`both ends stand in the same place: nothing is to be closed`,
      say`give the center of end B in the frame of end A, some way off`,
    );
  const ends = setBack(pose, back);
  const path = legs ? pathWith(pose, ends, ...legs) : shortestPath(pose, ends, takeOff, least + gap);
  path.turns.forEach((turn, i) => {
    const which = i === 0 ? say`first` : say`second`;
    if (turn < LEAST_TURN)
      throw jointError(
        'turns',
        'no-turn',
        say`the ${which} turn comes out at ${writeAngle(turn)}: there is none`,
        say`make the piece straight, or give other legs`,
      );
    if (sharp(turn) || turn > 0.9 * HALF)
      throw jointError(
        'legs',
        'turn-too-sharp',
        say`the ${which} turn comes out at ${writeAngle(turn)}, more than one ${translate(turns)} makes`,
        say`give longer legs, so that the pipe comes around more gently`,
      );
  });
  const fittings = [
    chooseFitting(pipe, kind, path.turns[0]),
    chooseFitting(pipe, kind, path.turns[1]),
  ] as const;
  const [a, b] = [fittings[0].takeOff, fittings[1].takeOff];
  const joints = turns === 'elbow' ? 2 * gap : gap;
  const cuts = [
    path.legs[0] - a - joints,
    path.legs[1] - a - b - (turns === 'elbow' ? 2 * gap : gap),
    path.legs[2] - b - joints + green,
  ] as const;
  cuts.forEach((cut, i) => {
    if (cut <= 0)
      throw jointError(
        'legs',
        'no-room',
        say`the straight ${NAMES()[i]} has no room: its turns and gaps take ${told(-cut, 1)} more than there is`,
        turns === 'elbow' ? say`give other legs, or turns miter` : say`give other legs`,
      );
  });
  return { path, fittings, cuts };
};

/** The three mitered straights as pieces; station 0 of each joint is its heel. */
const miterPieces = (request: TurnedRequest, { path }: TurnedPiece): readonly Piece[] => {
  const { pipe, gap, green } = request;
  const square: PieceEnd = { shape: { kind: 'square' }, gap };
  const miter = (turn: number): PieceEnd => ({
    shape: { kind: 'miter', cut: turn / 2 },
    // Each piece gives up half the gap, measured square to the faces.
    gap: gap / 2 / Math.cos(turn / 2),
  });
  const [first, second] = path.turns;
  const make = (start: PieceEnd, finish: PieceEnd, roll: number, length: number): Piece =>
    solvePiece({ stock: pipe, start, finish, roll, length, between: 'centers', contact: undefined });
  return [
    make(square, miter(first), 0, path.legs[0]),
    make(miter(first), miter(second), -path.roll, path.legs[1]),
    make(miter(second), square, 0, path.legs[2] + green),
  ];
};

const LENGTH = 150;

/** Two views of the center line: from above end A's station 0, and from its side. */
const sketch = (request: TurnedRequest, { path }: TurnedPiece, setting: Setting): readonly Mark[] => {
  const { pose, back } = request;
  const { from, to } = setBack(pose, back);
  const line = [from, ...path.corners, to];
  const tails: readonly (readonly [Vec3, Vec3])[] = [
    [add3(from, vec3(0, 0, -path.legs[0] * 0.35 - request.pipe.od)), from],
    [to, add3(to, scale3(pose.along, -path.legs[2] * 0.35 - request.pipe.od))],
  ];
  const all = [...line, ...tails.flat()];
  const spanOf = (get: (p: Vec3) => number): number => Math.max(...all.map(get)) - Math.min(...all.map(get));
  const scale = Math.min(
    LENGTH /
      Math.max(
        spanOf((p) => p.z),
        1,
      ),
    70 /
      Math.max(
        spanOf((p) => p.x),
        spanOf((p) => p.y),
        1,
      ),
  );
  const view = (up: (p: Vec3) => number, base: number, title: string): Mark[] => {
    const flat = (p: Vec3): Vec2 => ({ x: p.z * scale, y: base + up(p) * scale });
    const points = line.map(flat);
    return [
      ...tails.map(([a, b]) => viewRule(flat(a), flat(b), QUARTER, 'long-dash-dot')),
      ...points.slice(1).map((p, i) => viewRule(itemAt(points, i), p, WIDE)),
      ...path.corners.map((p) => viewPath(circlePath(flat(p), 1), MEDIUM)),
      ...[from, to].map((p) => viewPath(circlePath(flat(p), 1.6), FINE)),
      ...viewText({ x: flat(from).x, y: flat(from).y + 5 }, 'A', 'centre', true),
      ...viewText({ x: flat(to).x, y: flat(to).y + 5 }, 'B', 'centre', true),
      ...viewText(
        { x: Math.min(...all.map((p) => p.z)) * scale, y: base + Math.max(...all.map(up)) * scale + 13 },
        title,
        'left',
      ),
    ];
  };
  const top = spanOf((p) => p.x) * scale;
  const low = Math.min(...all.map((p) => p.x));
  const high = Math.max(...all.map((p) => p.y));
  const legs = [from, ...path.corners].map((p, i): Mark[] => {
    const next = itemAt(line, i + 1);
    const flat = (q: Vec3): Vec2 => ({ x: q.z * scale, y: q.x * scale });
    const [a, b] = [flat(p), flat(next)];
    if (Math.hypot(a.x - b.x, a.y - b.y) < 12) return [];
    return viewDimension(a, b, -9, writeShort(itemAt(path.legs, i), setting));
  });
  return [
    ...view((p) => p.x, 0, say`Seen from end A’s 270° side, its station 0 up`),
    ...legs.flat(),
    ...view(
      (p) => p.y,
      low * scale - 34 - high * scale - top * 0,
      say`Seen from below: from end A’s 180° side, its station 90 up`,
    ),
  ];
};

const figures = ({ path, fittings, cuts }: TurnedPiece): Table => ({
  title: say`Straights from A: leg to centers, less take-offs and gaps`,
  header: ['', say`leg`, say`take-offs`, say`cut`],
  rows: path.legs.map((leg, i) => [
    say`straight ${NAMES()[i] ?? ''}`,
    lengthOf(leg),
    lengthOf((i > 0 ? (fittings[i - 1]?.takeOff ?? 0) : 0) + (i < 2 ? (fittings[i]?.takeOff ?? 0) : 0)),
    lengthOf(itemAt(cuts, i)),
  ]),
});

const mainSheet = (request: TurnedRequest, solved: TurnedPiece, setting: Setting): Sheet => {
  const { pipe, turns, gap, green } = request;
  const { path, fittings, cuts } = solved;
  const isElbow = turns === 'elbow';
  const heel = (angle: number): string => writeAngle((angle + HALF) % (2 * HALF));
  const rolledBy = (write: (roll: number) => string): string =>
    `${write(Math.abs(path.roll))} ${path.roll >= 0 ? say`clockwise` : say`counter-clockwise`}`;
  const rolled = rolledBy(writeAngle);
  return plateSheet({
    name: 'closing',
    heading: say`Closing piece with two turns`,
    subject: [
      say`Turns of ${writeAngle(path.turns[0])} and ${writeAngle(path.turns[1])}, ${isElbow ? say`elbows` : say`mitered`}, rolled ${rolled} from the first to the second, looking from A to B`,
      describeStock(pipe, setting),
      ...request.between,
      ...(isElbow ? [say`Take-offs: ${[...new Set(fittings.map(({ source }) => source))].join('; ')}`] : []),
      say`All lengths run on center lines; this sheet is not a full-size drawing`,
    ],
    marks: sketch(request, solved, setting),
    steps: [
      say`Strike the first turn’s heel line on end A’s pipe at station ${heel(path.firstToward)} and the second’s on end B’s at station ${heel(path.lastToward)}.`,
      ...(isElbow
        ? [
            say`Cut three straights square: ${cuts.map((cut) => writeBoth(cut, setting)).join(', ')}.`,
            say`Trim an elbow that is not made for its turn by its elbow trim sheet.`,
          ]
        : [
            say`Cut the three straights from their bands. Each heel is the top line of its own piece; the middle one carries the roll.`,
          ]),
      say`Set the first turn heel on heel at A. Roll the second ${rolled} from it, looking from A to B.`,
      say`Tack, offer it up, tape the marks once more, then weld out.`,
      ...(green > 0
        ? [say`The straight at B is ${writeBoth(green, setting)} long: trim it when the piece is offered up.`]
        : []),
    ],
    facts: [
      [say`First turn`, angleOf(path.turns[0])],
      [say`Second turn`, angleOf(path.turns[1])],
      [say`Roll from first to second`, worded((value) => rolledBy((roll) => value(angleOf(roll))))],
      [say`First heel at A’s station`, stationOf(path.firstToward + HALF, 2)],
      [say`Second heel at B’s station`, stationOf(path.lastToward + HALF, 2)],
      ...(isElbow
        ? ([
            [say`First take-off`, lengthOf(fittings[0].takeOff)],
            [say`Second take-off`, lengthOf(fittings[1].takeOff)],
          ] as const)
        : []),
      [say`Root gap, each weld`, lengthOf(gap)],
      ...request.known,
    ],
    tables: [figures(solved)],
    pictures: [makePicture(say`Looking from A to B: where the heels stand`, rollPicture(path))],
    cautions: request.cautions,
  });
};

const rollPicture = (path: TurnedPath): Mark[] => {
  const at = (angle: number, r: number): Vec2 => ({ x: r * Math.sin(angle), y: r * Math.cos(angle) });
  const mark = (angle: number, text: string): Mark[] => [
    viewRule(at(angle, 0), at(angle, 17)),
    ...viewText(at(angle, 21), text, 'centre', true),
  ];
  // End A is seen from behind: its stations run clockwise here.
  const first = path.firstToward + HALF;
  return [
    viewPath(circlePath({ x: 0, y: 0 }, 14)),
    ...viewText(at(0, 27), say`A’s station 0`),
    viewRule(at(0, 14), at(0, 24), FINE, 'long-dash-dot'),
    ...mark(first, say`1st`),
    ...mark(first + path.roll, say`2nd`),
  ];
};

/** Lengths and angles for programs, mm and radians. */
export const turnedFigures = (request: TurnedRequest): Readonly<Record<string, unknown>> => {
  const { path, fittings, cuts } = solveTurned(request);
  return { ...path, takeOffs: fittings.map(({ takeOff }) => takeOff), cuts };
};

/** The sheets of a closing piece with two turns: `closing`, then its bands or elbow trims. */
export const turnedSheets = (request: TurnedRequest, setting: Setting): readonly Sheet[] => {
  const solved = solveTurned(request);
  const main = mainSheet(request, solved, setting);
  const { pipe, turns, making } = request;
  if (turns === 'miter')
    return [
      main,
      ...miterPieces(request, solved).flatMap((piece, i) =>
        drawPiece(piece, making, setting)
          .filter((_, k) => (i === 0 ? k === 1 : i === 2 ? k === 0 : true))
          .map((sheet) => ({
            ...sheet,
            name: `straight ${PLACES[i] ?? ''}, ${sheet.name}`,
            heading: say`Straight ${NAMES()[i] ?? ''}, ${translateName(sheet.name)}`,
          })),
      ),
    ];
  const same = Math.abs(solved.path.turns[0] - solved.path.turns[1]) < 1e-9;
  const trims = solved.fittings.flatMap((fitting, i) => {
    const { elbow, trimmed, takeOff } = fitting;
    if (!elbow || !trimmed || (same && i === 1)) return [];
    const turn = itemAt(solved.path.turns, i);
    const sheet = elbowTrimSheet({ pipe, elbow, turn, takeOff, needed: same ? 2 : 1, making }, setting);
    if (same) return [sheet];
    // Two trim sheets on one print: each heading names its turn.
    const heading = i === 0 ? say`Elbow trim, first turn` : say`Elbow trim, second turn`;
    return [{ ...sheet, name: `elbow trim ${i + 1}`, heading }];
  });
  return [main, ...trims];
};
