import type { Box } from '../drawing/model.ts';
import { once, onceFor } from '../drawing/once.ts';
import { growBox } from '../drawing/paths.ts';
import { itemAt } from '../lists.ts';
import type { Block, Fitted, TextHeight } from './block.ts';
import { boxAt, heightOf, widthOf } from './box.ts';
import { type FreeSpace, largestFree, takeSpace } from './free-space.ts';

/** A block set on free ground. */
export interface Placed {
  readonly shape: Fitted;
  readonly box: Box;
  /** Which of the grounds it stands on. */
  readonly page: number;
}

/** Blocks set on free grounds, and those that found no room. */
export interface Packed {
  /** Settled when they are asked for: most ways to fill pages are given up for a better one. */
  readonly placed: () => readonly Placed[];
  readonly left: readonly Block[];
}

/** Blocks set in one order. */
interface Tried {
  readonly placed: readonly Placed[];
  readonly left: readonly Block[];
}

/** White space between blocks, mm. */
const between = 4;
/** Widths a block is set to beside that of the ground itself, mm. */
const widths = [42, 50, 58, 66, 76, 90, 112, 140, 180] as const;

/** What may take all the width there is. */
const isWide: ReadonlySet<Block['kind']> = new Set(['table', 'picture', 'card']);

/** A block with its shapes in the widths it is set to, so that a search through many places asks for each once. */
interface Offer {
  readonly block: Block;
  readonly shapes: readonly (Fitted | undefined)[];
  /** Its shape in all of a ground's width. */
  readonly fitAll: (room: number) => Fitted | undefined;
}

const offerOf = (block: Block, text: TextHeight): Offer => ({
  block,
  shapes: widths.map((width) => block.fit(width, text)),
  // Running text wider than 200 mm is hard to read.
  fitAll: (room) => block.fit(isWide.has(block.kind) ? room : Math.min(room, 200), text),
});

/** How a place is chosen, by weights: high up, at the left, little ground used, and little left over beside or under it. */
interface Choice {
  readonly high: number;
  readonly left: number;
  readonly ground: number;
  readonly snug: number;
  /** Which widths of each block are tried, the last one all there is; every one where it is left out. */
  readonly tried?: ReadonlyMap<Offer, readonly boolean[]>;
}

const topLeft: Choice = { high: 1, left: 0.2, ground: 0.002, snug: 0 };
const snug: Choice = { high: 0, left: 0, ground: 0.01, snug: 1 };

/** What a later page costs against an earlier one, as lengths do. */
const pageCost = 40;

/** A block's best place on what is free: in a corner of some free rectangle, in some width. */
const placeOne = (
  spaces: readonly FreeSpace[],
  offer: Offer,
  choice: Choice,
  top: number,
): Placed | undefined => {
  const { shapes, fitAll } = offer;
  const tried = choice.tried?.get(offer);
  const most = isWide.has(offer.block.kind) ? Infinity : 200;
  let best: Fitted | undefined;
  let at = { page: 0, x: 0, y: 0 };
  let least = Infinity;
  for (let page = 0; page < spaces.length; page += 1)
    for (const free of itemAt(spaces, page)) {
      const room = widthOf(free);
      const high = heightOf(free) + 1e-6;
      for (let i = 0; i <= widths.length; i += 1) {
        const width = widths[i] ?? 0;
        if (width > room || width > most || tried?.[i] === false) continue;
        const shape = i === widths.length ? fitAll(room) : shapes[i];
        if (!shape || shape.height > high) continue;
        const x = choice.left < 0 ? free.maxX - shape.width : free.minX;
        const y = choice.high < 0 ? free.minY : free.maxY - shape.height;
        const fixed =
          page * pageCost +
          (shape.strain ?? 0) +
          choice.ground * shape.width * shape.height +
          choice.snug * Math.min(room - shape.width, high - shape.height);
        const score = fixed + choice.left * x + choice.high * (top - y);
        if (score >= least) continue;
        least = score;
        best = shape;
        at = { page, x, y };
      }
    }
  return best && { shape: best, page: at.page, box: boxAt(at.x, at.y, best.width, best.height) };
};

const areaOf = (block: Block): number => {
  const shape = block.fit(90, 2.5) ?? block.fit(180, 2.5) ?? block.fit(1000, 2.5);
  return shape ? shape.width * shape.height : 0;
};

const byArea = (offers: readonly Offer[]): readonly Offer[] => {
  const areas = new Map(offers.map((offer) => [offer, areaOf(offer.block)]));
  return offers.toSorted((a, b) => (areas.get(b) ?? 0) - (areas.get(a) ?? 0));
};

/** What is measured of a block in a lettering, once: it is asked for in every way to lay a page. */
const onceOfBlock = (measure: (block: Block, text: TextHeight) => number) => {
  const known = {
    2.5: onceFor((block: Block) => measure(block, 2.5)),
    3.5: onceFor((block: Block) => measure(block, 3.5)),
  };
  return (block: Block, text: TextHeight): number => known[text](block);
};

const leastOfBlock = onceOfBlock((block, text) => {
  const shapes = [60, 92, 180, ...(block.kind === 'card' ? [1000] : [])].flatMap(
    (width) => block.fit(width, text) ?? [],
  );
  return 0.9 * Math.min(...shapes.map(({ width, height }) => width * height), 1e5);
});

/** The ground that blocks take at least, mm², by the ways they are most often set. */
export const leastArea = (blocks: readonly Block[], text: TextHeight): number =>
  blocks.reduce((sum, block) => sum + leastOfBlock(block, text), 0);

