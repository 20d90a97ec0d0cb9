import type { Cubic } from './cubic.ts';
import { halve } from './halving.ts';
import { checkIsMate, type Mate } from './mate.ts';
import { checkIsOutline, type Outline } from './outline.ts';
import { leastReach, reversedLayers, type Reach } from './reach.ts';
import { stockSkin, type Skin } from './skin.ts';
import { traceLine } from './trace.ts';

/** An opening laid flat on a body: the same trace as a cut end, seen from the other part. */
export interface Opening {
  /** Closed line on the flat; on a stock x along its girth from position 0, y along its axis, mm. */
  readonly line: readonly Cubic[];
  /** Positions of the two ends of the opening; on a stock along its girth, mm. */
  readonly from: number;
  readonly to: number;
  /** Lower and upper edge along the line at position `s` in [from, to], mm. */
  readonly lower: (s: number) => number;
  readonly upper: (s: number) => number;
}

/** An opening that is not one piece with two ends. */
export class OpeningError extends Error {
  /** Position where it breaks up. */
  readonly s: number;
  constructor(s: number) {
    super(`the opening is not one piece at position ${s}`);
    this.name = 'OpeningError';
    this.s = s;
  }
}

/** Steps across the facing side in which an opening's ends are looked for. */
const STEPS = 360;

/**
 * The opening that a body makes in a stock's wall (stock frame): every generator of the outline is followed from both
 * sides to the body. `through` clears the body over the whole wall, otherwise the trace is on the outside only.
 * @param centre a girth position inside the opening, mm
 * @param facing the girth positions that face the body; it comes from there, so the far side is left whole. A quarter of
 *   the girth either way of position 0 when left out
 * Undefined where the generator there misses the body.
 * @throws OpeningError where the opening falls apart
 */
export const developOpening = (
  outline: Outline,
  body: Mate,
  through: boolean,
  centre: number,
  facing?: readonly [number, number],
): Opening | undefined => {
  checkIsOutline(outline);
  checkIsMate(body);
  const quarter = outline.girth / 4;
  return traceOpening(stockSkin(outline), body, through, centre, facing ?? [-quarter, quarter]);
};

/** The same on any skin. */
export const traceOpening = (
  skin: Skin,
  body: Mate,
  through: boolean,
  centre: number,
  facing: readonly [number, number],
): Opening | undefined => {
  const deep = through ? skin.wall : 0;
  const from_ = (s: number): Reach | undefined => leastReach(skin.layers(s), body, 0, deep);
  const inside = (s: number): boolean => from_(s) !== undefined;
  if (!inside(centre)) return undefined;

  const step = (facing[1] - facing[0]) / STEPS;
  const edge = (limit: number): number => {
    const stride = Math.sign(limit - centre) * step;
    let known = centre;
    let beyond = centre;
    while (known === beyond) {
      if (known === limit) return limit;
      beyond = (limit - known) / stride <= 1 ? limit : known + stride;
      if (inside(beyond)) known = beyond;
    }
    return halve(inside, known, beyond, 80).low;
  };
  const from = edge(facing[0]);
  const to = edge(facing[1]);
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  const sided = (above: boolean, s: number): Reach => {
    const clamped = Math.min(to, Math.max(from, s));
    const at = (position: number): Reach | undefined => {
      const layers = skin.layers(position);
      return leastReach(above ? reversedLayers(layers) : layers, body, 0, deep);
    };
    // On the very edge of a body with flat sides one way may just miss: look a hair further in.
    const found = at(clamped) ?? at(clamped + (middle - clamped) * 1e-9);
    if (!found) throw new OpeningError(s);
    return found;
  };
  const lower = (s: number): number => sided(false, s).z;
  const upper = (s: number): number => -sided(true, s).z;

  // Round the opening by an angle whose sine is the girth position, so that its ends are as smooth as its sides.
  const turnsAt = skin.joints.flatMap((s) => {
    const sine = (s - middle) / half;
    return Math.abs(sine) < 1 ? [Math.asin(sine), Math.PI - Math.asin(sine)] : [];
  });
  const trace = (): readonly Cubic[] =>
    traceLine(
      (turn) => {
        const s = middle + half * Math.sin(turn);
        const above = Math.cos(turn) >= 0;
        const reach = sided(above, s);
        return { point: skin.flat(s, above ? -reach.z : reach.z), label: reach.label, graze: 1 };
      },
      -Math.PI,
      Math.PI,
      [-Math.PI / 2, 0, Math.PI / 2, ...turnsAt.map((turn) => (turn > Math.PI ? turn - 2 * Math.PI : turn))],
    );
  let line: readonly Cubic[] | undefined;
  return {
    // A hole in space needs the two edges alone.
    get line() {
      return (line ??= trace());
    },
    from,
    to,
    lower,
    upper,
  };
};
