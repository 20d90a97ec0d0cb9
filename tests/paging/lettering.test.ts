import { describe, expect, it } from 'vitest';
import { markBounds } from '../../src/drawing/extent.ts';
import { letteringBox, letteringStart, textReach, textWidth } from '../../src/drawing/lettering.ts';
import type { Lettering, Mark } from '../../src/drawing/model.ts';
import { clipStroke } from '../../src/drawing/path-clip.ts';
import { growBox, mapPath } from '../../src/drawing/shape.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { isHolding, isOverlapping } from '../../src/paging/box.ts';
import { makeBook, makeSheets } from '../../src/print.ts';
import type { Texts } from '../../src/request.ts';
import { readRequest } from '../../src/request.ts';
import { readExample } from '../support/example.ts';
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
const lettersBadly = (id: string, texts: Texts): readonly string[] =>
  makeBook(readRequest(id, texts)).pages.flatMap(({ label, marks }) =>
    marks.flatMap((mark, i) => {
      if (mark.kind !== 'text') return [];
      if (mark.height < 2.5 - 1e-9) return [`${label}: "${mark.text}" is ${mark.height} mm tall`];
      const isStruckThrough = linesUnder(marks, i, mark).some((line) => isStruck(mark, line));
      return isStruckThrough ? [`${label}: a line through "${mark.text}"`] : [];
    }),
  );

/** Texts that do not stand whole on a page, line after line with every word unbroken. */
const brokenTexts = (id: string, texts: Texts): readonly string[] => {
  const request = readRequest(id, texts);
  const { pages } = makeBook(request);
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
  return makeSheets(request).flatMap(({ steps, cautions }) =>
    [...steps, ...cautions].filter((text) => !isWhole(text)),
  );
};

/** Quarter lines at 0° with no name beside their number. What starts at 0 as a mark of its own names itself. */
const namelessZeros = (id: string, texts: Texts): readonly string[] =>
  makeSheets(readRequest(id, texts)).flatMap(({ name, marks }) => {
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

/** Flat sheets on which 0° is only where degrees are counted from. */
const counted = new Set(['center', 'protractor', 'bolt-circle', 'plate', 'bends', 'top-center', 'slope']);

describe.each(layouts)('lettering of $id', ({ id, examples }) => {
  it('is 2.5 mm tall or more, and no line runs through it', () => {
    expect(examples.flatMap((example) => lettersBadly(id, readExample(example)))).toEqual([]);
  });

  it('says what to do in whole words', () => {
    expect(examples.flatMap((example) => brokenTexts(id, readExample(example)))).toEqual([]);
  });
});

it.each(layouts.filter(({ id }) => !counted.has(id)))('$id names every 0°', ({ id, examples }) => {
  expect(examples.flatMap((example) => namelessZeros(id, readExample(example)))).toEqual([]);
});

/** The smallest parts, large ones, narrow rolls and wide ones. */
const extremes: readonly (readonly [string, Texts])[] = [
  ['turn', { stock: 'NPS 1/2 sch 40', pieces: '4', radius: '1.5in' }],
  ['turn', { stock: 'NPS 1/2 sch 40', pieces: '4', radius: '1.5in', nest: 'yes' }],
  ['turn', { stock: 'DN 25 sch 40', pieces: '3', radius: '60mm', nest: 'yes', paper: 'a4' }],
  ['miter', { stock: 'NPS 1/2 sch 40', cut: '45', paper: '102mm-roll' }],
  ['miter', { stock: 'NPS 24 STD', cut: '22.5', paper: '36in-roll' }],
  ['miter', { stock: 'UPN 160', cut: '30', lean: '5' }],
  ['branch', { branch: 'NPS 1/2 sch 40', header: 'NPS 3/4 sch 40', angle: '45' }],
  ['branch', { branch: 'NPS 12 STD', header: 'NPS 16 STD', paper: '36in-roll' }],
  ['wye', { stock: 'NPS 1/2 sch 40', leg: ['0', '120', '240'] }],
  ['bolt-circle', { flange: 'NPS 1/2 class 150' }],
  ['bolt-circle', { flange: 'NPS 24 class 150', paper: 'a4' }],
  [
    'bolt-circle',
    {
      holes: '6',
      circle: '7-1/2in',
      hole: '3/4in',
      outside: '9in',
      bore: '4-1/2in',
      turn: '15',
      paper: '102mm-roll',
    },
  ],
  ['plate', { shape: 'cap', pipe: 'NPS 1/2 sch 40' }],
  ['hole-grid', { columns: '2', 'column-pitch': '20mm', hole: '6mm' }],
];

it.each(extremes)('%s %j is lettered as well', (id, texts) => {
  expect([...lettersBadly(id, texts), ...brokenTexts(id, texts)]).toEqual([]);
});
