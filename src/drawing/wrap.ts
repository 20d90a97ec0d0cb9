import { cubicAt, type Cubic } from '../geometry/fit.ts';
import { add2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { markBounds } from './extent.ts';
import { letteringBox, textWidth } from './lettering.ts';
import type { Box, Lettering, Mark } from './model.ts';
import {
  cubicPath,
  FINE,
  growBox,
  knockout,
  letter,
  linePath,
  MEDIUM,
  NARROW,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from './shape.ts';

/** A line along the stock at one angle round it. */
export interface StationLine {
  /** Sheet x, mm. */
  readonly x: number;
  /** Number as written, e.g. `45°`. */
  readonly label: string;
  readonly quarter: boolean;
  /** A word beside the number: `HEEL · TDC`, `SIDE`. */
  readonly word?: string;
  /** Distance from the reference edge to the cut line as written; left out where there is no cut. */
  readonly ordinate?: string;
}

/** A label at any place round the stock. */
export interface PlacedLabel {
  readonly x: number;
  readonly text: string;
}

/** A band that wraps round a stock, in sheet mm. */
export interface Wrap {
  /** Left and right seam. */
  readonly from: number;
  readonly to: number;
  /** Height of the straight reference edge. */
  readonly reference: number;
  /** Height of the paper's upper edge. */
  readonly top: number;
  /** The cut line, left to right; without one the upper edge is a second straight edge. */
  readonly cut?: readonly Cubic[];
  /** Height of the cut line at sheet x. */
  readonly cutAt?: (x: number) => number;
  readonly stations: readonly StationLine[];
  readonly labels?: readonly PlacedLabel[];
  readonly tab: number;
}

/** Heights above the reference edge, mm: ticks, numbers, words, then the station lines begin. */
const TICK = 3;
const NUMBER = 4.2;
const WORD = 10.6;
const LINES_FROM = 14.6;
const ORDINATE_LENGTH = 11;
/** Least height of the kept part of a band: numbers, ordinates and KEEP one above the other, mm. */
export const LEAST_KEEP = 40;
/** Least height of the scrap above the cut line's highest point, mm. */
export const LEAST_SCRAP = 14;
/** Width of the overlap tab, mm. */
export const TAB = 15;

/** Every how many stations a label of `need` mm fits, keeping the quarter lines labelled. */
const labelEvery = (stations: readonly StationLine[], need: number): number => {
  const spacing = Math.abs((stations[1]?.x ?? Infinity) - (stations[0]?.x ?? 0));
  const quarter = stations.findIndex((station, i) => i > 0 && station.quarter);
  const perQuarter = quarter > 0 ? quarter : stations.length;
  for (let n = 1; n < perQuarter; n++) if (perQuarter % n === 0 && n * spacing >= need) return n;
  return perQuarter;
};

/** Short strokes on the scrap side of a cut line, clear of the line itself. `side` 1 is left of its direction. */
export const hatchScrap = (cut: readonly Cubic[], side: 1 | -1, spacing = 4, length = 3): Mark[] => {
  const marks: Mark[] = [];
  let next = spacing / 2;
  let run = 0;
  for (const cubic of cut) {
    let last = cubic.start;
    for (let i = 1; i <= 200; i++) {
      const p = cubicAt(cubic, i / 200);
      const step = sub2(p, last);
      const size = Math.hypot(step.x, step.y);
      while (size > 0 && run + size >= next) {
        const foot = add2(last, scale2(step, (next - run) / size));
        const outward = scale2(left2(unit2(step)), side);
        const lean = unit2(add2(outward, scale2(unit2(step), 0.8)));
        marks.push(
          ruleLine('dimension', add2(foot, scale2(lean, 0.9)), add2(foot, scale2(lean, 0.9 + length)), FINE),
        );
        next += spacing;
      }
      run += size;
      last = p;
    }
  }
  return marks;
};

/** True for marks that keep between two sheet xs. */
const within =
  (from: number, to: number) =>
  (mark: Mark): boolean => {
    const { minX, maxX } = markBounds(mark);
    return minX >= from && maxX <= to;
  };

/** A big word with white paper behind it, centred on `at`. */
export const bigWord = (at: Vec2, text: string, height: number): Mark[] => {
  const half = textWidth(text, height, true) / 2 + 1;
  const box: Box = {
    minX: at.x - half,
    maxX: at.x + half,
    minY: at.y - height * 0.5 - 1,
    maxY: at.y + height * 0.5 + 1,
  };
  return [
    knockout('text', box),
    letter('text', at, text, height, { align: 'centre', valign: 'middle', bold: true }),
  ];
};

/** Keeps the letterings, first come first served, that stand clear of those before them. */
const keepClear = (candidates: readonly Lettering[], gap: number): Lettering[] => {
  const taken: Box[] = [];
  return candidates.filter((candidate) => {
    const box = growBox(letteringBox(candidate), gap / 2);
    const clear = taken.every(
      (other) =>
        box.maxX <= other.minX || box.minX >= other.maxX || box.maxY <= other.minY || box.minY >= other.maxY,
    );
    if (clear) taken.push(box);
    return clear;
  });
};

const quarterFirst = (stations: readonly StationLine[]): readonly StationLine[] => [
  ...stations.filter((station) => station.quarter),
  ...stations.filter((station) => !station.quarter),
];

const drawStations = (wrap: Wrap): Mark[] => {
  const { stations, reference, from, to, top, cutAt } = wrap;
  const lines = stations.flatMap(({ x, quarter }) => {
    const width = quarter ? QUARTER : FINE;
    const foot = { x, y: reference + LINES_FROM };
    return [
      ruleLine('station', { x, y: reference }, { x, y: reference + TICK }, width),
      ruleLine(
        'station',
        foot,
        { x, y: cutAt ? cutAt(x) : top },
        width,
        quarter ? 'long-dash-dot' : 'continuous',
      ),
    ];
  });
  const tight = (to - from) / 4 < 24;
  const everyNumber = labelEvery(stations, 10);
  const everyOrdinate = labelEvery(stations, 4.4);
  const first = Math.max(
    0,
    stations.findIndex((station) => station.quarter),
  );
  const chosen = (every: number) =>
    quarterFirst(stations.filter((station, i) => station.quarter || (i - first) % every === 0));
  /** Beside the seams everything stands inside the band. */
  const beside = (x: number): Pick<Lettering, 'align'> & { readonly x: number } =>
    x <= from + 1e-6
      ? { x: x + 1.2, align: 'left' }
      : x >= to - 1e-6
        ? { x: x - 1.2, align: 'right' }
        : { x, align: 'centre' };

  const numbers = chosen(everyNumber).map(({ x, label, quarter }) => {
    const place = beside(x);
    const height = quarter && !tight ? 5 : 3.5;
    return letter('text', { x: place.x, y: reference + NUMBER }, label, height, {
      align: place.align,
      bold: quarter,
    });
  });
  const words = stations.flatMap(({ x, word }) => {
    const place = beside(x);
    if (word === undefined || word === '') return [];
    return [
      letter('text', { x: place.x, y: reference + WORD }, word, 2.5, { align: place.align, bold: true }),
    ];
  });
  const ordinates = chosen(everyOrdinate).flatMap(({ x, ordinate }) => {
    if (ordinate === undefined) return [];
    const at = { x: x <= from + 1e-6 ? x + 3.4 : x - 0.9, y: reference + LINES_FROM + 0.8 };
    return [letter('text', at, ordinate, 2.5, { angle: Math.PI / 2 })];
  });
  return [...lines, ...keepClear(numbers, 1.6), ...keepClear(words, 1.6), ...keepClear(ordinates, 0.6)];
};

/** The places for KEEP along the band: between quarter lines, about one every 150 mm. */
const wordPlaces = ({ from, to }: Wrap, apart: number): number[] => {
  const count = Math.max(1, Math.round((to - from) / apart));
  return Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 0.5)) / count);
};

