import { describe, expect, it } from 'vitest';
import { writeSheet } from '../src/drawing/written.ts';
import { makeScene } from '../src/index.ts';
import { layouts } from '../src/layouts/registry.ts';
import { parsePaper } from '../src/paging/paper.ts';
import { makeBook } from '../src/print.ts';
import { crossed } from './drawing/picture-checks.ts';
import { brokenTexts, lettersBadly, namelessZeros } from './paging/lettering-checks.ts';
import {
  findCodeFaults,
  findCollisions,
  findInkInMargins,
  findUnsaid,
  scaleLengths,
} from './paging/page-checks.ts';
import { leftOut } from './proof/left-out.ts';
import { unmeasured } from './proof/unmeasured.ts';
import { waitingTexts } from './render/waiting.ts';
import { drawExample, examples } from './support/drawn.ts';

/** Flat sheets on which 0° is only where degrees are counted from. */
const counted = new Set(['center', 'protractor', 'bolt-circle', 'plate', 'bends', 'top-center', 'slope']);

/** Sheets that are no drawing to be laid on anything. */
const notLaid = ['rolling offset', 'tape form', 'closing', 'out-of-round'];
/** Layouts of what is wrapped on stock, which has a seam somewhere. */
const wrapped = new Set(layouts.flatMap(({ id, fields }) => ('seam' in fields ? [id] : [])));

/** Each example is drawn once, and all that must hold of every drawing is checked on it. */
describe.each(examples)('%s: %s', (id, example) => {
  const pagesOn = (paper: string) => {
    const { request, sheets } = drawExample(id, example);
    return makeBook({ ...request, paging: { ...request.paging, paper: parsePaper(paper) } }, sheets);
  };

  it.each(['letter', 'a4', 'a3'])(
    'on %s nothing overlaps, nothing is in the margins, checks are true',
    (paper) => {
      const { pages, sheets } = pagesOn(paper);
      const firsts = sheets.map((sheet) => sheet.pages[0]);
      const drawn = drawExample(id, example);
      const { margin } = drawn.request.paging;
      expect(findUnsaid(pages, drawn.sheets, drawn.request.setting)).toEqual([]);
      expect(pages.flatMap((page, i) => findCodeFaults(page, firsts.includes(i + 1)))).toEqual([]);
      expect(pages.flatMap(findCollisions)).toEqual([]);
      expect(pages.flatMap((page) => findInkInMargins(page, { margin }))).toEqual([]);
      for (const page of pages)
        for (const axis of ['x', 'y'] as const)
          for (const length of [100, 101.6])
            expect(scaleLengths(page, axis).some((found) => Math.abs(found - length) < 1e-9)).toBe(true);
    },
  );

  it('on a wide roll, where sheets share a page, all is said', () => {
    const { request, sheets } = drawExample(id, example);
    if (sheets.length > 1)
      expect(findUnsaid(pagesOn('36in-roll').pages, sheets, request.setting)).toEqual([]);
  });

  it('has lettering 2.5 mm tall or more in usual signs with no line through it, and says what to do in whole words', async () => {
    const { request, sheets } = drawExample(id, example);
    const book = makeBook(request, sheets);
    const { pages } = book;
    expect(await waitingTexts(book)).toEqual([]);
    expect(lettersBadly(pages)).toEqual([]);
    expect(brokenTexts(pages, sheets)).toEqual([]);
    if (!counted.has(id)) expect(namelessZeros(sheets)).toEqual([]);
  });

  it('has no word of a picture made from a scene on a line', () => {
    for (const picture of scenePictures(id, example)) expect(crossed(picture), picture.title).toEqual([]);
  });

  it('measures every figure on the drawing, or it is said why not', () => {
    const known = unmeasured.flatMap(([, labels]) => labels);
    const left = leftOut(drawExample(id, example).sheets);
    expect([...new Set(left)].filter((label) => !known.some((pattern) => pattern.test(label)))).toEqual([]);
  });
});

it.each(examples.filter(([id]) => wrapped.has(id)))('%s: %s carries what proves it', (id, example) => {
  for (const { name, fit } of drawExample(id, example).sheets)
    expect([name, fit !== undefined || notLaid.includes(name)]).toEqual([name, true]);
});

/** The pictures of an example that are made from its scene. A layout may have no scene for some of its forms. */
const scenePictures = (id: string, example: string) => {
  const { request, sheets } = drawExample(id, example);
  const titles = new Set(makeScene(request)?.views.map(({ title }) => title));
  return sheets
    .flatMap((sheet) => writeSheet(sheet, request.setting).pictures)
    .filter(({ title }) => titles.has(title));
};

it('many pictures have words', () => {
  const worded = examples
    .flatMap(([id, example]) => scenePictures(id, example))
    .filter(({ marks }) => marks.some(({ kind }) => kind === 'text'));
  expect(worded.length).toBeGreaterThan(50);
});

it('every reason for not measuring names figures that are printed and not measured', () => {
  const left = examples.flatMap(([id, example]) => leftOut(drawExample(id, example).sheets));
  const idle = unmeasured.flatMap(([, patterns]) =>
    patterns.filter((pattern) => !left.some((label) => pattern.test(label))).map(String),
  );
  expect(idle).toEqual([]);
});
