import { describe, expect, it } from 'vitest';
import type { Box, Mark, Picture, Sheet } from '../../src/drawing/model.ts';
import { once } from '../../src/drawing/once.ts';
import { mapPath } from '../../src/drawing/paths.ts';
import type { Vec2 } from '../../src/geometry/vector.ts';
import { layouts } from '../../src/layouts/registry.ts';
import type { PagingOptions } from '../../src/paging/options.ts';
import { paginate } from '../../src/paging/paginate.ts';
import { parsePaper } from '../../src/paging/paper.ts';
import { makeSheets } from '../../src/print.ts';
import { readRequest } from '../../src/request.ts';
import { drawExample, type Drawn } from '../support/drawn.ts';

/**
 * Engines differ in the last bits of sines and arc lengths. The same drawing a billionth of a micrometer otherwise must be
 * laid on the same pages.
 */
const shaken = (seed: number) => {
  let state = seed;
  return (value: number): number => {
    state = (state * 48271) % 2147483647;
    return value + (state / 2147483647 - 0.5) * 2e-12;
  };
};

const shakeSheets = (sheets: readonly Sheet[], seed: number): Sheet[] => {
  const shake = shaken(seed);
  const point = ({ x, y }: Vec2): Vec2 => ({ x: shake(x), y: shake(y) });
  const box = ({ minX, minY, maxX, maxY }: Box): Box => ({
    minX: shake(minX),
    minY: shake(minY),
    maxX: shake(maxX),
    maxY: shake(maxY),
  });
  const mark = (one: Mark): Mark =>
    one.kind === 'text' ? { ...one, at: point(one.at) } : { ...one, path: mapPath(one.path, point) };
  const picture = (one: Picture): Picture => ({
    ...one,
    marks: one.marks.map(mark),
    bounds: box(one.bounds),
  });
  return sheets.map((sheet) => ({
    ...sheet,
    marks: sheet.marks.map(mark),
    bounds: box(sheet.bounds),
    pictures: sheet.pictures.map(picture),
  }));
};

/** To a hundredth of a millimeter, rounded at a place where no coordinate lies. */
const near = (value: number): number => Math.round(value * 100 + 0.1234567);

/** Every page's size and name, and where its words stand, to a hundredth of a millimeter. */
const lay = (sheets: readonly Sheet[], options: PagingOptions) =>
  paginate(sheets, options).pages.map(({ label, width, height, marks }) => ({
    label,
    size: [width, height],
    words: marks.flatMap((mark) =>
      mark.kind === 'text' ? [`${mark.text} ${near(mark.at.x)} ${near(mark.at.y)}`] : [],
    ),
  }));

const arc = (): Drawn => {
  const request = readRequest('arc', { chord: '16in', rise: '6in' });
  return { request, sheets: makeSheets(request) };
};
const cases: readonly (readonly [string, () => Drawn])[] = [
  ...layouts.map(({ id, examples: [first = id] }) => [id, () => drawExample(id, first)] as const),
  ['a flat arc', once(arc)],
];

describe.each(cases)('%s', (_, draw) => {
  it.each(['letter', 'a4'])('on %s the last bits of a drawing decide nothing', (paper) => {
    const { request, sheets } = draw();
    const options = { ...request.paging, paper: parsePaper(paper), identity: '7F3K-29QD' };
    const laid = lay(sheets, options);
    for (const seed of [1, 2]) expect(lay(shakeSheets(sheets, seed), options)).toEqual(laid);
  });
});
