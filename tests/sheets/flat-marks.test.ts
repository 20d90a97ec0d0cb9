import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markBounds, pathBounds } from '../../src/drawing/extent.ts';
import { letteringBox } from '../../src/drawing/lettering.ts';
import type { Mark } from '../../src/drawing/model.ts';
import { letter } from '../../src/drawing/paths.ts';
import { degreeRing } from '../../src/sheets/degree-ring.ts';
import {
  angleDimension,
  circleBoxes,
  drawPunch,
  findClear,
  linearDimension,
  slotPath,
  uprightAngle,
} from '../../src/sheets/flat-marks.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const tips = (marks: readonly Mark[]) =>
  marks.flatMap((mark) => (mark.kind === 'fill' && mark.ink === 'black' ? [mark.path.start] : []));

describe('marks of flat sheets', () => {
  it('a punch cross meets exactly on its point', () => {
    fc.assert(
      fc.property(number(-5000, 5000), number(-5000, 5000), (x, y) => {
        for (const mark of drawPunch({ x, y })) {
          if (mark.kind !== 'stroke') throw new Error('a cross is strokes');
          const [a, b] = [mark.path.start, mark.path.segments[0]!.to];
          expect((a.x + b.x) / 2).toBeCloseTo(x, 9);
          expect((a.y + b.y) / 2).toBeCloseTo(y, 9);
        }
      }),
    );
  });

  it('a slot is as long and wide as asked, whatever way it lies', () => {
    fc.assert(
      fc.property(number(1, 50), number(0, 200), number(-7, 7), (width, more, along) => {
        const bounds = pathBounds(slotPath({ x: 3, y: -2 }, width, width + more, along));
        expect(bounds.maxX - bounds.minX).toBeCloseTo(width + more * Math.abs(Math.cos(along)), 5);
        expect(bounds.maxY - bounds.minY).toBeCloseTo(width + more * Math.abs(Math.sin(along)), 5);
        expect((bounds.maxX + bounds.minX) / 2).toBeCloseTo(3, 5);
      }),
    );
  });

  it('lettering along a line is never upside down', () => {
    fc.assert(
      fc.property(number(-Math.PI, Math.PI), (angle) => {
        const read = uprightAngle({ x: Math.cos(angle), y: Math.sin(angle) });
        expect(read).toBeGreaterThan(-Math.PI / 2);
        expect(read).toBeLessThanOrEqual(Math.PI / 2 + 1e-9);
        expect(Math.abs(Math.sin(read - angle))).toBeLessThan(1e-9);
      }),
    );
  });

  it('a dimension’s arrow tips span what it measures', () => {
    fc.assert(
      fc.property(number(0.5, 500), number(-3, 3), number(-40, 40), (length, angle, offset) => {
        const b = { x: 7 + length * Math.cos(angle), y: 4 + length * Math.sin(angle) };
        const [p, q] = tips(linearDimension({ x: 7, y: 4 }, b, offset, '12'));
        expect(Math.hypot(p!.x - q!.x, p!.y - q!.y)).toBeCloseTo(length, 9);
        expect(Math.hypot(p!.x - 7, p!.y - 4)).toBeCloseTo(Math.abs(offset), 9);
      }),
    );
  });

  it('an angle’s arrow tips lie on its two legs', () => {
    const [p, q] = tips(angleDimension({ x: 0, y: 0 }, 20, 0.3, 1.7, '80°'));
    expect(Math.atan2(p!.y, p!.x)).toBeCloseTo(0.3, 12);
    expect(Math.atan2(q!.y, q!.x)).toBeCloseTo(1.7, 12);
  });

  it('finds the first place clear of a circle, and none where there is none', () => {
    const taken = circleBoxes({ x: 0, y: 0 }, 40);
    const at = (x: number) => letter('text', { x, y: 0 }, '12', 3.5, { valign: 'middle' });
    expect(findClear([at(18), at(19), at(30)], taken)).toEqual(at(30));
    expect(findClear([at(18)], taken)).toBeUndefined();
  });

  it('numbers of a degree ring never touch its ticks or each other', () => {
    for (const radius of [14, 40, 90, 300])
      for (const side of [1, -1] as const) {
        if (side === -1 && radius < 40) continue;
        const marks = degreeRing({ centre: { x: 0, y: 0 }, radius, side });
        const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [letteringBox(mark)] : []));
        const others = marks.filter((mark) => mark.kind === 'stroke').map(markBounds);
        const overlap = (a: (typeof texts)[number], b: (typeof texts)[number]) =>
          a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
        texts.forEach((text, i) => {
          expect(texts.slice(i + 1).filter((other) => overlap(text, other))).toEqual([]);
          // Ticks slant: only those whose own far end lies in the number's box touch it.
          expect(others.filter((other) => overlap(text, other) && other.maxX - other.minX < 0.5)).toEqual([]);
        });
      }
  });
});
