import { jointError } from '../../issue.ts';
import { coneMate, rightCone } from '../../geometry/mates/cone.ts';
import { circleOutline } from '../../geometry/outline.ts';
import { barPatch, ringSection } from '../../geometry/silhouette.ts';
import { stockSkin } from '../../geometry/skin.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { parsePipe } from '../../stock/pipe.ts';
import type { Reading } from '../../units/reading.ts';
import {
  AXIS_WORDS,
  axisAngle,
  axisLabel,
  axisWords,
  describeAxis,
  drawnLength,
  readAxisLie,
} from './straight.ts';
import { localAxes, mm, type BodySpec } from './body.ts';
import { readPlaced } from './placing.ts';
import { readMove } from './move.ts';

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
      if (ask.radius > radius + SAME_LENGTH)
        throw jointError(
          'branch',
          'branch-too-large',
          `the branch, ${mm(2 * ask.radius)} across, is larger than the ${designation} (outside ${mm(2 * radius)})`,
          `choose a branch of at most ${mm(2 * radius)}, or swap the two`,
        );
      if (Math.abs(lie.offset) + ask.radius > radius + SAME_LENGTH)
        throw jointError(
          'offset',
          'branch-overhangs',
          `with an offset of ${mm(lie.offset)} the branch hangs over the side of the ${designation}`,
          `this branch may be offset by at most ${mm(radius - ask.radius)}`,
        );
      const [from, to] = drawnLength(lie, ask.drawn, radius);
      const ring = ringSection(lie.d, lie.u, radius);
      const end = (along: number) =>
        Array.from({ length: 61 }, (_, i) => {
          const p = ring(i / 60);
          const o = lie.at(along, 0, 0);
          return { x: o.x + p.x, y: o.y + p.y, z: o.z + p.z };
        });
      return {
        designation,
        outside: { kind: 'cylinder', through: lie.origin, along: lie.d, radius },
        inside: { kind: 'cylinder', through: lie.origin, along: lie.d, radius: radius - pipe.wall },
        words: axisWords(lie),
        placing: (setting) => describeAxis(lie, setting),
        datum: 'center of the pipe',
        view: {
          patches: [barPatch(lie.origin, lie.d, ring, from, to)],
          edges: [end(from), end(to)],
          centres: [[lie.at(from * 1.1, 0, 0), lie.at(to * 1.1, 0, 0)]],
          labels: [axisLabel(lie, [from, to], radius, pipe.designation, ask.main)],
          lengths: [
            {
              from: lie.at(to, -radius, 0),
              to: lie.at(to, radius, 0),
              off: -4,
              length: 2 * radius,
              sign: '⌀',
              view: 'side',
            },
          ],
          angles: [axisAngle(lie)],
          solid: coneMate(rightCone(lie.at(from, 0, 0), radius, lie.at(to, 0, 0), radius), 'flat'),
          right: lie.d,
          up: lie.u,
        },
        opening: (lift) => {
          const stretch = (radius + lift) / radius;
          const local = localAxes(lie.origin, lie.u, lie.y, lie.d);
          return {
            skin: stockSkin(circleOutline(radius, pipe.wall)),
            local,
            facing: [(-Math.PI / 2) * radius, (Math.PI / 2) * radius],
            middle: 0,
            level: () => 0,
            place: (s, t) => ({ x: s * stretch, y: t }),
            parallel: true,
            girth: pipe.girth,
            facts: [],
            strike:
              'Strike the line of the pipe that faces the branch, and a square line round the pipe through the work point.',
            name: 'the pipe',
            back: {
              lay: { kind: 'round', od: 2 * radius, sheetGirth: pipe.girth * stretch, allowance: 0 },
              local,
            },
          };
        },
        cautions: [],
      };
    },
  };
};
