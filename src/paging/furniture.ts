import { translateMark } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { boxPath, growBox, letter, QUARTER, stroke } from '../drawing/shape.ts';
import { linesHeight, pitchOf } from './block.ts';
import { boxAt, heightOf, widthOf } from './box.ts';
import type { PagingOptions } from './options.ts';
import { checkBreadth, checkLength, drawScaleCheck } from './scale-check.ts';
import { type Cell, type Drawn, drawTitleBlock, titleCells } from './title-block.ts';

/** Which page of its sheet a page is. */
export interface PageRank {
  /** `B2`, or `notes`. */
  readonly name: string;
  readonly index: number;
  readonly count: number;
}

/** What stands on a page whatever it shows: its marks, the ground they take, and what is left inside the margins. */
export interface Furniture {
  readonly marks: readonly Mark[];
  readonly taken: readonly Box[];
  readonly field: Box;
  /** What the page needs inside its margins. */
  readonly needed: { readonly width: number; readonly height: number };
}

/** White space inside the frame of a whole page, mm. */
const inset = 4;
/** A title block narrower than this stands over the scale check, not beside it. */
const leastTitle = 72;
/** The level check with its end ticks. */
const leastWidth = checkLength + 0.3;
/** ISO 5457: a title block is at most 180 mm wide. */
const widestTitle = 180;

const notices = (options: PagingOptions): string[] =>
  [
    'Print at actual size, 100 %. Before use, lay a steel rule on the checks along both edges: 100 mm and 4 in must be true.',
    options.calibration ?? '',
  ].filter((line) => line !== '');

export const moveMarks = (marks: readonly Mark[], dx: number, dy: number): Mark[] =>
  marks.map((mark) => translateMark(mark, dx, dy));

/** The check along x with the print notice under it. */
const drawCheckWithNotice = (options: PagingOptions): Drawn => {
  const height = 2.5;
  const lines = notices(options).flatMap((text) => wrapText(text, height, false, checkLength));
  const below = linesHeight(lines.length, height) + 0.6;
  const text = lines.map((line, i) =>
    letter('page', { x: 0, y: below - 0.6 - height * 1.15 - i * pitchOf(height) }, line, height),
  );
  return {
    width: checkLength,
    height: below + checkBreadth,
    marks: [...text, ...drawScaleCheck({ x: 0, y: below + checkBreadth / 2 }, 'x')],
  };
};

/** How a rank is written under or over a page's name. */
export const tellRank = ({ index, count }: PageRank): string => `page ${index} of ${count} of this sheet`;

const rankCell = (sheet: Sheet, rank: PageRank): Cell => ({
  label: tellRank(rank),
  value: `${sheet.name} ${rank.name}`,
  room: { label: 'page 888 of 888 of this sheet', value: `${sheet.name} notes` },
});

interface Foot {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
  readonly taken: readonly Box[];
  /** Top of what stands at the right, over which the upright check may stand. */
  readonly right: number;
}

/** The foot of a page: scale check and notice at the left, title block at the right, or over it on narrow paper. */
const drawFoot = (
  area: Box,
  left: number,
  cells: readonly Cell[],
  options: PagingOptions,
  isWhole: boolean,
): Foot => {
  const check = drawCheckWithNotice(options);
  const beside = Math.min(widestTitle, area.maxX - left - check.width - 4);
  const isBeside = beside >= leastTitle;
  const title = drawTitleBlock(
    cells,
    isBeside ? beside : Math.min(widestTitle, widthOf(area)),
    isWhole && cells.length > 4 ? 2 : 1,
  );
  const titleBox = boxAt(area.maxX - title.width, area.minY, title.width, title.height);
  const checkFloor = isWhole ? left - area.minX : 0;
  const bottom = isBeside ? area.minY + checkFloor : titleBox.maxY + 2;
  const checkBox = boxAt(left, bottom, check.width, check.height);
  return {
    width: isBeside ? check.width + 4 + title.width : check.width,
    height: Math.max(checkBox.maxY, titleBox.maxY) - area.minY,
    marks: [
      ...moveMarks(title.marks, titleBox.minX, titleBox.minY),
      ...moveMarks(check.marks, checkBox.minX, checkBox.minY),
    ],
    taken: [titleBox, checkBox],
    right: titleBox.maxY,
  };
};

