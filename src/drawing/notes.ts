import { itemAt } from '../lists.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { textWidth } from './lettering.ts';
import type { Mark } from './model.ts';
import { cheapest, segmentMeets, WORD_HEIGHT, wordBox, type Ground } from './placing.ts';
import { arcPath, arrowhead, FINE, growBox, letter, ruleLine, stroke } from './paths.ts';

/** Words put around a place of a drawing. `toward` is the direction they are best put. */
export interface LabelNote {
  readonly at: Vec2;
  /** The other end of a line beside any place of which they may stand. */
  readonly along: Vec2 | undefined;
  readonly text: string;
  readonly bold: boolean;
  readonly toward: Vec2 | undefined;
  /** Best in its very place. */
  readonly on: boolean;
}

/** Words farther from their place than this get a line to it. */
const LEADER = 5;

const write = (ground: Ground, at: Vec2, text: string, bold = false): Mark => {
  ground.addWords(wordBox(at, text, bold));
  return letter('dimension', at, text, WORD_HEIGHT, { align: 'centre', valign: 'middle', bold });
};

interface Spot {
  readonly middle: Vec2;
  readonly near: Vec2;
  /** The place that is named. */
  readonly from: Vec2;
  readonly cost: number;
}

const SPOKES = Array.from({ length: 24 }, (_, k) => ({
  x: Math.cos((k * Math.PI) / 12),
  y: Math.sin((k * Math.PI) / 12),
}));
/** How far words are put from their place, nearest first. */
const AWAY = [
  1.3, 2, 2.7, 3.4, 4.1, 4.8, 5.5, 6.2, 7.8, 9.4, 11, 12.6, 14.2, 15.8, 17.4, 19, 21, 23, 26, 29, 33,
];
/** And from their place on a part. */
const ASIDE = [0.7, 1.4, 2.1, 2.8, 3.5, 4.2, 4.9, 5.6];
/** Words are worth so much less for each mm they stand outside the drawing, or farther along a line. */
const OUTSIDE = 0.6;
const ALONG = 0.25;

/** The best place for words beside a line from `at` to `along`, or around a point. */
const spotBeside = (ground: Ground, { at, along = at, text, bold, toward }: LabelNote): Spot | undefined => {
  const width = textWidth(text, WORD_HEIGHT, bold);
  const length = Math.hypot(along.x - at.x, along.y - at.y);
  const stops = Math.ceil(length / 2);
  let best: Spot | undefined;
  for (let i = 0; i <= stops; i++) {
    const share = stops === 0 ? 0 : i / stops;
    const from = { x: at.x + (along.x - at.x) * share, y: at.y + (along.y - at.y) * share };
    for (const d of AWAY) {
      const base = d + ALONG * share * length;
      if (best && base >= best.cost) break;
      for (const { x, y } of SPOKES) {
        const apart = toward ? 1 - (x * toward.x + y * toward.y) : 0;
        const price = base + 4 * apart;
        if (best && price >= best.cost) continue;
        // The box stands on the side of the point it is put to.
        const [hx, hy] = [Math.max(-1, Math.min(1, 2.5 * x)), Math.max(-1, Math.min(1, 2.5 * y))];
        const near = { x: from.x + d * x, y: from.y + d * y };
        const middle = { x: near.x + (hx * width) / 2, y: near.y + (hy * (WORD_HEIGHT + 0.4)) / 2 };
        const box = wordBox(middle, text, bold);
        const cost = price + OUTSIDE * ground.reach(box);
        if ((best && cost >= best.cost) || !ground.isClear(box)) continue;
        if (d > LEADER && ground.cutsWords(near, from)) continue;
        best = { middle, near, from, cost };
      }
    }
  }
  return best;
};

/** The place nearest to its own where words can stand on a part. */
const spotOn = (ground: Ground, { at, text, bold }: LabelNote): Vec2 | undefined => {
  if (ground.isClear(wordBox(at, text, bold))) return at;
  for (const d of ASIDE)
    for (const { x, y } of SPOKES) {
      const middle = { x: at.x + d * x, y: at.y + d * y };
      if (ground.isClear(wordBox(middle, text, bold))) return middle;
    }
  return undefined;
};