const nudge = (wrap: Wrap, x: number): number => {
  const stations = wrap.stations.filter((station) => station.quarter);
  const near = stations.find((station) => Math.abs(station.x - x) < 14);
  const gap = (wrap.to - wrap.from) / 8;
  return near ? Math.min(wrap.to - 14, near.x + Math.min(gap, 40)) : x;
};

/** Draws a wrap-around band: edges, tab, stations, cut line, hatching, KEEP and SCRAP. */
export const drawWrap = (wrap: Wrap): { readonly marks: readonly Mark[]; readonly bounds: Box } => {
  const { from, to, reference, top, cut, cutAt, tab } = wrap;
  const corner = (x: number, y: number): Vec2 => ({ x, y });
  const marks: Mark[] = [
    ruleLine('reference', corner(from, reference), corner(to, reference), MEDIUM),
    stroke(
      'reference',
      polylinePath([
        corner(to, reference),
        corner(to + tab, reference),
        corner(to + tab, top),
        corner(to, top),
      ]),
      FINE,
    ),
    ruleLine('reference', corner(from, top), corner(to, top), cut ? FINE : MEDIUM),
    ruleLine('reference', corner(from, reference), corner(from, top), NARROW),
    ruleLine('reference', corner(to, reference), corner(to, top), NARROW),
    letter('text', corner(to + tab / 2, (reference + top) / 2), 'TAB: goes under the other end', 2.5, {
      align: 'centre',
      valign: 'middle',
      angle: Math.PI / 2,
    }),
    ...drawStations(wrap),
  ];
  if (cut && cutAt) {
    marks.push(...hatchScrap(cut, 1).filter(within(from, to)), stroke('cut', cubicPath(cut), WIDE));
    const keepHeight = (to - from) / 4 < 30 ? 5 : 7;
    for (const place of wordPlaces(wrap, 150)) {
      const x = nudge(wrap, place);
      const half = textWidth('KEEP', keepHeight, true) / 2;
      const ceiling = Math.min(cutAt(x), cutAt(x - half), cutAt(x + half));
      const floor = reference + LINES_FROM + ORDINATE_LENGTH + 1.5;
      const y = Math.max(floor + keepHeight / 2 + 0.6, Math.min((floor + ceiling) / 2, floor + 30));
      marks.push(...bigWord(corner(x, y), 'KEEP', keepHeight));
    }
    for (const place of scrapPlaces(wrap)) {
      const half = textWidth('SCRAP', 5, true) / 2;
      const floor = Math.max(cutAt(place), cutAt(place - half), cutAt(place + half)) + 5.5;
      if (top - floor > 6)
        marks.push(...bigWord(corner(place, Math.min((floor + top) / 2, floor + 12)), 'SCRAP', 5));
    }
  }
  for (const label of wrap.labels ?? []) marks.push(...drawLabel(wrap, label));
  return {
    marks,
    bounds: { minX: from - 0.5, maxX: to + tab + 0.5, minY: reference - 0.5, maxY: top + 0.5 },
  };
};

