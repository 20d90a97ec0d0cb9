import { readCode } from './code.ts';
import { cropEven, darkAt, shrink, type Gray } from './scan-image.ts';
import { findRules, findTilt, type RoughRule } from './scan-rules.ts';
import type { Vec2 } from './space.ts';

/** What a scan shows of a printed page. */
export interface ScanReading {
  /** Printed length over true length along the page's own x and y, by the scanner's dots. */
  readonly x: number;
  readonly y: number;
  /** How far the page's y axis leans from square to its x axis, radians, counter-clockwise. */
  readonly skew: number;
  /** How far the page lies turned on the scanner, radians, counter-clockwise, whole quarter turns left out. */
  readonly tilt: number;
  /** How many divisions of its scale checks were measured, and how far they lie off an even scale at most, mm. */
  readonly divisions: number;
  readonly uneven: number;
  /** What the code on the page says, where it has one. */
  readonly code: string | undefined;
  /** True where the page stands upright or upside down on a picture higher than wide, or lies on one wider than high. */
  readonly isAcrossX: boolean;
}

/** Resolution at which the checks are looked for, and the code read, dots an inch. */
const coarse = 110;
const medium = 230;

/** Corners of a page, right and up: where the code stands first. */
const corners = [
  [1, -1],
  [1, 1],
  [-1, -1],
  [-1, 1],
] as const;

/** The pair of scale checks (see `scale-check.ts` of the paging): each side's length, its divisions, mm. */
const sides = [
  { length: 100, every: 10 },
  { length: 101.6, every: 12.7 },
] as const;

/** Where a division is looked for beside its nominal place, and how far outside its line, mm. */
const near = 0.9;
const outside = { from: 0.35, to: 1 } as const;

interface Point {
  readonly nominal: number;
  readonly at: Vec2;
}

/** The middle of what is dark along a line of values, by their weight over the ground; undefined where nothing stands out. */
const middleOf = (values: readonly number[]): number | undefined => {
  const sorted = [...values].sort((a, b) => a - b);
  const ground = sorted[Math.floor(sorted.length / 3)] ?? 0;
  const peak = sorted.at(-1) ?? 0;
  if (peak - ground < 40) return undefined;
  const floor = ground + 0.3 * (peak - ground);
  let [weight, sum] = [0, 0];
  values.forEach((value, i) => {
    const over = Math.max(0, value - floor);
    weight += over;
    sum += over * i;
  });
  return sum / weight;
};

/** Darkness along a line of places, averaged over others beside it. */
const profile = (
  image: Gray,
  from: Vec2,
  step: Vec2,
  count: number,
  beside: readonly Vec2[],
): readonly number[] =>
  Array.from({ length: count }, (_, i) => {
    let sum = 0;
    for (const by of beside) sum += darkAt(image, from.x + i * step.x + by.x, from.y + i * step.y + by.y);
    return sum / beside.length;
  });

/** The divisions of one side of a check, each by the middle of its stroke; and places on the line itself. */
const measureSide = (image: Gray, rule: RoughRule, side: 0 | 1, dot: number) => {
  const { along, zero, scale } = rule;
  const { length, every } = sides[side];
  const line = zero[side];
  const other = zero[side === 0 ? 1 : 0];
  // Outward: away from the other line.
  const away = (line.x - other.x) * -along.y + (line.y - other.y) * along.x > 0 ? 1 : -1;
  const out = { x: -along.y * away, y: along.x * away };
  const step = 0.2;
  const half = Math.ceil((near * dot) / step);
  const lanes = Array.from({ length: 7 }, (_, i) => {
    const by = (outside.from + ((outside.to - outside.from) * i) / 6) * dot;
    return { x: out.x * by, y: out.y * by };
  });
  const divisions: Point[] = [];
  const onLine: Vec2[] = [];
  for (let k = 0; k * every <= length + 1e-6; k += 1) {
    const place = k * every * dot * scale;
    const at = { x: line.x + along.x * place, y: line.y + along.y * place };
    const start = { x: at.x - along.x * half * step, y: at.y - along.y * half * step };
    const found = middleOf(
      profile(image, start, { x: along.x * step, y: along.y * step }, 2 * half + 1, lanes),
    );
    if (found !== undefined) {
      const by = found * step;
      divisions.push({ nominal: k * every, at: { x: start.x + along.x * by, y: start.y + along.y * by } });
    }
    if ((k + 1) * every > length + 1e-6) break;
    // Half way to the next division the line stands alone.
    const middle = place + (every / 2) * dot * scale;
    const reach = Math.ceil((0.6 * dot) / step);
    const from = {
      x: line.x + along.x * middle - out.x * reach * step,
      y: line.y + along.y * middle - out.y * reach * step,
    };
    const beside = [-0.8, -0.4, 0, 0.4, 0.8].map((mm) => ({ x: along.x * mm * dot, y: along.y * mm * dot }));
    const across = middleOf(
      profile(image, from, { x: out.x * step, y: out.y * step }, 2 * reach + 1, beside),
    );
    if (across !== undefined)
      onLine.push({ x: from.x + out.x * across * step, y: from.y + out.y * across * step });
  }
  return { divisions, onLine };
};

/** Slope and offset of the straight line nearest to some points, by least squares. */
const fitLine = (points: readonly Vec2[]): { readonly slope: number; readonly offset: number } => {
  const n = points.length;
  const [mx, my] = [points.reduce((s, p) => s + p.x, 0) / n, points.reduce((s, p) => s + p.y, 0) / n];
  const xx = points.reduce((s, p) => s + (p.x - mx) ** 2, 0);
  const slope = points.reduce((s, p) => s + (p.x - mx) * (p.y - my), 0) / xx;
  return { slope, offset: my - slope * mx };
};

