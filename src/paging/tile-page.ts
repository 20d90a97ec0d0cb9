import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { growBox, letter, QUARTER } from '../drawing/shape.ts';
import { GAP } from './box.ts';
import { codeBox, codeSide, drawCode } from './code.ts';
import { drawFoot, drawUprightCheck, fitTitle, leastWidth, type PageRank, tellRank } from './furniture.ts';
import type { PagingOptions, PaperSize } from './options.ts';
import { checkBreadth, checkLength } from './scale-check.ts';
import { fieldCounts, titleCells } from './title-block.ts';

/** Space round a tile's frame for the names of its neighbours, mm. */
export const gutter = 4.2;
const headHeight = 12.8;
/** A frame smaller than this shows too little to be taped, mm. */
const leastWindow = 50;

/** What a tile's page has room for, and how its furniture is drawn. */
export interface TilePage {
  /** The largest frame the page can hold, page mm. */
  readonly window: Box;
  readonly draw: (rank: PageRank) => Mark[];
  /** What the page needs inside its margins beside its window. */
  readonly needed: PaperSize;
}

const drawTileHead = (sheet: Sheet, rank: PageRank, left: number, right: number, top: number): Mark[] => {
  const named = { x: right, y: top - 7.4 };
  const told = { x: right, y: top - 11.9 };
  const rankText = tellRank(rank);
  const rankWidth = Math.max(textWidth(rankText, 2.5, false), textWidth(rank.name, 7, true));
  const room = right - left - rankWidth - 5;
  const heading = [5, 3.5, 2.5].find((height) => textWidth(sheet.heading, height, true) <= room);
  const marks: Mark[] = [
    letter('page', named, rank.name, 7, { align: 'right', bold: true }),
    letter('page', told, rankText, 2.5, { align: 'right' }),
  ];
  if (heading !== undefined)
    marks.push(letter('page', { x: left, y: top - 5.6 }, sheet.heading, heading, { bold: true }));
  // As many facts as the line holds; the first page of the sheet has them all.
  let line = '';
  for (const fact of sheet.subject) {
    const longer = line === '' ? fact : `${line} · ${fact}`;
    if (textWidth(longer, 2.5, false) > room) break;
    line = longer;
  }
  if (line !== '') marks.push(letter('page', { x: left, y: told.y }, line, 2.5));
  return marks;
};

/** A page that shows one tile: the frame is the tile's own edge, everything else stands outside it. */
export const planTilePage = (usable: Box, sheet: Sheet, options: PagingOptions): TilePage =>
  fitTitle(usable, [fieldCounts.tile, fieldCounts.least], (count) =>
    planTilePageWith(count, usable, sheet, options),
  );

const planTilePageWith = (count: number, usable: Box, sheet: Sheet, options: PagingOptions): TilePage => {
  const cells = [
    ...titleCells(options.title, sheet.heading, count),
    { label: 'Identity', value: options.identity },
  ];
  const foot = drawFoot(growBox(usable, -QUARTER / 2), usable.minX + gutter, cells, options, false);
  const right = checkBreadth + 1;
  const window: Box = {
    minX: usable.minX + gutter,
    maxX: usable.maxX - right - gutter,
    minY: usable.minY + foot.height + gutter,
    maxY: usable.maxY - headHeight - gutter,
  };
  const check = drawUprightCheck(usable.maxX, usable.minY + foot.height + 2);
  // In the corner over the frame and beside it, or at the left of the heading where the upright check reaches up there.
  const isTight = check.box.maxY + 2 > usable.maxY - codeSide;
  const code = codeBox(isTight ? window.minX + codeSide : usable.maxX, usable.maxY);
  return {
    window,
    draw: (rank) => {
      const isFirst = rank.index === 1;
      const left = isFirst && isTight ? code.maxX + GAP : window.minX;
      return [
        ...drawTileHead(sheet, rank, left, window.maxX, usable.maxY),
        ...foot.marks,
        ...check.marks,
        ...(isFirst ? drawCode({ x: code.minX, y: code.minY }, options) : []),
      ];
    },
    needed: {
      width: Math.max(foot.width, leastWidth, leastWindow + right + 2 * gutter),
      height: Math.max(
        foot.height + 2 + checkLength + 1,
        foot.height + leastWindow + headHeight + 2 * gutter,
      ),
    },
  };
};
