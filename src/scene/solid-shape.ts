import { torisphericalFigures } from '../geometry/mates/head.ts';
import { tubeSection } from '../geometry/shapes.ts';
import { add3, cross3, scale3, unit3, vec3 } from '../geometry/vector.ts';
import type { DrawnBody } from '../joint/bodies/body.ts';
import type { Solid } from '../joint/solid.ts';
import { poseAlong, poseLocal, type Pose, type ProfileRun, type Shape } from './shape.ts';

const QUARTER = Math.PI / 2;
type SolidOf<K extends Solid['kind']> = Extract<Solid, { kind: K }>;

/** The inside where it is of the same kind as the outside. */
const sameKind = <K extends Solid['kind']>(
  outside: SolidOf<K>,
  inside: Solid | undefined,
): SolidOf<K> | undefined => (inside?.kind === outside.kind ? (inside as SolidOf<K>) : undefined);

/** A body as far as it is drawn, as a shape. @throws where it has no ends to be drawn to */
export const bodyShape = ({ outside, inside, reach }: DrawnBody): Shape => {
  switch (outside.kind) {
    case 'plane':
      throw new Error('a plane has no size to be drawn');
    case 'cylinder': {
      const [from, to] = knownReach(reach);
      const axis = unit3(outside.along);
      const bore = sameKind(outside, inside)?.radius;
      return {
        kind: 'cone',
        pose: poseAlong(add3(outside.through, scale3(axis, from)), axis),
        circles: [0, to - from].map((z) => ({ at: vec3(0, 0, z), radius: outside.radius, bore })),
      };
    }
    case 'sphere': {
      const bore = sameKind(outside, inside)?.radius;
      return {
        kind: 'turned',
        pose: poseAlong(outside.centre, vec3(0, 0, 1)),
        profile: [
          ball(outside.radius, -QUARTER, QUARTER),
          ...(bore === undefined ? [] : hollowBall(outside.radius, bore)),
        ],
      };
    }
    case 'cone':
      return coneShape(outside, sameKind(outside, inside));
    case 'bend': {
      const bore = sameKind(outside, inside)?.radius;
      const [first, second] = outside.legs;
      return {
        ...outside,
        kind: 'bend',
        legs: [unit3(first), unit3(second)],
        lengths: knownReach(reach),
        ...(bore === undefined ? {} : { bore }),
      };
    }
    case 'bar':
      return barShape(outside, sameKind(outside, inside), reach);
    case 'prism': {
      const { through, length } = outside;
      const bore = sameKind(outside, inside)?.section.outside;
      const section = { ...outside.section, ...(bore && { inside: bore }) };
      const [start, end] = length === undefined ? knownReach(reach) : [-length / 2, length / 2];
      const [z, x] = [unit3(outside.along), unit3(outside.across)];
      return { kind: 'prism', pose: { origin: through, x, y: cross3(z, x), z }, section, start, end };
    }
    case 'ellipsoidal head':
    case 'torispherical head':
      return headShape(outside, inside, -knownReach(reach)[0]);
  }
};

/** The part of a body's radius that its bore takes in pictures where its wall is not known. */
export const SKETCHED_BORE = 0.9;

/** An inside to draw a body by whose wall is not known; undefined where it is not round. */
export const sketchedInside = (outside: Solid): Solid | undefined => {
  switch (outside.kind) {
    case 'cylinder':
    case 'sphere':
    case 'bend':
      return { ...outside, radius: SKETCHED_BORE * outside.radius };
    case 'cone':
      return {
        ...outside,
        radiusFrom: SKETCHED_BORE * outside.radiusFrom,
        radiusTo: SKETCHED_BORE * outside.radiusTo,
      };
    case 'ellipsoidal head':
      return { ...outside, radius: SKETCHED_BORE * outside.radius, depth: SKETCHED_BORE * outside.depth };
    case 'torispherical head': {
      const wall = Math.min((1 - SKETCHED_BORE) * outside.radius, outside.knuckle / 2);
      const { radius, crown, knuckle } = outside;
      return { ...outside, radius: radius - wall, crown: crown - wall, knuckle: knuckle - wall };
    }
    case 'plane':
    case 'bar':
    case 'prism':
      return undefined;
  }
};

