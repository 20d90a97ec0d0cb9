import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest } from '../../src/index.ts';
import { parseStock } from '../../src/stock/read-stock.ts';
import { layerPoints, printAndRead, worst } from '../support/print.ts';
import { refused } from '../support/refused.ts';

const DEGREE = Math.PI / 180;
const ROUND = 'NPS 6 sch 40 oval 170.1x166.4mm';
const WALL = 7.112;

/** A point of the true ellipse and its normal at a girth position, from the ellipse's equation alone. */
const ellipseWalk = (largest: number, smallest: number, station: number) => {
  const [a, b] = [largest / 2, smallest / 2];
  const count = 40_000;
  const step = (2 * Math.PI) / count;
  const pace = (p: number): number => Math.hypot(a * Math.sin(p), b * Math.cos(p));
  // Simpson's rule over each small step.
  const sums = [0];
  for (let i = 0; i < count; i++) {
    const p = i * step;
    sums.push(sums[i]! + (step / 6) * (pace(p) + 4 * pace(p + step / 2) + pace(p + step)));
  }
  const girth = sums[count]!;
  const parameterAt = (l: number): number => {
    const wanted = ((l % girth) + girth) % girth;
    let [low, high] = [0, count];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (sums[middle]! <= wanted) low = middle;
      else high = middle;
    }
    return (low + (wanted - sums[low]!) / (sums[low + 1]! - sums[low]!)) * step;
  };
  // The largest diameter (p = 0) lies `station` of the girth after station 0, which lies on +x.
  const lead = (station / 360) * girth;
  const first = parameterAt(-lead);
  const turn = -Math.atan2(b * Math.sin(first), a * Math.cos(first));
  const rotate = (x: number, y: number) => ({
    x: x * Math.cos(turn) - y * Math.sin(turn),
    y: x * Math.sin(turn) + y * Math.cos(turn),
  });
  return {
    girth,
    at: (s: number) => {
      const p = parameterAt(s - lead);
      const size = pace(p);
      return {
        point: rotate(a * Math.cos(p), b * Math.sin(p)),
        out: rotate((b * Math.cos(p)) / size, (a * Math.sin(p)) / size),
      };
    },
  };
};

const print = { 'paper-thickness': '0mm', paper: '900x600mm' } as const;

describe('a pipe out of round, from the bytes of its print', () => {
  it.each([
    ['0', ROUND],
    ['30', `${ROUND} at 30deg`],
    ['143', `${ROUND} at 143deg`],
  ])('miters on its true ellipse, largest at %s°', async (station, stock) => {
    const ellipse = ellipseWalk(170.1, 166.4, Number(station));
    const { file } = await printAndRead('miter', { stock, cut: '22.5', ...print });
    const off = layerPoints(file, 'miter', 'cut').map(({ x, y }) => {
      const { point } = ellipse.at(x);
      return (y - point.x * Math.tan(22.5 * DEGREE)) * Math.cos(22.5 * DEGREE);
    });
    expect(off.length).toBeGreaterThan(100);
    expect(worst(off)).toBeLessThan(0.01);
  });

  it.each(['0', '30', '75'])('sits on a header by its true ellipse, largest at %s°', async (station) => {
    const ellipse = ellipseWalk(170.1, 166.4, Number(station));
    const { file } = await printAndRead('branch', {
      branch: `${ROUND} at ${station}deg`,
      header: 'OD 219.1mm wall 8.18mm',
      ...print,
    });
    const off = layerPoints(file, 'branch end', 'cut').map(({ x, y }) => {
      const { point, out } = ellipse.at(x);
      const [outside, bore] = [point.y, point.y - WALL * out.y];
      const least = outside * bore < 0 ? 0 : Math.min(Math.abs(outside), Math.abs(bore));
      return y + Math.sqrt((219.1 / 2) ** 2 - least ** 2);
    });
    expect(off.length).toBeGreaterThan(100);
    expect(worst(off)).toBeLessThan(0.01);
  });

  it('is scaled to a measured girth', async () => {
    const plain = ellipseWalk(170.1, 166.4, 30);
    const scale = 530 / plain.girth;
    const ellipse = ellipseWalk(170.1 * scale, 166.4 * scale, 30);
    const { file } = await printAndRead('miter', {
      stock: `NPS 6 sch 40 girth 530mm oval 170.1x166.4mm at 30deg`,
      cut: '30',
      ...print,
    });
    const off = layerPoints(file, 'miter', 'cut').map(
      ({ x, y }) => y - ellipse.at(x).point.x * Math.tan(30 * DEGREE),
    );
    expect(worst(off)).toBeLessThan(0.01);
  });
});

describe('a pipe out of round', () => {
  it('reads back from its own designation, in any order of words', () => {
    fc.assert(
      fc.property(
        fc.record({
          mean: fc.double({ min: 164, max: 172, noNaN: true }),
          off: fc.double({ min: 0.1, max: 5, noNaN: true }),
          station: fc.integer({ min: 0, max: 359 }),
          girth: fc.boolean(),
        }),
        ({ mean, off, station, girth }) => {
          const sizes = `oval ${(mean + off).toFixed(2)}x${(mean - off).toFixed(2)}mm at ${station}deg`;
          // `oval 170x166mm` with nothing before it is an oval tube.
          const stock = parseStock(girth ? `sch 40 ${sizes} nps 6 girth 529mm` : `NPS 6 sch 40 ${sizes}`);
          const again = parseStock(stock.designation);
          expect(again.designation).toBe(stock.designation);
          expect(again.girth).toBeCloseTo(stock.girth, 9);
          if (girth) expect(stock.girth).toBeCloseTo(529, 6);
          const { x, y } = stock.outline.at(0, 0);
          expect(y).toBeCloseTo(0, 9);
          expect(x).toBeGreaterThan(0);
          const end = stock.outline.at((station / 360) * stock.girth, 0);
          expect(2 * Math.hypot(end.x, end.y)).toBeCloseTo(stock.sizes[0]!.length, 6);
        },
      ),
    );
  });

  it('is a header too, station 0 toward the branch', () => {
    const short = readRequest('branch', { branch: 'NPS 4 sch 40', header: `${ROUND} at 30deg` });
    const long = readRequest('branch', { branch: 'NPS 4 sch 40', on: `pipe ${ROUND} at 30deg` });
    expect(makeSheets(short)).toEqual(makeSheets(long));
  });

  it.each([
    [{ stock: 'NPS 6 sch 40 oval 166x170mm', cut: '20' }, /largest first/],
    [{ stock: 'NPS 6 sch 40 oval 190x185mm', cut: '20' }, /measure again/],
    [{ stock: 'NPS 6 sch 40 oval 170mm', cut: '20' }, /oval 170\.1x166\.4mm/],
  ])('refuses %o', (texts, hint) => {
    expect(refused('miter', texts).hint).toMatch(hint);
  });

  it('is refused by name where only a round pipe will do', () => {
    const issue = refused('bull-plug', { stock: `${ROUND} at 30deg` });
    expect(issue.message).toMatch(/out of round/);
    expect(issue.hint).toMatch(/round pipe/);
  });
});
