import { TURN } from './angle-units.ts';
import { bendAllowance } from './notch.ts';
import { add2, length2, polar2, type Vec2 } from './vector.ts';

/** A frame folded from one length. Legs in mm, turns in radians, all to the same side. */
export interface FoldAsked {
  readonly legs: readonly number[];
  /** One fewer than the legs for an open shape; as many where the last end turns to meet the first. */
  readonly turns: readonly number[];
  /** Whether the legs are measured over the outside of the wall that bends, or along its inside. */
  readonly taken: 'outside' | 'inside';
  readonly thickness: number;
  readonly bendRadius: number;
  readonly k: number;
}

/** Where the folds lie along the length, and how the frame closes. */
export interface Fold {
  /** Middle of each notch from the first end, mm, measured along the inside face of the wall that bends. */
  readonly places: readonly number[];
  /** Length to cut along the outside of that wall, mm. */
  readonly length: number;
  /** Outside length of each leg, corner to corner. */
  readonly outside: readonly number[];
  readonly inside: readonly number[];
  /** How far the last end misses the first, mm, and how far the frame still has to turn, radians. */
  readonly miss: number;
  readonly left: number;
  /** Turn of the corner where the ends meet; undefined where the frame stays open. */
  readonly closing: number | undefined;
  /** Outside corners of the folded frame from the first end on, mm. */
  readonly corners: readonly Vec2[];
}
/** Ends nearer than this meet, mm, and directions nearer than this are one, radians. */
const MEETS = 0.5;
const SAME_DIRECTION = 1e-4;

/**
 * Lays the folds of a frame out along one length. A leg between two corners keeps its outside length less what each corner
 * takes, (r + t) tan(turn / 2); each bend then adds its allowance. A sharp fold (r = 0) turns on the inside face and adds
 * nothing, so that two folds of a leg are its outside length less t tan(turn / 2) at either end apart.
 */
export const solveFold = ({ legs, turns, taken, thickness, bendRadius, k }: FoldAsked): Fold => {
  const closed = turns.length === legs.length;
  const folds = closed ? turns.slice(0, -1) : turns;
  // Where the ends meet they are mitered, sharp whatever the bends are.
  const ends = (i: number): readonly [number, number] => {
    const last = closed ? (turns.at(-1) ?? 0) : 0;
    return [i === 0 ? last : (folds[i - 1] ?? 0), i < folds.length ? (folds[i] ?? 0) : last];
  };
  const more = (i: number): number => ends(i).reduce((sum, turn) => sum + thickness * Math.tan(turn / 2), 0);
  const outside = legs.map((leg, i) => (taken === 'outside' ? leg : leg + more(i)));
  const taking = (turn: number): number => (bendRadius + thickness) * Math.tan(turn / 2);
  const allowance = (turn: number): number => bendAllowance(turn, bendRadius, thickness, k);
  const places: number[] = [];
  let run = 0;
  outside.forEach((leg, i) => {
    const [before, after] = [folds[i - 1], folds[i]];
    run += leg - (before === undefined ? 0 : taking(before)) - (after === undefined ? 0 : taking(after));
    if (after === undefined) return;
    places.push(run + allowance(after) / 2);
    run += allowance(after);
  });
  const corners: Vec2[] = [{ x: 0, y: 0 }];
  let heading = 0;
  outside.forEach((leg, i) => {
    corners.push(add2(corners.at(-1) ?? { x: 0, y: 0 }, polar2(leg, heading)));
    heading += folds[i] ?? 0;
  });
  const miss = length2(corners.at(-1) ?? { x: 0, y: 0 });
  const turned = folds.reduce((sum, turn) => sum + turn, 0);
  const left = TURN - turned;
  const meets = miss < MEETS && left > SAME_DIRECTION && left < Math.PI;
  return {
    places,
    length: run,
    outside,
    inside: outside.map((leg, i) => leg - more(i)),
    miss,
    left: closed ? left - (turns.at(-1) ?? 0) : left,
    closing: closed ? turns.at(-1) : meets ? left : undefined,
    corners,
  };
};
