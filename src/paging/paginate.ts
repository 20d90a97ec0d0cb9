import { markBounds, translateMark } from '../drawing/extent.ts';
import type { Box, Mark, Sheet, WrittenSheet } from '../drawing/model.ts';
import { unionBox } from '../drawing/shape.ts';
import { writeSheet } from '../drawing/written.ts';
import type { Block } from './block.ts';
import type { Page } from './book.ts';
import { heightOf, widthOf } from './box.ts';
import { stretchOf } from './calibration.ts';
import { composePage } from './compose.ts';
import { anyRank, type Draft, draftNotes, laterRank, noRoomError, rollLengths } from './draft.ts';
import { drawWholePage, hasRoom } from './furniture.ts';
import { type PagingOptions, type PaperSize, supersededStrip, usableArea } from './options.ts';
import { longestSide } from './paper.ts';
import { pictureBlock } from './picture-block.ts';
import { isSignedOff, signOffBlock, laidOnOf } from './sign-off.ts';
import { stretchPage } from './stretch.ts';
import { tableBlock } from './table-block.ts';
import { cautionsBlock, factsBlock, stepsBlock } from './text-blocks.ts';
import { planTilePage } from './tile-page.ts';
import { around, type TiledSheet, tileSheet } from './tiled-sheet.ts';

/** The pages of a print, and which of them belong to which sheet (1-based). */
export interface Paged {
  readonly pages: readonly Page[];
  readonly sheets: readonly {
    readonly name: string;
    readonly heading: string;
    readonly pages: readonly number[];
  }[];
}

const blocksOf = (sheet: WrittenSheet): Block[] => [
  ...sheet.pictures.map(pictureBlock),
  ...sheet.tables.filter(({ rows }) => rows.length > 0).map((table) => tableBlock(table)),
  ...(sheet.steps.length > 0 ? [stepsBlock(sheet.steps)] : []),
  ...(sheet.facts.length > 0 ? [factsBlock(sheet.facts)] : []),
  cautionsBlock(sheet.cautions, laidOnOf(sheet)),
  ...(isSignedOff(sheet) ? [signOffBlock] : []),
];

/** One way to lay a sheet on paper. */
interface Candidate {
  readonly drafts: readonly Draft[];
  readonly cost: number;
}

/** The sheet whole on one page, with the blocks that are given. */
const composeWhole = (
  sheet: Sheet,
  drawing: Box,
  blocks: readonly Block[],
  size: PaperSize,
  options: PagingOptions,
  lettering: 'large' | 'any',
  rank = anyRank,
): { draft: Draft; cost: number } | undefined => {
  const usable = usableArea(size, options);
  const furniture = drawWholePage(usable, sheet, options, rank);
  if (!hasRoom(usable, furniture)) return undefined;
  const extent = { width: widthOf(drawing), height: heightOf(drawing) };
  const composed = composePage(furniture, sheet, blocks, extent, lettering);
  if (!composed) return undefined;
  const { corner, marks, cost } = composed;
  const origin = { x: corner.x - drawing.minX, y: corner.y - drawing.minY };
  return {
    cost,
    draft: {
      name: '1.1',
      size,
      origin,
      viewport: {
        minX: corner.x,
        minY: corner.y,
        maxX: corner.x + extent.width,
        maxY: corner.y + extent.height,
      },
      draw: (rank) => [
        ...drawWholePage(usable, sheet, options, rank).marks,
        ...sheet.marks.map((mark) => translateMark(mark, origin.x, origin.y)),
        ...marks,
      ],
    },
  };
};

/**
 * What goes to a page of notes where not all goes beside the drawing, the least first. Where tables and cautions are
 * enough, that is better than small lettering beside the drawing.
 */
