import { describe, expect, it } from 'vitest';
import { makeScene, makeSheets, readRequest, sceneMeshes, type Texts } from '../../src/index.ts';
import { finishedParts } from '../../src/render/formats.ts';
import type { Part } from '../../src/scene/scene.ts';
import { holeVolume, type Fit } from '../support/kernel-volumes.ts';
import { openSides, trianglesOf, volumeOf, type Triangle } from '../support/mesh-checks.ts';

const trianglesAt =
  (deviation: number) =>
  (one: Part): readonly Triangle[] =>
    trianglesOf(sceneMeshes({ parts: [one], views: [] }, deviation)[0]!.mesh);

/** The body that holes are cut in, and how much they take of it, at a deviation. */
const cutIn = (layout: string, texts: Texts, deviation: number) => {
  const scene = makeScene(readRequest(layout, texts))!;
  const part = scene.parts.find(({ id }) => id === 'body' || id === 'header')!;
  const { shape } = part;
  if (shape.kind !== 'opened') return undefined;
  const trianglesIn = trianglesAt(deviation);
  const triangles = trianglesIn(part);
  const whole = volumeOf(trianglesIn({ ...part, shape: shape.body }));
  return { triangles, holes: shape.holes.length, taken: whole - volumeOf(triangles) };
};

