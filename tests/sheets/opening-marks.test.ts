import { describe, expect, it } from 'vitest';
import { markBounds } from '../../src/drawing/extent.ts';
import type { Sheet } from '../../src/drawing/model.ts';
import { makeSheets, makeWrittenSheets, readRequest, type Texts } from '../../src/index.ts';

const REDUCER = { branch: 'NPS 2 sch 80', sheets: 'opening' };
const openingOf = (texts: Texts): Sheet =>
  makeSheets(readRequest('branch', texts)).find(({ name }) => name === 'opening')!;
const labels = (texts: Texts): string[] =>
  makeWrittenSheets(readRequest('branch', texts))
    .find(({ name }) => name === 'opening')!
    .facts.map(([label]) => label);

describe('an opening in a cone', () => {
  // The flat of an eccentric reducer lies a quarter way round: its opening is all to one side of the 0° line.
  const aside = { ...REDUCER, on: 'reducer NPS 8 x 4 eccentric at 4in flat 90' };
  const across = { ...REDUCER, on: 'reducer NPS 8 x 4 at 3in' };

  it('is measured along the 0° line only where that line crosses it', () => {
    expect(labels(across)).toContain('Opening along the 0° line');
    expect(labels(aside)).not.toContain('Opening along the 0° line');
  });

  it('gives the angle it stands at to a hundredth of a degree', () => {
    // Square to a side that falls 1.53125 in over 6 in (ASME B16.9, NPS 8 x 5): 90° + 14.3145°.
    const [sheet] = makeWrittenSheets(
      readRequest('branch', { branch: 'NPS 3 sch 40', on: 'reducer NPS 8 x 5 at 3in square' }),
    );
    const words = JSON.stringify(sheet);
    expect(words).toContain('104.31° between the axes');
    expect(words).not.toContain('104.3145');
  });

  it.each([aside, across])('says which part is scrap: %j', (texts) => {
    const words = openingOf(texts).marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(words).toContain('SCRAP');
  });

  it.each([aside, across, { ...aside, language: 'es' }])('keeps its words on the paper: %j', (texts) => {
    const { marks, bounds } = openingOf(texts);
    for (const mark of marks.filter(({ kind }) => kind === 'text')) {
      const box = markBounds(mark);
      // The paper's edge is drawn half a millimeter inside the bounds.
      expect(box.minX).toBeGreaterThan(bounds.minX + 0.5);
      expect(box.maxX).toBeLessThan(bounds.maxX - 0.5);
    }
  });
});
