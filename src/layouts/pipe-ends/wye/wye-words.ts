import { TURN } from '../../../geometry/angle-units.ts';
import { angleBetween, scale3 } from '../../../geometry/vector.ts';
import { say, translateOf } from '../../../words/say.ts';
import { HEADER_AXIS, type WyeJoint } from './wye-joint.ts';
import { facing, type Leg } from './wye-leg.ts';

/** A leg by its number. */
export const nameLeg = (number: number): string => `${translateOf('wye', 'leg')} ${number}`;

/** A neighbor by how it follows the leg, so that legs that stand alike are named alike; by its number where it does not. */
const nameNeighbor = (count: number, own: number, other: number): string => {
  if (count === 2) return say`TO OTHER LEG`;
  const after = (other - own + count) % count;
  return after === 1 ? say`TO NEXT LEG` : after === count - 1 ? say`TO PREVIOUS LEG` : say`TO LEG ${other}`;
};

/** Names of a leg's quarter lines: the top, and the neighbour that each side faces. */
export const legWords = ({ legs, header }: WyeJoint, leg: Leg): readonly [string, string, string, string] => {
  const bodies = [
    ...legs
      .filter((other) => other !== leg)
      .map(({ number, out }) => ({ name: nameNeighbor(legs.length, leg.number, number), out })),
    ...(header ? [1, -1].map((end) => ({ name: say`TO HEADER`, out: scale3(HEADER_AXIS, end) })) : []),
  ];
  const toward = (station: number): string => {
    const there = bodies
      .filter(({ out }) => Math.abs(Math.cos(facing(leg, out) - station) - 1) < 1e-6)
      .filter(({ out }) => angleBetween(leg.out, out) < Math.PI - 1e-6)
      .sort((a, b) => angleBetween(leg.out, a.out) - angleBetween(leg.out, b.out));
    return there[0]?.name ?? say`SIDE`;
  };
  const upright = Math.abs(Math.abs(leg.rise) - TURN / 4) < 1e-9;
  return [
    upright ? say`TDC` : say`TOP · TDC`,
    toward(TURN / 4),
    upright ? toward(TURN / 2) : say`BOTTOM`,
    toward((3 * TURN) / 4),
  ];
};
