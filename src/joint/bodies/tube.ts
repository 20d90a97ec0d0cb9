import type { Bar } from '../../geometry/mates/box.ts';
import type { Outline } from '../../geometry/outline.ts';
import { stockSkin } from '../../geometry/skin.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { tubeOutline } from '../../geometry/tube-outline.ts';
import { add3, cross3, scale3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { parseTube } from '../../stock/tube.ts';
import { formatAngle } from '../../units/angle.ts';
import type { Reading } from '../../units/reading.ts';
import type { Solid } from '../solid.ts';
import { localAxes, mm, type BodySpec } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced } from './placing.ts';
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

/**
 * `tube 100x100x6mm angle 60 offset 10mm turned 45deg`: a square or rectangular tube. Its first side lies across the
 * branch; `turned` turns it about its own axis from there, its facing side toward station 90.
 */
export const readTubeBody = (text: string, reading: Reading): BodySpec => {
  const placed = readPlaced(text, [...AXIS_WORDS, 'turned'], [], reading);
  const tube = parseTube(placed.stock, reading);
  const lieOf = readAxisLie(placed, reading);
  const turned = placed.angle('turned', 0);
  const { width, height, wall, cornerRadius: corner, designation } = tube;
  const [c, s] = [Math.cos(turned), Math.sin(turned)];
  /** Half the tube's size across the branch, and toward it. */
  const across = (width / 2 - corner) * Math.abs(c) + (height / 2 - corner) * Math.abs(s) + corner;
  const toward = (width / 2 - corner) * Math.abs(s) + (height / 2 - corner) * Math.abs(c) + corner;
  return {
    designation,
    ...readMove(placed),
    build: (ask, frame) => {
      const lie = lieOf(ask, frame);
      if (ask.halfWidth > across + SAME_LENGTH)
        throw jointError(
          'branch',
          'branch-too-large',
          `the branch, ${mm(2 * ask.halfWidth)} across, is wider than the ${designation}, which is ${mm(2 * across)} across it`,
          `choose a branch of at most ${mm(2 * across)}, or a wider tube`,
        );
      if (Math.abs(lie.offset) + ask.halfWidth > across + SAME_LENGTH)
        throw jointError(
          'offset',
          'branch-overhangs',
          `with an offset of ${mm(lie.offset)} the branch hangs over the side of the ${designation}`,
          `this branch may be offset by at most ${mm(across - ask.halfWidth)}`,
        );
      const facing = add3(scale3(lie.u, c), scale3(lie.y, s));
      const sideways = cross3(lie.d, facing);
      const bar: Bar = { centre: lie.origin, axis: lie.d, across: sideways, width, depth: height, corner };
      const [from, to] = drawnLength(lie, ask.drawn, toward);
      const outline = tubeOutline(width, height, corner, wall, turned);
      const outside = barSolid(bar);
      const inside = barSolid({
        ...bar,
        width: width - 2 * wall,
        depth: height - 2 * wall,
        corner: Math.max(0, corner - wall),
      });
      return {
        designation,
        outside,
        inside,
        words: axisWords(lie),
        placing: (setting) =>
          `${describeAxis(lie, setting, false)}${turned === 0 ? '' : `, tube turned ${formatAngle(turned)} about its axis`}`,
        datum: 'center of the tube',
        view: {
          drawn: { outside, inside, reach: [from, to] },
          centers: [[lie.at(from, 0, 0), lie.at(to, 0, 0)]],
          labels: [axisLabel(lie, [from, to], toward, designation, ask.main)],
          lengths: [
            {
              from: lie.at(to, -toward, 0),
              to: lie.at(to, toward, 0),
              length: 2 * toward,
              sign: '',
              view: 'side',
            },
            {
              from: lie.at(from, -toward, -across),
              to: lie.at(from, -toward, across),
              length: 2 * across,
              sign: '',
              view: 'end',
            },
            ...axisOffset(lie, toward),
          ],
          angles: [axisAngle(lie)],
          right: lie.d,
          up: lie.u,
        },
        opening: (lift) => {
          const local = localAxes(lie.origin, lie.u, lie.y, lie.d);
          return {
            skin: stockSkin(outline),
            local,
            ...facingPart(outline, turned, lift),
            level: () => 0,
            parallel: true,
            girth: tube.girth,
            facts: [],
            strike:
              'Strike the line along the tube that faces the branch, and a square line around the tube through the work point.',
            name: 'the tube',
            sheet: 'opening',
            back: { lay: { kind: 'bar', width, depth: height, corner, turned, lift }, local },
          };
        },
        cautions:
          tube.source === 'given' || tube.measured
            ? []
            : [`Tube ${tube.source}: measure the corner, or give it, where the line runs around one.`],
      };
    },
  };
};

const barSolid = ({ centre, axis, across, width, depth, corner }: Bar): Solid => ({
  kind: 'bar',
  through: centre,
  along: axis,
  across,
  width,
  depth,
  corner,
});

/** The positions that face the branch (+x of the section), and the sheet on them; the paper lies `lift` over the corners. */
const facingPart = (outline: Outline, turned: number, lift: number) => {
  // Flat to the branch the middle of that flat is meant; on a corner, its crown.
  const quarters = ((((-turned * 2) / Math.PI) % 4) + 4) % 4;
  const side = Math.floor(quarters + 1e-9);
  const past = quarters - side;
  const [first = 0, last = 0] = outline.joints.slice(2 * side, 2 * side + 2);
  const place = past < 1e-9 ? (side * outline.girth) / 4 : first + past * (last - first);
  const middle = place > outline.girth / 2 ? place - outline.girth : place;
  const arcs = outline.joints;
  // Round a corner the paper is longer by its lift times the turn; on the flats it is the steel's length.
  const extra = (s: number): number => {
    let sum = 0;
    for (let k = 0; k + 1 < arcs.length; k += 2)
      for (const round of [-1, 0, 1]) {
        const [a, b] = [
          (arcs[k] as number) + round * outline.girth,
          (arcs[k + 1] as number) + round * outline.girth,
        ];
        const [low, high] = [Math.min(s, middle), Math.max(s, middle)];
        const shared = Math.max(0, Math.min(b, high) - Math.max(a, low));
        if (b > a) sum += (shared / (b - a)) * (Math.PI / 2) * lift;
      }
    return s < middle ? -sum : sum;
  };
  return {
    middle,
    facing: [middle - outline.girth / 4, middle + outline.girth / 4] as const,
    place: (s: number, t: number) => ({ x: s - middle + extra(s), y: t }),
  };
};
