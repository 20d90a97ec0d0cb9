import { translateMark, turnMark, moveMarks } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { growBox, letter } from '../drawing/paths.ts';
import type { Block, Fitted } from './block.ts';
import { boxAt, heightOf, moveBox, widthOf } from './box.ts';
import type { Card } from './card-pages.ts';
import { codeSide, drawCode } from './code.ts';
import { type Draft, noRoomError } from './draft.ts';
import { type PageRank } from './furniture.ts';
import type { Laid, Prepared } from './lay-sheet.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { longestSide, type Paper } from './paper.ts';
import { checkBreadth, drawScaleCheck, drawShortCheck, namedLength, shortCheck } from './scale-check.ts';
import { drawTileEdges, findSeams } from './seam.ts';
import type { Head } from './text-blocks.ts';
import { shareMarks } from './tile-marks.ts';
import { planGrid } from './tile.ts';
import type { Drawn } from './title-block.ts';
import { inOrder } from './zones.ts';
import { say, translateName } from '../words/say.ts';

/**
 * Rolls for labels and receipts: a strip along the roll, as long as what is drawn needs. At its start what it is and the
 * scale checks, then the drawing, in lanes where it is taller than the roll is wide; then, on a strip of its own, what is
 * said of it.
 */

/** A roll this wide or wider has room for a page with frame and title block, mm. */
const leastWide = 210;

/** Width kept clear at all edges of such a roll, where no other is asked for, mm. */
export const narrowMargin = 3;

export const isNarrowRoll = ({ kind, width }: Paper): boolean => kind === 'roll' && width < leastWide;

/** The part of a page that may be used, less what a line on its edge is wide. */
const areaOf = (size: PaperSize, options: PagingOptions): Box => growBox(usableArea(size, options), -0.3);

/** Between the start, the drawing and the words, mm. */
const between = 5;
const [pitch, titlePitch] = [3.9, 5.2];

/** Whose strip it is, where that is given. */
const ownerLine = ({ title }: PagingOptions): string => {
  const { piece, number, revision, job, date, quantity } = title;
  const named = (label: string, value: string | undefined): string[] =>
    value === undefined || value.trim() === '' ? [] : [`${label} ${value}`];
  return [
    ...named(say`Piece`, piece),
    ...named(say`Qty`, quantity),
    ...named(say`Job`, job),
    ...named(say`No.`, number),
    ...named(say`Rev`, revision),
    ...named('', date),
  ].join(' · ');
};

/** Title, sizes and identity on one line; the sizes on lines of their own where they do not go there. */
const titleLines = ({ heading, subject: [sizes = ''] }: Head, { identity }: PagingOptions, width: number) => {
  const right = width - textWidth(identity, 2.5, false) - 4;
  const [first = '', ...others] = wrapText(heading, 3.5, true, right);
  const after = textWidth(first, 3.5, true) + 3;
  const isOne = others.length === 0 && after + textWidth(sizes, 2.5, false) <= right;
  const marks = [
    letter('page', { x: width, y: -4 }, identity, 2.5, { align: 'right' }),
    ...[first, ...others].map((line, i) =>
      letter('page', { x: 0, y: -4 - titlePitch * i }, line, 3.5, { bold: true }),
    ),
    ...(isOne ? [letter('page', { x: after, y: -4 }, sizes, 2.5)] : []),
  ];
  const height = titlePitch * (1 + others.length);
  return { marks, height, more: isOne || sizes === '' ? [] : [sizes] };
};

/** The start of a strip: title, sizes and identity, the check along under them and the check across beside it. */
const drawStart = (sheet: Head, options: PagingOptions, rank: PageRank, height: number): Drawn => {
  const width = namedLength;
  const title = titleLines(sheet, options, width);
  const marks: Mark[] = moveMarks(title.marks, 0, height);
  let y = height - title.height;
  const write = (texts: readonly string[]): void => {
    for (const line of texts
      .filter((text) => text !== '')
      .flatMap((text) => wrapText(text, 2.5, false, width))) {
      y -= pitch;
      marks.push(letter('page', { x: 0, y: y + 1 }, line, 2.5));
    }
  };
  write([...title.more, ownerLine(options)]);
  marks.push(...drawScaleCheck({ x: 0.3, y: y - 1 - checkBreadth / 2 }, 'x'));
  y -= 1 + checkBreadth;
  const isTemplate = rank.document === undefined;
  write([
    say`${translateName(rank.name)} · ${rank.index} of ${rank.count} · ${isTemplate ? say`FULL SIZE 1:1. ` : ''}Print at 100 %; both rules must be true.`,
  ]);
  const hasCode = rank.hasCode && y >= codeSide + 2;
  if (hasCode) marks.push(...drawCode({ x: 1.6, y: y - codeSide - 1.6 }, options));
  const across = drawShortCheck({ x: width + 5, y: Math.max(0.2, height - shortCheck.length - 1) });
  return { width: width + 5 + across.width, height: height - y, marks: [...marks, ...across.marks] };
};

/** A page of a strip, held with the roll's width upright. */
const sizeFor = ({ paper }: PagingOptions, along: number): PaperSize => ({
  width: Math.min(longestSide, Math.ceil(along)),
  height: paper.width,
});

const anyRank: PageRank = { name: '88.88', index: 88, count: 88, hasCode: true };

