import { bendFigures, bendStation, type Bend } from '../../geometry/mates/bend.ts';
import { add3, scale3, vec3, type Vec3 } from '../../geometry/vector.ts';
import type { BodyView, Frame, ViewLabel } from './body.ts';
import { say } from '../../words/say.ts';

const STEPS = 24;

/** A bend's own sizes: an elbow, or two mitered pipes, whose bend radius is 0. */
export interface BendSize {
  readonly designation: string;
  readonly kind: 'elbow' | 'miter';
  readonly radius: number;
  readonly wall: number | undefined;
  readonly bendRadius: number;
  readonly turn: number;
}

/** Two legs and the bend between them as pictures show them. `branch` is the branch's radius, mm. */
export const viewBend = (
  bend: Bend,
  { kind, turn, radius, wall }: BendSize,
  frame: Frame,
  branch: number,
): BodyView => {
  const { takeOff } = bendFigures(bend);
  const long = takeOff + Math.max(0.8 * radius, kind === 'miter' ? 2.2 * branch + radius : 0.6 * branch);
  const end = (i: 0 | 1, past = 0): Vec3 => add3(bend.corner, scale3(bend.legs[i], long + past));
  const arc = Array.from({ length: STEPS + 1 }, (_, k) => bendStation(bend, (turn * k) / STEPS).at);
  const label = (i: 0 | 1): ViewLabel => ({
    at: end(i),
    toward: bend.legs[i],
    text: say`leg ${i + 1}`,
    view: 'side',
  });
  return {
    drawn: {
      outside: { kind: 'bend', ...bend },
      ...(wall === undefined ? {} : { inside: { kind: 'bend', ...bend, radius: radius - wall } }),
      reach: [long, long],
    },
    centers: [[end(0), ...(kind === 'elbow' ? arc : [bend.corner]), end(1)]],
    labels: [label(0), label(1)],
    lengths: [],
    angles: [],
    right: frame.direction(vec3(1, 0, 0)),
    up: frame.direction(vec3(0, 0, -1)),
  };
};
