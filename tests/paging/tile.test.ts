import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markBounds } from '../../src/drawing/extent.ts';
import { textWidth } from '../../src/drawing/lettering.ts';
import type { Box, Mark, Path } from '../../src/drawing/model.ts';
import { circlePath, letter, linePath, stroke, WIDE } from '../../src/drawing/paths.ts';
import { isHolding } from '../../src/paging/box.ts';
import { findSeams } from '../../src/paging/seam.ts';
import { countSpans, dropBlanks, type Grid, planGrid } from '../../src/paging/tile.ts';
import { shareMarks } from '../../src/paging/tile-marks.ts';
import { bandSheet } from './fixtures.ts';

const size = fc.integer({ min: 20, max: 3000 });
const room = fc.record({
  width: fc.integer({ min: 80, max: 400 }),
  height: fc.integer({ min: 80, max: 400 }),
});
const overlap = fc.integer({ min: 4, max: 30 });
const boundsOf = (width: number, height: number): Box => ({
  minX: -7,
  minY: -11,
  maxX: width - 7,
  maxY: height - 11,
});
const labels = (bounds: Box): Mark[] =>
  Array.from({ length: 20 }, (_, i) =>
    letter(
      'text',
      { x: bounds.minX + ((bounds.maxX - bounds.minX) * i) / 20, y: bounds.minY + 5 },
      `mark ${i}`,
      5,
    ),
  );
const areaOf = (box: Box): number => (box.maxX - box.minX) * (box.maxY - box.minY);

