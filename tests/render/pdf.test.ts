import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { roles } from '../../src/drawing/role.ts';
import { UserError } from '../../src/issue.ts';
import { renderPdf, streamPdf } from '../../src/render/pdf.ts';
import { version } from '../../src/version.ts';
import { pointOn } from '../support/paths.ts';
import { readPdf, sheetStrokes } from '../support/pdf-reader.ts';
import { bookOf, circle, lettering, pageOf, square, stroke, viewAt } from './sample-book.ts';

let folder = '';
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'soapstone-'))));
afterAll(() => rmSync(folder, { recursive: true }));

const save = (bytes: Uint8Array): string => {
  const file = join(folder, 'sample.pdf');
  writeFileSync(file, bytes);
  return file;
};

describe('true size', () => {
  test('a circle comes back on its radius', async () => {
    const [centre, radius] = [{ x: 100, y: 150 }, 80];
    const path = circle(centre, radius, 48);
    const origin = { x: -12.345678, y: 401.2 };
    const mark = { kind: 'stroke', role: 'cut', line: 'continuous', width: 0.7, path } as const;
    const file = readPdf(await renderPdf(bookOf([pageOf([mark], { views: [viewAt(origin)] })])));
    const strokes = sheetStrokes(file, 'sample', 'cut');
    expect(strokes).toHaveLength(1);
    const [line] = strokes[0]!.path;
    expect(line!.closed).toBe(true);
    let from = line!.start;
    for (const segment of line!.segments) {
      for (const t of [0, 0.2, 0.5, 0.8, 1]) {
        const p = pointOn(from, segment, t);
        const r = Math.hypot(p.x + origin.x - centre.x, p.y + origin.y - centre.y);
        expect(Math.abs(r - radius)).toBeLessThan(1e-6);
      }
      from = segment.to;
    }
    expect(line!.segments.filter(({ kind }) => kind === 'curve')).toHaveLength(48);
  });

  test('any line comes back where it was, up to the longest page', async () => {
    const length = fc.double({ min: -5080, max: 5080, noNaN: true });
    const point = fc.tuple(length, length);
    await fc.assert(
      fc.asyncProperty(fc.array(point, { minLength: 2, maxLength: 8 }), point, async (points, [x, y]) => {
        const page = pageOf([stroke('cut', points)], {
          width: 5080,
          height: 5080,
          views: [viewAt({ x, y })],
        });
        const [read] = sheetStrokes(readPdf(await renderPdf(bookOf([page]))), 'sample');
        const [line] = read!.path;
        const back = [line!.start, ...line!.segments.map(({ to }) => to)];
        points.forEach(([px, py], i) => {
          expect(Math.abs(back[i]!.x + x - px)).toBeLessThan(1e-6);
          expect(Math.abs(back[i]!.y + y - py)).toBeLessThan(1e-6);
        });
      }),
      { numRuns: 30 },
    );
  });

  test('a 100 mm line is 100 mm to an outside reader (mutool trace)', async () => {
    const marks = [stroke('scale', [[20, 20], [120, 20]]), stroke('scale', [[20, 20], [20, 120]])]; // prettier-ignore
    const file = save(await renderPdf(bookOf([pageOf(marks)])));
    const trace = execFileSync('mutool', ['trace', file, '1'], { encoding: 'utf8' });
    const lines = [
      ...trace.matchAll(/<moveto x="([\d.]+)" y="([\d.]+)"\/>\s*<lineto x="([\d.]+)" y="([\d.]+)"\/>/g),
    ];
    const lengths = lines.map(([, x1, y1, x2, y2]) => Math.hypot(+x2! - +x1!, +y2! - +y1!) * (25.4 / 72));
    expect(lengths).toHaveLength(2);
    for (const length of lengths) expect(length).toBeCloseTo(100, 4);
  });

  test('the paper is the page, and a page over 5080 mm is refused', async () => {
    const [page] = readPdf(await renderPdf(bookOf([pageOf([], { width: 609.6, height: 5080 })]))).pages;
    expect(page!.mediaBox.maxX).toBeCloseTo(1728, 6);
    expect(page!.mediaBox.maxY).toBeCloseTo(14400, 6);
    const refused = renderPdf(bookOf([pageOf([], { height: 5080.1 })]));
    await expect(refused).rejects.toThrow(/5080 mm/);
    await expect(refused).rejects.toBeInstanceOf(UserError);
  });
});

