import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readCircles, readCrosses, worstMatch } from '../../support/flat-figures.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const paper = '1200x1300mm';

describe('a hole grid, from the bytes of its print', () => {
  it.each([
    [4, 2, 75, 100, 0, 18],
    [6, 1, 76.2, 0, 0, 17.4625],
    [3, 3, 60, 52, 30, 14],
    [1, 5, 0, 33.3, 0, 9],
  ])('%d by %d', async (columns, rows, pitch, rowPitch, stagger, hole) => {
    const { file } = await printAndRead('hole-grid', {
      columns: `${columns}`,
      rows: `${rows}`,
      ...(pitch > 0 ? { 'column-pitch': `${pitch}mm` } : {}),
      ...(rowPitch > 0 ? { 'row-pitch': `${rowPitch}mm` } : {}),
      stagger: `${stagger}mm`,
      hole: `${hole}mm`,
      paper,
    });
    const wanted = [];
    for (let row = 0; row < rows; row += 1)
      for (let column = 0; column < columns; column += 1)
        wanted.push({ x: column * pitch + (row % 2) * stagger, y: row * rowPitch });
    // Origin in the middle of the whole figure.
    const middle = {
      x: (Math.min(...wanted.map((p) => p.x)) + Math.max(...wanted.map((p) => p.x))) / 2,
      y: ((rows - 1) * rowPitch) / 2,
    };
    const placed = wanted.map((p) => ({ x: p.x - middle.x, y: p.y - middle.y }));
    const circles = readCircles(file, 'hole grid', 'cut');
    expect(
      worstMatch(
        circles.map((c) => c.at),
        placed,
      ),
    ).toBeLessThan(0.001);
    for (const { radius, miss } of circles) expect(Math.abs(radius - hole / 2) + miss).toBeLessThan(0.002);
    expect(worstMatch(readCrosses(file, 'hole grid'), placed)).toBeLessThan(0.0001);
  });

  it('draws slots and punches their ends, inside a plate held by its edges', async () => {
    const { file } = await printAndRead('hole-grid', {
      columns: '2',
      'column-pitch': '100mm',
      hole: '14mm',
      slot: '40mm',
      'slot-along': 'column',
      width: '200mm',
      height: '120mm',
      left: '30mm',
      bottom: '50mm',
      paper,
    });
    // Left edge 30 mm left of the first column at x = -50, lower edge 50 mm under the row at y = 0.
    const box = { minX: -80, maxX: 120, minY: -50, maxY: 70 };
    for (const p of layerPoints(file, 'hole grid', 'cut')) {
      const onEdge = Math.min(
        ...[p.x - box.minX, p.x - box.maxX, p.y - box.minY, p.y - box.maxY].map(Math.abs),
      );
      const offSlot = Math.min(
        ...[-50, 50].map((x) => Math.abs(Math.hypot(p.x - x, p.y - Math.min(13, Math.max(-13, p.y))) - 7)),
      );
      expect(Math.min(onEdge, offSlot)).toBeLessThan(0.01);
    }
    const ends = [-50, 50].flatMap((x) => [-13, 0, 13].map((y) => ({ x, y })));
    expect(worstMatch(readCrosses(file, 'hole grid'), ends)).toBeLessThan(0.0001);
  });
});

describe('what a hole grid says', () => {
  const [sheet] = makeWrittenSheets(
    readRequest('hole-grid', {
      columns: '5',
      'column-pitch': '75mm',
      rows: '2',
      'row-pitch': '400mm',
      hole: '18mm',
    }),
  );
  it('the diagonals of 300 by 400 are 500 (3-4-5)', () =>
    expect(sheet!.facts).toContainEqual(['Both diagonals, corner to corner', '500.0 mm (1′-7 11/16″)']));
  it('one tape along a row reads every hole from the start mark', () =>
    expect(sheet!.tables[0]!.rows.map((row) => row[3])).toEqual([
      '175.0 mm',
      '250.0 mm',
      '325.0 mm',
      '400.0 mm',
    ]));
});

describe('hole grids that are refused', () => {
  const good = { columns: '3', 'column-pitch': '50mm', hole: '18mm' };
  it.each([
    [{ ...good, hole: '50mm' }, 'joint hole holes-overlap', /touch/, /50\.0 mm/],
    [{ ...good, hole: '52mm' }, 'joint hole holes-overlap', /overlap by 2\.0 mm/, /pitch larger/],
    [{ ...good, slot: '60mm' }, 'joint slot holes-overlap', /overlap/, /./],
    [{ ...good, width: '110mm', height: '60mm' }, 'joint width holes-leave-plate', /hole 1 leaves/, /larger/],
    [
      { ...good, width: '200mm', height: '60mm', left: '5mm' },
      'joint width holes-leave-plate',
      /by 4\.0 mm/,
      /left/,
    ],
    [{ ...good, width: '200mm' }, 'request height missing', /height/, /width and a height/],
    [{ ...good, rows: '2' }, 'request row-pitch missing', /row-pitch/, /./],
    [{ columns: '3', hole: '18mm' }, 'request column-pitch missing', /column-pitch/, /./],
    [{ ...good, slot: '10mm' }, 'joint slot too-small', /./, /./],
  ])('%j', (texts, what, message, hint) => {
    const said = refused('hole-grid', texts);
    expect(said.what).toBe(what);
    expect(said.message).toMatch(message);
    expect(said.hint).toMatch(hint);
  });
});

it.each([
  ['hole-grid', { columns: '2', 'column-pitch': '12mm', hole: '6mm' }],
  ['hole-grid', { columns: '2', 'column-pitch': '40mm', rows: '2', 'row-pitch': '30mm', hole: '8mm' }],
  ['hole-grid', { columns: '9', 'column-pitch': '9mm', rows: '9', 'row-pitch': '9mm', hole: '6mm' }],
  ['bolt-circle', { holes: '4', circle: '30mm', hole: '8mm', start: 'on' }],
  ['bolt-circle', { flange: 'NPS 1/2 class 150' }],
] as const)('a %s as small as %j still says which face and which end is up', (id, texts) => {
  const [sheet] = makeWrittenSheets(readRequest(id, texts));
  const words = sheet!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : [])).join();
  expect(words).toMatch(/▲ TOP/);
  expect(words).toMatch(/THIS FACE UP/);
});