/** A check measured: its direction on the picture, dots to a printed millimetre over the scanner's, its scatter. */
interface MeasuredRule {
  readonly along: Vec2;
  readonly scale: number;
  readonly divisions: number;
  readonly uneven: number;
}

const measureRule = (image: Gray, rule: RoughRule, dot: number): MeasuredRule | undefined => {
  const { along } = rule;
  const [first, second] = [measureSide(image, rule, 0, dot), measureSide(image, rule, 1, dot)];
  // The check's own direction, from both lines: offsets across, each line about its own mean.
  const offsets = [first.onLine, second.onLine].flatMap((points) => {
    const across = points.map((p) => ({
      x: p.x * along.x + p.y * along.y,
      y: p.y * along.x - p.x * along.y,
    }));
    const [mx, my] = [
      across.reduce((s, p) => s + p.x, 0) / across.length,
      across.reduce((s, p) => s + p.y, 0) / across.length,
    ];
    return across.map((p) => ({ x: p.x - mx, y: p.y - my }));
  });
  const divisions = [...first.divisions, ...second.divisions];
  if (offsets.length < 12 || divisions.length < 16) return undefined;
  const lean = fitLine(offsets).slope;
  const size = Math.hypot(1, lean);
  const true_ = { x: (along.x - along.y * lean) / size, y: (along.y + along.x * lean) / size };
  const places = divisions.map(({ nominal, at }) => ({ x: nominal, y: at.x * true_.x + at.y * true_.y }));
  let kept = places;
  let line = fitLine(kept);
  for (let round = 0; round < 2; round += 1) {
    const off = (p: Vec2): number => Math.abs(p.y - line.offset - line.slope * p.x);
    const usual = [...kept].map(off).sort((a, b) => a - b)[Math.floor(kept.length / 2)] ?? 0;
    kept = kept.filter((p) => off(p) <= Math.max(4 * usual, 0.02 * dot));
    if (kept.length < 14) return undefined;
    line = fitLine(kept);
  }
  const uneven = kept.reduce((most, p) => Math.max(most, Math.abs(p.y - line.offset - line.slope * p.x)), 0);
  return { along: true_, scale: line.slope / dot, divisions: kept.length, uneven: uneven / dot };
};

/** The best of the checks found along one direction. */
const bestRule = (
  image: Gray,
  small: Gray,
  by: number,
  tilt: number,
  dot: number,
): MeasuredRule | undefined => {
  const rough = findRules(small, tilt, dot / by).map((rule) => ({
    ...rule,
    zero: rule.zero.map(({ x, y }) => ({
      x: x * by + (by - 1) / 2,
      y: y * by + (by - 1) / 2,
    })) as unknown as RoughRule['zero'],
  }));
  const measured = rough.flatMap((rule) => measureRule(image, rule, dot) ?? []);
  return measured.sort((a, b) => b.divisions - a.divisions || a.uneven - b.uneven)[0];
};

/** The code on a page, looked for in one corner of the picture after another: first where pages have it. */
const findCode = (image: Gray, dpi: number, right: Vec2, up: Vec2): string | undefined => {
  const sharp = shrink(image, Math.max(1, Math.floor(dpi / medium)));
  const [wide, high] = [Math.ceil(0.55 * sharp.width), Math.ceil(0.55 * sharp.height)];
  for (const [across, above] of corners) {
    const [x, y] = [right.x * across + up.x * above, right.y * across + up.y * above];
    const part = cropEven(sharp, x > 0 ? sharp.width - wide : 0, y > 0 ? sharp.height - high : 0, wide, high);
    const found = readCode(part.data, part.width, part.height);
    if (found !== undefined && found.text !== '') return found.text;
  }
  return undefined;
};

/**
 * Measures the scale checks of a printed page in a flat-bed scan of `dpi` dots an inch, turned by up to 6° from any quarter
 * turn. Throws where no pair of checks is found along each of two square directions.
 */
export const measureScan = (image: Gray, dpi: number): ScanReading => {
  const dot = dpi / 25.4;
  const by = Math.max(1, Math.floor(dpi / coarse));
  const small = shrink(image, by);
  const level = bestRule(image, small, by, findTilt(small, 'level'), dot);
  const upright = bestRule(image, small, by, findTilt(small, 'upright') + Math.PI / 2, dot);
  if (level === undefined || upright === undefined)
    throw new Error(
      `no pair of ${level === undefined ? 'level' : 'upright'} scale checks, 100 mm and 4 in, is seen in the picture`,
    );
  // On the picture y runs down: the page's y axis lies a quarter turn counter-clockwise from its x axis.
  const isXLevel = level.along.x * upright.along.y - level.along.y * upright.along.x < 0;
  const [x, y] = isXLevel ? [level, upright] : [upright, level];
  const angle = ({ along }: MeasuredRule): number => Math.atan2(-along.y, along.x);
  const whole = (turn: number): number => turn - (Math.PI / 2) * Math.round(turn / (Math.PI / 2));
  const isHigh = image.height >= image.width;
  return {
    x: x.scale,
    y: y.scale,
    skew: whole(angle(y) - angle(x)),
    tilt: whole(angle(x)),
    divisions: x.divisions + y.divisions,
    uneven: Math.max(x.uneven, y.uneven),
    code: findCode(image, dpi, x.along, y.along),
    isAcrossX: isXLevel === isHigh,
  };
};
