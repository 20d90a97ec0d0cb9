import type { Cubic } from './cubic.ts';
import { alongFlat, layUpright, type FlatStretch, type Stretch } from './developable.ts';
import { itemAt } from '../lists.ts';
import type { Mate } from './mate.ts';
import { arcCubics, type PatternEnds } from './pattern.ts';
import { leastReach, reversedLayers, type Layers } from './reach.ts';
import { traceLine } from './trace.ts';
import { add2, add3, cross3, length3, polar2, scale3, sub3, unit3, vec2, vec3, type Vec3 } from './vector.ts';
import type { Side } from './weld-line.ts';

/**
 * A cone between two circles in planes square to z: the large one about the origin in z = 0, the small one in
 * z = height, its center `offset` toward station 0. Radii and lengths in mm; a small radius of 0 is the apex.
 */
export interface ConeShape {
  readonly large: number;
  readonly small: number;
  readonly height: number;
  readonly offset: number;
}

/** The figures of a right cone's pattern: a sector about the apex (elementary; E. M. Longfield, Sheet Metal Drafting, 1921). */
export interface ConeSector {
  /** From the apex to the large and to the small circle, along the side. */
  readonly outer: number;
  readonly inner: number;
  /** Along the side between the circles. */
  readonly slant: number;
  /** Of the whole pattern, radians. */
  readonly angle: number;
  /** Angle between axis and side, radians. */
  readonly lean: number;
}

/** The sector of a right cone. Its radii are infinite where both circles are the same. */
export const coneSector = ({ large, small, height }: ConeShape): ConeSector => {
  const slant = Math.hypot(large - small, height);
  const sine = (large - small) / slant;
  return {
    outer: large / sine,
    inner: small / sine,
    slant,
    angle: 2 * Math.PI * sine,
    lean: Math.asin(sine),
  };
};

/** True where the pattern of a cone is a sector with exact arcs. */
export const isSector = ({ large, small, offset }: ConeShape): boolean => offset === 0 && large > small;

/** Area of a right cone's side between its circles, mm². */
export const coneArea = ({ large, small, height }: ConeShape): number =>
  Math.PI * (large + small) * Math.hypot(large - small, height);

/** The ruling at a station with its rates per radian. */
const rulingOf =
  ({ large, small, height, offset }: ConeShape) =>
  (station: number) => {
    const [c, s] = [Math.cos(station), Math.sin(station)];
    return {
      foot: vec3(large * c, large * s, 0),
      head: vec3(offset + small * c, small * s, height),
      footRate: vec3(-large * s, large * c, 0),
      headRate: vec3(-small * s, small * c, 0),
    };
  };

/** A cone from one station to another, radians, as a stretch with the large circle below. */
export const coneStretch = (shape: ConeShape, from: number, to: number): Stretch => ({
  kind: 'curved',
  from,
  to,
  at: rulingOf(shape),
});

/** Outward normal of a cone at a station. */
const coneNormal = (shape: ConeShape, station: number): Vec3 => {
  const { foot, head, footRate, headRate } = rulingOf(shape)(station);
  return unit3(cross3(add3(footRate, headRate), sub3(head, foot)));
};

/**
 * A right cone laid flat in closed form: apex in (0, outer), and the ruling halfway stands upright with its foot in the
 * origin. Rulings of the flat make equal angles.
 */
export const layRightCone = (shape: ConeShape, from: number, to: number): FlatStretch => {
  const { outer, slant, angle } = coneSector(shape);
  const ruling = rulingOf(shape);
  const station = (u: number): number => from + u * (to - from);
  const share = (angle * (to - from)) / (2 * Math.PI);
  return {
    kind: 'curved',
    space: (u) => {
      const { foot, head } = ruling(station(u));
      return { foot, head };
    },
    normal: (u) => coneNormal(shape, station(u)),
    flat: (u) => {
      const turn = share * (u - 0.5);
      return {
        foot: add2(vec2(0, outer), polar2(outer, turn - Math.PI / 2)),
        angle: Math.PI / 2 + turn,
        length: slant,
      };
    },
  };
};

/**
 * The wall of a cone at a station as lines one under another, from the large circle up; depth counts inward from `out`
 * mm outside the developed surface.
 */
export const coneLayers = (shape: ConeShape, station: number, out: number): Layers => {
  const { foot, head } = rulingOf(shape)(station);
  const normal = coneNormal(shape, station);
  const direction = scale3(sub3(head, foot), 1 / length3(sub3(head, foot)));
  return { outside: add3(foot, scale3(normal, out)), direction, inward: scale3(normal, -1) };
};

/** Where a ruling of a cone ends on a body, mm along it from the large circle. */
export interface ConeReach {
  readonly along: number;
  readonly label: string;
  readonly graze: number;
}

/**
 * The first touch of a cone's wall with a body at a station: going up from the large end, or down from the small one.
 * @param thickness of the plate; the developed surface lies in its middle
 * Undefined where the ruling misses the body.
 */