describe('planGrid', () => {
  it('covers every point of the sheet by exactly one tile of its own', () => {
    fc.assert(
      fc.property(
        size,
        size,
        room,
        overlap,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (w, h, frame, lap, u, v) => {
          const bounds = boundsOf(w, h);
          const { tiles } = planGrid(labels(bounds), bounds, frame, lap);
          const p = { x: bounds.minX + u * w, y: bounds.minY + v * h };
          const owners = tiles.filter(
            ({ own }) => p.x >= own.minX && p.x < own.maxX + 1e-9 && p.y >= own.minY && p.y < own.maxY + 1e-9,
          );
          expect(owners.length).toBeGreaterThanOrEqual(1);
          const total = tiles.reduce((sum, { own }) => sum + areaOf(own), 0);
          const hull = {
            minX: Math.min(...tiles.map(({ own }) => own.minX)),
            minY: Math.min(...tiles.map(({ own }) => own.minY)),
            maxX: Math.max(...tiles.map(({ own }) => own.maxX)),
            maxY: Math.max(...tiles.map(({ own }) => own.maxY)),
          };
          // The own parts fill their hull and so share nothing.
          expect(total / areaOf(hull)).toBeCloseTo(1, 9);
          expect(isHolding(hull, bounds)).toBe(true);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('takes the fewest windows, none larger than the page, neighbours sharing exactly the overlap', () => {
    fc.assert(
      fc.property(size, size, room, overlap, (w, h, frame, lap) => {
        const bounds = boundsOf(w, h);
        const grid = planGrid(labels(bounds), bounds, frame, lap);
        // n windows cover n·room − (n−1)·overlap; one fewer must not.
        for (const [count, length, side] of [
          [grid.columns, w, frame.width],
          [grid.rows, h, frame.height],
        ] as const) {
          expect(count * side - (count - 1) * lap).toBeGreaterThanOrEqual(length - 1e-6);
          if (count > 1) expect((count - 1) * side - (count - 2) * lap).toBeLessThan(length);
          expect(countSpans(length, side, lap)).toBe(count);
        }
        for (const { window, own, row, column } of grid.tiles) {
          expect(window.maxX - window.minX).toBeLessThanOrEqual(frame.width + 1e-6);
          expect(window.maxY - window.minY).toBeLessThanOrEqual(frame.height + 1e-6);
          expect(isHolding(window, own)).toBe(true);
          const right = grid.tiles.find((other) => other.row === row && other.column === column + 1);
          if (right) expect(window.maxX - right.window.minX).toBeCloseTo(lap, 9);
          const below = grid.tiles.find((other) => other.column === column && other.row === row + 1);
          if (below) expect(below.window.maxY - window.minY).toBeCloseTo(lap, 9);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('names tiles by row and column, counted from the top left', () => {
    const bounds = boundsOf(1200, 3000);
    const { tiles } = planGrid([], bounds, { width: 110, height: 110 }, 10);
    expect(tiles[0]?.name).toBe('1.1');
    expect(tiles[11]?.name).toBe('1.12');
    expect(tiles[12]?.name).toBe('2.1');
    expect(tiles.find(({ row, column }) => row === 26 && column === 2)?.name).toBe('27.3');
    expect(new Set(tiles.map(({ name }) => name)).size).toBe(tiles.length);
  });
});

const boxed = (marks: readonly Mark[]) => marks.map((mark) => ({ mark, box: markBounds(mark) }));

const joined = ({ tiles }: Grid): boolean => {
  const seen = new Set([tiles[0]]);
  for (const tile of seen)
    for (const other of tiles)
      if (tile && Math.abs(tile.row - other.row) + Math.abs(tile.column - other.column) === 1)
        seen.add(other);
  return seen.size === tiles.length;
};

describe('dropBlanks', () => {
  it('leaves out tiles without ink of their own, and only those, while the rest hang together', () => {
    const marks = [stroke('cut', circlePath({ x: 300, y: 300 }, 299), WIDE)];
    const whole = planGrid(
      marks,
      { minX: 0, minY: 0, maxX: 600, maxY: 600 },
      { width: 130, height: 130 },
      10,
    );
    const grid = dropBlanks(whole, boxed(marks));
    expect(grid.tiles.length).toBeLessThan(whole.tiles.length);
    expect(joined(grid)).toBe(true);
    const kept = new Set(grid.tiles);
    for (const tile of whole.tiles) {
      const { own } = tile;
      const corners = [own.minX, own.maxX].flatMap((x) =>
        [own.minY, own.maxY].map((y) => Math.hypot(x - 300, y - 300)),
      );
      const crosses = Math.min(...corners) < 299 && Math.max(...corners) > 299;
      if (crosses) expect(kept.has(tile), tile.name).toBe(true);
      if (Math.max(...corners) < 298) expect(kept.has(tile), tile.name).toBe(false);
    }
  });

  it('keeps bridges to parts that would hang free', () => {
    const marks = [
      stroke('cut', circlePath({ x: 50, y: 550 }, 20), WIDE),
      stroke('cut', circlePath({ x: 550, y: 50 }, 20), WIDE),
    ];
    const whole = planGrid(
      marks,
      { minX: 0, minY: 0, maxX: 600, maxY: 600 },
      { width: 130, height: 130 },
      10,
    );
    const lane = stroke('scale', linePath({ x: 0, y: 5 }, { x: 600, y: 5 }), 0.25);
    expect(joined(dropBlanks(whole, boxed([...marks, lane])))).toBe(true);
  });
});

const lengthOf = (path: Path): number => {
  let [length, from] = [0, path.start];
  for (const { to } of path.segments) {
    length += Math.hypot(to.x - from.x, to.y - from.y);
    from = to;
  }
  return length;
};

describe('shareMarks', () => {
  it('puts a straight line back together from its tiles, overlaps counted once', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 900 }),
        fc.integer({ min: 0, max: 900 }),
        fc.integer({ min: 0, max: 700 }),
        (x1, x2, y2) => {
          const line = linePath({ x: x1, y: 10 }, { x: x2, y: y2 });
          const marks = [stroke('cut', line, WIDE)];
          const grid = planGrid(
            marks,
            { minX: -2, minY: -2, maxX: 902, maxY: 702 },
            { width: 200, height: 150 },
            10,
          );
          const owned = grid.tiles.map((tile) => ({ ...tile, window: tile.own }));
          const total = shareMarks(marks, { tiles: owned, overlap: 10 })
            .flat()
            .reduce((sum, mark) => sum + (mark.kind === 'stroke' ? lengthOf(mark.path) : 0), 0);
          // A line along a seam lies in both own parts; such lines are not drawn here.
          fc.pre(grid.tiles.every(({ own }) => x1 !== own.minX || x1 !== x2));
          expect(total).toBeCloseTo(lengthOf(line), 6);
          shareMarks(marks, grid).forEach((share, i) => {
            const window = grid.tiles[i]?.window;
            for (const mark of share)
              if (mark.kind === 'stroke' && window)
                for (const p of [mark.path.start, ...mark.path.segments.map((s) => s.to)])
                  expect(isHolding(window, { minX: p.x, maxX: p.x, minY: p.y, maxY: p.y })).toBe(true);
          });
        },
      ),
    );
  });

  it('never cuts lettering, and loses none', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            x: fc.integer({ min: 0, max: 800 }),
            y: fc.integer({ min: 10, max: 600 }),
            long: fc.boolean(),
          }),
          { minLength: 1, maxLength: 12 },
        ),
        (places) => {
          const marks = places.map(({ x, y, long }) =>
            letter('text', { x, y }, long ? 'wrap until the edge meets itself' : 'KEEP', 5, {
              align: 'centre',
            }),
          );
          const grid = planGrid(
            marks,
            { minX: -60, minY: -2, maxX: 860, maxY: 620 },
            { width: 200, height: 150 },
            10,
          );
          const shares = shareMarks(marks, grid);
          const said = shares.flat().flatMap((mark) => (mark.kind === 'text' ? mark.text.split(' ') : []));
          for (const word of marks.flatMap((mark) => mark.text.split(' '))) expect(said).toContain(word);
          shares.forEach((share, i) => {
            const window = grid.tiles[i]?.window;
            for (const mark of share) {
              if (mark.kind !== 'text' || !window) continue;
              const half = textWidth(mark.text, 5, false);
              const left = mark.align === 'centre' ? mark.at.x - half / 2 : mark.at.x;
              expect(left).toBeGreaterThanOrEqual(window.minX);
              expect(left + half).toBeLessThanOrEqual(window.maxX);
            }
          });
        },
      ),
    );
  });
});

describe('findSeams', () => {
  it('joins every pair of neighbours by at least two crosses astride the edge of the upper one', () => {
    const { marks } = bandSheet(900, 500);
    const grid = planGrid(
      marks,
      { minX: -2, minY: -2, maxX: 917, maxY: 502 },
      { width: 240, height: 150 },
      10,
    );
    for (const { tiles, crosses, reach, isUpright } of findSeams(grid, shareMarks(marks, grid))) {
      expect(crosses.length).toBeGreaterThanOrEqual(2);
      const [under, over] = tiles;
      for (const { x, y } of crosses) {
        const whole = { minX: x - reach, minY: y - reach, maxX: x + reach, maxY: y + reach };
        expect(isHolding(under.window, whole)).toBe(true);
        const half = isUpright ? { ...whole, minX: x } : { ...whole, maxY: y };
        expect(isHolding(over.window, half)).toBe(true);
        expect(isUpright ? x - over.window.minX : over.window.maxY - y).toBeCloseTo(0, 9);
      }
    }
  });
});
