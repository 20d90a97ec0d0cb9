import { describe, expect, it } from 'vitest';
import { readPattern } from '../support/fold.ts';
import { shellArea, type Off, type Ring } from '../support/kernel-surface.ts';
import { norm, minus, outer, point, type Vec3 } from '../support/space.ts';

const circle = (centre: Vec3, diameter: number, from?: number, to?: number): Ring => ({
  kind: 'circle',
  centre,
  radius: diameter / 2,
  ...(from === undefined ? {} : { from, to: to! }),
});
const O = point(0, 0, 0);
const mm = (length: number): string => `${length}mm`;

describe('areas of patterns, from their prints, against a CAD kernel’s surfaces', () => {
  it.each([
    [200, 120, 150, 80],
    [450, 250, 400, 180],
    [600, 300, 350, 150],
  ])('leaning cone ⌀ %d to ⌀ %d, %d high, offset %d', async (large, small, height, offset) => {
    const texts = { large: mm(large), small: mm(small), height: mm(height), offset: mm(offset) };
    const { area } = await readPattern('cone', texts, 'cone');
    const surface = await shellArea(circle(O, large), circle(point(offset, 0, height), small));
    expect(Math.abs(area / surface - 1)).toBeLessThan(1e-4);
  });

  it('leaning cone to its apex', async () => {
    const texts = { large: '200mm', small: '0mm', height: '200mm', offset: '100mm' };
    const { area } = await readPattern('cone', texts, 'cone');
    const surface = await shellArea(circle(O, 200), { kind: 'point', at: point(100, 0, 200) });
    expect(Math.abs(area / surface - 1)).toBeLessThan(1e-4);
  });

  it.each([
    [300, 300, 0, 0, 200, 250],
    [400, 300, 50, 20, 250, 300],
  ])('rectangle %d by %d, moved %d,%d to round %d, %d high', async (w, d, x, y, round, height) => {
    const texts = {
      from: `rect ${w}x${d}mm`,
      to: `round ${round}mm`,
      height: mm(height),
      offset: `${x}mm,${y}mm`,
    };
    const { area } = await readPattern('transition', texts, 'transition 1');
    const top = point(x, y, height);
    const corners = [
      point(w / 2, d / 2, 0),
      point(-w / 2, d / 2, 0),
      point(-w / 2, -d / 2, 0),
      point(w / 2, -d / 2, 0),
    ];
    let surface = 0;
    for (let i = 0; i < 4; i++) {
      surface += await shellArea(circle(top, round, 90 * i, 90 * i + 90), { kind: 'point', at: corners[i]! });
      const quarter = ((i + 1) * Math.PI) / 2;
      const touch = point(x + (round / 2) * Math.cos(quarter), y + (round / 2) * Math.sin(quarter), height);
      const [a, b] = [corners[i]!, corners[(i + 1) % 4]!];
      surface += norm(outer(minus(b, a), minus(touch, a))) / 2;
    }
    expect(Math.abs(area / surface - 1)).toBeLessThan(1e-4);
  });

  it('cone cut to a header', async () => {
    const texts = {
      large: '220mm',
      small: '114.3mm',
      height: '300mm',
      'large-end': 'pipe OD 323.9mm wall 8mm',
    };
    const { area } = await readPattern('cone', texts, 'cone');
    // Its sides reach below the large circle where the header falls away.
    const grow = (220 - 114.3) / 300;
    const low = circle(point(0, 0, -150), 220 + 150 * grow);
    const header: Off = {
      kind: 'cylinder',
      from: point(-1000, 0, 0),
      along: point(1, 0, 0),
      radius: 161.95,
      length: 2000,
    };
    const under: Off = { kind: 'half', through: O, away: point(0, 0, 1), behind: point(0, 0, -500) };
    const surface = await shellArea(low, circle(point(0, 0, 300), 114.3), [header, under]);
    expect(Math.abs(area / surface - 1)).toBeLessThan(1e-4);
  });

  it.each([
    [300, 200, 300, 320],
    [250, 180, 260, 300],
  ])('leg of a level breech: trunk %d, outlets %d, %d high, %d apart', async (trunk, leg, height, spread) => {
    const texts = { trunk: mm(trunk), legs: mm(leg), height: mm(height), spread: mm(spread) };
    const { area } = await readPattern('breech', texts, 'breech leg 1');
    const half: Off = { kind: 'half', through: O, away: point(1, 0, 0), behind: point(-500, 0, 0) };
    const surface = await shellArea(circle(O, trunk), circle(point(spread / 2, 0, height), leg), [half]);
    expect(Math.abs(area / surface - 1)).toBeLessThan(1e-4);
  });

  it('first gore of a turn that reduces', async () => {
    const [large, small, wall, radius] = [219.1, 168.3, 8, 300];
    const texts = {
      stock: `OD ${large}mm wall ${wall}mm`,
      to: `OD ${small}mm wall ${wall}mm`,
      angle: '90',
      pieces: '4',
      radius: mm(radius),
    };
    const { area } = await readPattern('turn', texts, 'gore 1');
    const cut = Math.PI / 12;
    const length = radius * Math.tan(cut);
    const slope = (large - small) / 2 / (6 * length);
    const lean = Math.atan(slope);
    const at = (large - wall) / 2 - slope * length;
    // The joint's plane lies a little past the corner: ρ sin b / cos c along its normal, ρ the sphere's radius.
    const past = (at * Math.cos(lean) * Math.sin(lean)) / Math.cos(cut);
    const normal = point(Math.sin(cut), 0, Math.cos(cut));
    const joint: Off = {
      kind: 'half',
      through: point(normal.x * past, 0, length + normal.z * past),
      away: normal,
      behind: point(0, 0, 1000),
    };
    const far = 2 * length;
    const surface = await shellArea(
      circle(O, large - wall),
      circle(point(0, 0, far), large - wall - 2 * slope * far),
      [joint],
    );
    expect(Math.abs(area / surface - 1)).toBeLessThan(1e-4);
  });
});