const knownReach = (reach: DrawnBody['reach']): readonly [number, number] => {
  if (!reach) throw new Error('a body without ends needs a place to be drawn to');
  return reach;
};

const ball = (radius: number, from: number, to: number): ProfileRun => ({
  kind: 'ellipse',
  center: [0, 0],
  half: [radius, radius],
  from,
  to,
});

const hollowBall = (radius: number, bore: number): readonly ProfileRun[] => [
  { kind: 'line', from: [radius, 0], to: [bore, 0] },
  ball(bore, QUARTER, -QUARTER),
  { kind: 'line', from: [-bore, 0], to: [-radius, 0] },
];

const coneShape = (
  { from, to, radiusFrom, radiusTo, along }: SolidOf<'cone'>,
  inside: SolidOf<'cone'> | undefined,
): Shape => {
  const pose = poseAlong(from, along);
  const end = poseLocal(pose, to);
  return {
    kind: 'cone',
    pose,
    circles: [
      { at: vec3(0, 0, 0), radius: radiusFrom, bore: inside?.radiusFrom },
      { at: end, radius: radiusTo, bore: inside?.radiusTo },
    ],
  };
};

const barShape = (
  { through, along, across, width, depth, corner, length }: SolidOf<'bar'>,
  inside: SolidOf<'bar'> | undefined,
  reach: DrawnBody['reach'],
): Shape => {
  const z = unit3(along);
  const pose: Pose = { origin: through, x: unit3(across), y: cross3(z, unit3(across)), z };
  const [start, end] = length === undefined ? knownReach(reach) : [-length / 2, length / 2];
  const wall = inside ? (width - inside.width) / 2 : Math.min(width, depth) / 4;
  const tube = tubeSection(width, depth, corner, wall, inside?.corner ?? 0);
  const section = inside ? tube : { outside: tube.outside, thickness: Math.min(width, depth) };
  return { kind: 'prism', pose, section, start, end };
};

/** The dish of a head by its profile, from the tangent line (height 0) to the axis. */
const dishOf = (head: SolidOf<'ellipsoidal head' | 'torispherical head'>): readonly ProfileRun[] => {
  if (head.kind === 'ellipsoidal head')
    return [{ kind: 'ellipse', center: [0, 0], half: [head.depth, head.radius], from: 0, to: QUARTER }];
  const { crown, knuckle } = head;
  const { across, back, turn } = torisphericalFigures(head.radius, crown, knuckle);
  // Where crown and knuckle meet, both have their normal `turn` off the axis.
  const join = QUARTER - turn;
  return [
    { kind: 'ellipse', center: [0, across], half: [knuckle, knuckle], from: 0, to: join },
    { kind: 'ellipse', center: [-back, 0], half: [crown, crown], from: join, to: QUARTER },
  ];
};

const backward = (run: ProfileRun): ProfileRun => ({ ...run, from: run.to, to: run.from }) as ProfileRun;

const headShape = (
  head: SolidOf<'ellipsoidal head' | 'torispherical head'>,
  inside: Solid | undefined,
  flange: number,
): Shape => {
  const { tangent, axis, radius } = head;
  const pose = poseAlong(tangent, axis);
  const shell: ProfileRun = { kind: 'line', from: [-flange, radius], to: [0, radius] };
  const inner = inside?.kind === head.kind ? (inside as typeof head) : undefined;
  if (!inner)
    return {
      kind: 'turned',
      pose,
      profile: [{ kind: 'line', from: [-flange, 0], to: [-flange, radius] }, shell, ...dishOf(head)],
    };
  const depthOf = (h: typeof head): number =>
    h.kind === 'ellipsoidal head' ? h.depth : torisphericalFigures(h.radius, h.crown, h.knuckle).depth;
  return {
    kind: 'turned',
    pose,
    profile: [
      shell,
      ...dishOf(head),
      { kind: 'line', from: [depthOf(head), 0], to: [depthOf(inner), 0] },
      ...[...dishOf(inner)].reverse().map(backward),
      { kind: 'line', from: [0, inner.radius], to: [-flange, inner.radius] },
      { kind: 'line', from: [-flange, inner.radius], to: [-flange, radius] },
    ],
  };
};
