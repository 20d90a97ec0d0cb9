import { markBounds } from '../../src/drawing/extent.ts';
import { letteringBox, letteringStart, textReach, textWidth } from '../../src/drawing/lettering.ts';
import type { Lettering, Mark, Sheet } from '../../src/drawing/model.ts';
import { clipStroke } from '../../src/drawing/path-clip.ts';
import { growBox, mapPath } from '../../src/drawing/paths.ts';
import type { Page } from '../../src/paging/book.ts';
import { isHolding, isOverlapping } from '../../src/paging/box.ts';
import { textsOf } from './page-checks.ts';

/** Lines that lettering stands over: those drawn after the white that was last laid under it. */
const linesUnder = (marks: readonly Mark[], at: number, text: Lettering): readonly Mark[] => {
  const box = letteringBox(text);
  const white = marks.findLastIndex(
    (mark, i) =>
      i < at &&
      mark.kind === 'fill' &&
      mark.ink === 'white' &&
      isHolding(growBox(markBounds(mark), 0.4), box),
  );
  return marks
    .slice(white + 1)
    .filter((mark) => mark.kind === 'stroke' && isOverlapping(markBounds(mark), box));
};

/** True where a line runs through the signs themselves, in the lettering's own turned frame. */
const isStruck = (text: Lettering, line: Mark): boolean => {
  if (line.kind !== 'stroke') return false;
  const start = letteringStart(text);
  const { low, high } = textReach(text.text, text.height, text.bold);
  const [cos, sin] = [Math.cos(-text.angle), Math.sin(-text.angle)];
  const path = mapPath(line.path, ({ x, y }) => ({
    x: (x - start.x) * cos - (y - start.y) * sin,
    y: (x - start.x) * sin + (y - start.y) * cos,
  }));
  const inner = {
    minX: 0.25,
    maxX: textWidth(text.text, text.height, text.bold) - 0.25,
    minY: low + 0.3,
    maxY: high - 0.3,
  };
  return inner.maxX > inner.minX && clipStroke(path, inner).length > 0;
};

/** Lettering that is too small, or that a line runs through. */
export const lettersBadly = (pages: readonly Page[]): readonly string[] =>
  pages.flatMap(({ label, marks }) =>
    marks.flatMap((mark, i) => {
      if (mark.kind !== 'text') return [];
      if (mark.height < 2.5 - 1e-9) return [`${label}: "${mark.text}" is ${mark.height} mm tall`];
      const isStruckThrough = linesUnder(marks, i, mark).some((line) => isStruck(mark, line));
      return isStruckThrough ? [`${label}: a line through "${mark.text}"`] : [];
    }),
  );

/** Texts of sheets that do not stand whole on a page, line after line with every word unbroken. */
export const brokenTexts = (pages: readonly Page[], sheets: readonly Sheet[]): readonly string[] => {
  const printed = pages.map(textsOf);
  const isWhole = (text: string): boolean =>
    printed.some((lines) =>
      lines.some((first, i) => {
        let joined = first;
        for (let k = i + 1; joined.length < text.length && text.startsWith(joined); k += 1)
          joined += ` ${lines[k] ?? ''}`;
        return joined === text;
      }),
    );
  return sheets.flatMap(({ steps, cautions }) => [...steps, ...cautions].filter((text) => !isWhole(text)));
};

/** Quarter lines at 0° with no name beside their number. What starts at 0 as a mark of its own names itself. */
export const namelessZeros = (sheets: readonly Sheet[]): readonly string[] =>
  sheets.flatMap(({ name, marks }) => {
    const written = marks.filter((mark): mark is Lettering => mark.kind === 'text');
    return written
      .filter(({ text, bold }) => bold && (text === '0°' || text === '360°'))
      .filter(
        (zero) =>
          !written.some(
            ({ text, at }) => /\p{L}{2}/u.test(text) && Math.hypot(at.x - zero.at.x, at.y - zero.at.y) < 18,
          ),
      )
      .map(({ text, at }) => `${name}: ${text} at ${at.x.toFixed(0)}, ${at.y.toFixed(0)}`);
  });
