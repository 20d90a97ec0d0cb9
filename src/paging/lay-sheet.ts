import { moveMarks } from '../drawing/extent.ts';
import type { Mark } from '../drawing/model.ts';
import type { UserError } from '../issue.ts';
import type { Block } from './block.ts';
import { heightOf, moveBox, widthOf } from './box.ts';
import { type Card, layCardsApart, layCardsWhole } from './card-pages.ts';
import { composePage } from './compose.ts';
import { anyRank, type Draft, noRoomError, rollLengths } from './draft.ts';
import { planWholePage, hasRoom } from './furniture.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { leastArea } from './pack.ts';
import { isManyPages } from './page-limit.ts';
import { longestSide, type Paper } from './paper.ts';
import type { Head } from './text-blocks.ts';
import { planTilePage } from './tile-page.ts';
import { around, type Drawing, type MayWin, type TiledSheet, tileSheet } from './tiled-sheet.ts';
import { say } from '../words/say.ts';

/** A sheet ready to be laid on paper: its values written, its drawing measured, its words as blocks. */
export interface Prepared extends Head {
  readonly name: string;
  readonly marks: readonly Mark[];
  /** False where nothing on it is drawn at full size. */
  readonly isFullSize: boolean;
  readonly drawing: Drawing;
  /** The small drawings it is made of, where they may be laid each by itself. */
  readonly cards: readonly Card[];
  readonly blocks: readonly Block[];
  /** What it says, to compare with what another says. */
  readonly says: { readonly steps: string; readonly cautions: string; readonly pictures: string };
}

/** Sheets laid on pages, and the blocks that are left for notes. */
export interface Laid {
  readonly sheets: readonly Prepared[];
  readonly drafts: readonly Draft[];
  readonly left: readonly Block[];
  /** True where what is left names its sheets already. */
  readonly isShared?: true;
}

/** One way to lay a sheet on paper. */
interface Candidate {
  readonly drafts: readonly Draft[];
  readonly left: readonly Block[];
  readonly cost: number;
}

/** What a page of notes takes at most, mm². */
const notesArea = 24_000;

/** Pages a candidate takes, its notes by the ground they need. */
const pagesOf = ({ drafts, left }: Candidate, { notes }: PagingOptions): number =>
  drafts.length + (notes === 'none' ? 0 : Math.ceil(leastArea(left, 2.5) / notesArea));

/** Tiles are taped, which is worse than any page that is not; and each joint is one more place to go wrong. */
const [tileCost, jointCost] = [30, 0.1];

/** The sheet whole on one page, with the blocks that go there. */
const composeWhole = (sheet: Prepared, size: PaperSize, options: PagingOptions): Candidate | undefined => {
  const usable = usableArea(size, options);
  const document = sheet.isFullSize ? undefined : say`Figures`;
  const furniture = planWholePage(usable, sheet.heading, options, { ...anyRank, document });
  if (!hasRoom(usable, furniture)) return undefined;
  const { bounds, ink } = sheet.drawing;
  const extent = { width: widthOf(bounds), height: heightOf(bounds) };
  const ground = { ...extent, ink: ink.map((box) => moveBox(box, -bounds.minX, -bounds.minY)) };
  const composed = composePage(furniture, sheet, sheet.blocks, ground, options.paper.kind === 'sheet');
  if (!composed) return undefined;
  const { corner, draw, cost, left } = composed;
  const origin = { x: corner.x - bounds.minX, y: corner.y - bounds.minY };
  const viewport = {
    minX: corner.x,
    minY: corner.y,
    maxX: corner.x + extent.width,
    maxY: corner.y + extent.height,
  };
  const draft: Draft = {
    name: '1.1',
    size,
    views: [{ sheet: sheet.name, name: '1.1', origin, viewport }],
    draw: (rank) => [
      ...planWholePage(usable, sheet.heading, options, { ...rank, document }).draw(),
      ...moveMarks(sheet.marks, origin.x, origin.y),
      ...draw(),
    ],
  };
  return { cost, drafts: [draft], left };
};

