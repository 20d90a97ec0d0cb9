import { describe, expect, it } from 'vitest';
import type { Mark, Sheet } from '../../src/drawing/model.ts';
import { mergeEqual } from '../../src/sheets/equal.ts';
import { makeSheets } from '../../src/print.ts';
import { readRequest, type Texts } from '../../src/request.ts';

const sheetsOf = (layout: string, texts: Texts): readonly Sheet[] => makeSheets(readRequest(layout, texts));

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Points along the cut lines, some to every cubic, mm. */
const cutPoints = (sheet: Sheet | undefined, count: number): Point[][] =>
  (sheet?.marks ?? []).flatMap((mark: Mark) => {
    if (mark.kind !== 'stroke' || mark.role !== 'cut') return [];
    let from: Point = mark.path.start;
    const points = [from];
    for (const segment of mark.path.segments) {
      const { to } = segment;
      const [a, b, c] = [from, ...(segment.kind === 'line' ? [from, to] : [segment.c1, segment.c2])];
      for (let i = 1; i <= count; i++) {
        const [t, u] = [i / count, 1 - i / count];
        const at = (axis: 'x' | 'y'): number =>
          segment.kind === 'line'
            ? u * from[axis] + t * to[axis]
            : u ** 3 * a[axis] +
              3 * u * u * t * (b ?? from)[axis] +
              3 * u * t * t * (c ?? to)[axis] +
              t ** 3 * to[axis];
        points.push({ x: at('x'), y: at('y') });
      }
      from = to;
    }
    return [points];
  });

/** How far a point lies from a sheet's cut lines, which begin again after a whole turn, mm. */
const distanceTo = (sheet: Sheet | undefined, { x, y }: Point, girth: number): number => {
  let least = Infinity;
  for (const points of cutPoints(sheet, 96))
    for (const turn of [-girth, 0, girth])
      for (let i = 1; i < points.length; i++) {
        const [a, b] = [points[i - 1], points[i]];
        if (!a || !b) continue;
        const [dx, dy] = [b.x - a.x, b.y - a.y];
        const along = ((x + turn - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy || 1);
        const t = Math.min(1, Math.max(0, along));
        least = Math.min(least, Math.hypot(a.x + t * dx - x - turn, a.y + t * dy - y));
      }
  return least;
};

/** The farthest that one sheet's cut lines, moved, lie from another's, mm. */
const farthest = (
  one: Sheet | undefined,
  other: Sheet | undefined,
  move: (p: Point) => Point,
  girth: number,
) => {
  const points = cutPoints(one, 5).flat();
  expect(points.length).toBeGreaterThan(20);
  return Math.max(...points.map((p) => distanceTo(other, move(p), girth)));
};

/** Lines that are found twice lie no farther apart, and no farther from the chords they are measured by. */
const SAME = 0.02;

const girthOf = (od: number): number => Math.PI * (od + 0.1);

describe('pieces that are the same when they are turned', () => {
  it('the last gore of a turn is the first one end for end', () => {
    const sheets = sheetsOf('turn', {
      stock: 'OD 219.1mm wall 8mm',
      angle: '90',
      pieces: '4',
      radius: '305mm',
    });
    const [first, , , last] = sheets;
    expect(last?.sameAs?.sheet).toBe('gore 1');
    // Turned end for end about the throat line: x and y change their signs.
    const turned = ({ x, y }: Point): Point => ({ x: -x, y: -y });
    expect(farthest(last, first, turned, girthOf(219.1))).toBeLessThan(SAME);
    expect(farthest(last, first, (p) => p, girthOf(219.1))).toBeGreaterThan(20);
    const merged = mergeEqual(sheets.slice(0, 4));
    expect(merged.map(({ name, make }) => [name, make])).toEqual([
      ['gore 1', 2],
      ['gore 2', 2],
    ]);
    expect(merged[0]?.subject[1]).toBe(
      'The same for gore 4, turned end for end: its 90° and 270° lines change places',
    );
  });

  it('is not said where cuts or straights differ, or where the seam of a plate would move', () => {
    const turn = { stock: 'OD 219.1mm wall 8mm', angle: '90', pieces: '3', radius: '305mm' };
    for (const texts of [
      { ...turn, cuts: '20,25' },
      { ...turn, tangent: '50mm,100mm' },
      { ...turn, 'made-from': 'plate', seam: '90' },
    ])
      expect(sheetsOf('turn', texts).map(({ sameAs }) => sameAs)).toEqual(
        sheetsOf('turn', texts).map(() => undefined),
      );
    const throat = sheetsOf('turn', { ...turn, 'made-from': 'plate', seam: '180' });
    expect(throat[2]?.sameAs?.sheet).toBe('gore 1');
  });

  it('a leg at 135° is the leg at 45° rolled over, and so is its opening end for end', () => {
    const sheets = sheetsOf('wye', {
      stock: 'OD 88.9mm wall 5mm',
      header: 'OD 168.3mm wall 7mm',
      leg: ['45', '135'],
    });
    const [one, two, opening, other] = sheets;
    expect([two?.sameAs?.sheet, other?.sameAs?.sheet]).toEqual(['leg 1', 'header opening 1']);
    const girth = girthOf(88.9);
    expect(farthest(two, one, ({ x, y }) => ({ x: x + girth / 2, y }), girth)).toBeLessThan(SAME);
    expect(farthest(two, one, (p) => p, girth)).toBeGreaterThan(5);
    expect(farthest(other, opening, ({ x, y }) => ({ x: -x, y: -y }), girthOf(168.3))).toBeLessThan(SAME);
    expect(farthest(other, opening, (p) => p, girthOf(168.3))).toBeGreaterThan(5);
    expect(mergeEqual(sheets).map(({ name, make }) => [name, make])).toEqual([
      ['leg 1', 2],
      ['header opening 1', 2],
    ]);
  });

  it('legs that stand alike around are drawn alike, and printed once', () => {
    const sheets = sheetsOf('wye', { stock: 'OD 168.3mm wall 7mm', leg: ['0', '90', '180', '270'] });
    const [merged] = mergeEqual(sheets);
    expect([merged?.make, merged?.subject[1]]).toEqual([4, 'The same for leg 2, leg 3, leg 4']);
  });
});
