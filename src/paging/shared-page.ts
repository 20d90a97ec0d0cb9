import { moveMarks } from '../drawing/extent.ts';
import { growBox } from '../drawing/paths.ts';
import { say } from '../words/say.ts';
import type { Block } from './block.ts';
import { heightOf, moveBox, widthOf } from './box.ts';
import { anyRank, type Draft } from './draft.ts';
import { type FreeSpace, takeSpace } from './free-space.ts';
import { planWholePage, hasRoom } from './furniture.ts';
import { type Laid, type Prepared, turnPaper } from './lay-sheet.ts';
import { type PagingOptions, type PaperSize, usableArea } from './options.ts';
import { saysOf, shareBlocks } from './owned-blocks.ts';
import { packAll, type Packed, packFree } from './pack.ts';
import { barePanel, commonOf, commonPanels, inset, type Panel, panelGap, panelsOf, placer } from './panel.ts';
import { longestSide } from './paper.ts';
import { subjectBlock } from './text-blocks.ts';
import { inOrder } from './zones.ts';

/**
 * Several sheets on one page. Either each as a panel with its own heading, drawing and words, the panels packed; or only the
 * drawings packed, and what is said of them on the ground that is left. The page's foot and checks are shared.
 */

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
  const furniture = planWholePage(usable, names(1), options, { ...anyRank, name: '' });
  if (!hasRoom(usable, furniture)) return undefined;
  const { field, taken } = furniture;
  const free = taken.reduce<FreeSpace>((rest, box) => takeSpace(rest, growBox(box, panelGap)), [field]);
  const { put, putAll, left: leftSpace } = placer(free, field, size.width > size.height);
  let shared = isCommonFirst ? put(common) : undefined;
  const puts = putAll(panels);
  if (puts.length === 0) return undefined;
  shared ??= common.length === 0 ? undefined : put(common);
  if (common.length > 0 && !shared) return undefined;
  const said = words(puts.length);
  const { placed, left }: Packed =
    said.length === 0
      ? { placed: () => [], left: [] }
      : (packAll([leftSpace()], said, 2.5) ?? packFree([leftSpace()], said, 2.5));
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
        ...planWholePage(usable, names(puts.length), options, { ...rank, name: '' }).draw(),
        ...[...(shared ? [shared] : []), ...puts].flatMap(({ panel, box }) =>
          moveMarks(panel.marks(), box.minX, box.minY),
        ),
        ...placed().flatMap(({ shape, box }) => moveMarks(shape.draw(), box.minX, box.minY)),
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
    const title = say`For every sheet on this page`;
    const commonWays = common.length === 0 ? [] : commonPanels(title, common, text);
    // What no panel is wide enough for is said on pages apart.
    if (common.length > 0 && commonWays.length === 0) continue;
    const asked = { panels, common: commonWays, words: () => [] };
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
