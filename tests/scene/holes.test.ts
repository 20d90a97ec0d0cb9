import { describe, expect, it } from 'vitest';
import { makeScene, readRequest, sceneMeshes, type Texts } from '../../src/index.ts';
import type { Part } from '../../src/scene/scene.ts';
import { openSides, trianglesOf, volumeOf } from '../support/mesh-checks.ts';

/** The body that holes are cut in, and how much they take of it, at a deviation. */
const cutIn = (layout: string, texts: Texts, deviation: number) => {
  const scene = makeScene(readRequest(layout, texts))!;
  const part = scene.parts.find(({ id }) => id === 'body' || id === 'header')!;
  const { shape } = part;
  if (shape.kind !== 'opened') return undefined;
  const trianglesIn = (one: Part) =>
    trianglesOf(sceneMeshes({ parts: [one], views: [] }, deviation)[0]!.mesh);
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
    expect(Math.abs(cutIn('branch', texts, 0.02)!.taken / volume - 1)).toBeLessThan(2e-3);
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

  it.each([
    // The web lies under the middle of the flange; the wall is not known; sharp corners have no even wall around them.
    ['DN 40 sch 40', 'beam HE 200 B'],
    ['NPS 2 sch 40', 'head ellipsoidal OD 1000mm'],
    ['DN 50 sch 40', 'tube 100x100x6mm corner 0mm turned 45deg'],
  ])('%s on %s: the body stays whole', (branch, on) => {
    expect(cutIn('branch', { branch, on }, 0.5)).toBeUndefined();
  });
});
