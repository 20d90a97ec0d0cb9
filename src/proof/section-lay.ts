import { spotAt, type ContourEdge, type Spot } from './contour.ts';
import { point, type Vec2, type Vec3 } from './space.ts';

/** A section as `soapstone.json` tells it; a tape does not reach its inner edges. */
export interface ToldSection {
  readonly outside: readonly (ContourEdge & { readonly inner?: boolean })[];
}

/** A stretch of the paper: from sheet x on, the spots of an edge by share, or one spot where it creases. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly spot: (x: number) => Spot;
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

/** Where sheet points lie that is wrapped around stock along the z axis: x = 0 at the section's beginning, `lift` over the steel. */
export const placeOnSection = (
  { outside }: ToldSection,
  lift: number,
): ((p: Vec2, depth: number) => Vec3) => {
  const outer = outside.filter(({ inner }) => inner !== true);
  const stretches: Stretch[] = [];
  let x = 0;
  const add = (edge: ContourEdge): void => {
    const lengths = lengthsOf(edge, lift);
    const from = x;
    x += lengths.at(-1) ?? 0;
    stretches.push({ from, to: x, spot: (at) => spotAt(edge, shareAt(lengths, at - from)) });
  };
  const crease = (before: Spot, after: Spot): void => {
    const from = x;
    x += Math.max(0, lift * turnTo(before, after));
    if (x - from > 1e-9) stretches.push({ from, to: x, spot: () => after });
  };
  outer.forEach((edge, i) => {
    add(edge);
    const next = outer[(i + 1) % outer.length] ?? edge;
    const [end, start] = [spotAt(edge, 1), spotAt(next, 0)];
    if (apart(end, start) < MEET) {
      crease(end, start);
      return;
    }
    // A tape runs straight over an opening.
    const over: ContourEdge = { kind: 'line', from: end, to: start };
    crease(end, spotAt(over, 0));
    add(over);
    crease(spotAt(over, 1), start);
  });
  const girth = x;
  return (p, depth) => {
    const run = ((p.x % girth) + girth) % girth;
    const stretch = stretches.find(({ from, to }) => run >= from && run <= to) ?? stretches[0];
    if (!stretch) throw new Error('a section without edges');
    const { x: sx, y: sy, nx, ny } = stretch.spot(run);
    return point(sx - depth * nx, sy - depth * ny, p.y);
  };
};
