import { describe, expect, it } from 'vitest';
import { fixtureHeight, makeFixture, type FixtureOptions } from './pdf-fixture.ts';
import { readPdf, samplePath, sheetFills, sheetPages, sheetStrokes, visiblePoints } from './pdf-reader.ts';
import { readTexts } from './pdf-texts.ts';

const points = (mm: number) => (mm * 72) / 25.4;
const record = {
  program: 'soapstone',
  version: '0',
  spec: { a: 1 },
  sheets: [{ name: 'branch end', pages: [1, 2] }],
};
const layered = (doc: PDFKit.PDFDocument, key: string, draw: () => void) => {
  doc.addContent(`/OC /${key} BDC`);
  draw();
  doc.addContent('EMC');
};
/** pdfkit's coordinates of a sheet point where the sheet's origin is at (ox, oy) mm from the lower left corner. */
const on = ([ox, oy]: readonly [number, number], x: number, y: number): [number, number] => [
  points(ox + x),
  points(fixtureHeight - oy - y),
];
const origins = [
  [20, 30],
  [-80, 31.5],
] as const;

const usual: FixtureOptions = {
  origins,
  record,
  draw: (doc, i) => {
    const o = origins[i]!;
    layered(doc, 'L0', () => {
      doc.lineWidth(points(0.5)).dash(points(3), { space: points(1) });
      doc.moveTo(...on(o, 0, 0)).lineTo(...on(o, 100, 0));
      doc.bezierCurveTo(...on(o, 110, 0), ...on(o, 120, 10), ...on(o, 120, 20)).stroke();
      doc.undash();
    });
    layered(doc, 'L1', () => {
      doc.save().translate(points(50), points(60)).rotate(30).scale(2);
      doc
        .moveTo(0, 0)
        .lineTo(points(10), 0)
        .lineTo(points(10), points(5))
        .closePath()
        .lineWidth(points(0.25));
      doc.fillAndStroke('black', 'black').restore();
      doc
        .font('Helvetica')
        .fontSize(points(5))
        .text('girth 529.5', ...on(o, 30, 40), { lineBreak: false });
    });
  },
};

