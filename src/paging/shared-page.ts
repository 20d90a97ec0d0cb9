import { translateMark } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { growBox, stroke, boxPath, NARROW } from '../drawing/shape.ts';
import type { Block, TextHeight } from './block.ts';
import { boxAt, heightOf, moveBox, widthOf } from './box.ts';
import { anyRank, type Draft, rollLengths } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { drawWholePage, hasRoom, moveMarks } from './furniture.ts';
import { type Laid, type Prepared, turnPaper } from './lay-sheet.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { joinViews } from './picture-block.ts';
import { drawHead } from './text-blocks.ts';
import { inOrder } from './zones.ts';

/**
 * Several sheets on one page: each as a panel with its own heading, drawing and words, the panels packed. The page's foot
 * and checks are shared.
 */

/** A sheet with all that is said of it in a box whose lower left corner is (0, 0). */
interface Panel {
  readonly width: number;
  readonly height: number;
  readonly marks: () => readonly Mark[];
  /** Lower left corner of the drawing's bounds. */
  readonly corner: { readonly x: number; readonly y: number };
}

const inset = 3;
const between = 4.5;
const columnWidths = [58, 75, 95, 120, 150, 180] as const;

/** Blocks one under the other in columns of a width, the columns as even as they come; undefined where one is too wide. */
const stack = (blocks: readonly Block[], width: number, count: number, text: TextHeight) => {
  const shapes = blocks.map((block) => block.fit(width, text));
  const set = shapes.filter((shape) => shape !== undefined);
  if (set.length < shapes.length) return undefined;
  const total = set.reduce((sum, { height }) => sum + height + between, 0);
  const columns: { shape: (typeof set)[number]; at: { x: number; y: number } }[] = [];
  let [c, down, tallest] = [0, 0, 0];
  for (const shape of set) {
    if (down > 0 && c < count - 1 && down + shape.height / 2 > total / count) [c, down] = [c + 1, 0];
    columns.push({ shape, at: { x: c * (width + between), y: -down - shape.height } });
    down += shape.height + between;
    tallest = Math.max(tallest, down - between);
  }
  return { height: tallest, width: (c + 1) * (width + between) - between, columns };
};

/** Panels that have been made: a list of sheets is tried again from each sheet on. */
const madePanels = new WeakMap<Prepared, Map<TextHeight, readonly Panel[]>>();

const panelsOf = (sheet: Prepared, text: TextHeight): readonly Panel[] => {
  const known = madePanels.get(sheet) ?? new Map<TextHeight, readonly Panel[]>();
  madePanels.set(sheet, known);
  const panels = known.get(text) ?? makePanels(sheet, text);
  known.set(text, panels);
  return panels;
};

/** Ways to make a panel of a sheet: words beside the drawing, and words under it. */
const makePanels = (sheet: Prepared, text: TextHeight): Panel[] => {
  const { bounds } = sheet.drawing;
  const [wide, tall] = [widthOf(bounds), heightOf(bounds)];
  const views = sheet.blocks.filter(({ kind }) => kind === 'picture');
  const others = sheet.blocks.filter(({ kind }) => kind !== 'picture');
  const blocks = inOrder(views.length > 1 ? [joinViews(views), ...others] : sheet.blocks);
  const panel = (width: number, words: NonNullable<ReturnType<typeof stack>>, isBeside: boolean): Panel => {
    const head = drawHead(sheet, width);
    const body = isBeside ? Math.max(tall, words.height) : tall + between + words.height;
    const height = body + head.height + between + 2 * inset;
    const top = inset + body;
    const corner = { x: inset, y: top - tall };
    const left = inset + (isBeside ? wide + between : 0);
    const under = isBeside ? top : corner.y - between;
    return {
      width: width + 2 * inset,
      height,
      corner,
      marks: () => [
        stroke('page', boxPath(boxAt(0, 0, width + 2 * inset, height)), NARROW),
        ...moveMarks(head.marks, inset, top + between),
        ...sheet.marks.map((mark) => translateMark(mark, corner.x - bounds.minX, corner.y - bounds.minY)),
        ...words.columns.flatMap(({ shape, at }) => moveMarks(shape.draw(), left + at.x, under + at.y)),
      ],
    };
  };
  const stacks = columnWidths.flatMap((width) =>
    [1, 2, 3, 4, 6].flatMap((count) => stack(blocks, width, count, text) ?? []),
  );
  const panels = stacks.flatMap((words) => [
    panel(wide + between + words.width, words, true),
    panel(Math.max(wide, words.width), words, false),
  ]);
  // Only those that no other beats both ways.
  return panels.filter(
    (one, i) =>
      !panels.some(
        (other, j) =>
          i !== j &&
          other.width <= one.width &&
          other.height <= one.height &&
          (other.width < one.width || other.height < one.height || j < i),
      ),
  );
};

interface Put {
  readonly panel: Panel;
  readonly box: Box;
}