describe('holes in bodies', () => {
  it.each([
    ['DN 100 sch 40', 'pipe DN 100 sch 40 angle 20', 'on'],
    ['DN 25 sch 40', 'pipe DN 150 sch 40 offset -65mm', 'on'],
    ['DN 100 sch 40', 'pipe DN 200 sch 40 angle 60', 'in'],
    ['tube 60x60x5mm turned 45deg', 'tube 100x100x6mm angle 50', 'on'],
    ['DN 50 sch 40', 'tube 100x100x6mm turned 45deg angle 70', 'on'],
    ['half-round 60mm wall 4mm', 'ellipse 200x100mm wall 5mm angle 60', 'on'],
    ['L 50x50x5', 'pipe DN 150 sch 40', 'on'],
    ['NPS 4 sch 40', 'cone OD 400mm to 300mm over 500mm wall 8mm square', 'in'],
    ['NPS 4 sch 40', 'sphere OD 600mm wall 10mm offset 150mm', 'on'],
    ['NPS 4 sch 40', 'head torispherical OD 1000mm crown 1000mm knuckle 100mm wall 8mm', 'on'],
    ['angle 50x40x5mm', 'elbow NPS 8 sch 40 LR heel', 'in'],
    ['NPS 4 sch 40', 'miter NPS 8 sch 40 45deg throat', 'on'],
    ['DN 40 sch 40', 'channel C 8x11.5', 'on'],
    ['DN 50 sch 40', 'tube 100x100x6mm corner 0mm turned 30deg angle 60', 'on'],
    ['tube 60x60x4mm corner 0mm', 'tube 120x120x6mm corner 0mm turned 45deg', 'on'],
    ['DN 50 sch 40', 'tube 100x100x6mm corner 0mm turned 45deg', 'in'],
    ['DN 50 sch 40', 'half-round 200mm wall 5mm turned 90deg', 'on'],
    ['NPS 2 sch 40', 'elbow NPS 8 LR angle 0', 'on'],
    ['NPS 2 sch 40', 'head ellipsoidal OD 1000mm', 'on'],
    ['NPS 2 sch 40', 'head torispherical OD 1000mm crown 1000mm knuckle 100mm offset 100mm', 'on'],
  ])('%s in %s, set %s: watertight at every fineness', (branch, on, set) => {
    for (const deviation of [0.2, 1]) {
      const cut = cutIn(
        'branch',
        { branch, on, set, gap: set === 'in' ? '2mm' : '0mm', opening: 'yes' },
        deviation,
      );
      expect(openSides(cut!.triangles)).toEqual([]);
      expect(cut!.taken).toBeGreaterThan(0);
    }
  });

  /** In closed form: a bore of 52.48 in a plate of 12, and in a plate that leans, where it is longer by 1 / sin. */
  it.each([
    [90, (Math.PI / 4) * 52.48 ** 2 * 12],
    [60, ((Math.PI / 4) * 52.48 ** 2 * 12) / Math.sin(Math.PI / 3)],
  ])('a bore in a plate at %d° takes its area times the thickness', (angle, volume) => {
    const texts = { branch: 'OD 60.3mm wall 3.91mm', on: `plate 12mm angle ${angle}` };
    expect(Math.abs(cutIn('branch', texts, 0.02)!.taken / volume - 1)).toBeLessThan(1e-3);
  });

  it.each([
    [['60', '120'], 2],
    [['75', '105'], 1],
    [['90', '90 up 30'], 1],
    [['90 up 90', '55', '125 up 20'], 3],
  ])('legs %o in a header: %d hole or holes, watertight', (leg, count) => {
    for (const header of ['DN 150 sch 40', 'tube 160x160x6mm']) {
      const cut = cutIn('wye', { stock: 'DN 50 sch 40', header, leg }, 0.2)!;
      expect(openSides(cut.triangles)).toEqual([]);
      expect(cut.holes).toBe(count);
    }
  });

  it('two holes that run into each other take less than both, and more than one', () => {
    const texts = (leg: readonly string[]): Texts => ({
      stock: 'DN 50 sch 40',
      header: 'DN 150 sch 40',
      leg,
    });
    const both = cutIn('wye', texts(['75', '105']), 0.05)!.taken;
    const one = cutIn(
      'branch',
      { branch: 'DN 50 sch 40', header: 'DN 150 sch 40', angle: '75' },
      0.05,
    )!.taken;
    expect(both).toBeGreaterThan(1.2 * one);
    expect(both).toBeLessThan(1.95 * one);
  });

  /** In closed form: opposite a corner of a tube the cut turns over a stretch two walls long, so three quarters of its wall stand under it. */
  it('a bore over the sharp corner of a tube takes its share of the wall', () => {
    const [bore, wall] = [52.48, 6];
    const cut = cutIn(
      'branch',
      { branch: 'OD 60.3mm wall 3.91mm', on: `tube 100x100x${wall}mm corner 0mm turned 45deg` },
      0.02,
    )!;
    const volume = integral(0, bore / Math.SQRT2, (s) => {
      const height = Math.sqrt(bore ** 2 - 2 * s ** 2);
      return 2 * height * wall * (s < 2 * wall ? 0.75 : 1);
    });
    expect(Math.abs(cut.taken / volume - 1)).toBeLessThan(1e-3);
  });

  /** In closed form: between two tori, along the lines of a bore on the heel of an elbow. Its wall is not known: a tenth of its radius is drawn. */
  it('a bore in an elbow without a wall: seen, and not made', () => {
    const [bend, radius, bore] = [304.8, 219.075 / 2, 52.48 / 2];
    const scene = makeScene(
      readRequest('branch', { branch: 'OD 60.3mm wall 3.91mm', on: 'elbow NPS 8 LR heel', opening: 'yes' }),
    )!;
    expect(finishedParts(scene).map(({ id }) => id)).toEqual(['branch']);
    const part = scene.parts.find(({ id }) => id === 'body')!;
    if (part.shape.kind !== 'opened') throw new Error('the elbow is whole');
    const [cut, whole] = [part, { ...part, shape: part.shape.body }].map(trianglesAt(0.02));
    expect(openSides(cut!)).toEqual([]);
    const height = (r: number, x: number, y: number): number =>
      bend - Math.sqrt((bend + Math.sqrt(r ** 2 - y ** 2)) ** 2 - x ** 2);
    const volume = integral(0, bore, (a) =>
      integral(0, 2 * Math.PI, (turn) => {
        const [x, y] = [a * Math.cos(turn), a * Math.sin(turn)];
        return a * (height(0.9 * radius, x, y) - height(radius, x, y));
      }),
    );
    expect(Math.abs((volumeOf(whole!) - volumeOf(cut!)) / volume - 1)).toBeLessThan(1e-3);
  });

  describe('several bodies', () => {
    const meshesOf = (on: string, opening: string, deviation: number) =>
      makeScene(readRequest('branch', { branch: 'OD 88.9mm wall 5mm', on, opening }))!.parts.map(
        trianglesAt(deviation),
      );
    const takenOf = (on: string): readonly number[] => {
      const [open, whole] = ['yes', 'none'].map((opening) => meshesOf(on, opening, 0.01).map(volumeOf));
      return whole!.slice(1).map((volume, i) => volume - open![i + 1]!);
    };
    const TWO = 'pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 135 ahead -60mm';

    it.each([
      TWO,
      'pipe OD 168.3mm wall 8mm angle 45 + pipe OD 114.3mm wall 5mm angle 135 ahead -20mm',
      'sphere OD 300mm wall 8mm + pipe OD 88.9mm wall 5mm angle 90 offset 20mm',
      'tube 60x60x5mm offset 30mm + tube 60x60x5mm corner 0mm offset -30mm',
      'tube 60x60x5mm offset 10mm + tube 60x60x5mm corner 0mm offset -10mm ahead 5mm',
    ])('%s: watertight at every fineness', (on) => {
      for (const deviation of [0.02, 0.2, 1])
        for (const triangles of meshesOf(on, 'yes', deviation)) expect(openSides(triangles)).toEqual([]);
      for (const taken of takenOf(on)) expect(taken).toBeGreaterThan(0);
    });

    /** Source: Open CASCADE's sections of the bore with the first body alone. */
    it('the first loses what it loses alone', async () => {
      const alone = makeSheets(
        readRequest('branch', {
          branch: 'OD 88.9mm wall 5mm',
          on: 'pipe OD 168.3mm wall 8mm angle 45',
          opening: 'yes',
        }),
      );
      const opening = alone.find(({ name }) => name === 'header opening')!;
      const volume = await holeVolume(opening.fit as Fit, 300);
      expect(Math.abs(takenOf(TWO)[0]! / volume - 1)).toBeLessThan(1e-3);
    });

    /** In closed form: what a bore takes square to the surface off a pipe that ends on another, from the end to the bore's far side. */
    it('the second loses what the bore takes off its cut end', () => {
      const [first, radius, wall, bore, short] = [84.15, 44.45, 5, 39.45, 60 / Math.SQRT2];
      const volume = integral(-Math.asin(bore / radius), Math.asin(bore / radius), (turn) => {
        const y = radius * Math.sin(turn);
        const end = Math.sqrt(first ** 2 - y ** 2) - short;
        const far = radius * Math.cos(turn) + Math.SQRT2 * Math.sqrt(bore ** 2 - y ** 2);
        return Math.max(0, far - end) * (radius * wall - wall ** 2 / 2);
      });
      expect(Math.abs(takenOf(TWO)[1]! / volume - 1)).toBeLessThan(1e-3);
    });

    /** In closed form: a bore that hangs over the side of both, as far as each looks toward the branch. */
    it('two pipes side by side lose what lies under the bore', () => {
      const [radius, wall, bore, offset] = [30.15, 5, 39.45, 29];
      const volume = integral(-Math.PI / 2, Math.PI / 2, (turn) => {
        const y = offset + radius * Math.sin(turn);
        return 2 * Math.sqrt(Math.max(0, bore ** 2 - y ** 2)) * (radius * wall - wall ** 2 / 2);
      });
      const pipe = `pipe OD 60.3mm wall ${wall}mm offset`;
      for (const taken of takenOf(`${pipe} ${offset}mm + ${pipe} -${offset}mm`))
        expect(Math.abs(taken / volume - 1)).toBeLessThan(1e-3);
    });
  });

  it('a body stays whole where a web lies under the hole', () => {
    expect(cutIn('branch', { branch: 'DN 40 sch 40', on: 'beam HE 200 B' }, 0.5)).toBeUndefined();
  });
});

/** By the middles of many equal steps. */
function integral(from: number, to: number, of: (x: number) => number): number {
  const [count, step] = [600, (to - from) / 600];
  return Array.from({ length: count }, (_, i) => of(from + (i + 0.5) * step)).reduce((a, b) => a + b) * step;
}