/** Words where they stand clear of everything, with a line to their place where that is not near. */
export const placeLabel = (ground: Ground, note: LabelNote): Mark[] => {
  const { text, bold } = note;
  const on = note.on ? spotOn(ground, note) : undefined;
  if (on) return [write(ground, on, text, bold)];
  const spot = spotBeside(ground, note);
  if (!spot) return [];
  const { near, from } = spot;
  const far = Math.hypot(near.x - from.x, near.y - from.y);
  const words = write(ground, spot.middle, text, bold);
  if (far <= LEADER) return [words];
  const share = 0.7 / far;
  const start = { x: near.x + (from.x - near.x) * share, y: near.y + (from.y - near.y) * share };
  ground.addLine([start, from]);
  return [
    ruleLine('dimension', start, from, FINE),
    arrowhead('dimension', from, { x: from.x - start.x, y: from.y - start.y }, 1.8),
    words,
  ];
};

/** A dimension between two points. `toward` is the side it is best put. */
export interface LengthNote {
  readonly from: Vec2;
  readonly to: Vec2;
  /** The point that is meant by `to`, from which its line is drawn. */
  readonly end: Vec2;
  readonly text: string;
  readonly toward: Vec2;
}

interface LengthPlace {
  readonly off: number;
  readonly words: Vec2;
  readonly cost: number;
  /** The line carried on to words past its end. */
  readonly tail: Vec2 | undefined;
}

/** A dimension's line and words, as far as their places hang on them. */
interface LengthRun {
  readonly from: Vec2;
  readonly length: number;
  /** True where the arrows stand between the points, else outside them. */
  readonly fits: boolean;
  /** How far the words lie off the line beside it, and past an end of it. */
  readonly beside: (away: 1 | -1) => number;
  readonly endwise: number;
  /** A point moved along the line and off it. */
  readonly put: (p: Vec2, along: number, off: number) => Vec2;
}

/** The places a dimension may take, cheapest first for each distance off what it measures. */
function* lengthPlaces({ from, length, fits, beside, endwise, put }: LengthRun): Iterable<LengthPlace> {
  const beyond = fits ? 0 : 3.6;
  for (let k = 3; k < 30; k += 0.75)
    for (const off of [k, -k]) {
      const cost = k + (off < 0 ? 7 : 0);
      for (const share of [0.5, 0.35, 0.65, 0.2, 0.8])
        for (const away of [1, -1] as const)
          yield {
            off,
            words: put(from, share * length, off + Math.sign(off) * beside(away)),
            cost: cost + 4 * Math.abs(share - 0.5) + (away < 0 ? 1.5 : 0),
            tail: undefined,
          };
      for (const end of [0, 1]) {
        const out = beyond + endwise;
        const along = end === 0 ? -out : length + out;
        yield {
          off,
          words: put(from, along, off),
          cost: cost + (fits ? 6 : 2),
          tail: put(from, end === 0 ? -beyond - 0.4 : length + beyond + 0.4, off),
        };
      }
    }
}

/** A dimension where its line crosses little and its words nothing. */
export const placeLength = (ground: Ground, { from, to, end: point, text, toward }: LengthNote): Mark[] => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 0.4) return [];
  const u = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const side = -u.y * toward.x + u.x * toward.y < 0 ? -1 : 1;
  const n = { x: -u.y * side, y: u.x * side };
  const put = (p: Vec2, along: number, off: number): Vec2 => ({
    x: p.x + u.x * along + n.x * off,
    y: p.y + u.y * along + n.y * off,
  });
  const [halfX, halfY] = [textWidth(text, WORD_HEIGHT, false) / 2, WORD_HEIGHT / 2];
  const beside = (away: 1 | -1): number =>
    away * (Math.abs(n.x) * halfX + Math.abs(n.y) * halfY + 1.3 + 0.7 * Math.abs(n.x * n.y));
  const endwise = Math.abs(u.x) * halfX + Math.abs(u.y) * halfY + 1.4;
  const fits = length > 7;
  /** How far the point lies from the measured line, to its own side. */
  const aside = (point.x - to.x) * n.x + (point.y - to.y) * n.y;
  const extensionStart = (sign: number): Vec2 => put(to, 0, aside + sign * 0.8);
  const linesOf = ({ off, tail }: LengthPlace): readonly (readonly [Vec2, Vec2])[] => {
    const sign = Math.sign(off);
    const [p, q] = [put(from, 0, off), put(to, 0, off)];
    const end = tail ?? q;
    return [
      [put(from, 0, sign * 0.8), put(from, 0, off + sign * 1.2)],
      [extensionStart(sign), put(to, 0, off + sign * 1.2)],
      fits ? [p, q] : [put(from, -3.2, off), put(to, 3.2, off)],
      [tail ? (Math.hypot(end.x - p.x, end.y - p.y) < Math.hypot(end.x - q.x, end.y - q.y) ? p : q) : q, end],
    ];
  };
  const found = cheapest(lengthPlaces({ from, length, fits, beside, endwise, put }), (place, least) => {
    if (place.cost >= least) return Infinity;
    const box = wordBox(place.words, text);
    const lines = linesOf(place);
    const [first, second, main] = lines as [
      readonly [Vec2, Vec2],
      readonly [Vec2, Vec2],
      readonly [Vec2, Vec2],
    ];
    const cost =
      place.cost +
      0.5 * ground.reach(box) +
      1.2 * ground.inkAlong(...main) +
      0.25 * (ground.inkAlong(...first) + ground.inkAlong(...second));
    if (cost >= least || !ground.isClear(box)) return Infinity;
    return lines.some(([a, b]) => ground.cutsWords(a, b) || segmentMeets(a, b, growBox(box, 0.4)))
      ? Infinity
      : cost;
  });
  if (!found) return [];
  const { off, words, tail } = found;
  const [p, q] = [put(from, 0, off), put(to, 0, off)];
  const lines = linesOf(found).filter(([a, b], i) => i < 3 || (tail !== undefined && a !== b));
  for (const line of lines) ground.addLine(line);
  const size = 2;
  const back = { x: -u.x, y: -u.y };
  return [
    ...lines.map(([a, b]) => ruleLine('dimension', a, b, FINE)),
    arrowhead('dimension', p, fits ? back : u, size),
    arrowhead('dimension', q, fits ? u : back, size),
    write(ground, words, text),
  ];
};

