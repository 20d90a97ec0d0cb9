/** Gores of a ball. Radius in mm; latitudes in radians from the middle, positive up. */
export interface Ball {
  readonly radius: number;
  readonly count: number;
}

/**
 * How a gore is shaped: `rolled` about one direction only, so that the ball has `count` flat-sided facets in plan, or
 * `dished` until it lies on the ball.
 */
export type GoreForm = 'rolled' | 'dished';

/** Half the width of a gore at a latitude, mm: rolled, the facet's chord R cos f tan(π/N); dished, the ball's own arc. */
export const goreHalfWidth = ({ radius, count }: Ball, form: GoreForm, latitude: number): number =>
  radius * Math.cos(latitude) * (form === 'rolled' ? Math.tan(Math.PI / count) : Math.PI / count);

/** How far the seams of rolled gores stand outside the ball that their middles lie on, at the middle, mm. */
export const seamStandoff = ({ radius, count }: Ball): number => radius * (1 / Math.cos(Math.PI / count) - 1);

/** Area of one gore between two latitudes, mm² (∫ width · R df). */
export const goreArea = (ball: Ball, form: GoreForm, from: number, to: number): number =>
  2 * goreHalfWidth(ball, form, 0) * ball.radius * (Math.sin(to) - Math.sin(from));

/** The latitude of the circle of a diameter on the upper half of a ball. */
export const latitudeOf = (radius: number, diameter: number): number => Math.acos(diameter / (2 * radius));

/**
 * Radius of the flat disc of the same area as the cap above a latitude: the chord from pole to rim, 2 R sin((90° - f)/2)
 * (Archimedes). A hemisphere of diameter d takes d / √2.
 */
export const capBlankRadius = (radius: number, latitude: number): number =>
  2 * radius * Math.sin((Math.PI / 2 - latitude) / 2);
