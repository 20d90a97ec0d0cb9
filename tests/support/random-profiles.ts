import { ellipsePoints, polygonPoints, rectanglePoints } from './outlines.ts';
import type { Vec2 } from './space.ts';

/** An end of a transition as it is written, and its outline as points. */
export interface RandomProfile {
  readonly text: string;
  readonly points: readonly Vec2[];
}

/** Every kind of end there is, of any size between 60 and 400 mm. */
export const profileKinds: Readonly<Record<string, (random: () => number) => RandomProfile>> = {
  round: (random) => {
    const d = size(random);
    return { text: `round ${d}mm`, points: ellipsePoints(d, d, 720) };
  },
  rect: (random) => {
    const [w, d] = [size(random), size(random)];
    return { text: `rect ${w}x${d}mm`, points: rectanglePoints(w, d, 0) };
  },
  rounded: (random) => {
    const [w, d] = [size(random), size(random)];
    const corner = Math.round(Math.min(w, d) * (0.1 + 0.35 * random()));
    return {
      text: `rounded ${w}x${d}mm corner ${corner}mm`,
      points: rectanglePoints(w, d, corner, 180),
    };
  },
  oval: (random) => {
    const d = size(random);
    const w = d + 10 + Math.round(200 * random());
    return { text: `oval ${w}x${d}mm`, points: rectanglePoints(w, d, d / 2, 180) };
  },
  ellipse: (random) => {
    const [w, d] = [size(random), size(random)];
    return { text: `ellipse ${w}x${d}mm`, points: ellipsePoints(w, d, 720) };
  },
  polygon: (random) => {
    const sides = 3 + Math.floor(7 * random());
    const side = Math.round((80 + 300 * random()) * Math.sin(Math.PI / sides));
    return { text: `polygon ${sides} side ${side}mm`, points: polygonPoints(sides, side) };
  },
};

const size = (random: () => number): number => 60 + Math.round(340 * random());
