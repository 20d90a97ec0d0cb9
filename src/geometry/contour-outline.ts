import { TURN, modulo } from './angle-units.ts';
import { itemAt } from '../lists.ts';
import type { Outline } from './outline.ts';
import { crossEdge } from './section-crossing.ts';
import { edgeEnds, runOf, splitEdge, type Run, type Section, type SectionEdge } from './section.ts';
import { cross2, distance2, dot2, left2, scale2, sub2, type Vec2 } from './vector.ts';

/** A place along an outline: an edge, or a straight line over an opening that a tape bridges. */
interface Stretch {
  readonly from: number;
  readonly run: Run;
  /** Left out over an opening. */
  readonly edge?: SectionEdge;
}

/** Ends nearer than this meet, mm: recorded figures are rounded. */
const MEET = 1e-6;

/** Over an opening between two edges the tape runs straight. */
const bridge = (from: Vec2, to: Vec2): Run => runOf({ kind: 'line', face: '', from, to });

const stretchesOf = (contour: readonly SectionEdge[]): readonly Stretch[] => {
  const outer = contour.filter((edge) => !edge.inner);
  const stretches: Stretch[] = [];
  let from = 0;
  const add = (run: Run, edge?: SectionEdge): void => {
    stretches.push({ from, run, ...(edge && { edge }) });
    from += run.length;
  };
  outer.forEach((edge, i) => {
    add(runOf(edge), edge);
    const next = outer[(i + 1) % outer.length];
    if (!next) return;
    const [end, begin] = [edgeEnds(edge)[1].point, edgeEnds(next)[0].point];
    if (distance2(end, begin) > MEET) add(bridge(end, begin));
  });
  return stretches;
};

/** An outline along a section's contour, and what stretches of it are called. */
export interface ContourOutline extends Outline {
  /** The stretches in order from position 0; `face` is undefined over an opening. Neighbors of one name are one. */
  readonly faces: readonly {
    readonly from: number;
    readonly to: number;
    readonly face: string | undefined;
    /** True for a straight stretch. */
    readonly flat: boolean;
    /** Unit direction out of the steel in its middle. */
    readonly out: Vec2;
  }[];
  /** How far the outside has turned from position 0 to `s` (any real), sharp corners included, radians. */
  readonly turningAt: (s: number) => number;
}

/** The turn from one direction to another, counter-clockwise. */
const turnBetween = (a: Vec2, b: Vec2): number => Math.atan2(cross2(a, b), dot2(a, b));

/** How far a run turns over its first `l` mm. */
const turnAlong = (run: Run, l: number): number => {
  const half = turnBetween(run.at(0).out, run.at(l / 2).out);
  const rest = turnBetween(run.at(l / 2).out, run.at(l).out);
  // Once round an ellipse each half is half a turn, whose sign is lost.
  return (half < -1e-9 ? half + TURN : half) + (rest < -1e-9 ? rest + TURN : rest);
};

/** Turning of the outside at the beginning of each stretch. */
const turningsOf = (stretches: readonly Stretch[]): readonly number[] => {
  const turnings = [0];
  stretches.slice(1).forEach(({ run }, i) => {
    const before = itemAt(stretches, i).run;
    const crease = turnBetween(before.at(before.length).out, run.at(0).out);
    turnings.push((turnings[i] ?? 0) + turnAlong(before, before.length) + Math.max(0, crease));
  });
  return turnings;
};

/**
 * The outline of a section: round its outside as a tape runs, from the contour's beginning, by true arc length. Openings of
 * an angle, a channel or a beam are bridged straight, and have no wall there.
 * @param wall thickness of a hollow section, mm; that of an open section is the steel under each place, as deep as the edge
 *   lets it count
 */
