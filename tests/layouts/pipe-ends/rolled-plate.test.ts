import { describe, expect, it } from 'vitest';
import { readCut, WIDE_PAPER } from '../../support/cut-line.ts';
import { samplePath, sheetStrokes } from '../../support/pdf-reader.ts';
import { printAndRead, range } from '../../support/print.ts';

const PLATE = { 'made-from': 'plate', units: 'mm' };
const od = 610;
const wall = 12.7;
/** Plate is laid out on its mean diameter (common practice, no source). */
const girth = Math.PI * (od - wall);

const readSides = async (layout: string, texts: Record<string, string>, sheet: string) => {
  const { file } = await printAndRead(layout, { ...texts, ...PLATE, paper: WIDE_PAPER });
  return sheetStrokes(file, sheet, 'cut').map(({ path }) => samplePath(path, 1));
};

describe('a pattern for plate that will be rolled', () => {
  it('is a miter on the mean diameter, without the paper’s thickness', async () => {
    const cut = 22.5;
    const lines = await readSides('miter', { pipe: `OD ${od}mm wall ${wall}mm`, cut: String(cut) }, 'miter');
    expect(lines).toHaveLength(3);
    const [curve] = [...lines].sort((a, b) => b.length - a.length);
    const [left, right] = range(curve!.map(({ x }) => x));
    expect(left).toBeCloseTo(0, 5);
    expect(right).toBeCloseTo(girth, 4);
    for (const { x, y } of curve!) {
      const due = (od / 2) * Math.tan((cut * Math.PI) / 180) * Math.cos((2 * Math.PI * x) / girth);
      expect(Math.abs(y - due)).toBeLessThan(0.005);
    }
  });

  it.each([
    ['40mm', 40],
    ['-3mm', -3],
  ])(
    'has its seam allowance of %s past the right seam, the cut line going on as it rolls',
    async (text, extra) => {
      const lines = await readSides(
        'miter',
        { pipe: `OD ${od}mm wall ${wall}mm`, cut: '10', 'seam-allowance': text, seam: '90' },
        'miter',
      );
      const points = lines.flat();
      const [left, right] = range(points.map(({ x }) => x));
      expect(left).toBeCloseTo(girth / 4, 4);
      expect(right - left).toBeCloseTo(girth + extra, 4);
      const top = range(points.filter(({ x }) => right - x < 1e-6).map(({ y }) => y))[1];
      const due = (od / 2) * Math.tan(Math.PI / 18) * Math.cos((2 * Math.PI * right) / girth);
      expect(top).toBeCloseTo(due, 2);
    },
  );

  it('is a branch end whose ordinates are those of the wrap, over a narrower girth', async () => {
    const texts = { branch: 'OD 219.1mm wall 12.7mm', header: 'OD 406.4mm wall 12.7mm', angle: '60' };
    const wrap = await readCutOf(texts, 'pipe');
    const flat = await readCutOf(texts, 'plate');
    const ratio = (219.1 + 0.1) / (219.1 - 12.7);
    const heightAt = (points: readonly { x: number; y: number }[], x: number): number => {
      const i = points.findIndex((p) => p.x >= x);
      const [a, b] = [points[Math.max(0, i - 1)]!, points[i]!];
      return b.x === a.x ? b.y : a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
    };
    const end = range(flat.map(({ x }) => x))[1];
    for (let k = 1; k < 40; k++) {
      const x = (end * k) / 40;
      expect(heightAt(wrap, x * ratio)).toBeCloseTo(heightAt(flat, x), 1);
    }
  });

  it('is a degree band as wide as the flat plate', async () => {
    const { file } = await printAndRead('band', {
      pipe: `OD ${od}mm wall ${wall}mm`,
      ...PLATE,
      paper: WIDE_PAPER,
    });
    const [left, right] = range(
      sheetStrokes(file, 'band', 'cut').flatMap(({ path }) => samplePath(path, 1).map(({ x }) => x)),
    );
    expect(right - left).toBeCloseTo(girth, 4);
  });
});

const readCutOf = async (texts: Record<string, string>, madeFrom: string) => {
  if (madeFrom === 'pipe') {
    const points = await readCut('branch', { ...texts, 'made-from': 'pipe' }, 1 / Math.PI, 0);
    return points;
  }
  const lines = await readSides('branch', texts, 'branch end');
  return [...lines].sort((a, b) => b.length - a.length)[0]!;
};