const freeArea = (spaces: readonly FreeSpace[]): number =>
  spaces
    .flatMap((space) => largestFree(space, 40, 0, 100))
    .reduce((sum, box) => sum + widthOf(box) * heightOf(box), 0);

/** What is worth most beside the drawing, where not all goes there. */
const worth: Readonly<Record<Block['kind'], number>> = {
  plan: 9,
  steps: 8,
  picture: 4,
  facts: 6,
  subject: 2,
  cautions: 3,
  'sign-off': 3,
  table: 2,
  card: 100,
};

/** Ground smaller than this holds nothing that is said. */
const isUsable = (box: Box): boolean => widthOf(box) >= 20 && heightOf(box) >= 5;

/** Blocks set one after the other, each where it stands best. With more than `mostLeft` left over the rest is not tried. */
const packOnce = (
  spaces: readonly FreeSpace[],
  queue: readonly Offer[],
  choice: Choice,
  mostLeft = Infinity,
): Tried => {
  const top = Math.max(...spaces.flat().map(({ maxY }) => maxY));
  const free: FreeSpace[] = spaces.map((space) => space.filter(isUsable));
  const placed: Placed[] = [];
  const left: Block[] = [];
  for (const offer of queue) {
    const put = placeOne(free, offer, choice, top);
    if (!put) {
      left.push(offer.block);
      if (left.length > mostLeft) break;
      continue;
    }
    placed.push(put);
    free[put.page] = takeSpace(free[put.page] ?? [], growBox(put.box, between), isUsable);
  }
  return { placed, left };
};

const lossOf = ({ left }: Tried): number => left.reduce((sum, { kind }) => sum + worth[kind], 0);

/** How restless a page looks: every left edge that no other block shares. */
const restOf = ({ placed }: Tried): number =>
  new Set(placed.map(({ box, page }) => `${page} ${Math.round(box.minX)}`)).size;

/** Blocks on free grounds of any shape: all of them where that is found, else those that are worth most. */
export const packFree = (
  spaces: readonly FreeSpace[],
  blocks: readonly Block[],
  text: TextHeight,
): Packed => {
  const offers = blocks.map((block) => offerOf(block, text));
  let best: Tried | undefined;
  for (const queue of [offers, byArea(offers)])
    for (const choice of [topLeft, snug]) {
      if (best?.left.length === 0) break;
      const packed = packOnce(spaces, queue, choice);
      if (!best || lossOf(packed) < lossOf(best)) best = packed;
    }
  const { placed, left } = best ?? { placed: [], left: blocks };
  return { placed: () => placed, left };
};

/** Numbers from 0 to 1 that look like chance and are always the same (a linear congruence, Numerical Recipes). */
const chances = (): (() => number) => {
  let state = 20_241;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
};

/**
 * Orders that are tried before a page is given up, and how many more once one works. Where each of the first 40 leaves two or
 * more blocks over, none of the later ones worked on any page we tried.
 */
const [mostTries, moreTries, firstTries] = [300, 20, 40];

/** The ground that blocks take at least with the white space round them, in the widths they are tried in, mm². */
const groundOf = (blocks: readonly Block[], text: TextHeight): number =>
  blocks.reduce((sum, block) => sum + groundOfBlock(block, text), 0);

const groundOfBlock = onceOfBlock((block, text) => {
  const shapes = [...widths, 200, 500].flatMap((width) => block.fit(width, text) ?? []);
  return Math.min(...shapes.map(({ width, height }) => (width + between) * (height + between)), 1e5);
});

/** Tries one order of blocks after another, each with places and widths of its own. Same input, same orders. */
const orders = (spaces: readonly FreeSpace[], large: readonly Offer[]): (() => Tried) => {
  const chance = chances();
  return () => {
    // Large ones mostly first: what is small finds room anywhere.
    const queue = large
      .map((offer, k) => ({ offer, key: k + chance() * large.length * 0.9 }))
      .sort((a, b) => a.key - b.key)
      .map(({ offer }) => offer);
    // A different few of the widths each time, so that different shapes meet.
    const tried = new Map(
      large.map((offer) => [offer, Array.from({ length: widths.length + 1 }, () => chance() < 0.6)]),
    );
    const choice: Choice = {
      tried,
      high: chance() - 0.3,
      left: chance() - 0.3,
      ground: 0.01 * chance(),
      snug: chance(),
    };
    return packOnce(spaces, queue, choice, 0);
  };
};

/**
 * All blocks on free grounds, in whatever order and place that is found for them, the calmest of those; undefined where none
 * is. Same input, same places.
 */
export const packAll = (
  spaces: readonly FreeSpace[],
  blocks: readonly Block[],
  text: TextHeight,
): Packed | undefined => {
  if (groundOf(blocks, text) > freeArea(spaces)) return undefined;
  const offers = blocks.map((block) => offerOf(block, text));
  if (offers.some((offer) => !placeOne(spaces, offer, topLeft, 0))) return undefined;
  const large = byArea(offers);
  const next = orders(spaces, large);
  let nearest = 0;
  for (let i = 1; i <= mostTries; i += 1) {
    const packed = next();
    if (packed.left.length === 0) {
      const more = Math.min(moreTries, mostTries - i);
      return { placed: once(() => calmest(packed, next, more).placed), left: [] };
    }
    nearest = Math.max(nearest, packed.placed.length);
    if (i === firstTries && nearest < large.length - 1) return undefined;
  }
  return undefined;
};

/** The calmest of a page and of those among so many more orders that leave nothing over. */
const calmest = (first: Tried, next: () => Tried, more: number): Tried => {
  let best = first;
  for (let i = 0; i < more; i += 1) {
    const packed = next();
    if (packed.left.length === 0 && restOf(packed) < restOf(best)) best = packed;
  }
  return best;
};
