import type { ContourOutline } from './contour-outline.ts';
import { dot2, left2, type Vec2 } from './vector.ts';

/** A saw's settings for a plane cut with the stock lying on one of its faces, radians from square. */
export interface FaceSetting {
  readonly face: string;
  /** Width of the face, mm. */
  readonly width: number;
  /** Turn of the cut line on the face; positive where it rises along the face, counter-clockwise facing the cut end. */
  readonly miter: number;
  /** Tilt of the blade from square to the face; positive where the cut overhangs the face. */
  readonly bevel: number;
}

/**
 * The settings for every flat face of the outside, for the cut plane z = x · slope.x + y · slope.y. On a face the cut line
 * rises by the slope along it; the blade tilts by what is left of the plane's lean, square to the face:
 * sin bevel = slope · out / √(1 + slope²).
 */
export const sawFaces = ({ faces, girth }: ContourOutline, slope: Vec2): readonly FaceSetting[] => {
  const lean = Math.sqrt(1 + dot2(slope, slope));
  const found = new Map<string, FaceSetting>();
  for (const { from, to, face, flat, out } of faces) {
    if (!flat || face === undefined || to - from >= girth) continue;
    const width = to - from + (found.get(face)?.width ?? 0);
    found.set(face, {
      face,
      width,
      miter: Math.atan(dot2(slope, left2(out))),
      bevel: Math.asin(dot2(slope, out) / lean),
    });
  }
  return [...found.values()].filter(({ face }) => !face.startsWith('toe'));
};

/** Stock does not stand safely on a face narrower than this share of its widest. */
const STEADY = 1 / 3;

/** The face to lay on the saw: of those it lies steady on the one that needs the least tilt, the widest of several. */
export const easiestFace = (settings: readonly FaceSetting[]): FaceSetting | undefined => {
  const widest = Math.max(...settings.map(({ width }) => width));
  return settings
    .filter(({ width }) => width >= STEADY * widest)
    .sort(
      (a, b) =>
        Math.round((Math.abs(a.bevel) - Math.abs(b.bevel)) * 1e6) || Math.round((b.width - a.width) * 1e6),
    )[0];
};
