import { DEGREE } from '../../geometry/angle-units.ts';
import { stockSkin } from '../../geometry/skin.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { jointError } from '../../issue.ts';
import { parsePipe, type Pipe } from '../../stock/pipe.ts';
import { told } from '../../units/format.ts';
import type { Reading } from '../../units/reading.ts';
import { say } from '../../words/say.ts';
import type { Solid } from '../solid.ts';
import { localAxes, nameBody, type BodySpec, type Frame, type OpeningGround } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced } from './read-placed.ts';
import {
  AXIS_WORDS,
  axisAngle,
  axisLabel,
  axisOffset,
  axisWords,
  describeAxis,
  drawnLength,
  readAxisLie,
} from './straight.ts';

/** `pipe NPS 8 sch 40 angle 60 offset 30mm`: a straight pipe that runs past. */
export const readPipeBody = (text: string, reading: Reading): BodySpec => {
  const placed = readPlaced(text, AXIS_WORDS, [], reading);
  const pipe = parsePipe(placed.stock.replace(/^pipe /, ''), reading);
  const lieOf = readAxisLie(placed, reading);
  const radius = pipe.girth / (2 * Math.PI);
  const designation = `pipe ${pipe.designation}`;
  return {
    designation,
    ...readMove(placed),
    build: (ask, frame) => {
      const lie = lieOf(ask, frame);
      const setIn = ask.seat === 'inside';
      const seat = radius - (setIn ? pipe.wall : 0);
      const what = setIn ? say`the header’s bore` : say`the header`;
      const [from, to] = ask.across;
      if (to - from > 2 * seat + SAME_LENGTH)
        throw jointError(
          'branch',
          'branch-too-large',
          say`the branch, ${told(to - from)} across, is larger than ${what} (${pipe.designation}, ${setIn ? say`bore` : say`outside`} ${told(2 * seat)})`,
          say`choose a branch of at most ${told(2 * seat)}, or swap the two`,
        );
      const [least, most] = [to - seat, from + seat];
      if (lie.offset < least - SAME_LENGTH || lie.offset > most + SAME_LENGTH)
        throw jointError(
          'offset',
          'branch-overhangs',
          say`with an offset of ${told(lie.offset)} the branch hangs over the side of ${what} (${pipe.designation})`,
          Math.abs(least + most) < SAME_LENGTH
            ? say`this branch may be offset by at most ${told(most)}`
            : say`this branch may be offset from ${told(least)} to ${told(most)}`,
        );
      const reach = drawnLength(lie, ask.drawn, radius);
      const outside: Solid = { kind: 'cylinder', through: lie.origin, along: lie.d, radius };
      const inside: Solid = { ...outside, radius: radius - pipe.wall };
      return {
        designation: nameBody(designation),
        outside,
        inside,
        words: axisWords(lie),
        placing: (setting) => describeAxis(lie, setting),
        datum: say`header center`,
        view: {
          drawn: { outside, inside, reach },
          centers: [reach.map((t) => lie.at(t, 0, 0))],
          labels: [axisLabel(lie, reach, radius, pipe.designation, ask.main)],
          lengths: [
            {
              from: lie.at(reach[1], -radius, 0),
              to: lie.at(reach[1], radius, 0),
              length: 2 * radius,
              sign: '⌀',
              view: 'side',
            },
            ...axisOffset(lie, radius),
          ],
          angles: [axisAngle(lie)],
          right: lie.d,
          up: lie.u,
        },
        opening: (lift) => pipeGround(pipe, localAxes(lie.origin, lie.u, lie.y, lie.d), lift),
        cautions: [
          ...(lie.angle < 45 * DEGREE - 1e-9 || lie.angle > 135 * DEGREE + 1e-9
            ? [
                say`A branch under 45° is hard to weld in the crotch and outside the simple pressure rules: have it designed.`,
              ]
            : []),
          ...(Math.abs(lie.offset) > SAME_LENGTH
            ? [
                say`An offset branch is outside the simple pressure rules of the piping codes: have it designed.`,
              ]
            : []),
        ],
      };
    },
  };
};

/**
 * A pipe's outside as an opening is traced on it, in axes with z along the pipe and x toward the branch.
 * @param local how the branch's frame goes to those axes
 * @param lift how far above the outside the print lies, mm
 */
export const pipeGround = (pipe: Pipe, local: Frame, lift: number): OpeningGround => {
  const radius = pipe.round;
  const stretch = (radius + lift) / radius;
  return {
    skin: stockSkin(pipe.outline),
    local,
    facing: [-pipe.girth / 4, pipe.girth / 4],
    middle: 0,
    level: () => 0,
    place: (s, t) => ({ x: s * stretch, y: t }),
    parallel: true,
    girth: pipe.girth,
    facts: [],
    strike: say`Strike the header line that faces the branch, and a square line around the header through the work point.`,
    name: say`the header`,
    sheet: 'header opening',
    stock: pipe,
    back: {
      lay: { kind: 'round', od: 2 * radius, sheetGirth: pipe.girth * stretch, allowance: 0 },
      local,
    },
  };
};