/** The places for SCRAP: where the scrap is highest, one every 250 mm at least. */
const scrapPlaces = (wrap: Wrap): number[] => {
  const { from, to, cutAt } = wrap;
  if (!cutAt) return [];
  const count = Math.max(1, Math.round((to - from) / 250));
  const margin = textWidth('SCRAP', 5, true) / 2 + 2;
  return Array.from({ length: count }, (_, k) => {
    const a = Math.max(from + margin, from + ((to - from) * k) / count + margin);
    const b = Math.min(to - margin, from + ((to - from) * (k + 1)) / count - margin);
    let best = a;
    for (let i = 0; i <= 40; i++) {
      const x = a + ((b - a) * i) / 40;
      if (cutAt(x) < cutAt(best) - 1e-6) best = x;
    }
    return best;
  });
};

/** A labelled line at any angle, with its text reading upward beside it. */
const drawLabel = (wrap: Wrap, { x, text }: PlacedLabel): Mark[] => {
  const end = wrap.cutAt ? wrap.cutAt(x) : wrap.top;
  const size = textWidth(text, 3.5, true);
  const low = wrap.reference + LINES_FROM + ORDINATE_LENGTH + 2;
  return [
    stroke('station', linePath({ x, y: wrap.reference }, { x, y: end }), MEDIUM),
    knockout('text', { minX: x - 5.4, maxX: x - 0.6, minY: low - 0.6, maxY: low + size + 0.6 }),
    letter('text', { x: x - 1.2, y: low }, text, 3.5, { angle: Math.PI / 2, bold: true }),
  ];
};
