import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';
import { meshVolume, sceneMeshes } from '../../../src/scene/mesh.ts';
import { openSides, trianglesOf } from '../../support/mesh-checks.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';

const DEGREE = Math.PI / 180;

describe('a support in space', () => {
  /** The plate under a pipe of radius r less the circle's segment over the chord of the cradle, r² (c − sin c) / 2 (elementary). */
  it.each([
    ['saddle', 120, ['support']],
    ['shoe', 100, ['support', 'support base']],
    ['lug', 60, ['support']],
  ])('%s: closed parts of its plate’s volume', (kind, degrees, ids) => {
    const [r, width, height, thickness, hole] = [109.55, 220, 220, 12, 22];
    const { values, setting, layout } = readRequest('support', {
      pipe: 'OD 219.1mm wall 8mm',
      kind,
      width: `${width}mm`,
      height: `${height}mm`,
      thickness: `${thickness}mm`,
      cradle: String(degrees),
      ...(kind === 'lug' ? { hole: `${hole}mm`, 'hole-edge': '40mm' } : {}),
      ...(kind === 'shoe' ? { 'base-length': '300mm' } : {}),
    });
    const parts = sceneMeshes(layout.scene!(values, setting)!).filter(({ role }) => role === 'work');
    expect(parts.map(({ id }) => id)).toEqual(ids);
    for (const { mesh } of parts) expect(openSides(trianglesOf(mesh))).toEqual([]);
    const c = degrees * DEGREE;
    const plate = width * (height - r * Math.cos(c / 2)) - (r * r * (c - Math.sin(c))) / 2;
    const pin = kind === 'lug' ? (Math.PI * hole ** 2) / 4 : 0;
    expect(meshVolume(parts[0]!.mesh) / ((plate - pin) * thickness)).toBeCloseTo(1, 3);
    if (parts[1]) expect(meshVolume(parts[1].mesh)).toBeCloseTo(width * 300 * thickness, 3);
  });
});

describe('a cradle plate, from the bytes of its print', () => {
  it.each([
    [90, 0],
    [60, 2],
    [30, 0],
  ])('at %d°, gap %d: clears the pipe through its thickness and touches it', async (degrees, gap) => {
    const [radius, thickness] = [109.55, 10];
    const { file } = await printAndRead('support', {
      pipe: 'OD 219.1mm wall 8mm',
      width: '520mm',
      height: '200mm',
      angle: String(degrees),
      gap: `${gap}mm`,
      paper: '36in-roll',
    });
    const angle = degrees * DEGREE;
    // The plate stands upright, its face turned by the angle from the pipe's axis on the plan.
    const fromAxis = (x: number, y: number, depth: number): number =>
      Math.hypot(x * Math.sin(angle) + depth * Math.cos(angle), y);
    const cradle = layerPoints(file, 'support', 'cut').filter(
      ({ x, y }) => y < -radius * Math.cos(60 * DEGREE) - 1 && y > -radius - gap - 0.5 && Math.abs(x) < 250,
    );
    expect(cradle.length).toBeGreaterThan(100);
    const clear = cradle.map(({ x, y }) => {
      const depths = Array.from({ length: 21 }, (_, i) => -thickness / 2 + (thickness * i) / 20);
      return Math.min(...depths.map((depth) => fromAxis(x, y, depth))) - radius - gap;
    });
    expect(Math.min(...clear)).toBeGreaterThan(-0.01);
    expect(Math.max(...clear)).toBeLessThan(degrees === 90 ? 0.01 : 0.06);
  });

  it('a shoe has a base plate, a lug its hole', () => {
    const draw = (texts: Texts) =>
      makeWrittenSheets(
        readRequest('support', { pipe: 'DN 200 sch 40', width: '220mm', height: '220mm', ...texts }),
      );
    expect(draw({ kind: 'shoe' }).map(({ name }) => name)).toEqual(['support', 'support base']);
    const [lug] = draw({ kind: 'lug', hole: '22mm', 'hole-edge': '40mm', cradle: '60' });
    expect(lug!.fit!.figures!.circles).toEqual([{ centre: { x: 0, y: -180 }, radius: 11 }]);
  });

  it.each<[Texts, string]>([
    [{ width: '100mm' }, 'too-small'],
    [{ height: '100mm' }, 'too-small'],
    [{ kind: 'lug', hole: '60mm', 'hole-edge': '100mm' }, 'hole-in-pipe'],
  ])('%j is refused', (texts, code) => {
    const caught = (() => {
      try {
        makeWrittenSheets(
          readRequest('support', { pipe: 'DN 200 sch 40', width: '220mm', height: '220mm', ...texts }),
        );
      } catch (error) {
        return error as UserError;
      }
      return undefined;
    })();
    expect([caught?.failure, caught?.issues[0]?.code]).toEqual(['joint', code]);
  });
});

it('a lug says how large its pin hole is and where it stands', () => {
  const texts = { pipe: 'NPS 1 sch 40', kind: 'lug', width: '2in', height: '3in', hole: '9/16in' };
  const factsOf = (more: Record<string, string>): ReadonlyMap<string, string> =>
    new Map(makeWrittenSheets(readRequest('support', { ...texts, ...more }))[0]!.facts);
  expect(factsOf({}).get('Pin hole')).toBe('9/16″ (14.3 mm)');
  expect(factsOf({}).get('Pin hole, center to outer end')).toBe('1″ (25.4 mm)');
  expect(factsOf({ 'hole-edge': '3/4in' }).get('Pin hole, center to outer end')).toBe('3/4″ (19.1 mm)');
});
