import { moveMarks } from '../drawing/extent.ts';
import type { Mark, Sheet } from '../drawing/model.ts';
import { boxPath, MEDIUM, stroke } from '../drawing/paths.ts';
import { say } from '../words/say.ts';
import type { View } from './book.ts';
import { boxAt, GAP, moveBox } from './box.ts';
import { codeSide, drawCode } from './code.ts';
import type { Prepared } from './lay-sheet.ts';
import type { PagingOptions, PaperSize } from './options.ts';
import { saysOf } from './owned-blocks.ts';
import {
  commonOf,
  commonPanels,
  inset,
  type Panel,
  panelGap,
  panelsOf,
  placer,
  type Put,
  unbeaten,
} from './panel.ts';
import { longestSide } from './paper.ts';
import { prepare, withBoth } from './prepare.ts';
import { drawTitleBlock, titleHeight, titleWidth } from './title-block.ts';

/**
 * A piece that shares a page with others: all its sheets in one frame, to be cut off along it, with the piece's mark,
 * identity and code, so that no piece is mixed up with another.
 */
export interface PiecePanel extends PaperSize {
  /** Its marks and what they show; the frame's lower left corner is (0, 0). */
  readonly draw: () => { readonly marks: readonly Mark[]; readonly views: readonly View[] };
}

/** Lettering of all words. */
const text = 2.5;
/** The title block and the code beside it under the sheets, mm. */
const foot = titleHeight('piece');
const beside = codeSide + inset + GAP;
const leastWidth = 130 + beside;
/** How many ways to make it are tried on a page. */
const mostWays = 5;

/** A sheet headed by its piece's mark and identity, which tell what it is once it is cut off. */
const named = (sheet: Prepared, { title: { piece }, identity }: PagingOptions): Prepared => {
  const [first = '', ...rest] = sheet.subject;
  return {
    ...sheet,
    heading: piece === undefined ? sheet.heading : `${piece}: ${sheet.heading}`,
    subject: [first, say`Identity ${identity}`, ...rest],
  };
};

/** Ways to make a panel of each sheet, and of what all of them say. */
const panelsOfAll = (sheets: readonly Prepared[], options: PagingOptions): readonly (readonly Panel[])[] => {
  const [only, ...others] = sheets;
  if (only && others.length === 0) return [panelsOf(named(only, options), only.blocks, text, false)];
  const common = commonOf(sheets);
  const shared = new Set(common.map(saysOf));
  const title = say`For every sheet of this piece`;
  return [
    ...sheets.map((sheet) =>
      panelsOf(
        named(sheet, options),
        sheet.blocks.filter((block) => !block.says || !shared.has(saysOf(block))),
        text,
      ),
    ),
    ...(common.length === 0 ? [] : [commonPanels(title, common, text)]),
  ];
};

const viewOf = (sheet: Prepared, { panel, box }: Put): View => {
  const { bounds } = sheet.drawing;
  // A sheet of words alone is shown by all its panel.
  const ground = sheet.marks.length === 0 ? boxAt(0, 0, panel.width, panel.height) : bounds;
  const corner = sheet.marks.length === 0 ? { x: 0, y: 0 } : panel.corner;
  const origin = { x: box.minX + corner.x - ground.minX, y: box.minY + corner.y - ground.minY };
  return { sheet: sheet.name, name: '1.1', origin, viewport: moveBox(ground, origin.x, origin.y) };
};

/** The piece's title block at the right end of the foot, and its code in the corner. */
const drawFoot = (heading: string, width: number, options: PagingOptions): readonly Mark[] => {
  const block = drawTitleBlock('piece', Math.min(titleWidth, width - beside), {
    ...options.title,
    title: options.title.title ?? heading,
    page: '',
    identity: options.identity,
  });
  return [
    ...moveMarks(block.marks, width - beside - block.width, 0),
    ...drawCode({ x: width - inset - codeSide, y: (foot - codeSide) / 2 }, options),
  ];
};

/** The piece with its sheets packed in a width; undefined where one of them is wider. */
const packWithin = (
  sheets: readonly Prepared[],
  panels: readonly (readonly Panel[])[],
  room: number,
  options: PagingOptions,
): PiecePanel | undefined => {
  const field = boxAt(0, 0, room, longestSide);
  const puts = placer([field], field, false).putAll(panels);
  if (puts.length < panels.length) return undefined;
  const edge = sheets.length > 1 ? panelGap : 0;
  const used = Math.max(...puts.map(({ box }) => box.maxX));
  const down = longestSide - Math.min(...puts.map(({ box }) => box.minY));
  const width = Math.max(used + 2 * edge, leastWidth);
  const height = down + 2 * edge + foot;
  const placed = puts.map(({ panel, box }) => ({
    panel,
    box: moveBox(box, edge, foot + edge + down - longestSide),
  }));
  const heading = sheets.map((sheet) => sheet.heading).join(', ');
  return {
    width,
    height,
    draw: () => ({
      marks: [
        stroke('page', boxPath(boxAt(0, 0, width, height)), MEDIUM),
        ...drawFoot(heading, width, options),
        ...placed.flatMap(({ panel, box }) => moveMarks(panel.marks(), box.minX, box.minY)),
      ],
      views: sheets.flatMap((sheet, i) => {
        const put = placed[i];
        return put ? [viewOf(sheet, put)] : [];
      }),
    }),
  };
};

/** Ways to make a piece's panel that go on the paper, the one that takes the least ground first; none where it is too large. */
export const piecePanels = (drawn: readonly Sheet[], options: PagingOptions): readonly PiecePanel[] => {
  const both = options.second === undefined ? drawn : drawn.map(withBoth(['subject', 'titles', 'labels']));
  const sheets = both.map((sheet) => prepare(sheet, options));
  const panels = panelsOfAll(sheets, options);
  const narrowest = Math.max(...panels.map((ways) => Math.min(...ways.map(({ width }) => width))));
  const longest = options.paper.kind === 'roll' ? longestSide : options.paper.height;
  const widths = [1, 1.15, 1.3, 1.5, 1.75, 2, 2.5, 3, 4].map((by) => narrowest * by);
  const ways = widths
    .filter((width) => width <= longest)
    .flatMap((width) => packWithin(sheets, panels, width, options) ?? [])
    .filter(({ height }) => height <= longest);
  return unbeaten(ways)
    .sort((a, b) => a.width * a.height - b.width * b.height)
    .slice(0, mostWays);
};
