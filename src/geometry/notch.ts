import type { ContourOutline } from './contour-outline.ts';
import type { Cubic } from './cubic.ts';
import { halve } from './halving.ts';
import { traceLine } from './trace.ts';
import { dot2, type Vec2 } from './vector.ts';

/** How a stock is notched so that it folds about one of its walls. Lengths in mm, angles in radians. */
export interface NotchAsked {
  /** Which face stays whole and bends. */
  readonly hinge: string;
  /** Thickness of that wall. */
  readonly thickness: number;
  /** How far the stock turns, in (0, π). */
  readonly turn: number;
  /** Inside radius of the bend; 0 folds sharp on the inside face. */
  readonly bendRadius: number;
  /** Where the length stays the same, as a part of the thickness from the inside. */
  readonly k: number;
  /** What the closed faces stand apart. */
  readonly gap: number;
}

/** A V-notch laid flat: y runs along the stock from the middle of the bend. */
export interface Notch {
  /** Length of the hinge that goes into the bend. */
  readonly allowance: number;
  /** Inside radius of the bend: below this height the sides run square to the stock. */
  readonly bendRadius: number;
  /** How high a place of the outline stands over the inside of the hinge, mm; negative in the hinge itself. */
  readonly heightAt: (s: number) => number;
  /** Half of the notch's width at a height over the inside of the hinge. */
  readonly halfWidth: (height: number) => number;
  /** Greatest height, and the width there. */
  readonly farHeight: number;
  readonly farWidth: number;
  /** Middle of the hinge's face along the girth. */
  readonly hingeAt: number;
}

/** Length of the wall that goes into a bend: the turn times the radius to the line that keeps its length. */
export const bendAllowance = (turn: number, bendRadius: number, thickness: number, k: number): number =>
  bendRadius > 0 ? turn * (bendRadius + k * thickness) : 0;

/**
 * The notch that folds to the turn: a V of that included angle, its point on the inside face of the hinge. Round a bend of
 * inside radius r the two sides meet in the plane through the bend's center, so the V begins r above the inside face and
 * the bend's length lies between its sides. Throws a RangeError where the outline has no flat face of the hinge's name.
 */
export const solveNotch = (outline: ContourOutline, asked: NotchAsked): Notch => {
  const { thickness, turn, bendRadius, k, gap } = asked;
  const parts = outline.faces.filter(({ face, flat }) => face === asked.hinge && flat);
  const [first] = parts;
  if (!first) throw new RangeError(`no flat face is called ${asked.hinge}`);
  const place = outline.at((first.from + first.to) / 2, 0);
  const heightAt = (s: number): number =>
    dot2(place, first.out) - dot2(outline.at(s, 0), first.out) - thickness;
  const allowance = bendAllowance(turn, bendRadius, thickness, k);
  const halfWidth = (height: number): number =>
    allowance / 2 + Math.max(0, height - bendRadius) * Math.tan(turn / 2) + gap / (2 * Math.cos(turn / 2));
  const farHeight = Math.max(
    ...outline.joints.map(heightAt),
    ...outline.faces.map(({ from }) => heightAt(from)),
  );
  // A face begun in its middle lies at both ends of the girth.
  const [low, high] =
    parts.length > 1
      ? [Math.max(...parts.map(({ from }) => from)) - outline.girth, Math.min(...parts.map(({ to }) => to))]
      : [first.from, first.to];
  return {
    allowance,
    bendRadius,
    heightAt,
    halfWidth,
    farHeight,
    farWidth: 2 * halfWidth(farHeight),
    hingeAt: (low + high) / 2,
  };
};

/** A stretch of the girth that a notch opens, from the middle of the hinge on. */
export interface Opened {
  readonly from: number;
  readonly to: number;
}

/** The stretches of steel that stand higher than the inside of the hinge, within one girth from its middle. */
export const notchStretches = (outline: ContourOutline, notch: Notch): readonly Opened[] => {
  const { girth, faces } = outline;
  const { hingeAt, heightAt } = notch;
  const around = [0, 1, 2].flatMap((round) =>
    faces.map(({ from, to, face }) => ({
      from: Math.max(hingeAt, from + (round - 1) * girth),
      to: Math.min(hingeAt + girth, to + (round - 1) * girth),
      steel: face !== undefined,
    })),
  );
  const found: { from: number; to: number }[] = [];
  for (const { from, to, steel } of around) {
    if (to - from < 1e-9 || !steel) continue;
    // Faces and corners each rise or fall all the way, so one crossing at most lies in a stretch.
    const inset = (to - from) * 1e-9;
    const [a, b] = [heightAt(from + inset) > 0, heightAt(to - inset) > 0];
    if (!a && !b) continue;
    const edge = halve((s) => heightAt(s) > 0 === a, from, to, 80).middle;
    const open = a && b ? { from, to } : a ? { from, to: edge } : { from: edge, to };
    const last = found.at(-1);
    if (last && open.from - last.to < 1e-6) last.to = open.to;
    else found.push(open);
  }
  return found;
};

/** The two sides of a notch over a stretch, laid flat with x along the girth: the one up the stock, and the one down. */
export const notchSides = (
  outline: ContourOutline,
  notch: Notch,
  { from, to }: Opened,
): { readonly upper: readonly Cubic[]; readonly lower: readonly Cubic[] } => {
  const joints = [-2, -1, 0, 1, 2].flatMap((round) => outline.joints.map((s) => s + round * outline.girth));
  const side = (sign: 1 | -1): readonly Cubic[] =>
    traceLine(
      (s) => {
        const height = Math.max(0, notch.heightAt(s));
        const point: Vec2 = { x: s, y: sign * notch.halfWidth(height) };
        // The sides run straight up to the bend's center, and spread from there on.
        return { point, label: height > notch.bendRadius ? 'side' : 'slot', graze: 1 };
      },
      from,
      to,
      joints,
    );
  return { upper: side(1), lower: side(-1) };
};
