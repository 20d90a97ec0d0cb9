import { markBounds } from '../../src/drawing/extent.ts';
import { letteringBox, letteringStart, textReach, textWidth } from '../../src/drawing/lettering.ts';
import type { Box, Lettering, Mark, Sheet, Stroke } from '../../src/drawing/model.ts';
import { clipStroke } from '../../src/drawing/path-clip.ts';
import { growBox, unionBox } from '../../src/drawing/paths.ts';
import type { Vec2 } from '../../src/geometry/vector.ts';
import { type Setting, writeSheet } from '../../src/index.ts';
import type { Page, View } from '../../src/paging/book.ts';
import { isHolding, isOverlapping } from '../../src/paging/box.ts';
import type { PagingOptions } from '../../src/paging/options.ts';
import { mergeEqual } from '../../src/sheets/equal.ts';

const tell = ({ minX, minY, maxX, maxY }: Box): string =>
  `[${[minX, minY, maxX, maxY].map((n) => n.toFixed(1)).join(' ')}]`;

const isText = (mark: Mark): mark is Lettering => mark.kind === 'text';
export const textsOf = (page: Page): string[] => page.marks.filter(isText).map((mark) => mark.text);

/** The corners of a line of lettering in its own turned frame, drawn in by a hair. */
const cornersOf = (mark: Lettering): Vec2[] => {
  const start = letteringStart(mark);
  const width = textWidth(mark.text, mark.height, mark.bold);
  const { low, high } = textReach(mark.text, mark.height, mark.bold);
  const [cos, sin] = [Math.cos(mark.angle), Math.sin(mark.angle)];
  const hair = 0.05;
  return [
    [hair, low + hair],
    [width - hair, low + hair],
    [width - hair, high - hair],
    [hair, high - hair],
  ].map(([u = 0, v = 0]) => ({ x: start.x + u * cos - v * sin, y: start.y + u * sin + v * cos }));
};

/** True where two rectangles meet: no side of either parts them (separating axes). */
const isMeeting = (a: readonly Vec2[], b: readonly Vec2[], angles: readonly number[]): boolean =>
  angles
    .flatMap((angle) => [angle, angle + Math.PI / 2])
    .every((angle) => {
      const along = ({ x, y }: Vec2): number => x * Math.cos(angle) + y * Math.sin(angle);
      const [p, q] = [a.map(along), b.map(along)];
      return Math.min(...p) < Math.max(...q) && Math.min(...q) < Math.max(...p);
    });

/** Lettering that stands on other lettering, or on a line of furniture, a scale check or a table. */
export const findCollisions = (page: Page): string[] => {
  const texts = page.marks
    .filter(isText)
    .map((mark) => ({ mark, box: letteringBox(mark), corners: cornersOf(mark) }));
  const lines = page.marks.filter(
    (mark): mark is Stroke => mark.kind === 'stroke' && ['page', 'scale', 'text'].includes(mark.role),
  );
  const found: string[] = [];
  texts.forEach(({ mark, box, corners }, i) => {
    for (const other of texts.slice(i + 1))
      if (isOverlapping(box, other.box) && isMeeting(corners, other.corners, [mark.angle, other.mark.angle]))
        found.push(`${page.label}: "${mark.text}" ${tell(box)} on "${other.mark.text}" ${tell(other.box)}`);
    for (const line of lines)
      if (clipStroke(line.path, growBox(box, line.width / 2 - 0.05)).length > 0)
        found.push(`${page.label}: "${mark.text}" ${tell(box)} on a line of role ${line.role}`);
  });
  return found;
};

/** Marks with ink in the margins. */
export const findInkInMargins = (page: Page, { margin }: Pick<PagingOptions, 'margin'>): string[] => {
  const room: Box = {
    minX: margin.sides - 1e-6,
    minY: margin.ends - 1e-6,
    maxX: page.width - margin.sides + 1e-6,
    maxY: page.height - margin.ends + 1e-6,
  };
  return page.marks.flatMap((mark) => {
    const box = markBounds(mark);
    const isIn =
      box.minX >= room.minX && box.minY >= room.minY && box.maxX <= room.maxX && box.maxY <= room.maxY;
    return isIn
      ? []
      : [`${page.label}: ${mark.kind} ${mark.kind === 'text' ? mark.text : mark.role} ${tell(box)}`];
  });
};

/** The ground of a page's code, by its modules: the only black boxes on the page layer. */
export const codeOf = (page: Page): Box | undefined => {
  const modules = page.marks.filter(
    (mark) =>
      mark.kind === 'fill' && mark.role === 'page' && mark.ink === 'black' && mark.path.segments.length === 4,
  );
  return modules.length === 0 ? undefined : unionBox(modules.map(markBounds));
};

