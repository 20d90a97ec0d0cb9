import { itemAt } from '../lists.ts';
import type { Hit, Line, Mate } from './mate.ts';
import type { Outline } from './outline.ts';
import type { Vec3 } from './vector.ts';

/** Which line is drawn on the outside: the first touch through the wall, the outside surface's, or the bore's. */
export type Contact = 'wall' | 'od' | 'id';

/** Where one generator of a stock meets its mate. */
export interface Reach {
  /** Along the generator (the stock's axis), mm. */
  readonly z: number;
  /** How deep in the wall it touches, mm. */
  readonly depth: number;
  /** Names the face met and the part of the wall that meets it; the cut line is smooth while this stays the same. */
  readonly label: string;
  /** Sine of the angle between the generator and the face: 0 where they are tangent. */
  readonly graze: number;
}

/**
 * The straight lines that lie one under another in a wall, by depth under the outside, mm. They are parallel, and each
 * point of one lies square under the same point of the outside's. Plain numbers, since a cut line asks for some two thousand.
 */
export interface Layers {
  /** Where the outside's line begins. */
  readonly outside: Vec3;
  /** Unit direction of the lines. */
  readonly direction: Vec3;
  /** Unit direction into the wall. */
  readonly inward: Vec3;
}

/** The line `depth` mm under the outside. */
export const lineUnder = ({ outside, direction, inward }: Layers, depth: number): Line => ({
  origin: {
    x: outside.x + depth * inward.x,
    y: outside.y + depth * inward.y,
    z: outside.z + depth * inward.z,
  },
  direction,
});

/** A probe of the wall: a hit, or undefined where that layer misses. */
interface Probe {
  readonly depth: number;
  readonly hit: Hit | undefined;
}

const probe = (layers: Layers, mate: Mate, depth: number): Probe => ({
  depth,
  hit: mate.enter(lineUnder(layers, depth)),
});

/**
 * Layers looked at between outside and bore where the body is not convex. Two dips within one of them differ by less than
 * 1e-6 mm on any elbow and wall: their depth grows with the fourth power of the distance between them.
 */
const LAYERS = 4;
/** The same where both miss a convex body, which may be narrower than the wall. */
const THIN_LAYERS = 16;
/** Layers looked at for the thinnest flange. */
const MOST_LAYERS = 64;
/** Below this a face stands square to the wall's depth. */
const LEVEL = 1e-13;
const NARROWEST = 1e-12;

/**
 * How the reach goes on inward from a hit: positive where it rises. A line enters against the normal, so that is where the
 * normal leans inward.
 */
const rising = (hit: Hit, { inward }: Layers): number => {
  const lean = hit.normal.x * inward.x + hit.normal.y * inward.y + hit.normal.z * inward.z;
  return Math.abs(lean) < LEVEL ? 0 : lean;
};

/** The lowest point between two layers where the reach falls at the first and rises at the second (or misses outright). */
const findValley = (layers: Layers, mate: Mate, from: Probe, to: Probe): Probe => {
  let [low, high] = [from.depth, to.depth];
  let [atLow, atHigh] = [from.hit && rising(from.hit, layers), to.hit && rising(to.hit, layers)];
  // A layer that misses lies beyond the body: the reach falls away from it.
  let best = from.hit && (!to.hit || from.hit.t <= to.hit.t) ? from : to;
  let halve = false;
  for (let i = 0; i < 100 && high - low > NARROWEST; i++) {
    const width = high - low;
    let depth = (low + high) / 2;
    if (!halve && atLow !== undefined && atHigh !== undefined && atHigh > atLow)
      depth = low + Math.max(0.001, Math.min(0.999, -atLow / (atHigh - atLow))) * width;
    const { hit } = probe(layers, mate, depth);
    const slope = hit && rising(hit, layers);
    if (hit && (!best.hit || hit.t < best.hit.t)) best = { depth, hit };
    if (slope === 0) return { depth, hit };
    // A miss on the way: whichever end missed moves in; between two hits it is a gap, which the higher side borders.
    const isLow = slope === undefined ? atLow === undefined : slope < 0;
    if (isLow) [low, atLow] = [depth, slope];
    else [high, atHigh] = [depth, slope];
    if (slope !== undefined && Math.abs(slope) < 1e-11) break;
    halve = high - low > width / 2;
  }
  return best;
};

/** Twice as close as the body's least thickness, so that no flange or leg slips between two layers. */
const layersFor = ({ finest }: Mate, depth: number): number =>
  finest === undefined ? 0 : Math.min(MOST_LAYERS, Math.ceil((2 * depth) / finest));

/** The two layers side by side, one on each face, where a wall passes from one face of a body to another. */
const edgesBetween = (layers: Layers, mate: Mate, from: Probe, to: Probe): readonly Probe[] => {
  let [low, high] = [from, to];
  for (let i = 0; i < 60 && high.depth - low.depth > NARROWEST; i++) {
    const middle = probe(layers, mate, (low.depth + high.depth) / 2);
    if (middle.hit?.face === from.hit?.face) low = middle;
    else high = middle;
  }
  return [low, high];
};