/** A panel's best place: nearest the start of the paper, and where it wastes least. */
const putPanel = (
  space: FreeSpace,
  panels: readonly Panel[],
  field: Box,
  isAcross: boolean,
): Put | undefined => {
  let best: Put | undefined;
  let least = Infinity;
  for (const free of space)
    for (const panel of panels) {
      if (panel.width > widthOf(free) + 1e-6 || panel.height > heightOf(free) + 1e-6) continue;
      const box = boxAt(free.minX, free.maxY - panel.height, panel.width, panel.height);
      // How much of the paper it uses up along the paper, and then across.
      const score = isAcross
        ? box.maxX - field.minX + 0.1 * (field.maxY - box.minY)
        : field.maxY - box.minY + 0.1 * (box.maxX - field.minX);
      if (score >= least) continue;
      [best, least] = [{ panel, box }, score];
    }
  return best;
};

const gap = 3;

/** As many of the first sheets on a page of a size as go there. */
const packOn = (
  sheets: readonly Prepared[],
  panels: readonly (readonly Panel[])[],
  size: PaperSize,
  options: PagingOptions,
): { draft: Draft; count: number; area: number } | undefined => {
  const usable = usableArea(size, options);
  const names = (count: number): string =>
    sheets
      .slice(0, count)
      .map(({ heading }) => heading)
      .join(', ');
  const furniture = drawWholePage(usable, names(1), options, { ...anyRank, name: '' });
  if (!hasRoom(usable, furniture)) return undefined;
  const { field, taken } = furniture;
  let space = taken.reduce<FreeSpace>((rest, box) => takeSpace(rest, growBox(box, gap)), [field]);
  const puts: Put[] = [];
  for (const ways of panels) {
    const put = putPanel(space, ways, field, size.width > size.height);
    if (!put) break;
    puts.push(put);
    space = takeSpace(space, growBox(put.box, gap));
  }
  if (puts.length === 0) return undefined;
  const views = puts.map(({ panel, box }, i) => {
    const sheet = sheets[i] as Prepared;
    const { bounds } = sheet.drawing;
    const [dx, dy] = [box.minX + panel.corner.x - bounds.minX, box.minY + panel.corner.y - bounds.minY];
    return { sheet: sheet.name, name: '1.1', origin: { x: dx, y: dy }, viewport: moveBox(bounds, dx, dy) };
  });
  return {
    count: puts.length,
    area: size.width * size.height,
    draft: {
      name: '1.1',
      size,
      views,
      draw: (rank) => [
        ...drawWholePage(usable, names(puts.length), options, { ...rank, name: '' }).marks,
        ...puts.flatMap(({ panel, box }) => moveMarks(panel.marks(), box.minX, box.minY)),
      ],
    },
  };
};

/** The sizes that are tried: both ways to hold a sheet of paper, or lengths of a roll, shortest first. */
const sizesFor = (
  { paper, orientation }: PagingOptions,
  panels: readonly (readonly Panel[])[],
): PaperSize[] => {
  if (paper.kind === 'sheet')
    return (['portrait', 'landscape'] as const)
      .filter((hold) => orientation === 'auto' || orientation === hold)
      .map((hold) => turnPaper(paper, hold, paper.height));
  const areas = panels.map((ways) => Math.min(...ways.map(({ width, height }) => width * height)));
  const least = areas.reduce((sum, area) => sum + area, 0) / paper.width;
  return rollLengths(Math.max(least * 1.05 + 60, 250)).map((along) => turnPaper(paper, 'landscape', along));
};

/** False where two sheets' drawings alone are too large for any page they might share. */
const canShare = (one: Prepared, other: Prepared, options: PagingOptions): boolean => {
  if (options.paper.kind === 'roll') return true;
  return sizesFor(options, []).some((size) => {
    const usable = usableArea(size, options);
    const least = [one, other].map(({ drawing: { bounds } }) => ({
      width: widthOf(bounds) + 2 * inset,
      height: heightOf(bounds) + 2 * inset,
    }));
    const area = least.reduce((sum, { width, height }) => sum + width * height, 0);
    return (
      least.every(({ width, height }) => width <= widthOf(usable) && height <= heightOf(usable)) &&
      area <= widthOf(usable) * heightOf(usable)
    );
  });
};

/** The first sheets of a list on one page together, as many as go there; undefined where not even two do. */
export const packSheets = (
  sheets: readonly Prepared[],
  options: PagingOptions,
): { readonly laid: Laid; readonly count: number } | undefined => {
  const drawn = sheets.findIndex(({ marks }) => marks.length === 0);
  const candidates = drawn < 0 ? sheets : sheets.slice(0, drawn);
  const [first, second] = candidates;
  if (!first || !second || !canShare(first, second, options)) return undefined;
  for (const text of [3.5, 2.5] as const) {
    const panels = candidates.map((sheet) => panelsOf(sheet, text));
    let best: ReturnType<typeof packOn>;
    for (const size of sizesFor(options, panels)) {
      const packed = packOn(candidates, panels, size, options);
      if (!packed || (best && packed.count <= best.count)) continue;
      best = packed;
      if (packed.count === candidates.length) break;
    }
    // Small lettering only where it brings more sheets on the page.
    if (best && best.count > 1 && (best.count === candidates.length || text === 2.5))
      return {
        count: best.count,
        laid: { sheets: candidates.slice(0, best.count), drafts: [best.draft], left: [] },
      };
  }
  return undefined;
};
