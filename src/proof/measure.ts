import { itemAt, lastOf } from '../lists.ts';
import { pickLine, rangeOf, readCuts, type Stretch } from './cut-lines.ts';
import { drawnOn, gap, NEAR, notThere, STEP, type Drawn } from './drawn.ts';
import { placeOn, type Place } from './lay.ts';
import { needPairs } from './limits.ts';
import type { PdfFile } from './pdf-reader.ts';
import type { Measured, Spot } from './printed-record.ts';
import type { FitLine, SheetFit } from './record.ts';
import type { Vec2, Vec3 } from './space.ts';
import { say } from '../words/say.ts';

/** Measures on a sheet's own drawing what `soapstone.json` says is shown there. Sheet mm and radians. */

/** A step around the steel that cuts off more of a bend than this is halved, mm. */
const CUT_OFF = 1e-5;

/** The middle of the circle through three points, and its radius. */
const middleOf = (p: Vec2, q: Vec2, r: Vec2): Vec2 & { readonly radius: number } => {
  const [u, v] = [
    { x: q.x - p.x, y: q.y - p.y },
    { x: r.x - p.x, y: r.y - p.y },
  ];
  const d = 2 * (u.x * v.y - u.y * v.x);
  const [uu, vv] = [u.x * u.x + u.y * u.y, v.x * v.x + v.y * v.y];
  const [x, y] = [(v.y * uu - u.y * vv) / d, (u.x * vv - v.x * uu) / d];
  return { x: p.x + x, y: p.y + y, radius: Math.hypot(x, y) };
};