describe('readPdf', () => {
  it.each([true, false])('reads layers, transforms and widths (compressed: %s)', async (compress) => {
    const file = readPdf(await makeFixture({ ...usual, compress }));
    expect(file.pages).toHaveLength(2);
    const page = file.pages[0]!;
    expect(page.mediaBox.maxX).toBeCloseTo(points(150), 6);
    expect(page.strokes.map((s) => s.layer)).toEqual(['cut', 'text']);
    expect(page.strokes[0]!.width).toBeCloseTo(0.5, 6);
    expect(page.strokes[0]!.dash.map((d) => Math.round(d * 1e6) / 1e6)).toEqual([3, 1]);
    // Twice 0.25 mm by the transform in force.
    expect(page.strokes[1]!.width).toBeCloseTo(0.5, 5);
    expect(page.fills).toHaveLength(1);
    expect(page.strokes[1]!.path[0]!.closed).toBe(true);
    // Translation, then 30° clockwise as seen (pdfkit's y runs down), then twice the size.
    const end = page.strokes[1]!.path[0]!.segments[0]!.to;
    expect(end.x).toBeCloseTo(points(50 + 20 * Math.cos(Math.PI / 6)), 4);
    expect(end.y).toBeCloseTo(points(fixtureHeight - 60 - 20 * Math.sin(Math.PI / 6)), 4);
    expect(page.letterings[0]!.layer).toBe('text');
    expect(page.letterings[0]!.size).toBeCloseTo(5, 5);
  });

  it('puts tiles together by the viewport’s origin', async () => {
    const file = readPdf(await makeFixture(usual));
    const cuts = sheetStrokes(file, 'branch end', 'cut');
    expect(cuts.map((c) => c.page)).toEqual([1, 2]);
    for (const cut of cuts) {
      const [{ start, segments }] = cut.path as [(typeof cut.path)[0]];
      expect(Math.hypot(start.x, start.y)).toBeLessThan(1e-6);
      expect(segments[0]!.to.x).toBeCloseTo(100, 5);
      expect(segments[0]!.to.y).toBeCloseTo(0, 5);
      const curve = segments[1]!;
      if (curve.kind !== 'curve') throw new Error('a curve is wanted');
      expect(
        [curve.c1, curve.c2, curve.to].flatMap((p) => [p.x, p.y]).map((v) => Math.round(v * 1e5) / 1e5 + 0),
      ).toEqual([110, 0, 120, 10, 120, 20]);
    }
    expect(sheetStrokes(file, 'branch end')).toHaveLength(4);
    expect(sheetFills(file, 'branch end', 'text')).toHaveLength(2);
  });

  it('reads what the file says of itself', async () => {
    const bytes = await makeFixture(usual);
    const file = readPdf(bytes);
    expect(file.labels).toEqual(['A-1', 'i']);
    expect(file.pages[1]!.label).toBe('i');
    expect(file.bookmarks).toEqual([
      { title: 'branch end', page: 2, children: [{ title: 'page A-1', page: 2, children: [] }] },
    ]);
    expect(file.language).toBe('en');
    expect(file.info['Title']).toBe('Fixture (″)');
    expect(file.viewerPreferences).toMatchObject({
      PrintScaling: 'None',
      Enforce: ['PrintScaling'],
      PickTrayByPDFSize: true,
    });
    expect(file.layers).toEqual(['cut', 'text']);
    expect(file.record).toEqual(record);
    expect(file.pages[0]!.viewports[0]).toMatchObject({ ratio: '1 mm = 1 mm', unit: 'mm' });
    expect((await readTexts(bytes))[0]).toContain('girth 529.5');
  });

  it('keeps a clip and shows only what lies inside it', async () => {
    const [o] = origins;
    const bytes = await makeFixture({
      origins: [o],
      record: { ...record, sheets: [{ name: 'branch end', pages: [1] }] },
      draw: (doc) =>
        layered(doc, 'L0', () => {
          doc.save();
          doc.rect(...on(o, 10, 10), points(20), points(20)).clip();
          doc
            .moveTo(...on(o, 0, 5))
            .lineTo(...on(o, 100, 5))
            .stroke()
            .restore();
          doc
            .moveTo(...on(o, 0, 7))
            .lineTo(...on(o, 100, 7))
            .stroke();
        }),
    });
    const [held, free] = sheetStrokes(readPdf(bytes), 'branch end', 'cut');
    const shown = visiblePoints(held!, 0.1).map((p) => p.x);
    expect(Math.min(...shown)).toBeCloseTo(10, 0);
    expect(Math.max(...shown)).toBeCloseTo(30, 0);
    expect(visiblePoints(free!, 0.1)).toEqual(samplePath(free!.path, 0.1));
  });

  it.each<[string, Partial<FixtureOptions>, RegExp]>([
    [
      'a stroke outside any layer',
      { draw: (doc) => doc.moveTo(0, 0).lineTo(9, 9).stroke() },
      /drawn on no layer/,
    ],
    ['an unknown layer', { draw: (doc) => layered(doc, 'L9', () => undefined) }, /no layer behind \/L9/],
    ['an unknown operator', { draw: (doc) => void doc.addContent('1 0 0 foo') }, /unknown operator foo/],
    [
      'an operator named like an object’s own member',
      { draw: (doc) => void doc.addContent('constructor') },
      /unknown operator/,
    ],
    ['a missing operand', { draw: (doc) => void doc.addContent('1 m') }, /2 operands wanted/],
    ['an open layer', { draw: (doc) => void doc.addContent('/OC /L0 BDC') }, /left open/],
    [
      'a state that changes the pen',
      { draw: (doc) => layered(doc, 'L0', () => doc.opacity(0.5).moveTo(0, 0).lineTo(9, 9).stroke()) },
      /gs sets/,
    ],
  ])('refuses %s', async (_, options, message) => {
    const bytes = await makeFixture({ ...usual, ...options });
    expect(() => readPdf(bytes)).toThrow(message);
  });

  it('refuses a sheet without viewport, an unknown sheet, and a broken file', async () => {
    const bare = readPdf(await makeFixture({ ...usual, viewport: false }));
    expect(() => sheetStrokes(bare, 'branch end')).toThrow(/shows nothing of branch end/);
    expect(() => sheetPages(bare, 'band')).toThrow(/0 sheets named band/);
    const bytes = await makeFixture(usual);
    expect(() => readPdf(bytes.slice(0, -200))).toThrow(/PDF/);
    expect(() => readPdf(Buffer.from('hello'))).toThrow(/not a PDF/);
  });
});

describe('samplePath', () => {
  const curve = { kind: 'curve', c1: { x: 0, y: 60 }, c2: { x: 60, y: 0 }, to: { x: 60, y: 60 } } as const;
  const path = [
    { start: { x: 0, y: 0 }, segments: [curve, { kind: 'line', to: { x: 0, y: 0 } } as const], closed: true },
  ];

  it('keeps ends and never steps further than asked', () => {
    const sampled = samplePath(path, 0.5);
    expect(sampled).toContainEqual({ x: 60, y: 60 });
    expect(sampled.at(-1)).toEqual({ x: 0, y: 0 });
    sampled.slice(1).forEach((p, i) => {
      expect(Math.hypot(p.x - sampled[i]!.x, p.y - sampled[i]!.y)).toBeLessThanOrEqual(0.5 + 1e-12);
    });
  });

  it('follows the cubic’s own polynomial', () => {
    const t = 1 / 3;
    const x = 3 * t * t * (1 - t) * 60 + t ** 3 * 60;
    const y = 3 * t * (1 - t) ** 2 * 60 + t ** 3 * 60;
    const near = samplePath(path, 0.01).map((p) => Math.hypot(p.x - x, p.y - y));
    expect(Math.min(...near)).toBeLessThan(0.01);
  });
});
