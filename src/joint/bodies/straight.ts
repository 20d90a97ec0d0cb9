import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { add3, scale3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { formatAngle, writeAngle } from '../../units/angle.ts';
import type { Reading } from '../../units/reading.ts';
import type { Setting } from '../../units/setting.ts';
import { say } from '../../words/say.ts';
import { describeOffset } from '../offset-words.ts';
import { quarterWords } from '../quarter-words.ts';
import type { Ask, Frame, QuarterWords, ViewAngle, ViewLabel, ViewLength } from './body.ts';
import { within, type Placed } from './read-placed.ts';

/**
 * How a straight body lies in the branch's stock frame: its axis passes through `origin` = (0, offset, 0) along
 * d = (sin angle, 0, cos angle); u is the direction from it toward the branch, square to d, and y runs to station 90.
 */
export interface AxisLie {
  readonly angle: number;
  readonly offset: number;
  readonly origin: Vec3;
  readonly d: Vec3;
  readonly u: Vec3;
  readonly y: Vec3;
  /** The point `along` d, `toward` the branch and `across` toward station 90 from the origin. */
  readonly at: (along: number, toward: number, across: number) => Vec3;
}

/** Words that place a straight body. */
export const AXIS_WORDS = ['angle', 'offset'];

/** Reads `angle` (between the axes) and `offset` (of the axes, positive toward station 90) where a body gives its own. */
export const readAxisLie = (placed: Placed, reading: Reading) => {
  const angle = placed.angle('angle', undefined);
  const offset = placed.length('offset', undefined);
  if (angle !== undefined)
    within(
      angle,
      1e-3,
      Math.PI - 1e-3,
      say`the angle ${formatAngle(angle)} is out of range in ${reading.path}`,
      say`give an angle between the axes from 0.1° to 179.9°`,
      placed.refuse,
    );
  return (ask: Ask, frame: Frame): AxisLie => axisLie(angle ?? ask.angle, offset ?? ask.offset, frame);
};

/** The lie for an angle and an offset, moved by a frame. */
export const axisLie = (angle: number, offset: number, frame: Frame): AxisLie => {
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  const origin = frame.point(vec3(0, offset, 0));
  const d = frame.direction(vec3(s, 0, c));
  const u = frame.direction(vec3(c, 0, -s));
  const y = frame.direction(vec3(0, 1, 0));
  return {
    angle,
    offset,
    origin,
    d,
    u,
    y,
    at: (along, toward, across) =>
      add3(origin, add3(scale3(d, along), add3(scale3(u, toward), scale3(y, across)))),
  };
};

export const axisWords = ({ angle }: AxisLie): QuarterWords => quarterWords(angle);

/** Angle and offset in words; `round` for a body that falls away to both sides. */
export const describeAxis = ({ angle, offset }: AxisLie, setting: Setting, round = true): string =>
  say`${writeAngle(angle)} between the axes, ${describeOffset(offset, round, setting)}`;

/** How far a body is drawn either way of the joint along its axis. */
export const drawnLength = ({ angle }: AxisLie, radius: number, half: number): readonly [number, number] => {
  const shift = -half / Math.tan(angle);
  const reach = radius / Math.sin(angle) + Math.max(0.6 * half, 0.8 * radius);
  return [Math.min(shift - reach, -0.6 * half), Math.max(shift + reach, 0.6 * half)];
};

/** Where a straight body's name is best put: under the level one, beyond the upper end of another. */
export const axisLabel = (
  lie: AxisLie,
  [from, to]: readonly [number, number],
  half: number,
  text: string,
  main: boolean,
): ViewLabel => {
  if (main) return { at: lie.at((from + to) / 2, -half, 0), toward: scale3(lie.u, -1), text, view: 'side' };
  const upper = lie.d.z > 0 ? -1 : 1;
  return { at: lie.at(upper < 0 ? from : to, 0, 0), toward: scale3(lie.d, upper), text, view: 'side' };
};

/** How far the axes pass each other, as the end view shows it under a body that reaches `half` from its axis. */
export const axisOffset = (lie: AxisLie, half: number): readonly ViewLength[] =>
  Math.abs(lie.offset) < SAME_LENGTH
    ? []
    : [
        {
          from: lie.at(0, -half, -lie.offset),
          to: lie.at(0, -half, 0),
          length: Math.abs(lie.offset),
          sign: '',
          view: 'end',
        },
      ];

/** The angle between the axes as the side view shows it: from the branch's own axis to the body's far half. */
export const axisAngle = ({ origin, d, angle }: AxisLie): ViewAngle => ({
  at: origin,
  from: vec3(0, 0, -1),
  to: scale3(d, -1),
  angle,
});
