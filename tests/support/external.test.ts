import { describe, expect, it } from 'vitest';
import {
  complaintsAbout,
  embeddedFonts,
  pageSizes,
  renderPage,
  runTool,
  tracedPoints,
  unpack,
  type Tool,
} from './external.ts';
import { fixtureHeight, makeFixture } from './pdf-fixture.ts';
import { readPdf, sheetStrokes } from './pdf-reader.ts';

const points = (mm: number) => (mm * 72) / 25.4;
const record = { program: 'soapstone', version: '0', spec: {}, sheets: [{ name: 'branch end', pages: [1] }] };
const bytes = await makeFixture({
  origins: [[20, 30]],
  record,
  draw: (doc) => {
    doc.addContent('/OC /L0 BDC');
    doc.save().translate(points(20), points(30)).rotate(20).lineWidth(points(0.5));
    doc.moveTo(0, 0).lineTo(points(100), 0).lineTo(points(100), points(37)).stroke().restore();
    doc.addContent('EMC');
  },
});

describe('outside readers', () => {
  it('find nothing wrong in a sound file, and something in a broken one', () => {
    expect(complaintsAbout(bytes)).toEqual([]);
    expect(complaintsAbout(bytes.slice(0, -300))).not.toEqual([]);
  });

  it('agree with our reader on where lines run', () => {
    const [stroke] = readPdf(bytes).pages[0]!.strokes;
    const [{ start, segments }] = stroke!.path as [(typeof stroke & object)['path'][number]];
    const ours = [start, ...segments.map((s) => s.to)].map((p) => ({
      x: p.x,
      y: points(fixtureHeight) - p.y,
    }));
    const theirs = tracedPoints(bytes, 1);
    expect(theirs).toHaveLength(3);
    // mupdf counts in single precision: 3e-5 at 500 points.
    theirs.forEach((p, i) => expect(Math.hypot(p.x - ours[i]!.x, p.y - ours[i]!.y)).toBeLessThan(2e-4));
  });

  it('measure the page', () => {
    const [size] = pageSizes(bytes);
    expect(size!.width).toBeCloseTo(points(150), 2);
    expect(size!.height).toBeCloseTo(points(fixtureHeight), 2);
    const { width, height, grey } = renderPage(bytes, 1, 254);
    // Rounded up: poppler keeps whole what reaches into the next pixel by a rounding error.
    expect([1500, 1501]).toContain(width);
    expect([2000, 2001]).toContain(height);
    expect(grey).toHaveLength(width * height);
    // The first point of the line, 20 mm in and 30 mm down, is black.
    expect(grey[301 * width + 202]).toBeLessThan(128);
    expect(embeddedFonts(bytes)).toEqual([]);
  });

  it('rewrite the file so that ours still reads it, and sees a changed length', () => {
    const open = unpack(bytes);
    const length = (file: Uint8Array) => {
      const [stroke] = sheetStrokes(readPdf(file), 'branch end', 'cut');
      const [{ start, segments }] = stroke!.path as [NonNullable<typeof stroke>['path'][number]];
      return Math.hypot(segments[0]!.to.x - start.x, segments[0]!.to.y - start.y);
    };
    expect(length(open)).toBeCloseTo(100, 4);
    const text = open.toString('latin1');
    expect(text).toContain('283.464567 0 l');
    // The turn of 20° is written to six decimals, which costs 3e-5 mm in 100.
    const longer = text.replace('283.464567 0 l', '283.606299 0 l');
    expect(length(Buffer.from(longer, 'latin1'))).toBeCloseTo(100.05, 4);
  });

  it('are asked for by package where they are missing', () => {
    const path = process.env['PATH'];
    process.env['PATH'] = '';
    try {
      expect(() => runTool('qpdf' satisfies Tool, ['--version'])).toThrow(/system package qpdf/);
    } finally {
      process.env['PATH'] = path;
    }
  });
});
