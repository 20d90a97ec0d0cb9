import type { Mark } from '../drawing/model.ts';
import { bigWord } from '../drawing/scrap.ts';
import { FINE, MEDIUM, ruleLine } from '../drawing/shape.ts';
import { countField, optional } from '../fields/fields.ts';
import { navyArms } from '../geometry/arms.ts';
import type { Pipe } from '../stock/pipe.ts';
import type { BandPaper } from './band-paper.ts';

const TURN = 2 * Math.PI;

/** How many arms a head has. */
export const armsField = optional(
  countField({
    help: 'number of arms; left out, a fifth of the girth in inches, at least 5',
    example: '6',
    min: 3,
    max: 36,
  }),
);

/** The arms asked for, or those of the Navy rule. */
export const countArms = (arms: number | undefined, pipe: Pipe): number => arms ?? navyArms(pipe.girth);

/** A line across every arm: from its centre line, `half` radians each way, at height y. */
export interface Bend {
  readonly y: number;
  readonly half: number;
}

/** Bend lines across the arms, parted at the seam. */
export const bendLines = (paper: BandPaper, centres: readonly number[], bends: readonly Bend[]): Mark[] =>
  centres.flatMap((centre) =>
    bends.flatMap(({ y, half }) =>
      [-TURN, 0, TURN].flatMap((turn) => {
        const from = Math.max(paper.from, paper.xAt(centre + turn - half));
        const to = Math.min(paper.from + paper.girth, paper.xAt(centre + turn + half));
        return to - from > 0.5
          ? [ruleLine('bend', { x: from, y }, { x: to, y }, FINE, 'long-dash-double-dot')]
          : [];
      }),
    ),
  );

/** The line where the arms begin, right round, with its name on it. */
export const baseLine = (paper: BandPaper, y: number, name: string): Mark[] => {
  const end = paper.from + paper.girth;
  const count = Math.max(1, Math.round(paper.girth / 250));
  return [
    ruleLine('bend', { x: paper.from, y }, { x: end, y }, MEDIUM, 'long-dash-double-dot'),
    ...Array.from({ length: count }).flatMap((_, i) =>
      bigWord({ x: paper.from + (paper.girth * (i + 0.3)) / count, y }, name, 2.5),
    ),
  ];
};

/** Centre lines of the arms between two heights, or up to a height of their own. */
export const centreLines = (
  paper: BandPaper,
  centres: readonly number[],
  from: number,
  to: (centre: number) => number,
): Mark[] =>
  centres.flatMap((centre) =>
    [-TURN, 0, TURN]
      .map((turn) => paper.xAt(centre + turn))
      .filter((x) => x > paper.from + 1e-6 && x < paper.from + paper.girth - 1e-6)
      .map((x) => ruleLine('centre', { x, y: from }, { x, y: to(centre) }, FINE, 'long-dash-dot')),
  );
