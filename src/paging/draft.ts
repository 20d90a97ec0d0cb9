import type { Box, Mark } from '../drawing/model.ts';
import { requestError, UserError } from '../issue.ts';
import type { Block } from './block.ts';
import type { View } from './book.ts';
import { heightOf, widthOf } from './box.ts';
import { composeNotes } from './compose.ts';
import { planWholePage, hasRoom, type PageRank } from './furniture.ts';
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

/** What is added to the shortest page of a roll until everything goes on it, mm. */
/** True for that error: another way to lay the same may find room. */
export const isNoRoom = (error: unknown): error is UserError =>
  error instanceof UserError && error.issues.some(({ code }) => code === noRoom);

const longer = [0, 25, 50, 75, 100, 150, 200, 300, 400, 600, 900] as const;

/** Lengths of a page cut from a roll that are tried, shortest first, mm. */
export const rollLengths = (shortest: number): number[] =>
  longer.map((by) => Math.ceil(shortest) + by).filter((length) => length <= longestSide);

const fillNotes = (
  sheet: Head,
  options: PagingOptions,
  size: PaperSize,
  blocks: readonly Block[],
  rank: PageRank,
): { drawBlocks: () => readonly Mark[]; rest: readonly Block[] } => {
  const usable = usableArea(size, options);
  const furniture = planWholePage(usable, sheet.heading, options, rank);
  if (!hasRoom(usable, furniture)) throw noRoomError(options, usable, furniture.needed);
  let queue = blocks;
  for (;;) {
    const { draw, rest } = composeNotes(furniture, sheet, queue);
    const [first, ...others] = queue;
    if (rest.length < queue.length || !first) return { drawBlocks: draw, rest };
    const parts = first.split?.(widthOf(furniture.zones));
    if (!parts) throw noRoomError(options, usable, { width: furniture.needed.width, height: 250 });
    queue = [...parts, ...others];
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
    const waiting = queue;
    const rank = { ...laterRank, hasCode: isFirst && drafts.length === 0, document: say`Notes` };
    const filled = sizes.map((size) => () => ({ size, ...fillNotes(sheet, options, size, waiting, rank) }));
    let page = filled[filled.length - 1]?.();
    if (!page) throw new Error('no size of paper is given');
    for (const fill of filled.slice(0, -1)) {
      const shorter = fill();
      if (shorter.rest.length > 0) continue;
      page = shorter;
      break;
    }
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
