import { textWidth } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { bigWord } from '../drawing/scrap.ts';
import { FINE, MEDIUM, ruleLine } from '../drawing/paths.ts';
import { countField } from '../fields/fields.ts';
import { TURN } from '../geometry/angle-units.ts';
import { navyArms } from '../geometry/arms.ts';
import type { Pipe } from '../stock/pipe.ts';
import type { BandPaper } from './band-paper.ts';

/** How many arms a head has. */
export const armsField = countField('number of arms; left out, a fifth of the girth in inches, at least 5', {
  example: '6',
  min: 3,
  max: 36,
  optional: true,
});

/** The arms asked for, or those of the Navy rule. */
export const countArms = (arms: number | undefined, pipe: Pipe): number => arms ?? navyArms(pipe.girth);

/** A line across every arm: from its centre line, `half` radians each way, at height y. */
export interface Bend {
  readonly y: number;
  readonly half: number;
}

/** A bend line shorter than this is not drawn, mm of paper. */
export const LEAST_BEND = 0.5;

/** Bend lines across the arms, parted at the seam. */
export const bendLines = (paper: BandPaper, centres: readonly number[], bends: readonly Bend[]): Mark[] =>
  centres.flatMap((centre) =>
    bends.flatMap(({ y, half }) =>
      [-TURN, 0, TURN].flatMap((turn) => {
        const from = Math.max(paper.from, paper.xAt(centre + turn - half));
        const to = Math.min(paper.from + paper.girth, paper.xAt(centre + turn + half));
        return to - from > LEAST_BEND
          ? [ruleLine('bend', { x: from, y }, { x: to, y }, FINE, 'long-dash-double-dot')]
          : [];
      }),
    ),
  );

/** The middle of a name from its line, mm. */
const NAME_OFF = 2.6;

/** How much of an arm's width at its line a name takes at most, so that it keeps off the cut beside it. */
const NAME_SHARE = 0.85;

/**
 * The line where the arms begin, right round, its name on some of the arms: above it (1), or below (-1) where they hang; on the
 * line's other side where the arms are too narrow.
 */
export const baseLine = (
  paper: BandPaper,
  y: number,
  name: string,
  centres: readonly number[],
  side: 1 | -1 = 1,
): Mark[] => {
  const end = paper.from + paper.girth;
  const half = textWidth(name, 2.5, true) / 2 + 1;
  const places = centres
    .flatMap((centre) => [-TURN, 0, TURN].map((turn) => paper.xAt(centre + turn)))
    .filter((x) => x > paper.from + half && x < end - half)
    .sort((a, b) => a - b);
  const fits = 2 * half + 2 < (NAME_SHARE * paper.girth) / centres.length;
  const every = Math.max(1, Math.floor((250 * places.length) / paper.girth));
  return [
    ruleLine('bend', { x: paper.from, y }, { x: end, y }, MEDIUM, 'long-dash-double-dot'),
    ...places
      .filter((_, i) => i % every === 0)
      .flatMap((x) => bigWord({ x, y: y + (fits ? side : -side) * NAME_OFF }, name, 2.5)),
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
