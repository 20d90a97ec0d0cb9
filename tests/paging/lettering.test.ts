import { describe, expect, it } from 'vitest';
import { markBounds } from '../../src/drawing/extent.ts';
import { letteringBox, letteringStart, textReach, textWidth } from '../../src/drawing/lettering.ts';
import type { Lettering, Mark } from '../../src/drawing/model.ts';
import { clipStroke } from '../../src/drawing/path-clip.ts';
import { growBox, mapPath } from '../../src/drawing/shape.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { isHolding, isOverlapping } from '../../src/paging/box.ts';
import { makeBook } from '../../src/print.ts';
import { readRequest } from '../../src/request.ts';
import { readExample } from '../support/example.ts';

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

describe.each(layouts)('lettering of $id', ({ id, examples }) => {
  it('is 2.5 mm tall or more, and no line runs through it', () => {
    const struck: string[] = [];
    for (const example of examples) {
      const { pages } = makeBook(readRequest(id, readExample(example)));
      for (const { label, marks } of pages)
        marks.forEach((mark, i) => {
          if (mark.kind !== 'text') return;
          expect(mark.height, mark.text).toBeGreaterThanOrEqual(2.5 - 1e-9);
          if (linesUnder(marks, i, mark).some((line) => isStruck(mark, line)))
            struck.push(`${label}: "${mark.text}"`);
        });
    }
    expect(struck).toEqual([]);
  });
});