describe('layers and lines', () => {
  test('every mark lies in the layer of its role', async () => {
    const marks = roles.map((role, i) => stroke(role, [[10, i], [20, i]])); // prettier-ignore
    const file = readPdf(await renderPdf(bookOf([pageOf([...marks, ...marks.toReversed()])])));
    expect(file.layers).toEqual([...roles]);
    const found = file.pages[0]!.strokes.map(({ layer, path }) => [layer, path[0]!.start.y]);
    const asked = roles.map((role, i) => [role, i * (72 / 25.4)] as const);
    expect(found).toHaveLength(2 * roles.length);
    [...asked, ...asked.toReversed()].forEach(([role, y], i) => {
      expect(found[i]![0]).toBe(role);
      expect(found[i]![1]).toBeCloseTo(y, 5);
    });
  });

  test('layers are listed in their fixed order, only those that are used', async () => {
    const marks = [stroke('scale', [[0, 0], [1, 1]]), stroke('cut', [[0, 0], [1, 1]])]; // prettier-ignore
    expect(readPdf(await renderPdf(bookOf([pageOf(marks)]))).layers).toEqual(['cut', 'scale']);
  });

  test('widths and dashes are in mm, and a new page starts with a clean pen', async () => {
    const dashed = stroke('reference', [[10, 50], [110, 50]], 'dashed', 0.25); // prettier-ignore
    const plain = stroke('cut', [[10, 60], [110, 60]], 'continuous', 0.7); // prettier-ignore
    const pages = [pageOf([plain, dashed]), pageOf([dashed, plain], { label: 'sample A2' })];
    const file = readPdf(await renderPdf(bookOf(pages)));
    for (const { strokes } of file.pages) {
      const [cut] = strokes.filter(({ layer }) => layer === 'cut');
      const [reference] = strokes.filter(({ layer }) => layer === 'reference');
      expect(cut!.width).toBeCloseTo(0.7, 4);
      expect(cut!.dash).toEqual([]);
      expect(reference!.width).toBeCloseTo(0.25, 4);
      expect(reference!.dash).toHaveLength(2);
    }
  });

  test('white knocks out what lies under it and leaves black lettering after it', async () => {
    const marks = [square('white', { x: 10, y: 10 }, 5), lettering('12', { x: 10, y: 10 }), square('black', { x: 30, y: 10 }, 5)]; // prettier-ignore
    const file = readPdf(await renderPdf(bookOf([pageOf(marks)])));
    expect(file.pages[0]!.fills.map(({ colour }) => colour)).toEqual([[1], [0]]);
  });
});