/** The first touch over depths from `shallow` to `deep` on one body. */
const leastOnBody = (layers: Layers, mate: Mate, shallow: number, deep: number): Probe | undefined => {
  const outer = probe(layers, mate, shallow);
  if (deep === shallow) return outer.hit && outer;
  const inner = probe(layers, mate, deep);
  if (mate.convex && (outer.hit || inner.hit)) {
    // The reach is convex in depth, so its slope at both ends shows where the lowest point lies.
    if (outer.hit && rising(outer.hit, layers) >= 0) return outer;
    if (inner.hit && rising(inner.hit, layers) <= 0) return inner;
    return findValley(layers, mate, outer, inner);
  }
  return leastOfMany(layers, mate, outer, inner);
};

/** The same where the wall may dip more than once: between each layer and the next. */
const leastOfMany = (layers: Layers, mate: Mate, outer: Probe, inner: Probe): Probe | undefined => {
  const [shallow, deep] = [outer.depth, inner.depth];
  const probes = [outer];
  const layerCount = mate.convex ? THIN_LAYERS : Math.max(LAYERS, layersFor(mate, deep - shallow));
  for (let i = 1; i < layerCount; i++)
    probes.push(probe(layers, mate, shallow + ((deep - shallow) * i) / layerCount));
  probes.push(inner);
  let best: Probe | undefined;
  const consider = (candidate: Probe): void => {
    const hit = candidate.hit;
    if (hit && (!best?.hit || hit.t < best.hit.t - NARROWEST)) best = candidate;
  };
  probes.forEach(consider);
  probes.slice(1).forEach((right, i) => {
    const left = itemAt(probes, i);
    if (mate.finest !== undefined && left.hit?.face !== right.hit?.face)
      edgesBetween(layers, mate, left, right).forEach(consider);
    const falls = left.hit ? rising(left.hit, layers) < 0 : true;
    const rises = right.hit ? rising(right.hit, layers) > 0 : true;
    if ((left.hit || right.hit) && falls && rises) consider(findValley(layers, mate, left, right));
  });
  return best;
};

const leastOnBodies = (
  layers: Layers,
  bodies: readonly Mate[],
  shallow: number,
  deep: number,
): Probe | undefined => {
  let best: Probe | undefined;
  for (const body of bodies) {
    const found = leastOnBody(layers, body, shallow, deep);
    if (found?.hit && (!best?.hit || found.hit.t < best.hit.t - 1e-11)) best = found;
  }
  return best;
};

type Place = 'outside' | 'bore' | 'within';

/** Labels by face: made once, since they are compared all along a line. */
const labels: Readonly<Record<Place, Map<string, string>>> = {
  outside: new Map(),
  bore: new Map(),
  within: new Map(),
};

const labelOf = (face: string, place: Place): string => {
  const known = labels[place].get(face);
  if (known !== undefined) return known;
  const label = `${face}/${place}`;
  labels[place].set(face, label);
  return label;
};

/**
 * The first touch of a wall with a mate, over depths from `shallow` to `deep`, mm: the least reach over all its layers.
 * Undefined where nothing of the wall meets the mate. Each body of a mate of several is followed by itself.
 */
export const leastReach = (layers: Layers, mate: Mate, shallow: number, deep: number): Reach | undefined => {
  const best = mate.parts
    ? leastOnBodies(layers, mate.parts, shallow, deep)
    : leastOnBody(layers, mate, shallow, deep);
  if (!best?.hit) return undefined;
  const { hit, depth } = best;
  const { direction } = layers;
  const place = depth === shallow ? 'outside' : depth === deep ? 'bore' : 'within';
  return {
    z: hit.t,
    depth,
    label: labelOf(hit.face, place),
    graze: Math.abs(hit.normal.x * direction.x + hit.normal.y * direction.y + hit.normal.z * direction.z),
  };
};

/** Along a stock, out of its cut end. */
const OUTWARD: Vec3 = { x: 0, y: 0, z: 1 };

/** The layers of a stock's wall at girth position `s`, run along +z. */
export const stockLayers = (outline: Outline, s: number): Layers => {
  const p = outline.at(s, 0);
  const deep = outline.wall > 0 ? outline.wall : 1;
  const q = outline.at(s, deep);
  return {
    outside: { x: p.x, y: p.y, z: 0 },
    direction: OUTWARD,
    inward: { x: (q.x - p.x) / deep, y: (q.y - p.y) / deep, z: 0 },
  };
};

/** The same layers run the other way. */
export const reversedLayers = ({ outside, direction, inward }: Layers): Layers => ({
  outside,
  direction: { x: -direction.x, y: -direction.y, z: -direction.z },
  inward,
});

/** The depths a contact rule looks at. */
export const contactDepths = (contact: Contact, wall: number): readonly [number, number] =>
  contact === 'wall' ? [0, wall] : contact === 'od' ? [0, 0] : [wall, wall];

/**
 * Where the generator at girth position `s` first touches the mate, by the contact rule; the stock comes from -z.
 * `wall`: least reach over the whole wall. `od`, `id`: that surface's own reach.
 */
export const reachAt = (outline: Outline, mate: Mate, contact: Contact, s: number): Reach | undefined =>
  leastReach(stockLayers(outline, s), mate, ...contactDepths(contact, outline.wallAt?.(s) ?? outline.wall));