/** What the roll has for a strip: its height, and how much its start and the margins take along. */
const roomOf = (sheet: Head, options: PagingOptions) => {
  const longest = areaOf(sizeFor(options, longestSide), options);
  const height = heightOf(longest);
  const start = drawStart(sheet, options, anyRank, height);
  const needed = Math.max(start.height, shortCheck.length + 1);
  if (height < needed)
    throw noRoomError(options, longest, { width: start.width + 50, height: Math.ceil(needed) });
  return {
    height,
    start: start.width + between,
    margins: longestSide - widthOf(longest),
    along: widthOf(longest),
  };
};

/** The strips of a sheet: those of its cards one after the other, else of the whole. */
const draftStrips = (sheet: Prepared, options: PagingOptions): Draft[] => {
  const whole = { box: sheet.drawing.bounds, marks: sheet.marks };
  return (sheet.cards.length > 0 ? sheet.cards : [whole]).reduce<Draft[]>(
    (drafts, card) => [...drafts, ...draftLanes(sheet, card, options, drafts.length)],
    [],
  );
};

/** The strips of a drawing: one where the roll is wide enough, else lanes to be taped. */
const draftLanes = (
  sheet: Prepared,
  { box, marks }: Card,
  options: PagingOptions,
  rowsBefore: number,
): Draft[] => {
  const room = roomOf(sheet, options);
  const grid = planGrid(
    marks,
    growBox(box, 0.5),
    { width: room.along - room.start, height: room.height - 0.8 },
    options.overlap,
    rowsBefore,
  );
  const isAlone = grid.tiles.length === 1;
  let tiles: readonly (readonly Mark[])[] | undefined;
  const drawTiles = (): readonly (readonly Mark[])[] => {
    if (isAlone) return [marks];
    const shares = shareMarks(marks, grid);
    const seams = findSeams(grid, shares);
    return grid.tiles.map((tile, i) => {
      const share = shares[i] ?? [];
      // No room for names beside the frames: the strips are named at their starts.
      const keep: Box = boxAt(-1e6, -1e6, 2e6, 2e6);
      return [...share, ...drawTileEdges(tile, seams, share, keep, false)];
    });
  };
  return grid.tiles.map((tile, i): Draft => {
    const size = sizeFor(options, room.margins + room.start + widthOf(tile.window));
    const usable = areaOf(size, options);
    const dx = usable.minX + room.start - tile.window.minX;
    const dy = usable.maxY - 0.4 - tile.window.maxY;
    return {
      name: tile.name,
      size,
      views: [
        {
          sheet: sheet.name,
          name: tile.name,
          origin: { x: dx, y: dy },
          viewport: moveBox(tile.window, dx, dy),
        },
      ],
      draw: (rank) => [
        ...moveMarks(drawStart(sheet, options, rank, heightOf(usable)).marks, usable.minX, usable.minY),
        ...moveMarks((tiles ??= drawTiles())[i] ?? [], dx, dy),
      ],
    };
  });
};

const widths = [60, 72, 90, 110, 140, 180, 240, 320, 420] as const;

/** A block read from its side, the paper turned a quarter to the right. */
const turned = ({ width, height, draw }: Fitted): Fitted => ({
  width: height,
  height: width,
  draw: () => draw().map((mark) => translateMark(turnMark(mark, Math.PI / 2), height, 0)),
});

/** A block as narrow as the roll's width lets it be, in one piece or in parts; on its side where it is taller than that. */
const setAlong = (block: Block, height: number): readonly Fitted[] => {
  for (const width of widths) {
    const shape = block.fit(width, 2.5);
    if (shape && shape.height <= height) return [shape];
  }
  const parts = block.split?.(Math.max(...widths));
  if (parts) return parts.flatMap((part) => setAlong(part, height));
  const upright = block.fit(Math.max(...widths), 2.5);
  return upright ? [turned(upright)] : [];
};

/** What is said of a sheet, on a strip of its own, the blocks one after the other and over each other where they go. */
export const draftStripNotes = (
  sheet: Prepared,
  options: PagingOptions,
  blocks: readonly Block[],
): Draft[] => {
  const room = roomOf(sheet, options);
  const shapes = inOrder(blocks).flatMap((block) => setAlong(block, room.height));
  const pages: { shape: Fitted; x: number; down: number }[][] = [[]];
  let [x, down, wide] = [room.start, 0, 0];
  for (const shape of shapes) {
    if (down > 0 && down + shape.height > room.height) [x, down, wide] = [x + wide + between, 0, 0];
    if (x + shape.width > room.along) {
      pages.push([]);
      [x, down, wide] = [room.start, 0, 0];
    }
    pages[pages.length - 1]?.push({ shape, x, down });
    down += shape.height + between;
    wide = Math.max(wide, shape.width);
  }
  return pages.map((set, i) => {
    const end = Math.max(...set.map((one) => one.x + one.shape.width));
    const size = sizeFor(options, room.margins + end);
    const usable = areaOf(size, options);
    const name = i === 0 ? 'notes' : `notes ${i + 1}`;
    return {
      name,
      size,
      views: [{ sheet: sheet.name, name, origin: { x: usable.minX, y: usable.minY }, viewport: usable }],
      draw: (rank) => [
        ...moveMarks(
          drawStart(sheet, options, { ...rank, document: say`Notes` }, heightOf(usable)).marks,
          usable.minX,
          usable.minY,
        ),
        ...set.flatMap(({ shape, x: left, down: from }) =>
          moveMarks(shape.draw(), usable.minX + left, usable.maxY - from - shape.height),
        ),
      ],
    };
  });
};

/** A sheet on a narrow roll; all that is said of it is left for notes. */
export const layNarrow = (sheet: Prepared, options: PagingOptions): Laid => ({
  sheets: [sheet],
  drafts: sheet.marks.length === 0 ? [] : draftStrips(sheet, options),
  left: sheet.blocks,
});
