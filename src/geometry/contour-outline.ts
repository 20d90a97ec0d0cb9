import type { Outline } from './outline.ts';
import { crossEdge } from './section-crossing.ts';
import { edgeEnds, runOf, type Run, type Section, type SectionEdge } from './section.ts';
import { cross2, distance2, scale2, sub2, type Vec2 } from './vector.ts';

/** A place along an outline: an edge, or a straight line over an opening that a tape bridges. */
interface Stretch {
  readonly from: number;
  readonly run: Run;
  /** Left out over an opening. */
  readonly edge?: SectionEdge;
}

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
    if (distance2(end, begin) > 1e-9) add(bridge(end, begin));
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
}

/**
 * The outline of a section: round its outside as a tape runs, from the contour's beginning, by true arc length. Openings of
 * an angle, a channel or a beam are bridged straight, and have no wall there.
 * @param wall thickness of a hollow section, mm; that of an open section is the steel under each place, as deep as the edge
 *   lets it count
 */
export const contourOutline = (section: Section, wall = section.thickness): ContourOutline => {
  const stretches = stretchesOf(section.outside);
  const girth = stretches.reduce((sum, { run }) => sum + run.length, 0);
  const round = (s: number): number => (s >= 0 && s < girth ? s : ((s % girth) + girth) % girth);
  const stretchAt = (s: number): Stretch => {
    let [low, high] = [0, stretches.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((stretches[middle]?.from ?? 0) <= s) low = middle;
      else high = middle;
    }
    return stretches[low] as Stretch;
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
  return {
    girth,
    wall,
    at,
    joints: jointsOf(stretches),
    faces: facesOf(stretches),
    ...(open && { wallAt }),
  };
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
