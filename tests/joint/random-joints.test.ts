import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cubicAt, type Cubic } from '../../src/geometry/cubic.ts';
import { developEnd, MissError } from '../../src/geometry/development.ts';
import { cylinderMate } from '../../src/geometry/mates/cylinder.ts';
import { developOpening, OpeningError } from '../../src/geometry/opening.ts';
import { circleOutline } from '../../src/geometry/outline.ts';
import { UserError } from '../../src/index.ts';
import type { BodySpec } from '../../src/joint/bodies/body.ts';
import { solidsMate } from '../../src/joint/solid-mate.ts';
import { bodiesField } from '../../src/sheets/bodies-field.ts';
import { cylinderDistance, openingThroughWall, touchAtRadius, touchThroughWall } from '../support/fit-up.ts';
import { DEGREE, ORIGIN, Z } from '../support/placed-bodies.ts';
import { angles, between, kinds, offsets, type Joint } from '../support/random-bodies.ts';
import { point, type Vec2 } from '../support/space.ts';

/**
 * Random joints: each is refused in words, or its cut line is finite, closes on itself and fits the body by a signed distance
 * that shares nothing with the product. SOAPSTONE_CASES sets how many of each kind are tried.
 */
const CASES = Number(process.env['SOAPSTONE_CASES'] ?? 300);

const pointsOf = (line: readonly Cubic[], each: number): Vec2[] =>
  line.flatMap((cubic) => Array.from({ length: each }, (_, i) => cubicAt(cubic, (i + 0.5) / each)));

const cutEnd = ({ on, od, wall, gap, contact }: Joint) => {
  try {
    const specs = bodiesField('what it meets', '').parse(on, {
      units: 'mm',
      path: 'on',
    }) as readonly BodySpec[];
    const radius = specs.length === 1 ? od / 2 : 1e-6;
    const bodies = specs.map((spec) =>
      spec.build(
        {
          radius,
          across: [-radius, radius],
          seat: 'outside',
          drawn: od / 2,
          main: true,
          angle: Math.PI / 2,
          offset: 0,
        },
        spec.frame,
      ),
    );
    const mate = solidsMate(bodies.map((body) => body.outside));
    return developEnd(circleOutline(od / 2, wall), { mate, contact, gap });
  } catch (error) {
    if (error instanceof MissError) return undefined;
    if (error instanceof UserError && error.failure === 'joint') {
      for (const { message, hint } of error.issues) expect([message, hint]).not.toContain('');
      expect(error.issues.length).toBeGreaterThan(0);
      return undefined;
    }
    throw error;
  }
};

describe('random joints', () => {
  it.each(Object.entries(kinds))('%s', (_, kind) => {
    let made = 0;
    fc.assert(
      fc.property(kind, (joint) => {
        const development = cutEnd(joint);
        if (!development) return;
        made++;
        const { od, wall, gap, contact, body } = joint;
        const { line } = development;
        const points = pointsOf(line, Math.max(3, Math.ceil(40 / line.length)));
        for (const p of points) expect(Number.isFinite(p.x + p.y)).toBe(true);
        const [first, last] = [line[0], line.at(-1)];
        expect(first?.start.x).toBeCloseTo(0, 9);
        expect(last?.end.x).toBeCloseTo(Math.PI * od, 9);
        expect(first?.start.y).toBeCloseTo(last?.end.y ?? NaN, 4);
        line.slice(1).forEach(({ start }, i) => expect(gapTo(start, line[i]?.end)).toBeLessThan(1e-12));
        const pipe = { od, wall, paper: 0 };
        const off =
          contact === 'wall'
            ? touchThroughWall(points, pipe, body, gap)
            : touchAtRadius(points, pipe, body, gap, contact === 'id' ? od / 2 - wall : od / 2);
        // Steps, where the line jumps from one body to another, are straight up the pipe and touch nothing between.
        const steps = line.filter((cubic) => isStep(cubic));
        const onLine = off.filter((_d, i) => !steps.some((cubic) => within(cubic, points[i] as Vec2)));
        expect(Math.max(...onLine.map(Math.abs))).toBeLessThan(0.005);
        expect(line.length).toBeLessThan(90);
      }),
      { numRuns: CASES, seed: 20, endOnFailure: true },
    );
    // The generator must not refuse its way through.
    expect(made).toBeGreaterThan(CASES / 6);
  });

  it('openings through a header’s wall', () => {
    let made = 0;
    const joints = fc
      .tuple(between(30, 900), angles, offsets, between(0.02, 0.15))
      .chain(([od, angle, e, thick]) =>
        fc.tuple(between(0.05, 1), fc.boolean()).map(([k, through]) => ({ od, angle, e, thick, k, through })),
      );
    fc.assert(
      fc.property(joints, ({ od, angle, e, thick, k, through }) => {
        const [radius, wall] = [od / 2, od * thick];
        const bore = radius - wall;
        const room = through ? bore : radius;
        const r = k * room;
        const offset = e * 2 * (room - r);
        fc.pre(Math.abs(offset) + r <= room);
        const a = angle * DEGREE;
        const develop = () => {
          const mate = cylinderMate(point(0, -offset, 0), point(-Math.sin(a), 0, Math.cos(a)), r);
          try {
            return developOpening(
              circleOutline(radius, wall),
              mate,
              through,
              radius * Math.asin(-offset / radius),
            );
          } catch (error) {
            if (error instanceof OpeningError) return undefined;
            throw error;
          }
        };
        const opening = develop();
        expect(opening).toBeDefined();
        if (!opening) return;
        made++;
        const points = pointsOf(opening.line, Math.max(3, Math.ceil(40 / opening.line.length)));
        const cutter = cylinderDistance(ORIGIN, Z, r);
        const header = { od, wall: through ? wall : 1e-9, paper: 0 };
        const off = openingThroughWall(points, header, { angle: a, offset }, cutter);
        expect(Math.max(...off.map(Math.abs))).toBeLessThan(0.005);
        expect(opening.line.length).toBeLessThan(60);
      }),
      { numRuns: CASES, seed: 21, endOnFailure: true },
    );
    expect(made).toBeGreaterThan(CASES / 4);
  });
});

const gapTo = (a: Vec2, b: Vec2 | undefined): number => (b ? Math.hypot(a.x - b.x, a.y - b.y) : NaN);
const isStep = ({ start, end }: Cubic): boolean =>
  Math.abs(end.x - start.x) < 1e-4 && Math.abs(end.y - start.y) > 1e-4;
const within = ({ start, end }: Cubic, p: Vec2): boolean =>
  Math.abs(p.x - start.x) < 1e-4 &&
  p.y > Math.min(start.y, end.y) - 1e-9 &&
  p.y < Math.max(start.y, end.y) + 1e-9;