const sendings: readonly { readonly away: readonly Block['kind'][]; readonly lettering: 'large' | 'any' }[] =
  [
    { away: ['table', 'sign-off'], lettering: 'large' },
    { away: ['table', 'sign-off', 'cautions'], lettering: 'large' },
    { away: ['table', 'sign-off'], lettering: 'any' },
    { away: ['table', 'sign-off', 'cautions'], lettering: 'any' },
    { away: ['table', 'sign-off', 'cautions', 'picture'], lettering: 'any' },
    { away: ['table', 'sign-off', 'cautions', 'picture', 'facts'], lettering: 'any' },
    { away: ['table', 'sign-off', 'cautions', 'picture', 'facts', 'steps'], lettering: 'any' },
  ];

/** The sheet whole on one page with the blocks that go there, and the rest on notes before it. */
const composeWithNotes = (
  sheet: Sheet,
  drawing: Box,
  blocks: readonly Block[],
  sizes: readonly PaperSize[],
  options: PagingOptions,
): Candidate | undefined => {
  for (const size of sizes) {
    for (const [i, { away, lettering }] of sendings.entries()) {
      const left = blocks.filter(({ kind }) => away.includes(kind));
      if (left.length === 0) continue;
      const kept = blocks.filter(({ kind }) => !away.includes(kind));
      const whole = composeWhole(sheet, drawing, kept, size, options, lettering, laterRank);
      if (whole)
        return { drafts: [...draftNotes(sheet, options, sizes, left), whole.draft], cost: whole.cost + i };
    }
  }
  return undefined;
};

/** Ways to hold the paper. */
type Hold = 'portrait' | 'landscape';

const holdsOf = (drawing: Box, { orientation }: PagingOptions): readonly Hold[] => {
  if (orientation !== 'auto') return [orientation];
  return widthOf(drawing) >= heightOf(drawing) ? ['landscape', 'portrait'] : ['portrait', 'landscape'];
};

/** The sizes a page may have, shortest first: one for a sheet of paper, several for a roll. */
const sizesOf = (hold: Hold, drawing: Box, options: PagingOptions): readonly PaperSize[] => {
  const { paper } = options;
  const turn = (along: number): PaperSize =>
    hold === 'landscape' ? { width: along, height: paper.width } : { width: paper.width, height: along };
  if (paper.kind === 'sheet') return [turn(paper.height)];
  const longest = turn(longestSide);
  const usable = usableArea(longest, options);
  const { window } = planTilePage(usable, { ...emptySheet, heading: '' }, options);
  const beside = hold === 'landscape' ? longest.width - widthOf(window) : longest.height - heightOf(window);
  const need = (hold === 'landscape' ? widthOf(drawing) : heightOf(drawing)) + beside + 2 * around;
  const lengths = need >= longestSide ? [longestSide] : rollLengths(Math.max(need, 200));
  return lengths.map(turn);
};

const emptySheet: WrittenSheet = {
  name: '',
  heading: '',
  subject: [],
  marks: [],
  bounds: { minX: 0, minY: 0, maxX: 0, maxY: 0 },
  steps: [],
  facts: [],
  tables: [],
  pictures: [],
  cautions: [],
};

/** Lays a sheet out with the paper held one way; undefined where that has no room or cannot take under `most` pages. */
const layOut = (
  sheet: Sheet,
  drawing: Box,
  blocks: readonly Block[],
  hold: Hold,
  options: PagingOptions,
  most: number,
): Candidate | undefined => {
  const sizes = sizesOf(hold, drawing, options);
  const [shortest] = sizes;
  if (!shortest) return undefined;
  const usable = usableArea(shortest, options);
  if (!hasRoom(usable, planTilePage(usable, sheet, options))) return undefined;
  if (!hasRoom(usable, drawWholePage(usable, sheet, options, anyRank))) return undefined;
  for (const size of sizes) {
    const whole = composeWhole(sheet, drawing, blocks, size, options, 'any');
    if (whole) return { drafts: [whole.draft], cost: whole.cost };
  }
  if (most <= 2) return undefined;
  const withNotes = composeWithNotes(sheet, drawing, blocks, sizes, options);
  if (withNotes && withNotes.drafts.length <= 2) return withNotes;
  const [together, spread] = tileSheet(sheet, drawing, blocks, shortest, options);
  const withTold = ({ drafts, left }: TiledSheet): readonly Draft[] =>
    left.length > 0 ? [...draftNotes(sheet, options, sizes, left), ...drafts] : drafts;
  const plain = withTold(together);
  const isLong = plain.length > together.drafts.length + 1;
  const mixed = isLong ? withTold(spread) : plain;
  const tiled = mixed.length < plain.length ? mixed : plain;
  if (withNotes && withNotes.drafts.length <= tiled.length) return withNotes;
  return { drafts: tiled, cost: 10 };
};

