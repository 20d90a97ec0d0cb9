import { moveMarks } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { onceForLast } from '../drawing/once.ts';
import { boxPath, growBox, letter, QUARTER, stroke } from '../drawing/paths.ts';
import { boxAt, GAP, widthOf } from './box.ts';
import { codeBox, codeSide, drawCode } from './code.ts';
import { tellPrinter } from './printer.ts';
import type { PagingOptions, PaperSize } from './options.ts';
import { inLanguage } from '../words/languages.ts';
import { checkBreadth, drawScaleCheck, namedLength } from './scale-check.ts';
import { type Drawn, drawTitleBlock, middleWidth, type TitleKind, titleWidth } from './title-block.ts';
import { say, translateName } from '../words/say.ts';

/** Which page a page is. */
export interface PageRank {
  /** `2.2`, `1.1 to 1.3`, or `notes`. */
  readonly name: string;
  readonly index: number;
  readonly count: number;
  /** True on the first page of a sheet: the code stands there. */
  readonly hasCode: boolean;
  /** What the page is, where it is no full-size template. */
  readonly document?: string | undefined;
}

/** What stands on a page whatever it shows: its marks, drawn when they are asked for, the ground they take, and what is left inside the margins. */
export interface Furniture {
  readonly draw: () => readonly Mark[];
  readonly taken: readonly Box[];
  readonly field: Box;
  /** The part of it between foot and upright check, for zones. */
  readonly zones: Box;
  /** How wide the heading may be at the top left of the field. */
  readonly headWidth: number;
  /** What the page needs inside its margins. */
  readonly needed: PaperSize;
}

/** White space inside the frame of a whole page, mm. */
const inset = 3;
/** Between a check and what stands beside it. */
const beside = 3;
const small = 2.5;
const nameRoom = textWidth('notes 88', 5, true);
/** Line pitch of the print notice, closer than running text. */
const noticePitch = 3.6;

const printNotice = (isFullSize: boolean): string =>
  say`${isFullSize ? say`FULL SIZE 1:1. ` : ''}Print at actual size, 100 %. Before use lay a steel rule on both checks: 100 mm and 4 in must be true.`;

const notices = ({ printer, second }: PagingOptions, isFullSize: boolean): string[] =>
  [
    printNotice(isFullSize),
    second === undefined ? '' : inLanguage(second, () => printNotice(isFullSize)),
    printer === undefined ? '' : tellPrinter(printer),
  ].filter((line) => line !== '');

/** The print notice as running text, its lower left corner at (0, 0). */
const drawNotice = (options: PagingOptions, isFullSize: boolean, width: number): Drawn => {
  const lines = notices(options, isFullSize).flatMap((text) => wrapText(text, small, false, width));
  const height = lines.length * noticePitch;
  return {
    width: Math.max(...lines.map((line) => textWidth(line, small, false))),
    height,
    marks: lines.map((line, i) => letter('page', { x: 0, y: height - 2.8 - i * noticePitch }, line, small)),
  };
};

/** The check along x with the notice under it, or beside it. */
const drawLevelCheck = (
  options: PagingOptions,
  isFullSize: boolean,
  room: number,
  isStacked: boolean,
): Drawn => {
  const right = room - namedLength - beside;
  // Beside the check where that leaves room for more than two words a line.
  const isBeside = isStacked && right >= 50;
  const notice = drawNotice(options, isFullSize, isBeside ? right : Math.min(room, namedLength));
  const height = isBeside ? Math.max(checkBreadth, notice.height) : checkBreadth + 0.6 + notice.height;
  const check = drawScaleCheck({ x: 0.2, y: height - checkBreadth / 2 }, 'x');
  return {
    width: isBeside ? room : namedLength,
    height,
    marks: [
      ...check,
      ...moveMarks(notice.marks, isBeside ? namedLength + beside : 0, isBeside ? height - notice.height : 0),
    ],
  };
};

const titleTexts = (options: PagingOptions, heading: string, rank: PageRank) => ({
  documentType: rank.document ?? say`Full-size template`,
  ...options.title,
  title: options.title.title ?? heading,
  page: say`${rank.index} of ${rank.count}`,
  identity: options.identity,
});

/** Which title block a foot has, how wide, and how far the level check stands in from the page's edge, mm. */
export interface TitlePlan {
  readonly kind: TitleKind;
  readonly width: number;
  readonly indent: number;
}

/** The foot of a page: its marks, the ground they take, and how high it is at the left and at the right. */
interface Foot {
  readonly marks: readonly Mark[];
  readonly taken: readonly Box[];
  readonly height: number;
  /** Top of what stands at the right, over which the upright check may stand. */
  readonly right: number;
  readonly least: number;
  /** Where the code stands, where ground is kept for it. */
  readonly code: Box;
}

/**
 * The foot: the level check at the left, the title block at the right; over it where the page is too narrow for both.
 * `spare` is ground between them that is kept for the code.
 */
