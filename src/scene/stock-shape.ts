import type { Mate } from '../geometry/mate.ts';
import type { Outline } from '../geometry/outline.ts';
import type { Section } from '../geometry/section.ts';
import { vec3, type Vec2 } from '../geometry/vector.ts';
import type { Pose, PrismEnd, Shape, StockEnd } from './shape.ts';

/** What a stock's shape is made of; without a section it is hollow. */
export interface ShapedStock {
  readonly outline: Outline;
  readonly section?: Section;
}

/** A cut end by its height around the outside, and over each point of the section for stock that has no bore, mm along the axis. */
export interface FittedCut {
  readonly around: (s: number) => number;
  readonly over: (p: Vec2) => number;
}

/** An end of a stock: square at a height, or cut. */
export type StockCut = number | FittedCut;

/** A straight stock between two ends: with a bore, by its outline and wall; open or solid, by its section. */
export const stockShape = (
  { outline, section }: ShapedStock,
  pose: Pose,
  start: StockCut,
  end: StockCut,
): Shape => {
  const around = (e: StockCut): StockEnd => (typeof e === 'number' ? e : e.around);
  if (!section || section.inside)
    return { kind: 'stock', pose, outline, start: around(start), end: around(end) };
  const over = (e: StockCut): PrismEnd => (typeof e === 'number' ? e : e.over);
  return { kind: 'prism', pose, section, start: over(start), end: over(end) };
};

/** An end cut by a mate's rule: `around` its development's ordinate, and over any point where that point meets the mate, less the gap. */
export const cutAgainst = (around: (s: number) => number, mate: Mate, gap: number): FittedCut => ({
  around,
  over: ({ x, y }) => {
    const hit = mate.enter({ origin: vec3(x, y, 0), direction: vec3(0, 0, 1) });
    return (hit?.t ?? 0) - gap;
  },
});
