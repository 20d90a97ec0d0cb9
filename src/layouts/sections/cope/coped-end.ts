import type { Cope, CopeCut } from '../../../geometry/cope.ts';
import type { Stock } from '../../../stock/stock.ts';

/** Sizes of a beam or a channel, mm. */
export type Flanged = Extract<NonNullable<Stock['rolled']>, { readonly kind: 'beam' | 'channel' }>;

/** All that a coped end is drawn from, mm and radians. */
export interface CopedEnd {
  readonly beam: Flanged;
  readonly to: Flanged;
  readonly cope: Cope;
  readonly side: 'top' | 'bottom' | 'both';
  readonly setback: number;
  readonly clearance: number;
  readonly radius: number;
  readonly angle: number;
  readonly slope: number;
  readonly drop: number;
}

/** The cuts that are made, by their side. */
export const cutsOf = ({ cope: { top, bottom }, side }: CopedEnd): readonly ['top' | 'bottom', CopeCut][] => [
  ...(side !== 'bottom' ? ([['top', top]] as ['top', CopeCut][]) : []),
  ...(side !== 'top' ? ([['bottom', bottom]] as ['bottom', CopeCut][]) : []),
];

/**
 * How far a cut leans along the flange from the web to the flange's edge, mm. The cut is a plumb plane that lies at `angle` to the
 * beam in plan; along a flange that slopes, what it leans in plan is longer by 1 / cos.
 */
export const leanOf = ({ beam, angle, slope }: CopedEnd): number =>
  beam.width / 2 / Math.abs(Math.tan(angle)) / Math.cos(slope);
