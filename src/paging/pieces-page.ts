import { moveMarks } from '../drawing/extent.ts';
import type { Mark } from '../drawing/model.ts';
import { growBox } from '../drawing/paths.ts';
import type { Page, View } from './book.ts';
import { moveBox } from './box.ts';
import { anyRank } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { planWholePage, hasRoom } from './furniture.ts';
import { turnPaper } from './lay-sheet.ts';
import { isNarrowRoll } from './narrow-roll.ts';
import { type PagingOptions, type PaperSize, supersededStrip, usableArea } from './options.ts';
import { finishPage } from './paginate.ts';
import { panelGap, placer } from './panel.ts';
import type { Paper } from './paper.ts';
import type { PiecePanel } from './piece-panel.ts';

/** Several pieces of a book on one page: which way each is made, and where the lower left corner of its frame lies. */
export interface PiecesPage {
  readonly size: PaperSize;
  readonly places: readonly { readonly way: number; readonly x: number; readonly y: number }[];
}

/** More pieces, or paper, at once are no saving: a page that comes out wrong is printed again whole. */
export const mostPieces = 24;
const mostAlong = 2500;
/** Least length of a page of a roll, and what it grows by, mm. */
const [leastAlong, step] = [325, 25];
/** Sheets whose short side is less are one piece's. */
const leastSheet = 400;

/** True of paper on which several pieces share a page: rolls and large sheets. */
export const isForSeveral = (paper: Paper): boolean =>
  paper.kind === 'roll' ? !isNarrowRoll(paper) : paper.width >= leastSheet;

/** One piece, by the sizes of the ways it may be made. */
type Ways = readonly PaperSize[];

const leastSide = (ways: Ways): number =>
  Math.min(...ways.map(({ width, height }) => Math.min(width, height)));
const leastArea = (ways: Ways): number => Math.min(...ways.map(({ width, height }) => width * height));

/** Orders in which pieces are laid on a page, by their numbers: as they are listed, the large ones first, the broad ones first. */
const ordersOf = (pieces: readonly Ways[]): readonly (readonly number[])[] => {
  const listed = pieces.map((_, i) => i);
  const by = (measure: (ways: Ways) => number): readonly number[] =>
    [...listed].sort((a, b) => measure(pieces[b] ?? []) - measure(pieces[a] ?? []) || a - b);
  return [listed, by(leastArea), by(leastSide)];
};

/** All the pieces on a page of a size; undefined where they do not all go there. */
const planOn = (pieces: readonly Ways[], size: PaperSize, options: PagingOptions): PiecesPage | undefined => {
  const usable = usableArea(size, options);
  const furniture = planWholePage(usable, '', options, { ...anyRank, name: '', hasCode: false });
  if (!hasRoom(usable, furniture)) return undefined;
  const { field, taken } = furniture;
  const free = taken.reduce<FreeSpace>((rest, box) => takeSpace(rest, growBox(box, panelGap)), [field]);
  for (const order of ordersOf(pieces)) {
    const puts = placer(free, field, size.width > size.height).putAll(order.map((i) => pieces[i] ?? []));
    if (puts.length < pieces.length) continue;
    const places = puts
      .map(({ panel, box }, k) => ({ piece: order[k] ?? 0, panel, x: box.minX, y: box.minY }))
      .sort((a, b) => a.piece - b.piece)
      .map(({ piece, panel, x, y }) => ({ way: pieces[piece]?.indexOf(panel) ?? 0, x, y }));
    return { size, places };
  }
  return undefined;
};

const planOnAny = (
  pieces: readonly Ways[],
  sizes: readonly PaperSize[],
  options: PagingOptions,
): PiecesPage | undefined => {
  for (const size of sizes) {
    const page = planOn(pieces, size, options);
    if (page) return page;
  }
  return undefined;
};

/**
 * The first pieces of a list on one page, as many as go there, by the sizes of the ways each may be made; undefined where not
 * even two do. A roll is cut as short as they allow.
 */
export const planPieces = (pieces: readonly Ways[], options: PagingOptions): PiecesPage | undefined => {
  const { paper, orientation } = options;
  const cut = (along: number): PaperSize => turnPaper(paper, 'landscape', along);
  const largest =
    paper.kind === 'roll'
      ? [cut(mostAlong)]
      : (['portrait', 'landscape'] as const)
          .filter((hold) => orientation === 'auto' || orientation === hold)
          .map((hold) => turnPaper(paper, hold, paper.height));
  let most: PiecesPage | undefined;
  for (let count = 2; count <= Math.min(pieces.length, mostPieces); count += 1) {
    const page = planOnAny(pieces.slice(0, count), largest, options);
    if (!page) break;
    most = page;
  }
  if (!most || paper.kind === 'sheet') return most;
  const those = pieces.slice(0, most.places.length);
  const ground = those.reduce((sum, ways) => sum + leastArea(ways), 0) / paper.width;
  const lengths: PaperSize[] = [];
  for (let along = Math.max(leastAlong, Math.floor(ground)); along < mostAlong; along += step)
    lengths.push(cut(along));
  return planOnAny(those, lengths, options) ?? most;
};

/** Draws the page of some pieces, each by its own panel. `rank` says which of the book's pages it is. */
export const drawPiecesPage = (
  { size, places }: PiecesPage,
  panels: readonly PiecePanel[],
  about: {
    readonly label: string;
    readonly heading: string;
    readonly index: number;
    readonly count: number;
  },
  options: PagingOptions,
): Page => {
  const { label, heading, index, count } = about;
  const usable = usableArea(size, options);
  const rank = { name: '', index, count, hasCode: false };
  const marks: Mark[] = [
    ...supersededStrip(size, options),
    ...planWholePage(usable, heading, options, rank).draw(),
  ];
  const views: View[] = [];
  for (const [i, panel] of panels.entries()) {
    const { x, y } = places[i] ?? { x: 0, y: 0 };
    const drawn = panel.draw();
    marks.push(...moveMarks(drawn.marks, x, y));
    views.push(
      ...drawn.views.map((view) => ({
        ...view,
        origin: { x: view.origin.x + x, y: view.origin.y + y },
        viewport: moveBox(view.viewport, x, y),
      })),
    );
  }
  return finishPage({ size, views }, marks, label, options);
};
