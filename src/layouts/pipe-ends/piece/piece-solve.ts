import { TURN } from '../../../geometry/angle-units.ts';
import { developEnd, type Development, type End } from '../../../geometry/development.ts';
import { itemAt } from '../../../lists.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { jointError } from '../../../issue.ts';
import { mirrorStock, type Stock } from '../../../stock/stock.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';
import type { PieceEnd } from './piece-end.ts';
import { atEnd, endMate, usualContact, writeStation, type Numbering } from './piece-joint.ts';

/** Between which points of the two ends a piece's length is given, all along its axis. */
export type Between = 'centers' | 'long-points' | 'short-points' | 'overall';

/** A piece as it is asked for, mm and radians. */
export interface PieceRequest {
  readonly stock: Stock;
  readonly start: PieceEnd;
  readonly finish: PieceEnd;
  /** Station of the finish joint's station 0. */
  readonly roll: number;
  readonly length: number;
  readonly between: Between;
  /** Left out, each end's own. */
  readonly contact: Contact | undefined;
}

/** One end of a piece, solved in its own stock frame, whose origin is the joint's center on the axis. */
export interface SolvedEnd {
  readonly joint: PieceEnd;
  readonly numbering: Numbering;
  /** The stock in the frame of this end. */
  readonly stock: Stock;
  readonly end: End;
  readonly development: Development;
}

/**
 * A piece with both ends. Piece frame: z along the axis from the start joint's center at 0 to the finish joint's at
 * `centers`; x at station 0. Station φ stands at angle −φ about z, since stations rise counter-clockwise seen facing the
 * start end, which looks along +z.
 */
export interface Piece {
  readonly request: PieceRequest;
  readonly start: SolvedEnd;
  readonly finish: SolvedEnd;
  /** Center to center, mm. */
  readonly centers: number;
  /** Long point to long point along the axis: the pipe it takes, mm. */
  readonly overall: number;
  /** Short point to short point along the axis, mm. */
  readonly shorts: number;
  /** Length from cut to cut on the line of a station, mm. */
  readonly lineLength: (station: number) => number;
  readonly shortest: { readonly station: number; readonly length: number };
  readonly longest: { readonly station: number; readonly length: number };
}
const SAMPLES = 720;

const solveEnd = (request: PieceRequest, which: 'start' | 'finish'): SolvedEnd => {
  const { contact } = request;
  const stock = which === 'start' ? request.stock : mirrorStock(request.stock);
  const joint = request[which];
  const numbering: Numbering = which === 'start' ? { sense: 1, turn: 0 } : { sense: -1, turn: request.roll };
  return atEnd(which, () => {
    const mate = endMate(joint, stock, numbering);
    const end: End = { mate, contact: contact ?? usualContact(joint), gap: joint.gap };
    return { joint, numbering, stock, end, development: developEnd(stock.outline, end) };
  });
};

/** The lowest value of a function of the angle, by samples and golden section round the lowest. */
const lowestRound = (f: (angle: number) => number): { readonly at: number; readonly value: number } => {
  const step = TURN / SAMPLES;
  const values = Array.from({ length: SAMPLES }, (_, i) => f(i * step));
  const i = values.indexOf(Math.min(...values));
  let [low, high] = [(i - 1) * step, (i + 1) * step];
  const golden = (Math.sqrt(5) - 1) / 2;
  while (high - low > 1e-10) {
    const a = high - golden * (high - low);
    const b = low + golden * (high - low);
    if (f(a) <= f(b)) high = b;
    else low = a;
  }
  const at = (low + high) / 2;
  return f(at) < itemAt(values, i) - 1e-9 ? { at, value: f(at) } : { at: i * step, value: itemAt(values, i) };
};

const betweenWords = (): Readonly<Record<Between, string>> => ({
  centers: say`center to center`,
  'long-points': say`long point to long point`,
  'short-points': say`short point to short point`,
  overall: say`overall`,
});

/** A length's two points in words. */
export const writeBetween = (between: Between): string => betweenWords()[between];

/**
 * Solves both ends and the length between them. Throws a `joint` UserError where an end does not sit on its mate, or
 * where the length is shorter than its two cutbacks, so that the cut lines would cross.
 */
export const solvePiece = (request: PieceRequest): Piece => {
  const { stock, length, between } = request;
  const start = solveEnd(request, 'start');
  const finish = solveEnd(request, 'finish');
  const highs = start.development.high + finish.development.high;
  const lows = start.development.low + finish.development.low;
  const centers = length - (between === 'centers' ? 0 : between === 'short-points' ? lows : highs);
  const heightAt = ({ development, numbering }: SolvedEnd, station: number): number =>
    development.ordinate((numbering.sense * station * stock.girth) / TURN);
  const lineLength = (station: number): number =>
    centers + heightAt(start, station) + heightAt(finish, station);
  const least = lowestRound(lineLength);
  if (least.value <= 0) {
    const limit = length - least.value;
    throw jointError(
      'length',
      'length-too-short',
      say`${told(length)} ${writeBetween(between)} is shorter than its two cutbacks: at station ${writeStation(Math.round((least.at / TURN) * 3600) * (TURN / 3600))} the cut lines cross by ${told(-least.value)}`,
      say`give more than ${told(Math.ceil(limit * 100) / 100)} ${writeBetween(between)}`,
    );
  }
  const most = lowestRound((station) => -lineLength(station));
  return {
    request,
    start,
    finish,
    centers,
    overall: centers + highs,
    shorts: centers + lows,
    lineLength,
    shortest: { station: least.at, length: least.value },
    longest: { station: most.at, length: -most.value },
  };
};