const drawUprightCheck = (right: number, bottom: number): { marks: Mark[]; box: Box } => ({
  marks: drawScaleCheck({ x: right - checkBreadth / 2, y: bottom }, 'y'),
  box: boxAt(right - checkBreadth, bottom, checkBreadth, checkLength),
});

/** A page of its own: frame, foot, and the upright check at the right edge over the title block. */
export const drawWholePage = (
  usable: Box,
  sheet: Sheet,
  options: PagingOptions,
  rank: PageRank,
): Furniture => {
  const frame = growBox(usable, -QUARTER / 2);
  const inner = growBox(frame, -inset);
  const cells = [
    ...titleCells(options.title, sheet.heading, false),
    rankCell(sheet, rank),
    { label: 'Identity', value: options.identity },
  ];
  const foot = drawFoot(frame, inner.minX, cells, options, true);
  // The upright check stands over the title block, and over the level check too where that reaches under it.
  const isUnder = foot.taken.some((box) => box.maxY > foot.right && box.maxX > inner.maxX - checkBreadth - 4);
  const floor = (isUnder ? usable.minY + foot.height : foot.right) + 3;
  const check = drawUprightCheck(inner.maxX, floor);
  return {
    marks: [stroke('page', boxPath(frame), QUARTER), ...foot.marks, ...check.marks],
    taken: [...foot.taken, check.box],
    field: inner,
    needed: {
      width: Math.max(foot.width, leastWidth) + 2 * (inset + QUARTER),
      height: floor - usable.minY + checkLength + inset + QUARTER + 1,
    },
  };
};

/** Space round a tile's frame for the names of its neighbours, mm. */
export const gutter = 4.2;
const headHeight = 12;
/** A frame smaller than this shows too little to be taped, mm. */
const leastWindow = 50;

/** What a tile's page has room for, and how its furniture is drawn. */
export interface TilePage {
  /** The largest frame the page can hold, page mm. */
  readonly window: Box;
  readonly draw: (rank: PageRank) => Mark[];
  /** What the page needs inside its margins beside its window. */
  readonly needed: { readonly width: number; readonly height: number };
}

const drawTileHead = (sheet: Sheet, rank: PageRank, left: number, right: number, top: number): Mark[] => {
  const named = { x: right, y: top - 7.4 };
  const told = { x: right, y: top - 11.2 };
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
export const planTilePage = (usable: Box, sheet: Sheet, options: PagingOptions): TilePage => {
  const cells = [
    ...titleCells(options.title, sheet.heading, true),
    { label: 'Identity', value: options.identity },
  ];
  const foot = drawFoot(usable, usable.minX + gutter, cells, options, false);
  const right = checkBreadth + 1;
  const window: Box = {
    minX: usable.minX + gutter,
    maxX: usable.maxX - right - gutter,
    minY: usable.minY + foot.height + gutter,
    maxY: usable.maxY - headHeight - gutter,
  };
  const check = drawUprightCheck(usable.maxX, usable.minY + foot.height + 2);
  return {
    window,
    draw: (rank) => [
      ...drawTileHead(sheet, rank, window.minX, window.maxX, usable.maxY),
      ...foot.marks,
      ...check.marks,
    ],
    needed: {
      width: Math.max(foot.width, leastWidth, leastWindow + right + 2 * gutter),
      height: Math.max(
        foot.height + 2 + checkLength + 1,
        foot.height + leastWindow + headHeight + 2 * gutter,
      ),
    },
  };
};

/** True where a page's furniture has the room it needs and leaves a field worth drawing on. */
export const hasRoom = (usable: Box, { needed }: Pick<TilePage, 'needed'>): boolean =>
  widthOf(usable) >= needed.width && heightOf(usable) >= needed.height;
