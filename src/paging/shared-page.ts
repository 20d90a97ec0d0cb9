import { translateMark } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { boxPath, growBox, letter, NARROW, stroke } from '../drawing/shape.ts';
import { type Block, pitchOf, type TextHeight } from './block.ts';
import { boxAt, heightOf, moveBox, widthOf } from './box.ts';
import { anyRank, type Draft } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { drawWholePage, hasRoom, moveMarks } from './furniture.ts';
import { type Laid, type Prepared, turnPaper } from './lay-sheet.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { saysOf, shareBlocks } from './owned-blocks.ts';
import { packAll, type Packed, packFree } from './pack.ts';
import { longestSide } from './paper.ts';
import { joinViews } from './picture-block.ts';
import { drawHead, subjectBlock } from './text-blocks.ts';
import { inOrder } from './zones.ts';
import { say } from '../words/say.ts';

/**
 * Several sheets on one page. Either each as a panel with its own heading, drawing and words, the panels packed; or only the
 * drawings packed, and what is said of them on the ground that is left. The page's foot and checks are shared.
 */

/** A sheet's drawing in a box whose lower left corner is (0, 0), with words or without; or words alone. */
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

const stacksOf = (blocks: readonly Block[], text: TextHeight) =>
  columnWidths.flatMap((width) =>
    [1, 2, 3, 4, 6].flatMap((count) => stack(blocks, width, count, text) ?? []),
  );

const joined = (blocks: readonly Block[]): readonly Block[] => {
  const views = blocks.filter(({ kind }) => kind === 'picture');
  const others = blocks.filter(({ kind }) => kind !== 'picture');
  return inOrder(views.length > 1 ? [joinViews(views), ...others] : blocks);
};

/** Only those that no other beats both ways. */
const unbeaten = (panels: readonly Panel[]): Panel[] =>
  panels.filter(
    (one, i) =>
      !panels.some(
        (other, j) =>
          i !== j &&
          other.width <= one.width &&
          other.height <= one.height &&
          (other.width < one.width || other.height < one.height || j < i),
      ),
  );

/** Ways to make a panel of a sheet: words beside the drawing, and words under it. */
const panelsOf = (sheet: Prepared, words: readonly Block[], text: TextHeight): Panel[] => {
  const { bounds } = sheet.drawing;
  const [wide, tall] = [widthOf(bounds), heightOf(bounds)];
  const panel = (width: number, set: ReturnType<typeof stacksOf>[number], isBeside: boolean): Panel => {
    const head = drawHead(sheet, width);
    const body = isBeside ? Math.max(tall, set.height) : tall + between + set.height;
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
        ...set.columns.flatMap(({ shape, at }) => moveMarks(shape.draw(), left + at.x, under + at.y)),
      ],
    };
  };
  return unbeaten(
    stacksOf(joined(words), text).flatMap((set) => [
      panel(wide + between + set.width, set, true),
      panel(Math.max(wide, set.width), set, false),
    ]),
  );
};

/** What all sheets of a page say, as a panel of words. */
const commonPanels = (blocks: readonly Block[], text: TextHeight): Panel[] => {
  const title = say`For every sheet on this page`;
  const above = pitchOf(3.5) + between;
  return unbeaten(
    stacksOf(joined(blocks), text).map((set): Panel => {
      const [width, height] = [
        Math.max(set.width, textWidth(title, 3.5, true)) + 2 * inset,
        set.height + above + 2 * inset,
      ];
      const top = inset + set.height;
      return {
        width,
        height,
        corner: { x: 0, y: 0 },
        marks: () => [
          stroke('page', boxPath(boxAt(0, 0, width, height)), NARROW),
          letter('text', { x: inset, y: height - inset - 3.5 }, title, 3.5, { bold: true }),
          ...set.columns.flatMap(({ shape, at }) => moveMarks(shape.draw(), inset + at.x, top + at.y)),
        ],
      };
    }),
  );
};

/** White space inside the frame of a drawing alone. */
const edge = 2;

