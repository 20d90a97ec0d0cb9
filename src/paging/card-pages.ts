import { markBounds, moveMarks } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { growBox } from '../drawing/paths.ts';
import type { Block, Fitted } from './block.ts';
import type { View } from './book.ts';
import { GAP, heightOf, widthOf } from './box.ts';
import { placeHead } from './compose.ts';
import { anyRank, type Draft } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { planWholePage, hasRoom } from './furniture.ts';
import { inkBands } from './ink.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { packAll, packFree, type Placed } from './pack.ts';
import { type Head, subjectBlock } from './text-blocks.ts';
import { planTilePage } from './tile-page.ts';
import { type Drawing, type TiledSheet, tileSheet } from './tiled-sheet.ts';
import { fillSpaces, inOrder } from './zones.ts';

/**
 * Sheets made of several small drawings: each is laid whole wherever there is room, so that no page joint cuts one. The
 * sheet's own frame stays what it is: every card is a view of its own.
 */

/** One of them: its ground and marks, sheet mm. */
export interface Card {
  readonly box: Box;
  readonly marks: readonly Mark[];
}

/** Marks by the card whose ground holds them. */
export const cardsOf = (
  boxes: readonly Box[],
  marks: readonly { readonly mark: Mark; readonly box: Box }[],
): readonly Card[] =>
  boxes.map((box): Card => {
    const holds = ({ minX, maxX, minY, maxY }: Box): boolean => {
      const [x, y] = [(minX + maxX) / 2, (minY + maxY) / 2];
      return x > box.minX && x < box.maxX && y > box.minY && y < box.maxY;
    };
    return { box, marks: marks.filter((one) => holds(one.box)).map(({ mark }) => mark) };
  });

/** A card among what is packed: always as large as it is. */
const cardBlock = (card: Card): { readonly card: Card; readonly block: Block; readonly shape: Fitted } => {
  const { box, marks } = card;
  const shape: Fitted = {
    width: widthOf(box),
    height: heightOf(box),
    draw: () => moveMarks(marks, -box.minX, -box.minY),
  };
  return { card, shape, block: { kind: 'card', fit: (room) => (shape.width <= room ? shape : undefined) } };
};

interface Sheet extends Head {
  readonly name: string;
  readonly isFullSize: boolean;
  readonly cards: readonly Card[];
}

/** The views of the cards among what is placed. */
const viewsOf = (
  { name: sheet }: Sheet,
  cards: readonly ReturnType<typeof cardBlock>[],
  placed: readonly Placed[],
  name: string,
): readonly View[] =>
  placed.flatMap(({ shape, box }) => {
    const card = cards.find((one) => one.shape === shape)?.card.box;
    const origin = card && { x: box.minX - card.minX, y: box.minY - card.minY };
    return origin ? [{ sheet, name, origin, viewport: box }] : [];
  });

const drawPlaced = (placed: readonly Placed[]): Mark[] =>
  placed.flatMap(({ shape, box }) => moveMarks(shape.draw(), box.minX, box.minY));

/** All cards on one page with what is said of them, as much as goes there; undefined where the cards do not go. */
export const layCardsWhole = (
  sheet: Sheet,
  blocks: readonly Block[],
  size: PaperSize,
  options: PagingOptions,
): TiledSheet | undefined => {
  const usable = usableArea(size, options);
  const furniture = planWholePage(usable, sheet.heading, options, anyRank);
  const head = placeHead(furniture, sheet);
  if (!hasRoom(usable, furniture) || !head) return undefined;
  const space = [...furniture.taken, head.box].reduce<FreeSpace>(
    (rest, box) => takeSpace(rest, growBox(box, GAP - 1)),
    [furniture.field],
  );
  const cards = sheet.cards.map(cardBlock);
  const all = [...cards.map(({ block }) => block), ...inOrder(blocks)];
  const { placed, left } = packAll([space], all, 2.5) ?? packFree([space], all, 2.5);
  if (left.some(({ kind }) => kind === 'card')) return undefined;
  const draft: Draft = {
    name: '1.1',
    size,
    views: viewsOf(sheet, cards, placed(), '1.1'),
    draw: (rank) => [
      ...planWholePage(usable, sheet.heading, options, rank).draw(),
      ...head.marks,
      ...drawPlaced(placed()),
    ],
  };
  return { drafts: [draft], left, joints: 0 };
};

/** Cards on as few pages as take them, each whole; undefined where one is larger than a page. */
const packCards = (cards: readonly ReturnType<typeof cardBlock>[], free: FreeSpace) => {
  for (let count = 1; count <= cards.length; count += 1) {
    const spaces = Array.from({ length: count }, () => free);
    const { placed, left } = packFree(
      spaces,
      cards.map(({ block }) => block),
      2.5,
    );
    if (left.length > 0) continue;
    return spaces.map((space, page) => {
      const on = placed().filter((one) => one.page === page);
      return {
        on,
        space: on.reduce<FreeSpace>((rest, { box }) => takeSpace(rest, growBox(box, GAP)), space),
      };
    });
  }
  return undefined;
};

/** A card alone, as a drawing to be divided. */
const drawingOf = ({ box, marks }: Card): Drawing => ({
  bounds: box,
  boxed: marks.map((mark) => ({ mark, box: markBounds(mark) })),
  ink: inkBands(marks),
});

/**
 * The cards on as few pages as take them, each whole, and those that are larger than a page divided after them; undefined where
 * all are.
 */
export const layCardsApart = (
  sheet: Sheet,
  blocks: readonly Block[],
  size: PaperSize,
  options: PagingOptions,
): TiledSheet | undefined => {
  const page = planTilePage(usableArea(size, options), sheet, options);
  const free: FreeSpace = [growBox(page.window, -1)];
  const goes = ({ box }: Card): boolean =>
    free.some((room) => widthOf(box) <= widthOf(room) && heightOf(box) <= heightOf(room));
  const whole = sheet.cards.filter(goes).map(cardBlock);
  const pages = whole.length === 0 ? undefined : packCards(whole, free);
  if (!pages) return undefined;
  const told = sheet.subject.length > 1 ? [subjectBlock(sheet), ...blocks] : blocks;
  const filled = fillSpaces(
    pages.map(({ space }) => space),
    told,
  );
  const drafts = pages.map(({ on }, i): Draft => {
    const name = `${i + 1}.1`;
    return {
      name,
      size,
      views: viewsOf(sheet, whole, on, name),
      draw: (rank) => [...page.draw({ ...rank, name }), ...drawPlaced(on), ...(filled.draw[i]?.() ?? [])],
    };
  });
  let left: readonly Block[] = filled.left.filter(({ kind }) => kind !== 'subject');
  let joints = 0;
  for (const card of sheet.cards.filter((one) => !goes(one))) {
    const part = { ...sheet, subject: sheet.subject.slice(0, 1), marks: card.marks };
    const tiled = tileSheet(part, drawingOf(card), left, { size, options, rowsBefore: drafts.length });
    if (tiled === undefined) throw new Error('a card without pages');
    drafts.push(...tiled.drafts);
    ({ left } = tiled);
    joints += tiled.joints;
  }
  return { drafts, left, joints };
};
