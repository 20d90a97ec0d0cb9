import { say } from '../words/say.ts';
import { checkIsKind } from '../words/wrong-type.ts';
import { modulo } from './angle-units.ts';
import { cubicAt, type Cubic } from './cubic.ts';
import { checkIsMate, type Mate } from './mate.ts';
import { checkIsOutline, type Outline } from './outline.ts';
import { reachAt, type Contact, type Reach } from './reach.ts';
import { traceLine } from './trace.ts';

/** One end of a stock: what it must touch, by which rule, and how far it is backed off. */
export interface End {
  readonly mate: Mate;
  readonly contact: Contact;
  /** Root gap along the stock's axis, mm. */
  readonly gap: number;
}

/** A cut end laid flat. */
export interface Development {
  /** The cut line over one girth from the seam: x along the girth, y along the axis (stock frame z), mm. */
  readonly line: readonly Cubic[];
  /** Height of the cut line at girth position `s`, mm. */
  readonly ordinate: (s: number) => number;
  /** Lowest and highest ordinate where there is steel, mm. */
  readonly low: number;
  readonly high: number;
}

/** A generator that never meets its mate. */
export class MissError extends Error {
  /** Girth position of a generator that misses, mm. */
  readonly s: number;
  constructor(s: number) {
    super(`the generator at girth position ${s} mm misses the mate`);
    this.name = 'MissError';
    this.s = s;
  }
}

/**
 * Develops a cut end: the stock comes from -z and its wall touches the mate by the contact rule, less the gap.
 * @param seam girth position where the line starts, mm; it runs one girth from there
 * @throws MissError where a generator misses the mate
 */
export const developEnd = (outline: Outline, end: End, seam = 0): Development => {
  checkIsOutline(outline);
  checkIsKind(end, ['mate', 'contact', 'gap'], 'end', say`give a mate, a contact and a gap`);
  checkIsMate(end.mate);
  const reach = (s: number): Reach => {
    const found = reachAt(outline, end.mate, end.contact, s);
    if (!found) throw new MissError(s);
    return found;
  };
  const known = new Map<number, number>();
  const ordinate = (s: number): number => {
    const before = known.get(s);
    if (before !== undefined) return before;
    const found = reach(s).z - end.gap;
    known.set(s, found);
    return found;
  };
  const joints = outline.joints.map((s) => seam + modulo(s - seam, outline.girth));
  const line = traceLine(
    (s) => {
      const { z, label, graze } = reach(s);
      return { point: { x: s, y: z - end.gap }, label, graze };
    },
    seam,
    seam + outline.girth,
    joints,
  );
  // At a sharp corner the line steps: its own ends say how high it stands on either side.
  const heights = line
    .filter((cubic) => isOnSteel(outline, cubic))
    .flatMap((cubic) => [cubic.start.y, cubic.end.y, ...turningPoints(cubic).map(ordinate)]);
  return { line, ordinate, low: Math.min(...heights), high: Math.max(...heights) };
};

/** Narrower than this a stretch is a step from one to the next, as from steel to the mouth, mm. */
export const STEP = 1e-3;

/** False over the mouth of open stock, where the line is not cut, and on the step from its edge to what stands over the mouth. */
const isOnSteel = ({ wallAt }: Outline, { start, end }: Cubic): boolean => {
  if (wallAt === undefined) return true;
  if (end.x - start.x > STEP) return wallAt((start.x + end.x) / 2) > 0;
  return wallAt(start.x - STEP) > 0 && wallAt(end.x + STEP) > 0;
};

/** Girth positions of a cubic's highest and lowest points between its ends, good to second order. */
const turningPoints = ({ start, c1, c2, end }: Cubic): readonly number[] => {
  const [p, q, r] = [c1.y - start.y, c2.y - c1.y, end.y - c2.y];
  const [a, b] = [p - 2 * q + r, p - q];
  const root = Math.sqrt(Math.max(0, b * b - a * p));
  const turns = Math.abs(a) < 1e-12 ? [p / (2 * b)] : [(b - root) / a, (b + root) / a];
  const inside = turns.filter((u) => u > 0 && u < 1);
  return inside.map((u) => cubicAt({ start, c1, c2, end }, u).x);
};