export const coneReach = (
  shape: ConeShape,
  mate: Mate,
  end: 'large' | 'small',
  thickness: number,
  station: number,
): ConeReach | undefined => {
  const layers = coneLayers(shape, station, thickness / 2);
  const run = end === 'small' ? layers : reversedLayers(layers);
  const found = leastReach(run, mate, 0, thickness);
  return found && { along: end === 'small' ? found.z : -found.z, label: found.label, graze: found.graze };
};

/** The outside of a cone's plate at a station as a line toward one of its ends. */
export const coneSide = (
  shape: ConeShape,
  end: 'large' | 'small',
  thickness: number,
  station: number,
): Side => {
  const layers = coneLayers(shape, station, thickness / 2);
  const run = end === 'small' ? layers : reversedLayers(layers);
  return { origin: run.outside, direction: run.direction, outward: scale3(run.inward, -1) };
};

/** A line of a cone never meets the body at its end. */
export class ConeMissError extends Error {
  readonly end: 'large' | 'small';
  /** Station of the line, radians. */
  readonly station: number;
  constructor(end: 'large' | 'small', station: number) {
    super(`the line at station ${station} rad misses the body at the ${end} end`);
    this.name = 'ConeMissError';
    this.end = end;
    this.station = station;
  }
}

/** Bodies that the ends of a cone are cut to; left out, the circle. */
export interface ConeCuts {
  readonly large?: Mate | undefined;
  readonly small?: Mate | undefined;
}

/** A cone, or a part of it between two stations, laid flat with both ends. */
export interface ConePattern {
  readonly ends: PatternEnds;
  /** The cut ruling in space and flat, a share `u` of the way from the first station to the last. */
  readonly flat: FlatStretch;
  /** Where the ruling at a station begins and ends, mm along it from the large circle. */
  readonly span: (station: number) => readonly [number, number];
}

/**
 * Lays a cone flat from one station to another, each ruling followed from the body at the large end to the one at the
 * small end. Whole circles of a right cone come out as exact arcs.
 * @param thickness of the plate, whose middle the shape is; only cuts by bodies take it into account
 * @throws ConeMissError where a ruling misses a body
 */
export const developCone = (
  shape: ConeShape,
  from: number,
  to: number,
  cuts: ConeCuts,
  thickness: number,
): ConePattern => {
  const right = isSector(shape);
  const laid = right ? layRightCone(shape, from, to) : itemAt(layUpright([coneStretch(shape, from, to)]), 0);
  const stationAt = (u: number): number => from + u * (to - from);
  const reach = (end: 'large' | 'small', u: number): ConeReach => {
    const mate = cuts[end];
    if (!mate) return { along: end === 'large' ? 0 : laid.flat(u).length, label: 'circle', graze: 1 };
    const found = coneReach(shape, mate, end, thickness, stationAt(u));
    if (!found) throw new ConeMissError(end, stationAt(u));
    return found;
  };
  const trace = (end: 'large' | 'small'): readonly Cubic[] => {
    if (!cuts[end]) {
      if (end === 'small' && shape.small === 0) return [];
      if (right) {
        const { outer, inner, angle } = coneSector(shape);
        const half = (angle * (to - from)) / (4 * Math.PI);
        const radius = end === 'large' ? outer : inner;
        return arcCubics(vec2(0, outer), radius, -Math.PI / 2 - half, -Math.PI / 2 + half);
      }
    }
    return traceLine(
      (u) => {
        const { along, label, graze } = reach(end, u);
        return { point: alongFlat(laid.flat(u), along), label, graze };
      },
      0,
      1,
    );
  };
  const cutRuling = (u: number): readonly [number, number] => [
    reach('large', u).along,
    reach('small', u).along,
  ];
  return {
    ends: { lower: trace('large'), upper: trace('small') },
    span: (station) => cutRuling((station - from) / (to - from)),
    flat: {
      ...laid,
      space: (u) => {
        const { foot, head } = laid.space(u);
        const direction = unit3(sub3(head, foot));
        const [low, high] = cutRuling(u);
        return { foot: add3(foot, scale3(direction, low)), head: add3(foot, scale3(direction, high)) };
      },
      flat: (u) => {
        const whole = laid.flat(u);
        const [low, high] = cutRuling(u);
        return { foot: alongFlat(whole, low), angle: whole.angle, length: high - low };
      },
    },
  };
};

/**
 * How far apart equal sectors lie along their middle line when they nest in a strip, mm; undefined for sectors of a half
 * turn and more, whose sides do not let the next one in.
 */
export const sectorPitch = (outer: number, inner: number, angle: number): number | undefined => {
  if (angle >= Math.PI) return undefined;
  const half = angle / 2;
  return Math.sqrt(outer ** 2 - (inner * Math.sin(half)) ** 2) - inner * Math.cos(half);
};