export const contourOutline = (section: Section, wall = section.thickness): ContourOutline => {
  const stretches = stretchesOf(section.outside);
  const girth = stretches.reduce((sum, { run }) => sum + run.length, 0);
  const round = (s: number): number => (s >= 0 && s < girth ? s : modulo(s, girth));
  const stretchAt = (s: number): Stretch => {
    let [low, high] = [0, stretches.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((stretches[middle]?.from ?? 0) <= s) low = middle;
      else high = middle;
    }
    return itemAt(stretches, low);
  };
  const at = (s: number, depth: number): Vec2 => {
    const place = round(s);
    const { from, run } = stretchAt(place);
    const { point, out } = run.at(place - from);
    return sub2(point, scale2(out, depth));
  };
  const open = section.outside.some((edge) => edge.inner);
  /** Steel under a place of an open section. */
  const wallAt = (s: number): number => {
    const place = round(s);
    const { from, run, edge } = stretchAt(place);
    if (!edge) return 0;
    const most = edge.wall ?? wall;
    const { point, out } = run.at(place - from);
    const inward = scale2(out, -1);
    const exits = section.outside
      .flatMap((other) => crossEdge(other, point, inward))
      .filter(({ t, entering }) => !entering && t > 1e-6)
      .map(({ t }) => t);
    return Math.min(most, ...exits);
  };
  const turnings = turningsOf(stretches);
  const turningAt = (s: number): number => {
    const rounds = Math.floor(s / girth);
    const place = s - rounds * girth;
    const stretch = stretchAt(place);
    return (
      rounds * TURN +
      (turnings[stretches.indexOf(stretch)] ?? 0) +
      turnAlong(stretch.run, Math.max(0, place - stretch.from))
    );
  };
  return {
    girth,
    wall,
    at,
    turningAt,
    joints: open
      ? [...jointsOf(stretches), ...depthJoints(stretches, section, wall)].sort((a, b) => a - b)
      : jointsOf(stretches),
    faces: facesOf(stretches),
    ...(open && { wallAt }),
  };
};

/** The same section with position 0 moved to `s`, which lies on steel. */
export const beginAt = (section: Section, s: number): Section => {
  const { outside } = section;
  let from = 0;
  for (const stretch of stretchesOf(outside)) {
    const { edge, run } = stretch;
    if (edge && s >= from - 1e-9 && s <= from + run.length + 1e-9) {
      const i = outside.indexOf(edge);
      const l = Math.min(run.length, Math.max(0, s - from));
      const rest = [...outside.slice(i + 1), ...outside.slice(0, i)];
      if (l < 1e-9) return { ...section, outside: [edge, ...rest] };
      if (run.length - l < 1e-9) return { ...section, outside: [...rest, edge] };
      const [before, after] = splitEdge(edge, l);
      return { ...section, outside: [after, ...rest, before] };
    }
    from += run.length;
  }
  throw new RangeError(`position ${s} lies over an opening`);
};

/** Two neighbors that run on as one line or one arc have no joint between them. */
const runsOn = (a: Stretch, b: Stretch): boolean => {
  if (a.edge?.face !== b.edge?.face || a.edge?.kind !== b.edge?.kind) return false;
  const turned = cross2(a.run.at(a.run.length).out, b.run.at(0).out);
  return Math.abs(turned) < 1e-12;
};

const jointsOf = (stretches: readonly Stretch[]): readonly number[] =>
  stretches.flatMap((stretch, i) => {
    const before = stretches.at(i - 1);
    return before && before !== stretch && !runsOn(before, stretch) ? [stretch.from] : [];
  });

/**
 * Where the steel under a flat of an open section changes its thickness abruptly, opposite the ends of its inner edges, and
 * where a slanting inner edge passes the depth to which the flat's steel counts.
 */
const depthJoints = (
  stretches: readonly Stretch[],
  { outside }: Section,
  wall: number,
): readonly number[] => {
  const inner = outside.filter((edge) => edge.inner);
  const ends = inner.flatMap((edge) => edgeEnds(edge).map(({ point }) => point));
  return stretches.flatMap(({ from, run, edge }) => {
    if (edge?.kind !== 'line') return [];
    const { point, out } = run.at(0);
    const deepest = sub2(point, scale2(out, edge.wall ?? wall));
    const places = [
      ...ends.map((p) => cross2(out, sub2(p, point))),
      ...inner.flatMap((other) => crossEdge(other, deepest, left2(out)).map(({ t }) => t)),
    ];
    return [...new Set(places.filter((l) => l > 1e-6 && l < run.length - 1e-6).map((l) => from + l))];
  });
};

const facesOf = (stretches: readonly Stretch[]): ContourOutline['faces'] => {
  const faces: ContourOutline['faces'][number][] = [];
  stretches.forEach((stretch, i) => {
    const { from, run, edge } = stretch;
    const before = stretches[i - 1];
    const last = faces.at(-1);
    const to = from + run.length;
    if (before && last && runsOn(before, stretch)) {
      faces[faces.length - 1] = { ...last, to };
      return;
    }
    const flat = edge === undefined || edge.kind === 'line';
    faces.push({ from, to, face: edge?.face, flat, out: run.at(run.length / 2).out });
  });
  return faces;
};
