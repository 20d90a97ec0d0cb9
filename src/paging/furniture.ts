import { translateMark } from '../drawing/extent.ts';
import { wrapText } from '../drawing/lettering.ts';
import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { boxPath, growBox, letter, QUARTER, stroke } from '../drawing/shape.ts';
import { linesHeight, pitchOf } from './block.ts';
import { boxAt, GAP, heightOf, widthOf } from './box.ts';
import { codeBox, codeSide, drawCode } from './code.ts';
import { tellPrinter } from './printer.ts';
import type { PagingOptions, PaperSize } from './options.ts';
import { checkBreadth, checkLength, drawScaleCheck } from './scale-check.ts';
import { type Cell, type Drawn, drawTitleBlock, fieldCounts, titleCells } from './title-block.ts';

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
  /** How wide the heading may be at the top left of the field. */
  readonly headWidth: number;
  /** What the page needs inside its margins. */
  readonly needed: PaperSize;
}

/** White space inside the frame of a whole page, mm. */
const inset = 4;
/** A title block narrower than this stands over the scale check, not beside it. */
const leastTitle = 72;
/** The level check with its end ticks. */
export const leastWidth = checkLength + 0.3;
/** ISO 5457: a title block is at most 180 mm wide. */
const widestTitle = 180;

const notices = (options: PagingOptions): string[] =>
  [
    'Print at actual size, 100 %. Before use, lay a steel rule on the checks along both edges: 100 mm and 4 in must be true.',
    options.printer === undefined ? '' : tellPrinter(options.printer),
  ].filter((line) => line !== '');

export const moveMarks = (marks: readonly Mark[], dx: number, dy: number): Mark[] =>
  marks.map((mark) => translateMark(mark, dx, dy));

/** Between the check and the notice under it, mm. */
const noticeGap = 1.2;

/** The check along x with the print notice under it. */
const drawCheckWithNotice = (options: PagingOptions): Drawn => {
  const height = 2.5;
  const lines = notices(options).flatMap((text) => wrapText(text, height, false, checkLength));
  const below = linesHeight(lines.length, height) + noticeGap;
  const text = lines.map((line, i) =>
    letter('page', { x: 0, y: below - noticeGap - height * 1.15 - i * pitchOf(height) }, line, height),
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
export const drawFoot = (
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

export const drawUprightCheck = (right: number, bottom: number): { marks: Mark[]; box: Box } => ({
  marks: drawScaleCheck({ x: right - checkBreadth / 2, y: bottom }, 'y'),
  box: boxAt(right - checkBreadth, bottom, checkBreadth, checkLength),
});

/** True where a page's furniture has the room it needs and leaves a field worth drawing on. */
export const hasRoom = (usable: Box, { needed }: { readonly needed: PaperSize }): boolean =>
  widthOf(usable) >= needed.width && heightOf(usable) >= needed.height;

/** The fullest title block with which a page still has room; the least one where none has. */
export const fitTitle = <T extends { readonly needed: PaperSize }>(
  usable: Box,
  [count, ...fewer]: readonly [number, ...number[]],
  draw: (count: number) => T,
): T => {
  const drawn = draw(count);
  const [next, ...rest] = fewer;
  return next === undefined || hasRoom(usable, drawn) ? drawn : fitTitle(usable, [next, ...rest], draw);
};

/** A page of its own: frame, foot, and the upright check at the right edge over the title block. */
export const drawWholePage = (usable: Box, sheet: Sheet, options: PagingOptions, rank: PageRank): Furniture =>
  fitTitle(usable, [fieldCounts.all, fieldCounts.tile, fieldCounts.least], (count) =>
    drawWholePageWith(count, usable, sheet, options, rank),
  );

const drawWholePageWith = (
  count: number,
  usable: Box,
  sheet: Sheet,
  options: PagingOptions,
  rank: PageRank,
): Furniture => {
  const frame = growBox(usable, -QUARTER / 2);
  const inner = growBox(frame, -inset);
  const cells = [
    ...titleCells(options.title, sheet.heading, count),
    rankCell(sheet, rank),
    { label: 'Identity', value: options.identity },
  ];
  const foot = drawFoot(frame, inner.minX, cells, options, true);
  // The upright check stands over the title block, and over the level check too where that reaches under it.
  const isUnder = foot.taken.some((box) => box.maxY > foot.right && box.maxX > inner.maxX - checkBreadth - 4);
  const floor = (isUnder ? usable.minY + foot.height : foot.right) + 3;
  const check = drawUprightCheck(inner.maxX, floor);
  // At the top right corner, or beside the upright check where that reaches up there. A later page has none.
  const isTight = check.box.maxY + GAP > inner.maxY - codeSide;
  const code = codeBox(isTight ? check.box.minX - GAP : inner.maxX, inner.maxY);
  const codes = rank.index === 1 ? [code] : [];
  return {
    marks: [
      stroke('page', boxPath(frame), QUARTER),
      ...foot.marks,
      ...check.marks,
      ...codes.flatMap((box) => drawCode({ x: box.minX, y: box.minY }, options)),
    ],
    taken: [...foot.taken, check.box, ...codes],
    field: inner,
    headWidth: codes.length > 0 ? code.minX - GAP - inner.minX : widthOf(inner),
    needed: {
      width: Math.max(foot.width, leastWidth) + 2 * (inset + QUARTER),
      height: floor - usable.minY + checkLength + inset + QUARTER + 1,
    },
  };
};