export const drawFoot = (
  area: Box,
  heading: string,
  options: PagingOptions,
  rank: PageRank,
  planTitle: (room: number) => TitlePlan,
  spare: number,
): Foot => {
  const inside = widthOf(area);
  const room = inside - namedLength - beside - spare;
  const { kind, width, indent } = planTitle(room);
  const isBeside = width <= room;
  const check = drawLevelCheck(
    options,
    rank.document === undefined,
    isBeside ? room : inside - 2 - spare,
    !isBeside,
  );
  const block = drawTitleBlock(kind, Math.min(width, inside), titleTexts(options, heading, rank));
  const blockBox = boxAt(area.maxX - block.width, area.minY, block.width, block.height);
  const checkBox = boxAt(
    area.minX + indent,
    isBeside ? area.minY : blockBox.maxY + 1,
    check.width,
    check.height,
  );
  const code = isBeside
    ? codeBox(checkBox.minX + namedLength + beside + codeSide, area.minY + codeSide + 0.5)
    : codeBox(area.maxX - 2, blockBox.maxY + 2 + codeSide);
  return {
    marks: [
      ...moveMarks(block.marks, blockBox.minX, blockBox.minY),
      ...moveMarks(check.marks, checkBox.minX, checkBox.minY),
    ],
    taken: [blockBox, checkBox],
    height: Math.max(checkBox.maxY, blockBox.maxY, spare === 0 ? 0 : code.maxY + 1.6) - area.minY,
    right: blockBox.maxY,
    least: namedLength + 1 + (isBeside ? 0 : spare),
    code,
  };
};

export const drawUprightCheck = (right: number, bottom: number): { marks: Mark[]; box: Box } => ({
  marks: drawScaleCheck({ x: right - checkBreadth / 2, y: bottom }, 'y'),
  box: boxAt(right - checkBreadth, bottom, checkBreadth, namedLength),
});

/** True where a page's furniture has the room it needs and leaves a field worth drawing on. */
export const hasRoom = (usable: Box, { needed }: { readonly needed: PaperSize }): boolean =>
  widthOf(usable) >= needed.width && usable.maxY - usable.minY >= needed.height;

const wholeTitle = (area: Box) => (): TitlePlan => {
  const width = Math.min(widthOf(area), titleWidth);
  return {
    kind: width < middleWidth ? 'narrow' : width < titleWidth ? 'middle' : 'whole',
    width,
    indent: 1.5,
  };
};

/** A page is planned many times before it is drawn, with the same furniture. */
const wholePages = onceForLast((_: PagingOptions) => new Map<string, Furniture>());

/** A page of its own: frame, foot, and the upright check at the right edge over the title block. */
export const planWholePage = (
  usable: Box,
  heading: string,
  options: PagingOptions,
  rank: PageRank,
): Furniture => {
  const known = wholePages(options);
  const { name, index, count, hasCode, document = '' } = rank;
  const { minX, minY, maxX, maxY } = usable;
  const key = [minX, minY, maxX, maxY, name, index, count, hasCode, document, heading].join('\n');
  const before = known.get(key);
  if (before) return before;
  const page = makeWholePage(usable, heading, options, rank);
  known.set(key, page);
  return page;
};

const makeWholePage = (usable: Box, heading: string, options: PagingOptions, rank: PageRank): Furniture => {
  const frame = growBox(usable, -QUARTER / 2);
  const inner = growBox(frame, -inset);
  const foot = drawFoot(frame, heading, options, rank, wholeTitle(frame), 0);
  // The upright check stands over the title block, and over the level check too where that reaches under it.
  const isUnder = foot.taken.some((box) => box.maxY > foot.right && box.maxX > inner.maxX - checkBreadth - 4);
  const floor = (isUnder ? frame.minY + foot.height : foot.right) + 2;
  const check = drawUprightCheck(inner.maxX, floor);
  // At the top right corner, or beside the upright check where that reaches up there. A later page has none.
  const isTight = check.box.maxY + GAP > inner.maxY - codeSide;
  const code = codeBox(isTight ? check.box.minX - GAP : inner.maxX, inner.maxY);
  const codes = rank.hasCode ? [code] : [];
  const nameRight = (rank.hasCode ? code.minX : isTight ? check.box.minX : inner.maxX) - GAP;
  const name = letter('page', { x: nameRight, y: inner.maxY - 5.4 }, translateName(rank.name), 5, {
    align: 'right',
    bold: true,
  });
  // The same room for every name, so that a page is composed before its name is known.
  const nameBox = boxAt(nameRight - nameRoom, inner.maxY - 7, nameRoom, 7);
  return {
    draw: () => [
      stroke('page', boxPath(frame), QUARTER),
      ...foot.marks,
      ...check.marks,
      name,
      ...codes.flatMap((box) => drawCode({ x: box.minX, y: box.minY }, options)),
    ],
    taken: [...foot.taken, check.box, nameBox, ...codes],
    field: inner,
    zones: {
      ...inner,
      minY: frame.minY + foot.height + GAP,
      maxX: check.box.minX - GAP,
    },
    headWidth: nameBox.minX - GAP - inner.minX,
    needed: {
      width: foot.least + 2 * QUARTER,
      height: floor - usable.minY + namedLength + inset + QUARTER + 1,
    },
  };
};
