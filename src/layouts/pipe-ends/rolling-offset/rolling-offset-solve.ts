import { QUARTER_TURN } from '../../../geometry/angle-units.ts';
import {
  offsetFromAngles,
  offsetFromRun,
  offsetFromTravel,
  offsetFromTurn,
  type RollingOffset,
} from '../../../geometry/rolling-offset.ts';
import { jointError, requestError } from '../../../issue.ts';
import { parseElbow, type Elbow } from '../../../stock/elbow.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { writeAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';
const SAME_ANGLE = 1e-9;

/** What is known of the offset, mm and radians. */
export interface OffsetRequest {
  readonly set: number | undefined;
  readonly roll: number | undefined;
  readonly run: number | undefined;
  readonly travel: number | undefined;
  readonly turn: number | undefined;
  readonly rollAngle: number | undefined;
}

const HINT = () => say`give set, roll and one of run, travel and turn; or travel, turn and roll-angle`;

/** The whole offset from what is known of it. Throws a `request` or `joint` UserError that names what is wrong. */
export const solveOffset = (known: OffsetRequest): RollingOffset => {
  const { set, roll, run, travel, turn, rollAngle } = known;
  if (set === undefined && roll === undefined) {
    if (travel === undefined || turn === undefined || run !== undefined)
      throw requestError('set', 'not-enough', say`the offset is not given`, HINT());
    return offsetFromAngles(travel, turn, rollAngle ?? 0);
  }
  if (rollAngle !== undefined)
    throw requestError('roll-angle', 'given-twice', say`set and roll give the roll angle already`, HINT());
  const [a, b] = [set ?? 0, roll ?? 0];
  const offset = Math.hypot(a, b);
  if (offset === 0)
    throw requestError('set', 'no-offset', say`set and roll are both 0`, say`give a set or a roll above 0`);
  if ([run, travel, turn].filter((value) => value !== undefined).length !== 1)
    throw requestError('run', 'not-one', say`set and roll need exactly one of run, travel and turn`, HINT());
  if (run !== undefined) return offsetFromRun(a, b, run);
  if (turn !== undefined) return offsetFromTurn(a, b, turn);
  const whole = travel ?? 0;
  if (whole < offset)
    throw jointError(
      'travel',
      'travel-too-short',
      say`a travel of ${told(whole)} does not reach over the true offset of ${told(offset)}`,
      say`give a travel of at least ${told(Math.ceil(offset * 100) / 100)}`,
    );
  return offsetFromTravel(a, b, whole);
};

/** How the pipe turns at both ends of the travel. */
export type Turns = 'long-radius' | 'short-radius' | 'miter';

/** The turn's fitting and where it takes the pipe's length from. */
export interface Fitting {
  /** Undefined where the pipe itself is mitered. */
  readonly elbow: Elbow | undefined;
  /** Center of the turn to the fitting's end, mm; 0 for a miter. */
  readonly takeOff: number;
  /** True where no elbow is made for the turn and one of 90° is trimmed. */
  readonly trimmed: boolean;
  /** Where the take-off comes from, in words. */
  readonly source: string;
}

/** ASME B16.9 elbows for the pipe, or the pipe itself mitered. Throws a `request` UserError where there is no such elbow. */
export const chooseFitting = (pipe: Pipe, turns: Turns, turn: number): Fitting => {
  if (turns === 'miter')
    return {
      elbow: undefined,
      takeOff: 0,
      trimmed: false,
      source: say`mitered: both cuts pass through the center`,
    };
  const size = /^(?:NPS|DN) .*?(?= girth |$)/.exec(pipe.designation)?.[0];
  if (size === undefined)
    throw requestError(
      'stock',
      'no-elbow',
      say`${pipe.designation} names no size that ASME B16.9 has elbows for`,
      say`give an NPS or DN size, or turns miter`,
    );
  const elbow = parseElbow(`${size} ${turns === 'long-radius' ? 'LR' : 'SR'}`, { path: 'stock' });
  const is = (angle: number): boolean => Math.abs(turn - angle) < SAME_ANGLE;
  if (is(QUARTER_TURN))
    return { elbow, takeOff: elbow.takeOff90, trimmed: false, source: say`90° elbow, ${elbow.source}` };
  if (is(QUARTER_TURN / 2) && elbow.takeOff45 !== undefined)
    return { elbow, takeOff: elbow.takeOff45, trimmed: false, source: say`45° elbow, ${elbow.source}` };
  return {
    elbow,
    takeOff: elbow.bendRadius * Math.tan(turn / 2),
    trimmed: true,
    source: say`90° elbow trimmed to ${writeAngle(turn)}: bend radius × tan ${writeAngle(turn / 2)}`,
  };
};

/**
 * Length of the travel's pipe between square ends, mm: travel less both take-offs and a root gap at each weld. Throws a
 * `joint` UserError with the travel it takes where the fittings leave no pipe.
 */
export const cutLength = ({ travel }: RollingOffset, { takeOff }: Fitting, gap: number): number => {
  const length = travel - 2 * takeOff - 2 * gap;
  if (length > 0) return length;
  throw jointError(
    'travel',
    'travel-too-short',
    say`a travel of ${told(travel)} leaves no pipe between two take-offs of ${told(takeOff)}${gap > 0 ? say` and gaps of ${told(gap)}` : ''}`,
    say`lengthen the offset until the travel is over ${told(2 * (takeOff + gap))}, or take a shorter fitting`,
  );
};
