import type { Cubic } from '../geometry/cubic.ts';

/** A line along the stock at one angle round it. */
export interface StationLine {
  /** Sheet x, mm. */
  readonly x: number;
  /** Number as written, e.g. `45°`. */
  readonly label: string;
  readonly quarter: boolean;
  /** A word beside the number: `HEEL · TDC`, `SIDE`. */
  readonly word?: string;
  /** Distance from the reference line up to the cut line as written; left out where there is no cut. */
  readonly ordinate?: string;
  /** The same down to the lower cut line. */
  readonly lowerOrdinate?: string;
}

/** A label at any place round the stock. */
export interface PlacedLabel {
  readonly x: number;
  readonly text: string;
  /** What is written where there is no room for the whole text. */
  readonly short?: string;
}

/** A cut line across a strip. */
export interface CutEdge {
  /** From left to right, never turning back. */
  readonly line: readonly Cubic[];
  /** Height of the line at sheet x. */
  readonly at: (x: number) => number;
}

/** What is kept of a band, from one seam to the other, in sheet mm. */
export interface Strip {
  /** Left and right seam. */
  readonly from: number;
  readonly to: number;
  /** Height of the straight line all is measured from: an edge, or a line inside a strip with a lower cut. */
  readonly reference: number;
  /** The cut line above; without one the strip ends at the paper's upper edge. */
  readonly upper?: CutEdge;
  /** The cut line below; without one the strip ends at its reference line. */
  readonly lower?: CutEdge;
  /** True where another kept part lies past the upper cut: what has no room under it is left out. */
  readonly shared?: boolean;
  /** Height of a bend line right round, which KEEP stands under. */
  readonly bend?: number;
  /** Stretches of the paper with no steel under them, from and to in sheet x: nothing is cut there. */
  readonly openings?: readonly (readonly [from: number, to: number])[];
  readonly stations: readonly StationLine[];
  readonly labels?: readonly PlacedLabel[];
}

/** Heights above the reference line, mm: ticks, numbers, words, then the station lines begin. */
export const TICK = 3;
export const NUMBER = 4.2;
export const WORD = 10.6;
export const LINES_FROM = 14.6;
export const ORDINATE_LENGTH = 11;

/** The extremes of a cut line within `half` mm of `x`, inside the strip. */
export const edgeRange = (
  { from, to }: Pick<Strip, 'from' | 'to'>,
  edge: CutEdge,
  x: number,
  half: number,
): readonly [low: number, high: number] => {
  const heights = Array.from({ length: 9 }, (_, i) =>
    edge.at(Math.min(to, Math.max(from, x + (half * (i - 4)) / 4))),
  );
  return [Math.min(...heights), Math.max(...heights)];
};
