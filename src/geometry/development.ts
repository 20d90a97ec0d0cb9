import type { Cubic } from './fit.ts';
import type { Mate } from './mate.ts';
import type { Outline } from './outline.ts';
import { reachAt, type Contact } from './reach.ts';
import { traceLine } from './trace.ts';
import type { Vec3 } from './vector.ts';

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
  /** Lowest and highest ordinate, mm. */
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
  const reach = (s: number) => {
    const found = reachAt(outline, end.mate, end.contact, s);
    if (!found) throw new MissError(s);
    return found;
  };
  const ordinate = (s: number): number => reach(s).z - end.gap;
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
  const heights = line.flatMap((cubic) => [cubic.start.y, cubic.end.y]);
  for (let i = 0; i < 720; i++) heights.push(ordinate(seam + (outline.girth * i) / 720));
  return { line, ordinate, low: Math.min(...heights), high: Math.max(...heights) };
};

const modulo = (a: number, b: number): number => ((a % b) + b) % b;

/** The cut line in space (stock frame), on the outside surface, at girth position `s`. */
export const cutPoint = (outline: Outline, development: Development, s: number): Vec3 => ({
  ...outline.at(s, 0),
  z: development.ordinate(s),
});
