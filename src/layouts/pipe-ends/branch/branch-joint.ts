import type { Solid } from '../../../joint/solid.ts';
import { jointError } from '../../../issue.ts';
import type { Mate } from '../../../geometry/mate.ts';
import { SAME_LENGTH } from '../../../geometry/tolerance.ts';
import { vec3 } from '../../../geometry/vector.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import { writeBoth } from '../../../units/writing.ts';

/** How a branch meets its header, mm and radians. */
export interface BranchJoint {
  readonly branch: Pipe;
  readonly header: Pipe;
  readonly angle: number;
  /** Offset of the axes, positive toward station 90. */
  readonly offset: number;
  readonly set: 'on' | 'in';
  readonly gap: number;
}

/** The header's radius that the branch's end is drawn to: its outside, or its bore for a set-in branch. */
export const seatRadius = ({ header, set }: BranchJoint): number =>
  header.od / 2 - (set === 'in' ? header.wall : 0);

/** The header in the branch's stock frame, at the radius the branch seats on. */
export const headerSolid = (joint: BranchJoint): Solid => ({
  kind: 'cylinder',
  through: vec3(0, joint.offset, 0),
  along: vec3(Math.sin(joint.angle), 0, Math.cos(joint.angle)),
  radius: seatRadius(joint),
});

/** The header as a mate of the branch's end. */
export const headerMate = (joint: BranchJoint): Mate => solidMate(headerSolid(joint));

const mm = (length: number): string => `${Number(length.toFixed(2))} mm`;

/** Throws a `joint` UserError where the branch does not sit wholly on the header. */
export const checkJoint = (joint: BranchJoint): void => {
  const { branch, offset, set, gap } = joint;
  const radius = branch.od / 2 + (set === 'in' ? gap : 0);
  const seat = seatRadius(joint);
  const [what, where] =
    set === 'in' ? ['the header’s bore', `bore ${mm(2 * seat)}`] : ['the header', `outside ${mm(2 * seat)}`];
  if (radius > seat + SAME_LENGTH)
    throw jointError(
      'branch',
      'branch-too-large',
      `the branch, ${mm(2 * radius)} across${set === 'in' && gap > 0 ? ' with its gap' : ''}, is larger than ${what} (${where})`,
      `choose a branch of at most ${mm(2 * seat)}, or swap branch and header`,
    );
  if (Math.abs(offset) + radius > seat + SAME_LENGTH)
    throw jointError(
      'offset',
      'branch-overhangs',
      `with an offset of ${mm(offset)} the branch hangs over the side of ${what}`,
      `this branch on this header may be offset by at most ${mm(seat - radius)}`,
    );
};

export const describeJoint = (joint: BranchJoint, setting: Setting): readonly string[] => {
  const { branch, header, angle, offset, set, gap } = joint;
  const where =
    Math.abs(offset) < SAME_LENGTH
      ? 'no offset'
      : `offset ${writeBoth(Math.abs(offset), setting)} toward station ${offset > 0 ? 90 : 270}`;
  return [
    `${branch.designation} on ${header.designation}`,
    `${formatAngle(angle)} between the axes, ${where}, set-${set}, ${gap > 0 ? `gap ${writeBoth(gap, setting)}` : 'no gap'}`,
  ];
};