/** Ways to hold the paper. */
type Hold = 'portrait' | 'landscape';

const holdsOf = ({ drawing: { bounds } }: Prepared, { orientation }: PagingOptions): readonly Hold[] => {
  if (orientation !== 'auto') return [orientation];
  return widthOf(bounds) >= heightOf(bounds) ? ['landscape', 'portrait'] : ['portrait', 'landscape'];
};

export const turnPaper = (paper: Paper, hold: Hold, along: number): PaperSize =>
  hold === 'landscape' ? { width: along, height: paper.width } : { width: paper.width, height: along };

/** The sizes a page may have, shortest first: one for a sheet of paper, several for a roll. */
const sizesOf = (hold: Hold, { drawing: { bounds } }: Prepared, options: PagingOptions): PaperSize[] => {
  const { paper } = options;
  const turn = (along: number): PaperSize => turnPaper(paper, hold, along);
  if (paper.kind === 'sheet') return [turn(paper.height)];
  const longest = turn(longestSide);
  const { window } = planTilePage(usableArea(longest, options), { heading: '', subject: [] }, options);
  const beside = hold === 'landscape' ? longest.width - widthOf(window) : longest.height - heightOf(window);
  const need = (hold === 'landscape' ? widthOf(bounds) : heightOf(bounds)) + beside + 2 * around;
  const lengths = need >= longestSide ? [longestSide] : rollLengths(Math.max(need, 200));
  return lengths.map(turn);
};

/** The sizes a page of notes may have, shortest first. */
export const notesSizes = (sheet: Prepared, options: PagingOptions): PaperSize[] => {
  const paper = options.notesPaper ?? options.paper;
  const hold = options.orientation === 'landscape' ? 'landscape' : 'portrait';
  if (paper.kind === 'sheet') return [turnPaper(paper, hold, paper.height)];
  return sizesOf(hold, { ...sheet, drawing: { ...sheet.drawing, bounds: noGround } }, options);
};

const noGround = { minX: 0, minY: 0, maxX: 0, maxY: 0 } as const;

const costOf = (joints: number): number => (joints === 0 ? 4 : tileCost + jointCost * joints);

const taped = (sheet: TiledSheet): Candidate => ({ ...sheet, cost: costOf(sheet.joints) });

/** The sheet's cards each by itself, where that beats the whole drawing with what it leaves over. */
const layCards = (
  sheet: Prepared,
  size: PaperSize,
  options: PagingOptions,
  best: Candidate | undefined,
): Candidate | undefined => {
  if (sheet.cards.length < 2) return undefined;
  const whole = layCardsWhole(sheet, sheet.blocks, size, options);
  if (whole && (!best || whole.left.length < best.left.length)) return { ...whole, cost: 3 };
  const apart = best ? undefined : layCardsApart(sheet, sheet.blocks, size, options);
  return apart && taped(apart);
};

/** Says whether a taped way may beat a candidate. */
const mayBeat =
  (known: Candidate, options: PagingOptions): MayWin =>
  (pages, joints) => {
    const before = pagesOf(known, options);
    // Which of two takes less of a roll shows only when both are laid.
    return (
      pages < before || (pages === before && (options.paper.kind === 'roll' || costOf(joints) < known.cost))
    );
  };

/**
 * Lays a sheet out with the paper held one way, taped only where it may take `most` pages and more than one; undefined where
 * that has no room, or cannot be better than the way that is `known`.
 */
const layOut = (
  sheet: Prepared,
  hold: Hold,
  options: PagingOptions,
  most: number,
  known: Candidate | undefined,
): Candidate | undefined => {
  const sizes = sizesOf(hold, sheet, options);
  const [shortest] = sizes;
  if (!shortest) return undefined;
  const usable = usableArea(shortest, options);
  if (!hasRoom(usable, planTilePage(usable, sheet, options))) return undefined;
  if (!hasRoom(usable, planWholePage(usable, sheet.heading, options, anyRank))) return undefined;
  let best: Candidate | undefined;
  for (const size of sizes) {
    const whole = composeWhole(sheet, size, options);
    if (whole && (!best || whole.left.length < best.left.length)) best = whole;
    if (best?.left.length === 0) return best;
  }
  const apart = layCards(sheet, shortest, options, best);
  if (apart) return apart;
  if (best || most < 2) return best;
  const tiled = tileSheet(sheet, sheet.drawing, sheet.blocks, {
    size: shortest,
    options,
    mayWin: known && mayBeat(known, options),
  });
  return tiled && taped(tiled);
};