/** The angle about a middle from one point over a second to a third. */
const sweepOver = (middle: Vec2, a: Vec2, b: Vec2, c: Vec2): number => {
  const toward = (p: Vec2): number => Math.atan2(p.y - middle.y, p.x - middle.x);
  const [from, over, to] = [toward(a), toward(b), toward(c)];
  const on = (angle: number): number => (((angle - from) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return on(over) < on(to) ? on(to) : 2 * Math.PI - on(to);
};

/** A sheet's lines, and the steel it is laid on. */
interface Laid {
  readonly drawn: Drawn;
  /** Where a point of the sheet comes to lie on the steel. */
  readonly place: (p: Vec2) => Vec3;
  /** Around the steel from one sheet x to another: the way of the points between them laid on the part. */
  readonly around: (from: number, to: number) => number;
  /** The first and the last station. */
  readonly stations: () => readonly [number, number];
  /** The stretches of a cut line, or everything that is cut. Throws where there is none. */
  readonly lineOf: (which: FitLine['which'] | undefined) => readonly Stretch[];
  /** Refuses more looks than any print needs. */
  readonly spend: (looks: number) => void;
}

const layOn = (file: PdfFile, sheet: string, fit: SheetFit | undefined): Laid => {
  let looked = 0;
  const spend = (looks: number): void => {
    looked += looks;
    needPairs(looked, say`looks at a drawing`);
  };
  const drawn = drawnOn(file, sheet, spend);
  let steel: Place | undefined;
  const place = (p: Vec2): Vec3 => (steel ??= placeOn(fit?.lay ?? { kind: 'flat' }))(p, 0);
  const round = fit?.lay.kind === 'round' ? fit.lay : undefined;
  const around = (from: number, to: number): number => {
    if (to < from) return -around(to, from);
    // Plate that is rolled lies flat, on its mean diameter; paper lies half its thickness over the steel.
    if (round)
      return round.sheetGirth < Math.PI * round.od
        ? to - from
        : ((to - from) * Math.PI * round.od) / round.sheetGirth;
    const steps = Math.max(1, Math.ceil((to - from) / STEP));
    const at = (i: number): Vec3 => place({ x: from + ((to - from) * i) / steps, y: 0 });
    /** Halved where a sharp corner of the stock lies between. */
    const way = (a: number, b: number): number => {
      spend(1);
      const half = (a + b) / 2;
      const [straight, bent] = [wayOf([at(a), at(b)]), wayOf([at(a), at(half), at(b)])];
      return bent - straight < CUT_OFF || b - a < 1e-6 ? bent : way(a, half) + way(half, b);
    };
    return Array.from({ length: steps }, (_, i) => way(i, i + 1)).reduce((sum, one) => sum + one, 0);
  };
  let cuts: readonly Stretch[] | undefined;
  let ends: readonly [number, number] | undefined;
  return {
    drawn,
    place,
    around,
    spend,
    stations: () =>
      (ends ??= rangeOf(drawn.pieces('station').flatMap((piece) => [piece.low.x, piece.high.x]))),
    lineOf: (which) => {
      cuts ??= readCuts(file, sheet).stretches;
      const isOneOfSeveral = which !== 'closed' && (fit?.lines.length ?? 0) > 1;
      const found = which === undefined ? cuts : pickLine(cuts, which, isOneOfSeveral);
      spend(found.reduce((sum, { points }) => sum + points.length, 0));
      return found.length > 0 ? found : notThere(say`cut line`, { x: 0, y: 0 });
    },
  };
};

/** A way along a sheet as less than once around to the right. */
const rightward = (way: number, [low, high]: readonly [number, number]): number => {
  const once = high - low;
  const turned = ((way % once) + once) % once;
  return once - turned < NEAR ? 0 : turned;
};

/** What can be measured on one sheet of a file. Throws where what is meant is not drawn. */
export const measureOn = (
  file: PdfFile,
  sheet: string,
  fit: SheetFit | undefined,
): ((measured: Measured) => number) => {
  const { drawn, place, around, stations, lineOf, spend } = layOn(file, sheet, fit);
  const pointsOf = (which: FitLine['which'] | undefined): readonly Vec2[] =>
    lineOf(which).flatMap(({ points }) => points);
  const measure = (measured: Measured): number => {
    switch (measured.kind) {
      case 'distance': {
        const [a, b] = [drawn.find(measured.from), drawn.find(measured.to)];
        if (measured.along === 'around') return around(a.x, b.x);
        if (measured.along === 'onward') return around(a.x, a.x + rightward(b.x - a.x, stations()));
        return measured.along === undefined ? gap(a, b) : b[measured.along] - a[measured.along];
      }
      case 'extent': {
        const axis = measured.along === 'y' ? 'y' : 'x';
        const [low, high] = rangeOf(pointsOf(measured.line).map((p) => p[axis]));
        return measured.along === 'around' ? around(low, high) : high - low;
      }
      case 'height': {
        const [low, high] = rangeOf(pointsOf(measured.line).map(({ y }) => y));
        return measured.end === 'high' ? high : low;
      }
      case 'area':
        return areaOf(lineOf(measured.line), around, spend);
      case 'rolled':
        return wayOf(onceAcross(lineOf(measured.line)).map(place));
      case 'tilt':
        return tiltOf(onceAcross(lineOf(measured.line)).map(place));
      case 'across': {
        const { x, y } = measured.along;
        const size = Math.hypot(x, y);
        const placed = pointsOf(measured.line).map(place);
        const [low, high] = rangeOf(placed.map((p) => (p.x * x + p.y * y) / size));
        return high - low;
      }
      case 'girth': {
        const [low, high] = stations();
        return around(low, high);
      }
      case 'circle': {
        const [first, over, last] = measured.through;
        const [a, b, c] = [drawn.find(first), drawn.find(over), drawn.find(last)];
        const middle = middleOf(a, b, c);
        if (measured.give === 'radius') return middle.radius;
        const sweep = sweepOver(middle, a, b, c);
        return measured.give === 'angle' ? sweep : sweep * middle.radius;
      }
      case 'angle': {
        const way = ([a, b]: readonly [Spot, Spot]): number => {
          const [p, q] = [drawn.find(a), drawn.find(b)];
          return Math.atan2(q.y - p.y, q.x - p.x);
        };
        const turn = way(measured.to) - way(measured.from);
        const between = Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn)));
        return measured.give === 'cotangent' ? 1 / Math.tan(between) : between;
      }
    }
  };
  return (measured) => measure(measured) * (measured.times ?? 1) + (measured.plus ?? 0);
};

