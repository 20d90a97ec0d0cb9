import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark, Sheet } from '../drawing/model.ts';
import { growBox, letter } from '../drawing/paths.ts';
import { say, translateName } from '../words/say.ts';
import { codeSide, drawCode } from './code.ts';
import { drawFoot, drawUprightCheck, type PageRank, type TitlePlan } from './furniture.ts';
import type { PagingOptions, PaperSize } from './options.ts';
import { checkBreadth, namedLength } from './scale-check.ts';
import { middleWidth } from './title-block.ts';

/** Under a tile's frame, for the name of the tile that is taped on there, mm. */
export const gutter = 4.4;
/** At its right: that name, and the upright check. */
export const lane = checkBreadth + 0.6;
const headHeight = 8;
/** What the widest line cut at a frame reaches beyond it, mm. */
const edge = 0.4;
/** A frame smaller than this shows too little to be taped, mm. */
const leastWindow = 50;

/** What a page of tiles has room for, and how its furniture is drawn. */
export interface TilePage {
  /** The largest frame the page can hold, page mm. */
  readonly window: Box;
  /** The upright check, which stands in the lane at the right of the frame. */
  readonly check: Box;
  readonly draw: (rank: PageRank) => Mark[];
  /** What the page needs inside its margins beside its window. */
  readonly needed: PaperSize;
}

type Head = Pick<Sheet, 'heading' | 'subject'>;

/** One line: the heading, the sizes, and the page's name at the right. */
const drawTileHead = ({ heading, subject }: Head, rank: PageRank, usable: Box): Mark[] => {
  const y = usable.maxY - 6;
  const marks: Mark[] = [letter('page', { x: usable.maxX, y }, rank.name, 5, { align: 'right', bold: true })];
  const told = say`page ${rank.index} of ${rank.count}`;
  let right = usable.maxX - textWidth(translateName(rank.name), 5, true) - 3;
  if (rank.count > 1) {
    marks.push(letter('page', { x: right, y }, told, 2.5, { align: 'right' }));
    right -= textWidth(told, 2.5, false) + 4;
  }
  let left = usable.minX;
  const height = [5, 3.5, 2.5].find((size) => textWidth(heading, size, true) <= right - left);
  if (height === undefined) return marks;
  marks.push(letter('page', { x: left, y }, heading, height, { bold: true }));
  left += textWidth(heading, height, true) + 4;
  // As many facts as the line holds, from the first that is short enough.
  let line = '';
  for (const fact of subject) {
    const longer = line === '' ? fact : `${line} · ${fact}`;
    if (textWidth(longer, 2.5, false) <= right - left) line = longer;
    else if (line !== '') break;
  }
  if (line !== '') marks.push(letter('page', { x: left, y }, line, 2.5));
  return marks;
};

/** Least and most width of a title block beside the check. */
const [leastTitle, mostTitle] = [62, 180];

const tileKind =
  (inside: number) =>
  (room: number): TitlePlan => {
    const width = Math.min(room >= leastTitle ? room : inside, mostTitle);
    return { kind: width >= middleWidth ? 'middle' : 'tile', width, indent: 0 };
  };

/** A page that shows tiles: frames are the tiles' own edges, everything else stands outside them. */
export const planTilePage = (usable: Box, sheet: Head, options: PagingOptions): TilePage => {
  const area = growBox(usable, -edge);
  const spareFor = (rank: PageRank): number => (rank.hasCode ? codeSide + 3.5 : 0);
  const footOf = (rank: PageRank) =>
    drawFoot(area, sheet.heading, options, rank, tileKind(area.maxX - area.minX), spareFor(rank));
  const first = footOf({ name: '1.1', index: 1, count: 1, hasCode: true });
  const foot = first.height;
  const window: Box = {
    minX: area.minX,
    maxX: area.maxX - lane,
    minY: area.minY + foot + gutter,
    maxY: area.maxY - headHeight,
  };
  const check = drawUprightCheck(area.maxX, window.minY);
  return {
    window,
    check: check.box,
    draw: (rank) => [
      ...drawTileHead(sheet, rank, area),
      ...footOf(rank).marks,
      ...check.marks,
      ...(rank.hasCode ? drawCode({ x: first.code.minX, y: first.code.minY }, options) : []),
    ],
    needed: {
      width: Math.max(first.least, leastWindow + lane),
      height: Math.max(foot + gutter + namedLength + 1, foot + gutter + leastWindow + headHeight),
    },
  };
};