/** Lays one sheet on paper of its own, with as few pages as may be: without what may be left out, where that takes fewer or saves taping. */
export const layOneSheet = (sheet: Prepared, options: PagingOptions): Laid => {
  if (sheet.marks.length === 0) return { sheets: [sheet], drafts: [], left: sheet.blocks };
  const whole = layBest(sheet, options);
  const needed = sheet.blocks.filter(({ isSpare }) => isSpare !== true);
  if (needed.length === sheet.blocks.length) return laidAs(sheet, whole);
  const shorter = { ...sheet, blocks: needed };
  if (whole.left.length > 0) {
    const brief = layBest(shorter, options);
    return laidAs(sheet, pagesOf(brief, options) < pagesOf(whole, options) ? brief : whole);
  }
  // A drawing that goes whole on as many pages without them is not taped.
  const brief = whole.cost < tileCost ? undefined : layWithin(shorter, options, 1).best;
  return laidAs(sheet, brief && pagesOf(brief, options) <= pagesOf(whole, options) ? brief : whole);
};

/** Which of two ways that take as many pages is better: below 0 the first. Of a roll it is the one that takes less of it. */
const compareCost = (a: Candidate, b: Candidate, { paper }: PagingOptions): number => {
  const lengthOf = ({ drafts }: Candidate): number =>
    drafts.reduce((sum, { size }) => sum + (size.width * size.height) / paper.width, 0);
  const saved = paper.kind === 'roll' ? lengthOf(a) - lengthOf(b) : 0;
  return Math.abs(saved) > 1 ? saved : a.cost - b.cost;
};

const laidAs = (sheet: Prepared, { drafts, left }: Candidate): Laid => ({ sheets: [sheet], drafts, left });

/** The way that takes the fewest pages; figures, which nobody lays on steel, are taped only where no page holds them. */
const layBest = (sheet: Prepared, options: PagingOptions): Candidate => {
  const onePage = sheet.isFullSize ? undefined : layWithin(sheet, options, 1).best;
  const { best, many } = onePage ? { best: onePage } : layWithin(sheet, options, Infinity);
  if (best) return best;
  throw many ?? refuse(sheet, options);
};

/** The way that takes the fewest pages, taped only where `most` is more than one; the error where all take too many. */
const layWithin = (
  sheet: Prepared,
  options: PagingOptions,
  most: number,
): { readonly best?: Candidate | undefined; readonly many?: UserError | undefined } => {
  let best: Candidate | undefined;
  let many: UserError | undefined;
  for (const hold of holdsOf(sheet, options)) {
    let found: Candidate | undefined;
    try {
      found = layOut(sheet, hold, options, best ? pagesOf(best, options) : most, best);
    } catch (error) {
      if (!isManyPages(error)) throw error;
      many = error;
    }
    if (!found) continue;
    const [now, before] = [pagesOf(found, options), best ? pagesOf(best, options) : Infinity];
    if (!best || now < before || (now === before && compareCost(found, best, options) < 0)) best = found;
  }
  return { best, many };
};

/** The error for paper that has no room whichever way it is held: gives what the nearest way needs. */
const refuse = (sheet: Prepared, options: PagingOptions) => {
  const hold = holdsOf(sheet, options)[0] ?? 'portrait';
  const size = sizesOf(hold, sheet, options)[0] ?? { width: 0, height: 0 };
  const usable = usableArea(size, options);
  const tile = planTilePage(usable, sheet, options).needed;
  const whole = planWholePage(usable, sheet.heading, options, anyRank).needed;
  return noRoomError(options, usable, {
    width: Math.max(tile.width, whole.width),
    height: Math.max(tile.height, whole.height),
  });
};
