import type { Hit, Line, Mate } from './mate.ts';
import type { Outline } from './outline.ts';
import type { Vec2 } from './vector.ts';

/** Which line is drawn on the outside: the first touch through the wall, the outside surface's, or the bore's. */
export type Contact = 'wall' | 'od' | 'id';

/** Where one generator of a stock meets its mate. */
export interface Reach {
  /** Along the stock's axis, mm. */
  readonly z: number;
  /** How deep in the wall it touches, mm. */
  readonly depth: number;
  /** Names the face met and the part of the wall that meets it; the cut line is smooth while this stays the same. */
  readonly label: string;
  /** Sine of the angle between the generator and the face: 0 where they are tangent. */
  readonly graze: number;
}

const SAMPLES = 16;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

const generator = (p: Vec2): Line => ({ origin: { ...p, z: 0 }, direction: { x: 0, y: 0, z: 1 } });

/**
 * The first touch of the stock's wall at girth position `s`, over depths from `shallow` to `deep`: the least reach
 * over the radii between bore and outside. Undefined where nothing of the wall meets the mate.
 */
const leastReach = (outline: Outline, mate: Mate, s: number, shallow: number, deep: number): Reach | undefined => {
  const hitAt = (depth: number): Hit | undefined => mate.enter(generator(outline.at(s, depth)));
  const asReach = (hit: Hit, depth: number): Reach => ({
    z: hit.t,
    depth,
    label: `${hit.face}/${depth === shallow ? 'outside' : depth === deep ? 'bore' : 'within'}`,
    graze: Math.abs(hit.normal.z),
  });
  const outer = hitAt(shallow);
  if (deep === shallow) return outer && asReach(outer, shallow);
  const inner = hitAt(deep);

  if (mate.convex && outer && inner) {
    // The reach is convex in depth, so its slope at both ends tells where the lowest point lies.
    const p = outline.at(s, shallow);
    const q = outline.at(s, deep);
    const inward = { x: (q.x - p.x) / (deep - shallow), y: (q.y - p.y) / (deep - shallow), z: 0 };
    // A generator enters against the normal, so the reach rises inward where the normal leans inward.
    const steepness = (hit: Hit): number => {
      const lean = hit.normal.x * inward.x + hit.normal.y * inward.y;
      return Math.abs(lean) < 1e-13 ? 0 : lean;
    };
    if (steepness(outer) >= 0) return asReach(outer, shallow);
    if (steepness(inner) <= 0) return asReach(inner, deep);
    let low = shallow;
    let high = deep;
    let best = { hit: outer, depth: shallow };
    for (let i = 0; i < 60 && high - low > 1e-12; i++) {
      const depth = (low + high) / 2;
      const hit = hitAt(depth);
      if (!hit) break;
      best = { hit, depth };
      if (steepness(hit) < 0) low = depth;
      else high = depth;
    }
    return asReach(best.hit, best.depth);
  }

  const depths = Array.from({ length: SAMPLES + 1 }, (_, i) => shallow + ((deep - shallow) * i) / SAMPLES);
  depths[SAMPLES] = deep;
  const heights = depths.map((depth) => hitAt(depth)?.t ?? Infinity);
  const lowest = heights.reduce((best, height, i) => (height < (heights[best] ?? Infinity) ? i : best), 0);
  if (heights[lowest] === Infinity) return undefined;
  let low = depths[Math.max(0, lowest - 1)] ?? shallow;
  let high = depths[Math.min(SAMPLES, lowest + 1)] ?? deep;
  for (let i = 0; i < 45; i++) {
    const a = high - GOLDEN * (high - low);
    const b = low + GOLDEN * (high - low);
    if ((hitAt(a)?.t ?? Infinity) <= (hitAt(b)?.t ?? Infinity)) high = b;
    else low = a;
  }
  const candidates = [depths[lowest] ?? shallow, (low + high) / 2].flatMap((depth) => {
    const hit = hitAt(depth);
    return hit ? [{ hit, depth }] : [];
  });
  const best = candidates.reduce((a, b) => (b.hit.t < a.hit.t - 1e-10 ? b : a));
  return asReach(best.hit, best.depth);
};

/**
 * Where the generator at girth position `s` first touches the mate, by the contact rule; the stock comes from -z.
 * `wall`: least reach over the whole wall. `od`, `id`: that surface's own reach.
 */
export const reachAt = (outline: Outline, mate: Mate, contact: Contact, s: number): Reach | undefined => {
  const shallow = contact === 'id' ? outline.wall : 0;
  const deep = contact === 'od' ? 0 : outline.wall;
  return leastReach(outline, mate, s, shallow, deep);
};


/** Whether any of the wall at girth position `s` meets the mate. */
export const meets = (outline: Outline, mate: Mate, contact: Contact, s: number): boolean =>
  (contact === 'wall' ? [0, outline.wall] : [contact === 'od' ? 0 : outline.wall]).some(
    (depth) => mate.enter(generator(outline.at(s, depth))) !== undefined,
  ) || (contact === 'wall' && leastReach(outline, mate, s, 0, outline.wall) !== undefined);
