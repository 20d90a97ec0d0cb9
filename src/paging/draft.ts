import type { Box, Mark } from '../drawing/model.ts';
import { requestError, UserError } from '../issue.ts';
import type { Block } from './block.ts';
import type { View } from './book.ts';
import { heightOf, widthOf } from './box.ts';
import { composeNotes, notesField } from './compose.ts';
import { type Furniture, planWholePage, hasRoom, type PageRank } from './furniture.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { longestSide } from './paper.ts';
import type { Head } from './text-blocks.ts';
import { inOrder } from './zones.ts';
import { say } from '../words/say.ts';

/** A page whose number among its sheet's pages is not yet known. */
export interface Draft {
  readonly name: string;
  readonly size: PaperSize;
  readonly views: readonly View[];
  readonly draw: (rank: PageRank) => readonly Mark[];
}

/** Stands in for the rank while a page is laid out; the furniture keeps room for any. */
export const anyRank: PageRank = { name: '1.1', index: 1, count: 1, hasCode: true };
/** The same for a page that is not its sheet's first. */
export const laterRank: PageRank = { ...anyRank, index: 2, count: 88, hasCode: false };

const noRoom = 'no-room';

/** Told where the paper cannot hold its furniture or one of the blocks. */
export const noRoomError = (
  { paper }: PagingOptions,
  usable: Box,
  needed: { readonly width: number; readonly height: number },
): UserError =>
  requestError(
    'paper',
    noRoom,
    say`paper "${paper.name}" leaves ${Math.max(0, Math.floor(widthOf(usable)))} x ${Math.max(0, Math.floor(heightOf(usable)))} mm inside its margins`,
    say`a page needs at least ${Math.ceil(needed.width)} x ${Math.ceil(needed.height)} mm there for its scale checks, title block and drawing: take larger paper or smaller margins`,
  );

/** True for that error: another way to lay the same may find room. */
export const isNoRoom = (error: unknown): error is UserError =>
  error instanceof UserError && error.issues.some(({ code }) => code === noRoom);

/** What is added to the shortest page of a roll until everything goes on it, mm. */
const longer = [0, 25, 50, 75, 100, 150, 200, 300, 400, 600, 900] as const;

/** Lengths of a page cut from a roll that are tried, shortest first, mm. */
export const rollLengths = (shortest: number): number[] =>
  longer.map((by) => Math.ceil(shortest) + by).filter((length) => length <= longestSide);

/** A page of blocks, and those it leaves over. */
interface NotesPage {
  readonly size: PaperSize;
  readonly drawBlocks: () => readonly Mark[];
  readonly rest: readonly Block[];
}

/** Wider than any block needs, mm. */
const widestBlock = 1000;

/** What a page needs inside its margins for a block that its field is too small for. */
const roomFor = (block: Block, field: Box, usable: Box): PaperSize => {
  let width = Math.ceil(widthOf(field));
  while (width < widestBlock && block.fit(width, 2.5) === undefined) width++;
  const height = block.fit(width, 2.5)?.height ?? 0;
  return {
    width: widthOf(usable) + Math.max(0, width - widthOf(field)),
    height: heightOf(usable) + Math.max(0, height - heightOf(field)),
  };
};

/** What is to go on a page of notes. */
interface NotesAsked {
  readonly sheet: Head;
  readonly options: PagingOptions;
  readonly blocks: readonly Block[];
  readonly rank: PageRank;
}

const fillNotes = ({ sheet, options, blocks, rank }: NotesAsked, size: PaperSize): NotesPage => {
  const usable = usableArea(size, options);
  const furniture = planWholePage(usable, sheet.heading, options, rank);
  if (!hasRoom(usable, furniture)) throw noRoomError(options, usable, furniture.needed);
  const field = notesField(furniture, sheet);
  const isTooWide = (block: Block): boolean => block.fit(widthOf(field), 2.5) === undefined;
  // What no page of this width holds in one is divided before it waits for room that never comes.
  let queue: readonly Block[] = blocks.flatMap((block) => divideWhile(isTooWide, block, widthOf(field)));
  for (;;) {
    const { draw, rest } = composeInTurn(furniture, sheet, queue);
    const [first, ...others] = queue;
    if (rest.length < queue.length || !first) return { size, drawBlocks: draw, rest };
    const parts = first.isSpare === true && isTooWide(first) ? undefined : divide(first, widthOf(field));
    if (!parts) throw noRoomError(options, usable, roomFor(first, field, usable));
    queue = [...parts, ...others];
  }
};