/** A sheet's drawing under its heading. */
const barePanel = (sheet: Prepared): Panel => {
  const { bounds } = sheet.drawing;
  const [wide, tall] = [Math.max(widthOf(bounds), 40), heightOf(bounds)];
  const lines = wrapText(sheet.heading, 3.5, true, wide);
  const [width, height] = [wide + 2 * edge, tall + 1 + lines.length * pitchOf(3.5) + 2 * edge];
  return {
    width,
    height,
    corner: { x: edge, y: edge },
    marks: () => [
      stroke('page', boxPath(boxAt(0, 0, width, height)), NARROW),
      ...lines.map((line, i) =>
        letter('text', { x: edge, y: height - edge - 3.5 - i * pitchOf(3.5) }, line, 3.5, { bold: true }),
      ),
      ...sheet.marks.map((mark) => translateMark(mark, edge - bounds.minX, edge - bounds.minY)),
    ],
  };
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

interface OnPage {
  readonly draft: Draft;
  readonly count: number;
  readonly left: readonly Block[];
}

/** What goes on a page: a panel for each of the sheets, one for all of them, and words for the ground that is left. */
interface Asked {
  readonly panels: readonly (readonly Panel[])[];
  readonly common: readonly Panel[];
  readonly words: (count: number) => readonly Block[];
}

/** As many of the first sheets on a page of a size as go there; what is said for all in a gap between them, else before them. */
const packOn = (
  sheets: readonly Prepared[],
  asked: Asked,
  size: PaperSize,
  options: PagingOptions,
): OnPage | undefined =>
  packInOrder(sheets, asked, size, options, false) ??
  (asked.common.length > 0 ? packInOrder(sheets, asked, size, options, true) : undefined);

const packInOrder = (
  sheets: readonly Prepared[],
  { panels, common, words }: Asked,
  size: PaperSize,
  options: PagingOptions,
  isCommonFirst: boolean,
): OnPage | undefined => {
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
  const put = (ways: readonly Panel[]): Put | undefined => {
    const found = putPanel(space, ways, field, size.width > size.height);
    if (found) space = takeSpace(space, growBox(found.box, gap));
    return found;
  };
  let shared = isCommonFirst ? put(common) : undefined;
  const puts: Put[] = [];
  for (const ways of panels) {
    const found = put(ways);
    if (!found) break;
    puts.push(found);
  }
  if (puts.length === 0) return undefined;
  shared ??= common.length === 0 ? undefined : put(common);
  if (common.length > 0 && !shared) return undefined;
  const said = words(puts.length);
  const { placed, left }: Packed =
    said.length === 0
      ? { placed: [], left: [] }
      : (packAll([space], said, 2.5) ?? packFree([space], said, 2.5));
  const views = puts.map(({ panel, box }, i) => {
    const sheet = sheets[i] as Prepared;
    const { bounds } = sheet.drawing;
    const [dx, dy] = [box.minX + panel.corner.x - bounds.minX, box.minY + panel.corner.y - bounds.minY];
    return { sheet: sheet.name, name: '1.1', origin: { x: dx, y: dy }, viewport: moveBox(bounds, dx, dy) };
  });
  return {
    count: puts.length,
    left,
    draft: {
      name: '1.1',
      size,
      views,
      draw: (rank) => [
        ...drawWholePage(usable, names(puts.length), options, { ...rank, name: '' }).marks,
        ...[...(shared ? [shared] : []), ...puts].flatMap(({ panel, box }) =>
          moveMarks(panel.marks(), box.minX, box.minY),
        ),
        ...placed.flatMap(({ shape, box }) => moveMarks(shape.draw(), box.minX, box.minY)),
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
  const shortest = Math.ceil(Math.max(least * 1.05 + 60, 250));
  return Array.from({ length: 41 }, (_, i) => shortest + 25 * i)
    .filter((along) => along <= longestSide)
    .map((along) => turnPaper(paper, 'landscape', along));
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

/** The first sheets of a list that have a drawing. */
const drawnOf = (sheets: readonly Prepared[]): readonly Prepared[] => {
  const first = sheets.findIndex(({ marks }) => marks.length === 0);
  return first < 0 ? sheets : sheets.slice(0, first);
};

/** Blocks that every one of the sheets has. */
const commonOf = (sheets: readonly Prepared[]): readonly Block[] => {
  const [first, ...others] = sheets.map(({ blocks }) => blocks);
  const sets = others.map((blocks) => new Set(blocks.map(saysOf)));
  return (first ?? []).filter((block) => block.says && sets.every((said) => said.has(saysOf(block))));
};

/** The first sheets of a list on one page together, as many as go there; undefined where not even two do. */
export const packSheets = (
  sheets: readonly Prepared[],
  options: PagingOptions,
): { readonly laid: Laid; readonly count: number } | undefined => {
  const candidates = drawnOf(sheets);
  const [first, second] = candidates;
  if (!first || !second || !canShare(first, second, options)) return undefined;
  const common = commonOf(candidates);
  const shared = new Set(common.map(saysOf));
  for (const text of [3.5, 2.5] as const) {
    const panels = candidates.map((sheet) =>
      panelsOf(
        sheet,
        sheet.blocks.filter((block) => !block.says || !shared.has(saysOf(block))),
        text,
      ),
    );
    const asked = {
      panels,
      common: common.length === 0 ? [] : commonPanels(common, text),
      words: () => [],
    };
    let best: OnPage | undefined;
    for (const size of sizesFor(options, panels)) {
      const packed = packOn(candidates, asked, size, options);
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

/**
 * The drawings of the first sheets of a list on one page together, as many as go there, with what is said of them on the
 * ground that is left, as much as goes there; undefined where not even two do.
 */
export const packDrawings = (
  sheets: readonly Prepared[],
  options: PagingOptions,
): { readonly laid: Laid; readonly count: number } | undefined => {
  const candidates = drawnOf(sheets);
  if (candidates.length < 2 || options.paper.kind !== 'sheet') return undefined;
  const common = (candidates[0]?.subject ?? []).filter((line) =>
    candidates.every(({ subject }) => subject.includes(line)),
  );
  const panels = candidates.map((sheet) => [barePanel(sheet)]);
  const own = (sheet: Prepared): readonly Block[] => {
    const subject = sheet.subject.filter((line) => !common.includes(line));
    return subject.length === 0 ? [] : [subjectBlock({ heading: '', subject })];
  };
  const words = (count: number): readonly Block[] =>
    inOrder([
      ...(common.length > 0 ? [subjectBlock({ heading: '', subject: common })] : []),
      ...shareBlocks(
        candidates.slice(0, count).map((sheet) => ({ sheet, blocks: [...own(sheet), ...sheet.blocks] })),
      ),
    ]);
  let best: OnPage | undefined;
  for (const size of sizesFor(options, panels)) {
    const packed = packOn(candidates, { panels, common: [], words }, size, options);
    if (!packed || packed.count < 2) continue;
    const isBetter =
      !best ||
      packed.count > best.count ||
      (packed.count === best.count && packed.left.length < best.left.length);
    if (isBetter) best = packed;
  }
  return (
    best && {
      count: best.count,
      laid: {
        sheets: candidates.slice(0, best.count),
        drafts: [best.draft],
        left: best.left,
        isShared: true,
      },
    }
  );
};