/** The arc of an angle at `at` from the direction `from` through `sweep`, radians. */
export interface AngleNote {
  readonly at: Vec2;
  readonly from: number;
  readonly sweep: number;
  readonly text: string;
}

/** An angle's arc where it crosses little, with its value clear of lines. */
export const placeAngle = (ground: Ground, { at, from, sweep, text }: AngleNote): Mark[] => {
  const [low, high] = sweep >= 0 ? [from, from + sweep] : [from + sweep, from];
  const point = (a: number, r: number): Vec2 => ({ x: at.x + r * Math.cos(a), y: at.y + r * Math.sin(a) });
  const chords = (r: number): readonly Vec2[] =>
    Array.from({ length: 13 }, (_, i) => point(low + ((high - low) * i) / 12, r));
  const half = textWidth(text, WORD_HEIGHT, false) / 2;
  interface AnglePlace {
    readonly radius: number;
    readonly words: Vec2;
    readonly cost: number;
  }
  function* places(): Iterable<AnglePlace> {
    for (let radius = 6; radius < 30; radius += 1)
      for (const share of [0.5, 0.35, 0.65, 0.2, 0.8])
        for (const away of [1, -1] as const) {
          const a = low + (high - low) * share;
          const gap = Math.abs(Math.cos(a)) * half + (Math.abs(Math.sin(a)) * WORD_HEIGHT) / 2 + 1.6;
          if (away < 0 && radius < gap + 2) continue;
          yield {
            radius,
            words: point(a, radius + away * gap),
            cost: 0.35 * Math.abs(radius - 11) + 4 * Math.abs(share - 0.5) + (away < 0 ? 0.7 : 0),
          };
        }
  }
  const found = cheapest(places(), (place, least) => {
    if (place.cost >= least) return Infinity;
    const box = wordBox(place.words, text);
    const arc = chords(place.radius);
    const ink = arc.slice(1).reduce((sum, q, i) => sum + ground.inkAlong(itemAt(arc, i), q), 0);
    const cost = place.cost + 0.5 * ground.reach(box) + 0.8 * ink;
    if (cost >= least || !ground.isClear(box)) return Infinity;
    return arc.slice(1).some((q, i) => ground.cutsWords(itemAt(arc, i), q)) ? Infinity : cost;
  });
  if (!found) return [];
  const { radius, words } = found;
  ground.addLine(chords(radius));
  const size = Math.min(2, ((high - low) * radius) / 3);
  const lean = Math.min(size / 2 / radius, (high - low) / 4);
  const tangent = (a: number, sign: number): Vec2 => ({ x: -Math.sin(a) * sign, y: Math.cos(a) * sign });
  return [
    stroke('dimension', arcPath(at, radius, low, high), FINE),
    arrowhead('dimension', point(low, radius), tangent(low + lean, -1), size),
    arrowhead('dimension', point(high, radius), tangent(high - lean, 1), size),
    write(ground, words, text),
  ];
};
