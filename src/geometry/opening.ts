import type { Cubic } from './fit.ts';
import type { Mate } from './mate.ts';
import type { Outline } from './outline.ts';
import { meets, reachAt, type Reach } from './reach.ts';
import { traceLine } from './trace.ts';
import type { Vec3 } from './vector.ts';

/** An opening laid flat on a stock: the same trace as a cut end, seen from the other part. */
export interface Opening {
  /** Closed line: x along the stock's girth from its position 0, y along its axis, mm. */
  readonly line: readonly Cubic[];
  /** Girth positions of the two ends of the opening, mm. */
  readonly from: number;
  readonly to: number;
  /** Lower and upper edge at girth position `s` in [from, to], mm. */
  readonly lower: (s: number) => number;
  readonly upper: (s: number) => number;
}

const turned = (v: Vec3): Vec3 => ({ x: v.x, y: v.y, z: -v.z });

/** The body seen by lines that run the other way along z. */
const mirrored = (body: Mate): Mate => ({
  convex: body.convex,
  enter: ({ origin, direction }) => {
    const hit = body.enter({ origin: turned(origin), direction: turned(direction) });
    return hit && { ...hit, normal: turned(hit.normal) };
  },
});

/**
 * The opening that a body makes in a stock's wall (stock frame): every generator of the outline is followed from both
 * sides to the body. `through` clears the body over the whole wall, otherwise the trace is on the outside only.
 * @param centre a girth position inside the opening, mm
 * Undefined where the generator there misses the body.
 */
export const developOpening = (
  outline: Outline,
  body: Mate,
  through: boolean,
  centre: number,
): Opening | undefined => {
  const contact = through ? 'wall' : 'od';
  const beyond = mirrored(body);
  const reachFrom = (mate: Mate, s: number): Reach | undefined => reachAt(outline, mate, contact, s);
  const inside = (s: number): boolean => meets(outline, body, contact, s);
  if (!inside(centre)) return undefined;

  const edge = (step: number): number => {
    let known = centre;
    let beyondEdge = centre + step;
    while (inside(beyondEdge)) {
      known = beyondEdge;
      beyondEdge += step;
      if (Math.abs(beyondEdge - centre) > outline.girth / 2) return known;
    }
    for (let i = 0; i < 80; i++) {
      const middle = (known + beyondEdge) / 2;
      if (middle === known || middle === beyondEdge) break;
      if (inside(middle)) known = middle;
      else beyondEdge = middle;
    }
    return known;
  };
  const from = edge(-outline.girth / 720);
  const to = edge(outline.girth / 720);
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  const sided = (mate: Mate, s: number): Reach => {
    const clamped = Math.min(to, Math.max(from, s));
    const found = reachFrom(mate, clamped);
    if (!found) throw new Error(`the opening is not one piece at girth position ${s} mm`);
    return found;
  };
  const lower = (s: number): number => sided(body, s).z;
  const upper = (s: number): number => -sided(beyond, s).z;

  // Round the opening by an angle whose sine is the girth position, so that its ends are as smooth as its sides.
  const line = traceLine(
    (turn) => {
      const s = middle + half * Math.sin(turn);
      const above = Math.cos(turn) >= 0;
      const reach = sided(above ? beyond : body, s);
      return { point: { x: s, y: above ? -reach.z : reach.z }, label: reach.label, graze: 1 };
    },
    -Math.PI,
    Math.PI,
    [-Math.PI / 2, 0, Math.PI / 2],
  );
  return { line, from, to, lower, upper };
};
