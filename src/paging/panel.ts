import { moveMarks } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { boxPath, growBox, letter, NARROW, stroke } from '../drawing/paths.ts';
import { type Block, pitchOf, type TextHeight } from './block.ts';
import { boxAt, heightOf, widthOf } from './box.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import type { Prepared } from './lay-sheet.ts';
import type { PaperSize } from './options.ts';
import { saysOf } from './owned-blocks.ts';
import { joinViews } from './picture-block.ts';
import { drawHead } from './text-blocks.ts';
import { inOrder } from './zones.ts';

/** A sheet's drawing in a box whose lower left corner is (0, 0), with words or without; or words alone. */
export interface Panel {
  readonly width: number;
  readonly height: number;
  readonly marks: () => readonly Mark[];
  /** Lower left corner of the drawing's bounds. */
  readonly corner: { readonly x: number; readonly y: number };
}

/** White space inside a panel's frame, and between what stands in it, mm. */
export const inset = 3;
const between = 4.5;
/** White space between panels, mm. */
export const panelGap = 3;

const columnWidths = [58, 75, 95, 120, 150, 180] as const;

/** Only those that no other beats both ways. */
export const unbeaten = <T extends PaperSize>(panels: readonly T[]): T[] =>
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

/** The stacks of some blocks that no other beats both ways. */
const stacksOf = (blocks: readonly Block[], text: TextHeight) =>
  unbeaten(
    columnWidths.flatMap((width) =>
      [1, 2, 3, 4, 6].flatMap((count) => stack(blocks, width, count, text) ?? []),
    ),
  );

const joined = (blocks: readonly Block[]): readonly Block[] => {
  const views = blocks.filter(({ kind }) => kind === 'picture');
  const others = blocks.filter(({ kind }) => kind !== 'picture');
  return inOrder(views.length > 1 ? [joinViews(views), ...others] : blocks);
};

/** Ways to make a panel of a sheet: words beside the drawing, and words under it. */
export const panelsOf = (
  sheet: Prepared,
  words: readonly Block[],
  text: TextHeight,
  isFramed = true,
): Panel[] => {
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
        ...(isFramed ? [stroke('page', boxPath(boxAt(0, 0, width + 2 * inset, height)), NARROW)] : []),
        ...moveMarks(head.marks, inset, top + between),
        ...moveMarks(sheet.marks, corner.x - bounds.minX, corner.y - bounds.minY),
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

/** What several sheets say, as a panel of words under a title. */
export const commonPanels = (title: string, blocks: readonly Block[], text: TextHeight): Panel[] => {
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
export const barePanel = (sheet: Prepared): Panel => {
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
      ...moveMarks(sheet.marks, edge - bounds.minX, edge - bounds.minY),
    ],
  };
};

/** A panel and its place on the page. */
export interface Put<T extends PaperSize = Panel> {
  readonly panel: T;
  readonly box: Box;
}

/** A panel's best place: nearest the start of the paper, and where it wastes least. */
const putPanel = <T extends PaperSize>(
  space: FreeSpace,
  panels: readonly T[],
  field: Box,
  isAcross: boolean,
): Put<T> | undefined => {
  let best: Put<T> | undefined;
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

/** Puts panels, each in the best of the ways it may be made, where nothing stands yet. */
export interface Placer {
  readonly put: <T extends PaperSize>(ways: readonly T[]) => Put<T> | undefined;
  /** As many of the first as find a place. */
  readonly putAll: <T extends PaperSize>(panels: readonly (readonly T[])[]) => readonly Put<T>[];
  readonly left: () => FreeSpace;
}

/** For the free ground of a field, which fills from the left where it is laid `isAcross`, else from the top. */
export const placer = (free: FreeSpace, field: Box, isAcross: boolean): Placer => {
  let space = free;
  const put = <T extends PaperSize>(ways: readonly T[]): Put<T> | undefined => {
    const found = putPanel(space, ways, field, isAcross);
    if (found) space = takeSpace(space, growBox(found.box, panelGap));
    return found;
  };
  return {
    put,
    putAll: <T extends PaperSize>(panels: readonly (readonly T[])[]): readonly Put<T>[] => {
      const puts: Put<T>[] = [];
      for (const ways of panels) {
        const found = put(ways);
        if (!found) break;
        puts.push(found);
      }
      return puts;
    },
    left: () => space,
  };
};

/** Blocks that every one of the sheets has. */
export const commonOf = (sheets: readonly Prepared[]): readonly Block[] => {
  const [first, ...others] = sheets.map(({ blocks }) => blocks);
  const sets = others.map((blocks) => new Set(blocks.map(saysOf)));
  return (first ?? []).filter((block) => block.says && sets.every((said) => said.has(saysOf(block))));
};
