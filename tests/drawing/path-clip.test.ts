import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointAt } from '../../src/drawing/curve-split.ts';
import { pathBounds, translatePath } from '../../src/drawing/extent.ts';
import type { Box, Path, Segment } from '../../src/drawing/model.ts';
import { clipFill, clipStroke, isStrokeIn } from '../../src/drawing/path-clip.ts';
import { boxPath, circlePath, linePath, polylinePath } from '../../src/drawing/paths.ts';
import type { Vec2 } from '../../src/geometry/vector.ts';

const box: Box = { minX: 0, minY: 0, maxX: 100, maxY: 60 };
// Quarter millimetres, so that points on the edges, touches and doubled points come up often.
const coordinate = fc.integer({ min: -600, max: 1000 }).map((n) => n / 4);
const point = fc.record({ x: coordinate, y: coordinate });
const segment: fc.Arbitrary<Segment> = fc.oneof(
  fc.record({ kind: fc.constant('line' as const), to: point }),
  fc.record({ kind: fc.constant('curve' as const), c1: point, c2: point, to: point }),
);
const openPath: fc.Arbitrary<Path> = fc
  .tuple(point, fc.array(segment, { minLength: 1, maxLength: 6 }))
  .map(([start, segments]) => ({ start, segments, closed: false }));

const sample = (path: Path, count = 40): Vec2[] => {
  let from = path.start;
  return path.segments.flatMap((part) => {
    const points = Array.from({ length: count + 1 }, (_, i) => pointAt(from, part, i / count));
    from = part.to;
    return points;
  });
};
const isIn = ({ x, y }: Vec2, slack: number): boolean =>
  x >= box.minX - slack && x <= box.maxX + slack && y >= box.minY - slack && y <= box.maxY + slack;

/** Length by dense sampling: shares nothing with the clipper but the definition of a Bézier. */
const lengthIn = (paths: readonly Path[], keep: (p: Vec2) => boolean): number =>
  paths.reduce((sum, path) => {
    const points = sample(path, 2000);
    return (
      sum +
      points.slice(1).reduce((s, p, i) => {
        const q = points[i] ?? p;
        return keep({ x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 }) ? s + Math.hypot(p.x - q.x, p.y - q.y) : s;
      }, 0)
    );
  }, 0);

describe('isStrokeIn', () => {
  it('is true where clipping leaves a part, and nowhere else', () => {
    const path = fc.oneof(
      openPath,
      openPath.map((open) => ({ ...open, closed: true })),
    );
    fc.assert(
      fc.property(path, (line) => {
        expect(isStrokeIn(line, box)).toBe(clipStroke(line, box).length > 0);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('clipStroke', () => {
  it('keeps nothing outside the box, to 1e-9 mm', () => {
    fc.assert(
      fc.property(openPath, (path) => {
        for (const piece of clipStroke(path, box)) {
          expect(piece.closed).toBe(false);
          for (const p of sample(piece)) expect(isIn(p, 2e-9)).toBe(true);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('loses nothing inside the box', () => {
    fc.assert(
      fc.property(openPath, (path) => {
        const inside = lengthIn([path], (p) => isIn(p, 0));
        const kept = lengthIn(clipStroke(path, box), () => true);
        expect(Math.abs(kept - inside)).toBeLessThan(1.5 * path.segments.length);
      }),
      { numRuns: 60 },
    );
  });

  it('returns pieces whose ends lie on the edges or on the path ends', () => {
    const pieces = clipStroke(circlePath({ x: 50, y: 30 }, 40), box);
    expect(pieces).toHaveLength(2);
    for (const piece of pieces) {
      const end = piece.segments[piece.segments.length - 1]?.to;
      for (const p of [piece.start, end]) expect([0, 60]).toContain(p?.y);
      for (const p of sample(piece)) expect(Math.abs(Math.hypot(p.x - 50, p.y - 30) - 40)).toBeLessThan(1e-6);
    }
  });

  it('leaves a closed path wholly inside closed, and drops one wholly outside', () => {
    const ring = circlePath({ x: 50, y: 30 }, 20);
    expect(clipStroke(ring, box)).toEqual([ring]);
    expect(clipStroke(translatePath(ring, 200, 0), box)).toEqual([]);
    expect(clipStroke(boxPath({ minX: -5, minY: -5, maxX: 105, maxY: 65 }), box)).toEqual([]);
  });

  it('joins the two ends of a closed path that begins inside', () => {
    const ring = polylinePath(
      [
        { x: 50, y: 10 },
        { x: 150, y: 10 },
        { x: 150, y: 50 },
        { x: 50, y: 50 },
      ],
      true,
    );
    const pieces = clipStroke(ring, box);
    expect(pieces).toHaveLength(1);
    expect(pieces[0]?.start).toEqual({ x: 100, y: 50 });
    expect(pieces[0]?.segments.map((s) => s.to)).toEqual([
      { x: 50, y: 50 },
      { x: 50, y: 10 },
      { x: 100, y: 10 },
    ]);
  });

  it('keeps a line that runs along an edge', () => {
    expect(clipStroke(linePath({ x: -10, y: 60 }, { x: 110, y: 60 }), box)).toEqual([
      linePath({ x: 0, y: 60 }, { x: 100, y: 60 }),
    ]);
  });
});

/** Signed area by the shoelace sum over samples. */
const area = (path: Path): number => {
  const points = sample(path, 400);
  return points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length] ?? p;
    return sum + (p.x * q.y - q.x * p.y) / 2;
  }, 0);
};

describe('clipFill', () => {
  it('keeps the area of a disc inside the box', () => {
    // A disc of 40 about (50, 30) in 0..60: circle less two segments of height 10, by the closed form.
    const [r, h] = [40, 10];
    const cap = r * r * Math.acos((r - h) / r) - (r - h) * Math.sqrt(2 * r * h - h * h);
    const clipped = clipFill(circlePath({ x: 50, y: 30 }, r), box);
    expect(clipped && area(clipped)).toBeCloseTo(Math.PI * r * r - 2 * cap, 1);
  });

  it('cuts a square at a corner and drops what is outside', () => {
    const clipped = clipFill(boxPath({ minX: 90, minY: 50, maxX: 130, maxY: 90 }), box);
    expect(clipped && area(clipped)).toBeCloseTo(100, 6);
    expect(clipFill(boxPath({ minX: 190, minY: 50, maxX: 230, maxY: 90 }), box)).toBeUndefined();
  });
});

describe('pathBounds', () => {
  it('agrees with dense samples of the path and never falls short', () => {
    fc.assert(
      fc.property(openPath, (path) => {
        const bounds = pathBounds(path);
        const points = sample(path, 500);
        const xs = points.map((p) => p.x);
        const ys = points.map((p) => p.y);
        expect(bounds.minX).toBeLessThanOrEqual(Math.min(...xs) + 1e-9);
        expect(bounds.maxY).toBeGreaterThanOrEqual(Math.max(...ys) - 1e-9);
        expect(bounds.minX).toBeGreaterThan(Math.min(...xs) - 0.01);
        expect(bounds.maxX).toBeLessThan(Math.max(...xs) + 0.01);
      }),
    );
  });

  it('takes a circle at its quarter points, not its handles', () => {
    const { minX, maxX, minY, maxY } = pathBounds(circlePath({ x: 10, y: 0 }, 300));
    expect(minX).toBeCloseTo(-290, 5);
    expect(maxX).toBeCloseTo(310, 5);
    expect(minY).toBeCloseTo(-300, 5);
    expect(maxY).toBeCloseTo(300, 5);
  });
});
