import type { Outline } from '../geometry/outline.ts';
import type { Section } from '../geometry/section.ts';
import {
  add3,
  cross3,
  fromAxes,
  intoAxes,
  squareTo,
  sub3,
  unit3,
  vec3,
  type Axes,
  type Vec2,
  type Vec3,
} from '../geometry/vector.ts';

/** Where a part lies: its own origin and unit axes, x × y = z, in the scene's frame, mm. */
export interface Pose extends Axes {
  readonly origin: Vec3;
}

/** The scene's own frame. */
export const SCENE_POSE: Pose = {
  origin: vec3(0, 0, 0),
  x: vec3(1, 0, 0),
  y: vec3(0, 1, 0),
  z: vec3(0, 0, 1),
};

/** A pose whose z axis runs along a direction of any length, turned about it as it falls. */
export const poseAlong = (origin: Vec3, direction: Vec3): Pose => {
  const z = unit3(direction);
  const x = squareTo(z);
  return { origin, x, y: cross3(z, x), z };
};

/** A direction given in a pose, in the scene's frame. */
export const poseDirection: (pose: Pose, v: Vec3) => Vec3 = fromAxes;

/** A point given in a pose, in the scene's frame. */
export const posePoint = (pose: Pose, p: Vec3): Vec3 => add3(pose.origin, poseDirection(pose, p));

/** A point of the scene in a pose's own axes. */
export const poseLocal = (pose: Pose, p: Vec3): Vec3 => intoAxes(pose, sub3(p, pose.origin));

/**
 * One end of a stock: the height along its axis, mm. A number is an end cut square; a function gives it at every girth position
 * `s` of the outline, one height through the whole wall, as a torch held square to the surface cuts.
 */
export type StockEnd = number | ((s: number) => number);

/** A straight stock with both its ends: +z of its pose runs along it from `start` to `end`. */
export interface StockShape {
  readonly kind: 'stock';
  readonly pose: Pose;
  readonly outline: Outline;
  readonly start: StockEnd;
  readonly end: StockEnd;
}

/** One end of a prism: a height along its axis, or the height over each point of its section. */
export type PrismEnd = number | ((p: Vec2) => number);

/** A section carried along z of its pose, between two ends: plate, bar, shapes, a gusset. */
export interface PrismShape {
  readonly kind: 'prism';
  readonly pose: Pose;
  readonly section: Section;
  readonly start: PrismEnd;
  readonly end: PrismEnd;
}

/** A circle in a plane square to z of a pose. */
export interface Circle {
  /** Its center, in the pose's axes. */
  readonly at: Vec3;
  readonly radius: number;
  /** Radius of the bore there; given for all circles of a body or for none. */
  readonly bore?: number;
}

/**
 * A round body by its circles, straight from each to the next: cylinder, cone, leaning cone, a pipe with a tapered end. Their planes are
 * square to z of its pose, and they rise along it.
 */
export interface ConeShape {
  readonly kind: 'cone';
  readonly pose: Pose;
  readonly circles: readonly Circle[];
}

interface RunStart {
  /** True where the wall is bent at its beginning: a bend line. */
  readonly bent?: boolean;
}

/** A stretch of the profile of a turned body: height along z and radius, mm. */
export type ProfileRun = RunStart &
  (
    | {
        readonly kind: 'line';
        readonly from: readonly [number, number];
        readonly to: readonly [number, number];
      }
    | {
        /** Height = center + half height × sin t, radius = center + half width × cos t, for t from `from` to `to`, radians. */
        readonly kind: 'ellipse';
        readonly center: readonly [number, number];
        readonly half: readonly [number, number];
        readonly from: number;
        readonly to: number;
      }
  );

/**
 * A body turned round z of its pose. The profile runs up the outside, inward over the top, down the bore and outward along the
 * foot.
 */
export interface TurnedShape {
  readonly kind: 'turned';
  readonly pose: Pose;
  /** Every run begins where the one before it ends; a profile that does not start and end on the axis closes on itself. */
  readonly profile: readonly ProfileRun[];
  /** Number of its sides where each is flat across, the first about x of its pose: the profile's radius is then square to them. */
  readonly sides?: number;
}

/** An elbow with straight legs, or two pipes mitered together. */
export interface BendShape {
  readonly kind: 'bend';
  /** Where the center lines of the legs cross. */
  readonly corner: Vec3;
  /** Unit directions of the legs, away from the bend. */
  readonly legs: readonly [Vec3, Vec3];
  /** Of the center line; 0 for a miter. */
  readonly bendRadius: number;
  readonly radius: number;
  /** Inside radius; left out, it is solid. */
  readonly bore?: number;
  /** From the corner to the end of each leg, mm; at least the take-off. */
  readonly lengths: readonly [number, number];
}

/** A straight line of a bent sheet, from its foot to its head on the middle of the sheet, with the outward normals beside it. */
export interface ShellRule {
  readonly foot: Vec3;
  readonly head: Vec3;
  /** Toward the rule before it and toward the next one; they differ at a fold. */
  readonly before: Vec3;
  readonly after: Vec3;
  /** Where the sheet is warped: its normals at equal parts of the rule, foot and head among them, as many on every rule. */
  readonly along?: readonly Vec3[];
}

/** A hole through the flat of a sheet between a rule and the next one. */
export interface ShellHole {
  /** Number of the rule it follows. */
  readonly after: number;
  readonly center: Vec3;
  readonly radius: number;
}

/** Bent sheet in the scene's frame: its rules run to the right seen from outside with the feet below, once round a closed ring. */
export interface ShellShape {
  readonly kind: 'shell';
  readonly rules: readonly ShellRule[];
  readonly thickness: number;
  /** True where the sheet ends at its first and its last rule. */
  readonly open?: boolean;
  /** Only in an open sheet. */
  readonly holes?: readonly ShellHole[];
}

/** A place of a hole's edges on the outside and on the inside. */
export interface HoleEdges {
  readonly outer: Vec3;
  readonly inner: Vec3;
}

/** A hole through a wall, by its edges on the outside and on the inside, between which its wall is straight. */
export interface Hole {
  /** Once around for `t` from 0 to 1, in the scene's frame. */
  readonly at: (t: number) => HoleEdges;
  /** Places in [0, 1) where the edges may have a corner. */
  readonly joints: readonly number[];
}

/** A hollow body, or a plate, with holes cut in its wall. They do not overlap, nor reach an end. */
export interface OpenedShape {
  readonly kind: 'opened';
  readonly body: Shape;
  readonly holes: readonly Hole[];
}

/** A shape with holes, or the shape itself where there are none. */
export const opened = (body: Shape, holes: readonly Hole[]): Shape =>
  holes.length > 0 ? { kind: 'opened', body, holes } : body;

/** What a part looks like, as plain data. */
export type Shape = StockShape | PrismShape | ConeShape | TurnedShape | BendShape | ShellShape | OpenedShape;
