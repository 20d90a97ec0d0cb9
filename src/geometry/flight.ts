import { TURN } from './angle-units.ts';
/** One turn of a screw's flight: a helicoid between its pipe and its outside. Diameters and pitch in mm. */
export interface Flight {
  readonly pipe: number;
  readonly outside: number;
  readonly pitch: number;
}

/** The flat ring that is pulled to one turn of a flight. */
export interface FlightBlank {
  /** Radii of the ring. */
  readonly inner: number;
  readonly outer: number;
  /** Angle the ring takes up and what is cut out of it, radians. */
  readonly sector: number;
  readonly gap: number;
  /** True lengths of the edges along the pipe and along the outside, mm. */
  readonly innerEdge: number;
  readonly outerEdge: number;
}

/**
 * The ring blank that keeps the flight's width and both its edges' lengths: each edge is the hypotenuse of its
 * circumference and the pitch, and width b and edges l < L give r = b l / (L - l), R = r + b, sector l / r.
 * A helicoid is not developable: the blank is an approximation, see `flightAreas`.
 */
export const flightBlank = ({ pipe, outside, pitch }: Flight): FlightBlank => {
  const [innerEdge, outerEdge] = [Math.hypot(Math.PI * pipe, pitch), Math.hypot(Math.PI * outside, pitch)];
  const width = (outside - pipe) / 2;
  const inner = (width * innerEdge) / (outerEdge - innerEdge);
  const sector = innerEdge / inner;
  return { inner, outer: inner + width, sector, gap: TURN - sector, innerEdge, outerEdge };
};

/** Area of one turn of the true helicoid and of its blank, mm²: the pull stretches the one to the other. */
export const flightAreas = (flight: Flight): { readonly helicoid: number; readonly blank: number } => {
  const rise = flight.pitch / TURN;
  const swept = (radius: number): number =>
    (TURN * (radius * Math.hypot(radius, rise) + rise * rise * Math.asinh(radius / rise))) / 2;
  const { inner, outer, sector } = flightBlank(flight);
  return {
    helicoid: swept(flight.outside / 2) - swept(flight.pipe / 2),
    blank: (sector * (outer * outer - inner * inner)) / 2,
  };
};