/** A block in two, whose second part waits for the first. */
const divide = (block: Block, width: number): readonly Block[] | undefined => {
  const { isSpare, run = {} } = block;
  return block.split?.(width).map((part) => ({ ...part, isSpare, run }));
};

/** A block in as many parts as it takes; whole where it has none. A block that may be left out is never left out in part. */
const divideWhile = (
  isTooLarge: (block: Block) => boolean,
  block: Block,
  width: number,
): readonly Block[] => {
  const parts = block.isSpare === true || !isTooLarge(block) ? undefined : divide(block, width);
  return parts?.flatMap((part) => divideWhile(isTooLarge, part, width)) ?? [block];
};

/** A page of notes on which no part of a block stands before an earlier part of it has found room. */
const composeInTurn = (
  furniture: Furniture,
  sheet: Head,
  queue: readonly Block[],
): ReturnType<typeof composeNotes> => {
  let tried = queue;
  for (;;) {
    const { draw, rest } = composeNotes(furniture, sheet, tried);
    const left = new Set([...rest, ...queue.filter((block) => !tried.includes(block))]);
    const isEarly = (block: Block, i: number): boolean =>
      block.run !== undefined &&
      !left.has(block) &&
      queue.some((other, k) => k < i && other.run === block.run && left.has(other));
    const early = queue.filter(isEarly);
    if (early.length === 0) return { draw, rest: queue.filter((block) => left.has(block)) };
    tried = tried.filter((block) => !early.includes(block));
  }
};

/** The same, with a sheet of paper turned the other way where a block does not fit. */
const fillEitherWay = (asked: NotesAsked, size: PaperSize): NotesPage => {
  try {
    return fillNotes(asked, size);
  } catch (error) {
    const { orientation, paper, notesPaper = paper } = asked.options;
    if (!isNoRoom(error) || orientation !== 'auto' || notesPaper.kind !== 'sheet') throw error;
    try {
      return fillNotes(asked, { width: size.height, height: size.width });
    } catch (turned) {
      // If neither way fits, the error gives the size needed the usual way.
      throw isNoRoom(turned) ? error : turned;
    }
  }
};

/**
 * The shortest page that holds all blocks, or else the longest, with as many as fit. Where no page is wide enough for a block that
 * may be left out, all such blocks are. Undefined where nothing else is left to say.
 */
const fillShortest = (asked: NotesAsked, sizes: readonly PaperSize[]): NotesPage | undefined => {
  const [longest, ...shorter] = [...sizes].reverse();
  if (longest === undefined) throw new Error('no size of paper is given');
  try {
    const page = fillEitherWay(asked, longest);
    for (const size of shorter.reverse()) {
      const less = fillEitherWay(asked, size);
      if (less.rest.length === 0) return less;
    }
    return page;
  } catch (error) {
    const blocks = asked.blocks.filter(({ isSpare }) => isSpare !== true);
    if (!isNoRoom(error) || blocks.length === asked.blocks.length) throw error;
    return blocks.length === 0 ? undefined : fillShortest({ ...asked, blocks }, sizes);
  }
};

/** Pages of blocks without a drawing, named `notes`, that belong to all the sheets of those names. `sizes` are the lengths a page may have, shortest first. */
export const draftNotes = (
  sheet: Head & { readonly names: readonly string[] },
  options: PagingOptions,
  sizes: readonly PaperSize[],
  blocks: readonly Block[],
  isFirst: boolean,
): Draft[] => {
  const drafts: Draft[] = [];
  let queue: readonly Block[] = inOrder(blocks);
  while (queue.length > 0) {
    const rank = { ...laterRank, hasCode: isFirst && drafts.length === 0, document: say`Notes` };
    const page = fillShortest({ sheet, options, blocks: queue, rank }, sizes);
    if (page === undefined) break;
    const { size, drawBlocks, rest } = page;
    const usable = usableArea(size, options);
    const name = drafts.length === 0 ? 'notes' : `notes ${drafts.length + 1}`;
    drafts.push({
      name,
      size,
      views: sheet.names.map((own) => ({
        sheet: own,
        name,
        origin: { x: usable.minX, y: usable.minY },
        viewport: usable,
      })),
      draw: (rank) => [
        ...planWholePage(usable, sheet.heading, options, { ...rank, document: say`Notes` }).draw(),
        ...drawBlocks(),
      ],
    });
    queue = rest;
  }
  return drafts;
};
