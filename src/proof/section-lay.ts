import { contourDistance, spotAt, type ContourEdge, type Spot } from './contour.ts';
import { point, type Vec2, type Vec3 } from './space.ts';

/** A section as `soapstone.json` has it; a tape does not reach its inner edges. */
export interface ToldSection {
  readonly outside: readonly (ContourEdge & { readonly inner?: boolean; readonly wall?: number })[];
  readonly thickness: number;
}

type OuterEdge = ContourEdge & { readonly wall?: number };

/** A stretch of the paper: from sheet x on, the spots of an edge by share, or one spot where it creases. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly spot: (x: number) => Spot;
  /** How deep the steel counts under it; nothing under a crease or over an opening. */
  readonly most: number;
}

const CHORDS = 8192;
/** Ends nearer than this meet, mm: recorded figures are rounded. */
const MEET = 1e-6;

const apart = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);
/** The turn from one normal to the next, counter-clockwise. */
const turnTo = (a: Spot, b: Spot): number => Math.atan2(a.nx * b.ny - a.ny * b.nx, a.nx * b.nx + a.ny * b.ny);

/** How far along the paper each share of an edge lies: short chords of the steel, and the lift for each turn. */
const lengthsOf = (edge: ContourEdge, lift: number): readonly number[] => {
  const count = edge.kind === 'line' ? 1 : CHORDS;
  const lengths = [0];
  let last = spotAt(edge, 0);
  for (let i = 1; i <= count; i++) {
    const next = spotAt(edge, i / count);
    lengths.push((lengths[i - 1] ?? 0) + apart(last, next) + lift * turnTo(last, next));
    last = next;
  }
  return lengths;
};

const shareAt = (lengths: readonly number[], l: number): number => {
  let [low, high] = [0, lengths.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((lengths[middle] ?? 0) <= l) low = middle;
    else high = middle;
  }
  const [a, b] = [lengths[low] ?? 0, lengths[high] ?? 0];
  return (low + (l - a) / (b - a)) / (lengths.length - 1);
};

/** The paper's stretches in order from the section's beginning, `lift` over the steel. */
const stretchesOf = ({ outside, thickness }: ToldSection, lift: number): readonly Stretch[] => {
  const outer = outside.filter(({ inner }) => inner !== true);
  const stretches: Stretch[] = [];
  let x = 0;
  const add = (edge: OuterEdge, most: number): void => {
    const lengths = lengthsOf(edge, lift);
    const from = x;
    x += lengths.at(-1) ?? 0;
    stretches.push({ from, to: x, most, spot: (at) => spotAt(edge, shareAt(lengths, at - from)) });
  };
  const crease = (before: Spot, after: Spot): void => {
    const from = x;
    const turn = turnTo(before, after);
    x += Math.max(0, lift * turn);
    if (turn > 1e-6) stretches.push({ from, to: x, most: 0, spot: () => after });
  };
  outer.forEach((edge, i) => {
    add(edge, edge.wall ?? thickness);
    const next = outer[(i + 1) % outer.length] ?? edge;
    const [end, start] = [spotAt(edge, 1), spotAt(next, 0)];
    if (apart(end, start) < MEET) {
      crease(end, start);
      return;
    }
    // A tape runs straight over an opening.
    const over: ContourEdge = { kind: 'line', from: end, to: start };
    crease(end, spotAt(over, 0));
    add(over, 0);
    crease(spotAt(over, 1), start);
  });
  return stretches;
};

/** Stock as a sheet is wrapped around it along the z axis, x = 0 at the section's beginning. */
export interface LaidSection {
  /** Where a point of the sheet comes to lie, at a depth under the outside. */
  readonly place: (p: Vec2, depth: number) => Vec3;
  /** How much steel there is under sheet x. */
  readonly wallAt: (x: number) => number;
  /** True at a sharp corner, where the line steps from one face's height to the next one's. */
  readonly isCorner: (x: number) => boolean;
}

/** Steps in which the far side of the steel is looked for, mm. */
const STEP = 0.5;
/** A corner takes this much of the line on either side, mm. */
const BESIDE = 0.01;

export const laySection = (section: ToldSection, lift: number): LaidSection => {
  const stretches = stretchesOf(section, lift);
  const girth = stretches.at(-1)?.to ?? 0;
  const around = (x: number): number => ((x % girth) + girth) % girth;
  const stretchAt = (run: number): Stretch => {
    const found = stretches.find(({ from, to }) => run >= from && run <= to) ?? stretches[0];
    if (!found) throw new Error('a section without edges');
    return found;
  };
  const open = section.outside.some(({ inner }) => inner === true);
  const steel = contourDistance(section.outside);
  const creases = stretches.filter(({ most }) => most === 0);
  return {
    place: (p, depth) => {
      const run = around(p.x);
      const { x, y, nx, ny } = stretchAt(run).spot(run);
      return point(x - depth * nx, y - depth * ny, p.y);
    },
    wallAt: (at) => {
      const run = around(at);
      const { most, spot } = stretchAt(run);
      if (!open) return most;
      const { x, y, nx, ny } = spot(run);
      const isOut = (depth: number): boolean => steel({ x: x - depth * nx, y: y - depth * ny }) > 1e-9;
      let low = 1e-4;
      while (low < most && !isOut(low)) low += STEP;
      if (low >= most && !isOut(most)) return most;
      let [within, beyond] = [Math.max(0, low - STEP), Math.min(most, low)];
      for (let i = 0; i < 40; i++) {
        const middle = (within + beyond) / 2;
        if (isOut(middle)) beyond = middle;
        else within = middle;
      }
      return within;
    },
    isCorner: (at) =>
      creases.some(({ from, to }) =>
        [-girth, 0, girth].some(
          (turn) => around(at) + turn > from - BESIDE && around(at) + turn < to + BESIDE,
        ),
      ),
  };
};
