import { boxesMeet, keepClear } from '../drawing/clear.ts';
import { markBounds } from '../drawing/extent.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Lettering, Mark } from '../drawing/model.ts';
import { FINE, growBox, letter, QUARTER, ruleLine } from '../drawing/shape.ts';
import {
  edgeRange,
  LINES_FROM,
  NUMBER,
  TICK,
  WORD,
  type CutEdge,
  type StationLine,
  type Strip,
} from './band-edges.ts';
import { onPaper } from './flat-marks.ts';

/** How far lettering keeps from a cut line on its scrap side: clear of the hatching, mm. */
const CLEAR_OF_HATCH = 4.8;

/** Every how many stations a label of `need` mm fits, keeping the quarter lines labelled. */
const labelEvery = (stations: readonly StationLine[], need: number): number => {
  const spacing = Math.abs((stations[1]?.x ?? Infinity) - (stations[0]?.x ?? 0));
  const quarter = stations.findIndex((station, i) => i > 0 && station.quarter);
  const perQuarter = quarter > 0 ? quarter : stations.length;
  for (let n = 1; n < perQuarter; n++) if (perQuarter % n === 0 && n * spacing >= need) return n;
  return perQuarter;
};

const quarterFirst = (stations: readonly StationLine[]): readonly StationLine[] => [
  ...stations.filter((station) => station.quarter),
  ...stations.filter((station) => !station.quarter),
];

/** How much room there is between the reference line and the cut line above, within `half` mm of x. */
const roomAbove = (strip: Strip, x: number, half: number): number =>
  strip.upper ? edgeRange(strip, strip.upper, x, half)[0] - strip.reference : Infinity;

/** How far a station's number and word go up, mm: past the cut line where there is no room for them under it, infinity for not at all. */
const raise = (strip: Strip, { x, word, label }: StationLine, height: number): number => {
  const half = Math.max(textWidth(label, height, true), word ? textWidth(word, 2.5, true) : 0) / 2 + 0.5;
  const stack = (word ? WORD + 2.5 : NUMBER + height) + 1.4;
  if (!strip.upper || roomAbove(strip, x, half) >= stack) return 0;
  if (strip.shared) return Infinity;
  return edgeRange(strip, strip.upper, x, half)[1] + CLEAR_OF_HATCH - strip.reference - NUMBER;
};

const drawLines = (strip: Strip, top: number, raised: (station: StationLine) => number): Mark[] =>
  strip.stations.flatMap((station) => {
    const { x, quarter } = station;
    const { reference, upper, lower } = strip;
    const [width, line] = quarter ? ([QUARTER, 'long-dash-dot'] as const) : ([FINE, 'continuous'] as const);
    const end = upper ? upper.at(x) : top;
    const foot = reference + (raised(station) > 0 ? TICK : LINES_FROM);
    const under = lower && { x, y: lower.at(x) };
    return [
      ...(under && under.y < reference ? [ruleLine('station', { x, y: reference }, under, width, line)] : []),
      ...(end > reference
        ? [ruleLine('station', { x, y: reference }, { x, y: Math.min(end, reference + TICK) }, width)]
        : []),
      ...(end > foot ? [ruleLine('station', { x, y: foot }, { x, y: end }, width, line)] : []),
    ];
  });

/** The figures that stand along a station line, read upward, where the kept part has room for them. */
const writeOrdinates = (
  strip: Strip,
  stations: readonly StationLine[],
  raised: (station: StationLine) => number,
): Lettering[] => {
  const { from, reference, upper, lower } = strip;
  const turned = { angle: Math.PI / 2 };
  return stations.flatMap((station) => {
    const { x, ordinate, lowerOrdinate } = station;
    const at = x <= from + 1e-6 ? x + 3.4 : x - 0.9;
    const fits = (edge: CutEdge, foot: number, side: 1 | -1, text: string): boolean => {
      const [low, high] = edgeRange(strip, edge, at - 1.2, 1.5);
      return (side > 0 ? low - foot : foot - high) >= textWidth(text, 2.5, false) + 1.2;
    };
    const foot = reference + (raised(station) > 0 ? TICK : LINES_FROM) + 0.8;
    const under = reference - 1.4;
    return [
      ...(ordinate !== undefined && upper && fits(upper, foot, 1, ordinate)
        ? [letter('text', { x: at, y: foot }, ordinate, 2.5, turned)]
        : []),
      ...(lowerOrdinate !== undefined && lower && fits(lower, under, -1, lowerOrdinate)
        ? [letter('text', { x: at, y: under }, lowerOrdinate, 2.5, { ...turned, align: 'right' })]
        : []),
    ];
  });
};

/** A number or word, on white where a line beside it would run through it: faces lie closer than their names are wide. */
const standClear = (text: Lettering, lines: readonly Mark[]): Mark[] => {
  const box = letteringBox(text);
  const isStruck = lines.some((line) => boxesMeet(markBounds(line), growBox(box, 0.3)));
  return isStruck ? onPaper(text, 0.3) : [text];
};

/** Station lines with their ticks, numbers, words and ordinates. `top` is where they end without a cut above. */
export const drawStations = (strip: Strip, top: number): Mark[] => {
  const { stations, reference, from, to } = strip;
  const tight = (to - from) / 4 < 24;
  const heightOf = (station: StationLine): number => (station.quarter && !tight ? 5 : 3.5);
  const raises = new Map(
    stations.map((station) => [station, raise(strip, station, heightOf(station))] as const),
  );
  const raised = (station: StationLine): number => raises.get(station) ?? 0;
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
  const numbers = chosen(labelEvery(stations, 10)).map((station) => {
    const { x, align } = beside(station.x);
    const y = reference + NUMBER + raised(station);
    return letter('text', { x, y }, station.label, heightOf(station), { align, bold: station.quarter });
  });
  const words = stations.flatMap((station) => {
    const { x, align } = beside(station.x);
    const y = reference + WORD + raised(station);
    return station.word ? [letter('text', { x, y }, station.word, 2.5, { align, bold: true })] : [];
  });
  const ordinates = writeOrdinates(strip, chosen(labelEvery(stations, 4.4)), raised);
  const lines = drawLines(strip, top, raised);
  return [
    ...lines,
    ...keepClear(
      [...numbers, ...words].filter(({ at }) => Number.isFinite(at.y)),
      1,
    ).flatMap((text) => standClear(text, lines)),
    ...keepClear(ordinates, 0.6),
  ];
};