const wayOf = (points: readonly Vec3[]): number =>
  points.slice(1).reduce((sum, p, i) => {
    const last = itemAt(points, i);
    return sum + Math.hypot(p.x - last.x, p.y - last.y, p.z - last.z);
  }, 0);

/** The points of a line from left to right, those that two tiles show only once. */
const onceAcross = (stretches: readonly Stretch[]): readonly Vec2[] => {
  const rising = stretches.map(({ points }) =>
    itemAt(points, 0).x <= lastOf(points).x ? points : [...points].reverse(),
  );
  const sorted = [...rising].sort((a, b) => itemAt(a, 0).x - itemAt(b, 0).x);
  let reach = -Infinity;
  return sorted.flatMap((points) => {
    const fresh = points.filter(({ x }) => x > reach - 1e-9);
    reach = Math.max(reach, lastOf(points).x);
    return fresh;
  });
};

/** How far from square to the z axis the plane through points of a line stands. */
const tiltOf = (points: readonly Vec3[]): number => {
  const at = (share: number): Vec3 => itemAt(points, Math.floor(share * points.length));
  const [p, q, r] = [at(0), at(1 / 3), at(2 / 3)];
  const [u, v] = [
    { x: q.x - p.x, y: q.y - p.y, z: q.z - p.z },
    { x: r.x - p.x, y: r.y - p.y, z: r.z - p.z },
  ];
  const n = { x: u.y * v.z - u.z * v.y, y: u.z * v.x - u.x * v.z, z: u.x * v.y - u.y * v.x };
  return Math.atan2(Math.hypot(n.x, n.y), Math.abs(n.z));
};

const SLICES = 4000;

/** A height at which a slice crosses a line that a tile shows. */
interface Crossing {
  readonly y: number;
  readonly tile: string;
}

/** The heights of a slice, those once that neighboring tiles both show, as near to each other as `near` mm. */
const heightsOnce = (crossings: readonly Crossing[], near: number): readonly number[] => {
  const found: { y: number; tiles: string[] }[] = [];
  for (const { y, tile } of crossings) {
    const last = found.at(-1);
    if (last && y - last.y < near && !last.tiles.includes(tile)) last.tiles.push(tile);
    else found.push({ y, tiles: [tile] });
  }
  return found.map(({ y }) => y);
};

/** How much of a slice lies inside; undefined where its lines do not pair, as where one runs along it. */
const insideOf = (crossings: readonly Crossing[]): number | undefined => {
  const heights = [NEAR, 10 * NEAR]
    .map((near) => heightsOnce(crossings, near))
    .find(({ length }) => length % 2 === 0);
  return heights?.reduce((sum, y, k) => sum + (k % 2 === 0 ? -y : y), 0);
};

/** The area inside outlines, by slices across them. */
const areaOf = (stretches: readonly Stretch[], around: Laid['around'], spend: Laid['spend']): number => {
  const [low, high] = rangeOf(stretches.flatMap(({ points }) => points.map(({ x }) => x)));
  const width = (high - low) / SLICES;
  spend(SLICES + stretches.reduce((total, { points }) => total + points.length, 0));
  const slices = Array.from({ length: SLICES }, (): Crossing[] => []);
  /** The first slice whose middle does not lie left of x. */
  const sliceAt = (x: number): number => Math.max(0, Math.ceil((x - low) / width - 0.5));
  for (const { points, tile } of stretches)
    points.slice(1).forEach((q, i) => {
      const p = itemAt(points, i);
      const [a, b] = p.x < q.x ? [p, q] : [q, p];
      const climb = (b.y - a.y) / (b.x - a.x);
      for (let k = sliceAt(a.x); k < sliceAt(b.x); k++)
        slices[k]?.push({ y: a.y + climb * (low + (k + 0.5) * width - a.x), tile });
    });
  let [sum, last] = [0, 0];
  for (const slice of slices) {
    last = insideOf(slice.sort((a, b) => a.y - b.y)) ?? last;
    sum += last * width;
  }
  return (sum * around(low, high)) / (high - low);
};