/** The code stands on a sheet's first page alone, is at least 15 mm with its quiet zone, and nothing stands in that. */
export const findCodeFaults = (page: Page, isFirst: boolean): string[] => {
  const code = codeOf(page);
  if (code === undefined) return isFirst ? [`${page.label}: no code`] : [];
  if (!isFirst) return [`${page.label}: a code on a later page`];
  // ISO/IEC 18004: four modules of white all round; version 5, the largest used, has 37 modules.
  const side = code.maxX - code.minX;
  const quiet = growBox(code, (side * 4) / 37);
  const faults = quiet.maxX - quiet.minX < 15 ? [`${page.label}: a code of ${side} mm`] : [];
  for (const mark of page.marks) {
    if (mark.kind === 'fill' && mark.role === 'page') continue;
    const isIn =
      mark.kind === 'stroke'
        ? clipStroke(mark.path, growBox(quiet, mark.width / 2)).length > 0
        : isOverlapping(mark.kind === 'text' ? letteringBox(mark) : markBounds(mark), quiet);
    if (isIn)
      faults.push(`${page.label}: ${mark.kind} ${mark.kind === 'text' ? mark.text : mark.role} in the code`);
  }
  return faults;
};

/** Lengths of the single straight strokes on the scale layer along an axis. */
export const scaleLengths = (page: Page, axis: 'x' | 'y'): number[] => {
  const across = axis === 'x' ? 'y' : 'x';
  return page.marks.flatMap((mark) => {
    if (mark.kind !== 'stroke' || mark.role !== 'scale' || mark.path.segments.length !== 1) return [];
    const { start, segments } = mark.path;
    const to = segments[0]?.to ?? start;
    return to[across] === start[across] ? [Math.abs(to[axis] - start[axis])] : [];
  });
};

/** Straight level and upright strokes of role `page` in sheet mm: their ends, in order along the axis. */
export const armsOf = (
  { marks }: Page,
  { origin, viewport }: View,
): { axis: 'x' | 'y'; from: Vec2; to: Vec2 }[] =>
  marks.flatMap((mark) => {
    if (mark.kind !== 'stroke' || mark.role !== 'page' || mark.path.segments.length !== 1) return [];
    if (!isHolding(growBox(viewport, 0.5), markBounds(mark))) return [];
    const ends = [mark.path.start, mark.path.segments[0]!.to]
      .map(({ x, y }) => ({ x: x - origin.x, y: y - origin.y }))
      .sort((p, q) => p.x - q.x || p.y - q.y) as [Vec2, Vec2];
    const [from, to] = ends;
    const axis = Math.abs(from.y - to.y) < 1e-9 ? 'x' : Math.abs(from.x - to.x) < 1e-9 ? 'y' : undefined;
    return axis === undefined ? [] : [{ axis, from, to }];
  });

export const isAt = (p: Vec2, x: number, y: number): boolean => Math.hypot(p.x - x, p.y - y) < 1e-6;

/** Middles of whole crosses: two arms of 8 mm, or of 4 where there is little room, that halve each other. */
export const crossesOf = (page: Page, view: View): { x: number; y: number; reach: number }[] => {
  const arms = armsOf(page, view);
  return arms
    .filter(({ axis }) => axis === 'x')
    .flatMap(({ from, to }) => {
      const [x, y, reach] = [(from.x + to.x) / 2, from.y, (to.x - from.x) / 2];
      const isCrossed = arms.some(
        (arm) => arm.axis === 'y' && isAt(arm.from, x, y - reach) && isAt(arm.to, x, y + reach),
      );
      return isCrossed && reach <= 4 + 1e-6 ? [{ x, y, reach }] : [];
    });
};

const close = (text: string): string => text.replaceAll(/\s/g, '');

/** What sheets say and none of their pages does: figures, tables, steps, titles of pictures. */
export const findUnsaid = (pages: readonly Page[], sheets: readonly Sheet[], setting: Setting): string[] => {
  const said = close(pages.flatMap(textsOf).join(' '));
  return mergeEqual(sheets)
    .map((sheet) => writeSheet(sheet, setting))
    .flatMap(({ facts, tables, steps, pictures }) => [
      ...facts.map(([label, value]) => `${label}${value}`),
      ...tables.filter(({ ifRoom }) => ifRoom !== true).map(({ title }) => title),
      ...steps,
      ...pictures.map(({ title }) => title),
    ])
    .filter((text) => !said.includes(close(text)));
};
