import { describe, expect, it } from 'vitest';
import { letteringBox } from '../../../src/drawing/lettering.ts';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import { samplePath, sheetStrokes } from '../../support/pdf-reader.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import type { Vec2 } from '../../support/space.ts';

const DEGREE = Math.PI / 180;

/** Hole and edge of a printed pad, and the hole's middle-surface trace worked out here. */
const readPad = async (texts: Texts) => {
  const { file } = await printAndRead('pad', { ...texts, paper: '36in-roll' });
  const lines = sheetStrokes(file, 'pad', 'cut').map(({ path }) => samplePath(path, 0.5));
  const size = (points: readonly Vec2[]): number =>
    Math.max(...points.map(({ x }) => x)) - Math.min(...points.map(({ x }) => x));
  const [edge, hole] = lines.sort((a, b) => size(b) - size(a));
  return { edge: edge!, hole: hole! };
};

/** A point of the flat pad folded onto a cylinder of radius `at` about the header's axis, header frame: x toward the branch. */
const fold = ({ x, y }: Vec2, mean: number, at: number) => ({
  x: at * Math.cos(x / mean),
  y: at * Math.sin(x / mean),
  z: y,
});

/** Distance from the branch's axis, which leans by the angle and stands `offset` aside. */
const fromBranch = (p: { x: number; y: number; z: number }, angle: number, offset: number): number => {
  const axis = { x: -Math.sin(angle), z: Math.cos(angle) };
  const q = { x: p.x, y: p.y + offset, z: p.z };
  const along = q.x * axis.x + q.z * axis.z;
  return Math.hypot(q.x - along * axis.x, q.y, q.z - along * axis.z);
};

describe('a pad, from the bytes of its print', () => {
  it.each([
    ['90', 0, 8, 60, 2],
    ['60', 0, 8, 60, 2],
    ['45', 0, 6, 40, 0],
    ['75', 25, 10, 50, 3],
  ])(
    'at %s°, offset %d: folded on the header, hole clears the branch, width the same all around',
    async (angle, offset, thickness, width, gap) => {
      const [R, r] = [109.55, 57.15];
      const { edge, hole } = await readPad({
        branch: 'OD 114.3mm wall 6mm',
        header: 'OD 219.1mm wall 8mm',
        width: `${width}mm`,
        thickness: `${thickness}mm`,
        angle,
        offset: `${offset}mm`,
        gap: `${gap}mm`,
      });
      const turn = Number(angle) * DEGREE;
      const mean = R + thickness / 2;
      // The hole touches the branch less its gap somewhere through the thickness, and clears it everywhere.
      const clear = hole.map((p) => {
        const through = Array.from({ length: 41 }, (_, i) =>
          fromBranch(fold(p, mean, R + (thickness * i) / 40), turn, offset),
        );
        return Math.min(...through) - (r + gap);
      });
      expect(Math.min(...clear)).toBeGreaterThan(-0.01);
      expect(Math.max(...clear)).toBeLessThan(0.01);
      // The branch on the middle surface: bisected on rays here. Every edge point lies `width` from the nearest of them.
      const trace = Array.from({ length: 4000 }, (_, i): Vec2 => {
        const way = (2 * Math.PI * i) / 4000;
        const middle = {
          x: mean * Math.asin(-offset / mean),
          y: Math.sqrt(mean * mean - offset * offset) / -Math.tan(turn),
        };
        let [low, high] = [0, 2000];
        for (let k = 0; k < 60; k++) {
          const t = (low + high) / 2;
          const p = { x: middle.x + t * Math.cos(way), y: middle.y + t * Math.sin(way) };
          if (Math.abs(p.x - middle.x) < 3 * r && fromBranch(fold(p, mean, mean), turn, offset) < r) low = t;
          else high = t;
        }
        return { x: middle.x + low * Math.cos(way), y: middle.y + low * Math.sin(way) };
      });
      for (const p of edge.filter((_, i) => i % 7 === 0)) {
        const nearest = Math.min(...trace.map((q) => Math.hypot(p.x - q.x, p.y - q.y)));
        expect(Math.abs(nearest - width)).toBeLessThan(0.01);
      }
    },
  );

  it.each<[Texts]>([
    [{ angle: '60', weep: '6mm' }],
    [{ angle: '60', offset: '20mm', split: '90', weep: '6mm', gap: '2mm' }],
    [{ angle: '75', offset: '-15mm', split: '30' }],
  ])('proof rolls the hole around the header: %j', async (texts) => {
    const { bytes } = await printAndRead('pad', {
      branch: 'DN 100 sch 40',
      header: 'DN 200 sch 40',
      width: '60mm',
      thickness: '8mm',
      paper: 'a3',
      ...texts,
    });
    const { findings } = proveFile(bytes);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);
    expect(findings.some(({ check }) => check.includes('against what it meets'))).toBe(true);
  });

  it('split and weep holes', () => {
    const [sheet] = makeWrittenSheets(
      readRequest('pad', {
        branch: 'DN 100 sch 40',
        header: 'DN 200 sch 40',
        width: '60mm',
        split: '90',
        weep: '6mm',
      }),
    );
    expect(sheet!.name).toBe('pad');
    const weeps = sheet!.fit!.figures!.circles;
    // One in each half, square to the split that runs around the header: before and behind the branch, on its middle.
    expect(weeps.map(({ centre }) => Math.abs(centre.x) < 1e-6)).toEqual([true, true]);
    expect(weeps[0]!.centre.y * weeps[1]!.centre.y).toBeLessThan(0);
    expect(Math.abs(weeps[0]!.centre.y)).toBeCloseTo(114.3 / 2 + 30, 0);
    expect(sheet!.cautions[0]).toMatch(/designer/);
  });

  it.each<[Texts, string]>([
    [{ offset: '80mm' }, 'past-side'],
    [{ branch: 'DN 200 sch 40', gap: '2mm' }, 'past-side'],
    [{ width: '500mm' }, 'wraps-over'],
    // The leaning branch leaves less than the width before and behind it.
    [{ width: '10.36mm', angle: '60', gap: '2mm', split: '90', weep: '6mm' }, 'too-large'],
  ])('%j is refused', (texts, code) => {
    const request = { branch: 'DN 100 sch 40', header: 'DN 200 sch 40', width: '60mm', ...texts };
    expect(refused('pad', request).what).toMatch(new RegExp(`^joint \\S+ ${code}$`));
  });
});

describe('the words on a pad', () => {
  const words = /HEEL|CROTCH|ALONG|°$/;

  it.each([0, 8, 60, 72, 90, 105, 170])('stand clear of a split at %f° and on the plate', (split) => {
    const [sheet] = makeWrittenSheets(
      readRequest('pad', {
        branch: 'NPS 1 sch 80',
        header: 'NPS 3 sch 40',
        width: '1in',
        thickness: '1/4in',
        angle: '45',
        split: `${split}`,
      }),
    );
    const cuts = sheet!.marks.flatMap((mark) =>
      mark.kind === 'stroke' && mark.role === 'cut' ? [samplePath([mark.path], 0.5)] : [],
    );
    const boxes = sheet!.marks.flatMap((mark) =>
      mark.kind === 'text' && words.test(mark.text) ? [letteringBox(mark)] : [],
    );
    expect(boxes.length).toBeGreaterThanOrEqual(4);
    for (const { minX, maxX, minY, maxY } of boxes)
      expect(cuts.flat().filter(({ x, y }) => x > minX && x < maxX && y > minY && y < maxY)).toEqual([]);
  });
});