describe('what a viewer reads', () => {
  const pages = ['A1', 'A2', 'B1'].map(
    (cell, i) =>
    pageOf([stroke('cut', [[10, 10], [50, 50]])], { label: `sample ${cell}`, views: [viewAt({ x: 10 - 180 * i, y: 20.123456789 }, i < 2 ? 'branch end' : 'header opening')] }), // prettier-ignore
  );
  const sheets = [
    { name: 'branch end', heading: 'Branch end', pages: [1, 2] },
    { name: 'header opening', heading: 'Header opening', pages: [3] },
  ];
  const book = bookOf(pages, { title: 'Lateral & <opening> 6″', sheets });

  test('viewports measure millimetres from the sheet origin', async () => {
    const file = readPdf(await renderPdf(book));
    file.pages.forEach(({ viewports }, i) => {
      expect(viewports).toHaveLength(1);
      const [{ box, origin, unit, scale }] = viewports as [(typeof viewports)[0]];
      expect(unit).toBe('mm');
      expect(scale.x).toBeCloseTo(25.4 / 72, 9);
      expect(origin.x * (25.4 / 72)).toBeCloseTo(10 - 180 * i, 8);
      expect(origin.y * (25.4 / 72)).toBeCloseTo(20.123456789, 8);
      expect(box.minX * (25.4 / 72)).toBeCloseTo(6.5, 8);
      expect(box.maxY * (25.4 / 72)).toBeCloseTo(284, 8);
    });
  });

  test('print settings, labels, bookmarks, language and title', async () => {
    const bytes = await renderPdf(book);
    const file = readPdf(bytes);
    expect(file.viewerPreferences).toMatchObject({
      PrintScaling: 'None',
      Enforce: ['PrintScaling'],
      PickTrayByPDFSize: true,
      Duplex: 'Simplex',
      DisplayDocTitle: true,
    });
    expect(file.labels).toEqual(['sample A1', 'sample A2', 'sample B1']);
    expect(file.bookmarks).toMatchObject([
      { title: 'branch end', children: [{ title: 'sample A1' }, { title: 'sample A2' }] },
      { title: 'header opening', children: [] },
    ]);
    expect(file.language).toBe('en');
    expect(file.info).toMatchObject({ Title: 'Lateral & <opening> 6″', Author: 'Ann Fitter' });
    expect(Buffer.from(bytes.slice(0, 8)).toString()).toBe('%PDF-1.7');
    const metadata = Buffer.from(bytes).toString('utf8');
    expect(metadata).toContain('Lateral &amp; &lt;opening&gt; 6″');
    expect(metadata).not.toContain('Identity');
  });

  test('soapstone.json lets the print be made again', async () => {
    const { record } = readPdf(await renderPdf(book));
    expect(record).toMatchObject({
      program: 'soapstone',
      version,
      spec: book.spec,
      sheets: sheets.map(({ name, pages: numbers }) => ({ name, pages: numbers })),
    });
  });

  test('two pages of one name are a fault', async () => {
    await expect(renderPdf(bookOf([pageOf([]), pageOf([])]))).rejects.toThrow(/same label/);
  });
});

describe('the file', () => {
  const marks = [stroke('cut', [[10, 10], [50, 50]], 'long-dash-dot'), lettering('Girth 528.9 mm', { x: 10, y: 90 })]; // prettier-ignore

  test('the same book gives the same bytes, another spec another file identifier', async () => {
    const book = bookOf([pageOf(marks)]);
    const [first, second] = [await renderPdf(book), await renderPdf(book)];
    expect(Buffer.compare(first, second)).toBe(0);
    const identifier = (bytes: Uint8Array) =>
      /\/ID \[<(\w+)>/.exec(Buffer.from(bytes).toString('latin1'))?.[1];
    expect(identifier(first)).toMatch(/^\w{32}$/);
    expect(identifier(await renderPdf({ ...book, spec: {} }))).not.toBe(identifier(first));
  });

  test('in pieces it is the same file', async () => {
    const pages = Array.from({ length: 250 }, (_, i) => pageOf(marks, { label: `sample ${i}` }));
    const book = bookOf(pages);
    const pieces: Uint8Array[] = [];
    for await (const piece of streamPdf({ ...book, pages: pages.values() })) pieces.push(piece);
    expect(pieces).toHaveLength(3);
    expect(Math.min(...pieces.map(({ length }) => length))).toBeGreaterThan(1000);
    expect(Buffer.compare(Buffer.concat(pieces), await renderPdf(book))).toBe(0);
  });

  test('qpdf finds nothing wrong with it', async () => {
    const pages = [
      pageOf(marks),
      pageOf([...marks, lettering('Bold', { x: 9, y: 9 }, { bold: true })], { label: 'B' }),
    ];
    const file = save(await renderPdf(bookOf(pages)));
    expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain(
      'No syntax or stream encoding errors',
    );
  });
});