const chooseLayout = (sheet: WrittenSheet, options: PagingOptions): readonly Draft[] => {
  const drawing = unionBox([sheet.bounds, ...sheet.marks.map(markBounds)]);
  const blocks = blocksOf(sheet);
  if (sheet.marks.length === 0) {
    const hold = options.orientation === 'landscape' ? 'landscape' : 'portrait';
    return draftNotes(sheet, options, sizesOf(hold, drawing, options), blocks);
  }
  let best: Candidate | undefined;
  for (const hold of holdsOf(drawing, options)) {
    const found = layOut(sheet, drawing, blocks, hold, options, best?.drafts.length ?? Infinity);
    if (!found) continue;
    const isBetter =
      !best ||
      found.drafts.length < best.drafts.length ||
      (found.drafts.length === best.drafts.length && found.cost < best.cost);
    if (isBetter) best = found;
  }
  if (best) return best.drafts;
  throw refuse(sheet, drawing, options);
};

/** The error for paper that has no room whichever way it is held: tells the need of the way that is nearest. */
const refuse = (sheet: Sheet, drawing: Box, options: PagingOptions) => {
  const hold = holdsOf(drawing, options)[0] ?? 'portrait';
  const size = sizesOf(hold, drawing, options)[0] ?? { width: 0, height: 0 };
  const usable = usableArea(size, options);
  const tile = planTilePage(usable, sheet, options).needed;
  const whole = drawWholePage(usable, sheet, options, anyRank).needed;
  return noRoomError(options, usable, {
    width: Math.max(tile.width, whole.width),
    height: Math.max(tile.height, whole.height),
  });
};

const finishPage = (
  sheet: string,
  draft: Draft,
  marks: readonly Mark[],
  label: string,
  options: PagingOptions,
): Page => {
  const { size, origin, viewport } = draft;
  const page = { ...size, label, marks, views: [{ sheet, name: draft.name, origin, viewport }] };
  if (options.printer === undefined) return page;
  return stretchPage(page, stretchOf(options.paper, size, options.printer));
};

/**
 * Lays sheets on paper, full size: one page where drawing and explanation go on one, else tiles to be taped, with the
 * explanation on their free ground or on a page of notes before them; a sheet without a drawing is notes alone. Same input, same pages. Throws a `request`
 * UserError where the paper has no room inside its margins or the overlap cannot be used.
 */
export const paginate = (sheets: readonly Sheet[], options: PagingOptions): Paged => {
  const pages: Page[] = [];
  const labels = new Set<string>();
  const index = sheets.map((sheet) => {
    const drafts = chooseLayout(writeSheet(sheet, options), options);
    const first = pages.length + 1;
    drafts.forEach((draft, i) => {
      const plain = `${sheet.name} ${draft.name}`;
      let label = plain;
      for (let n = 2; labels.has(label); n += 1) label = `${plain} (${n})`;
      labels.add(label);
      const marks = draft.draw({ name: draft.name, index: i + 1, count: drafts.length });
      pages.push(
        finishPage(sheet.name, draft, [...supersededStrip(draft.size, options), ...marks], label, options),
      );
    });
    return { name: sheet.name, heading: sheet.heading, pages: drafts.map((_, i) => first + i) };
  });
  return { pages, sheets: index };
};
