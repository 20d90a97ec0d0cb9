import { darkAt, type Gray } from './scan-image.ts';
import type { Vec2 } from './space.ts';

/** A pair of scale checks as it was found: its direction from zero, the zero of each line (100 mm, 4 in), its rough scale. */
export interface RoughRule {
  readonly along: Vec2;
  readonly zero: readonly [Vec2, Vec2];
  readonly scale: number;
}

/** Darkness that counts as ink in a picture made coarse: a narrow line fills a quarter of a pixel and more. */
const INK = 60;
/** Most a page may lie turned, degrees. */
const mostTilt = 6.5;
/** Dark pixels looked at for the tilt. */
const enough = 120_000;

/** How strongly dark pixels lie in rows square to a direction: the sum of squares over lanes one pixel wide. */
const score = (points: readonly Vec2[], angle: number, isLevel: boolean): number => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const lanes = new Map<number, number>();
  for (const { x, y } of points) {
    const lane = Math.round(isLevel ? y * c - x * s : x * c + y * s);
    lanes.set(lane, (lanes.get(lane) ?? 0) + 1);
  }
  let sum = 0;
  for (const count of lanes.values()) sum += count * count;
  return sum;
};

/** How far level or upright lines are turned on the picture, radians, clockwise as y runs down. */
export const findTilt = (image: Gray, which: 'level' | 'upright'): number => {
  const dark: Vec2[] = [];
  for (let y = 0; y < image.height; y += 1)
    for (let x = 0; x < image.width; x += 1)
      if (255 - (image.data[y * image.width + x] ?? 255) > INK) dark.push({ x, y });
  const every = Math.max(1, Math.floor(dark.length / enough));
  const points = dark.filter((_, i) => i % every === 0);
  const degree = Math.PI / 180;
  let best = { angle: 0, score: -1 };
  const search = (from: number, to: number, step: number): void => {
    for (let at = from; at <= to + 1e-9; at += step) {
      const found = score(points, at * degree, which === 'level');
      if (found > best.score) best = { angle: at, score: found };
    }
  };
  search(-mostTilt, mostTilt, 0.2);
  search(best.angle - 0.2, best.angle + 0.2, 0.04);
  search(best.angle - 0.04, best.angle + 0.04, 0.01);
  return best.angle * degree;
};

/** A dark stretch of one row of the turned picture, in dots from its corner. */
interface Run {
  readonly row: number;
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/** Dark stretches of a row, short gaps bridged, of about the length of a check. */
const runsOf = (row: number, values: Float32Array, least: number, most: number): readonly Run[] => {
  const runs: Run[] = [];
  let [from, last, weight] = [-1, -1, 0];
  const close = (): void => {
    const length = last - from + 1;
    if (from >= 0 && length >= least && length <= most) runs.push({ row, from, to: last + 1, weight });
  };
  values.forEach((value, i) => {
    if (value <= INK) return;
    if (last < 0 || i - last > 4) {
      close();
      [from, weight] = [i, 0];
    }
    last = i;
    weight += value;
  });
  close();
  return runs;
};

/** Of runs that lie on the same line, the darkest. */
const darkest = (runs: readonly Run[], near: number): readonly Run[] => {
  const kept: Run[] = [];
  for (const run of [...runs].sort((a, b) => b.weight - a.weight))
    if (
      !kept.some(
        (other) => Math.abs(other.row - run.row) <= near && Math.abs(other.from - run.from) < 5 * near,
      )
    )
      kept.push(run);
  return kept;
};

/** Pairs of scale checks along a direction of the picture, `turn` radians clockwise from level; `dot` is pixels to a millimetre. */
export const findRules = (image: Gray, turn: number, dot: number): readonly RoughRule[] => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const corners = [
    [0, 0],
    [image.width, 0],
    [0, image.height],
    [image.width, image.height],
  ] as const;
  const us = corners.map(([x, y]) => x * c + y * s);
  const vs = corners.map(([x, y]) => y * c - x * s);
  const [u0, v0] = [Math.floor(Math.min(...us)), Math.floor(Math.min(...vs))];
  const [wide, high] = [Math.ceil(Math.max(...us)) - u0, Math.ceil(Math.max(...vs)) - v0];
  const placeOf = (u: number, v: number): Vec2 => ({
    x: (u + u0) * c - (v + v0) * s,
    y: (u + u0) * s + (v + v0) * c,
  });
  const rows = Array.from({ length: high }, (_, v) => {
    const values = new Float32Array(wide);
    for (let u = 0; u < wide; u += 1) {
      const { x, y } = placeOf(u, v);
      values[u] = darkAt(image, x, y);
    }
    return values;
  });
  const [least, most] = [97 * dot, 104.6 * dot];
  const runs = rows.flatMap((values, v) => {
    // A line a little aslant runs over to the next row.
    const spread = values.map((value, u) => Math.max(value, rows[v - 1]?.[u] ?? 0, rows[v + 1]?.[u] ?? 0));
    return runsOf(v, spread, least, most).map((run) => {
      let weight = 0;
      for (let u = run.from; u < run.to; u += 1) weight += values[u] ?? 0;
      return { ...run, weight };
    });
  });
  const lines = darkest(runs, 0.5 * dot);
  return lines.flatMap((short) =>
    lines.flatMap((long) => {
      const [a, b] = [short.to - short.from, long.to - long.from];
      const apart = Math.abs(short.row - long.row) / dot;
      if (apart < 1 || apart > 2.2 || b / a < 1.008 || b / a > 1.024) return [];
      const isForward = Math.abs(short.from - long.from) < 0.6 * dot;
      if (!isForward && Math.abs(short.to - long.to) >= 0.6 * dot) return [];
      const zeroOf = ({ from, to, row }: Run): Vec2 => placeOf(isForward ? from : to - 1, row);
      const sign = isForward ? 1 : -1;
      const scale = (a - 1.5) / (100 * dot);
      return [{ along: { x: sign * c, y: sign * s }, zero: [zeroOf(short), zeroOf(long)] as const, scale }];
    }),
  );
};
