import { boxesMeet, keepClear } from '../drawing/clear.ts';
import { markBounds } from '../drawing/extent.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Lettering, Mark } from '../drawing/model.ts';
import { FINE, growBox, letter, QUARTER, ruleLine } from '../drawing/paths.ts';
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

/** The height of a cut line's highest place. */
const highest = (strip: Strip, edge: CutEdge): number =>
  strip.stations.reduce((most, { x }) => Math.max(most, edge.at(x)), -Infinity);

/** Where the number and the word of a station stand. */
interface Stand {
  /** Baselines over the reference line, mm; undefined where there is no room for them at all. */
  readonly baselines?: { readonly number: number; readonly word: number };
  /** True between the reference line and the cut line above, where the station line then begins over them. */
  readonly isOver: boolean;
  /** True where they take the ground of the lower ordinate. */
  readonly isForOrdinate?: boolean;
  /** True past the cut line, where the word may go further up. */
  readonly isPast?: boolean;
}

/** How far lettering keeps from a cut line on the kept side, and from an ordinate over it, mm. */
const CLEAR = 1.4;

/** Where a number and its word stand under the reference line, on the part that is kept; undefined where they have no room. */
const standUnder = (
  strip: Strip,
  { x, word, lowerOrdinate }: StationLine,
  half: number,
  height: number,
): Stand | undefined => {
  if (!strip.lower) return undefined;
  const ground = edgeRange(strip, strip.lower, x, half)[1] + CLEAR - strip.reference;
  const stack = height + (word ? 2.5 + CLEAR : 0);
  const ordinate = lowerOrdinate === undefined ? 0 : textWidth(lowerOrdinate, 2.5, false);
  const top = [-CLEAR - ordinate - CLEAR, -CLEAR].find((from) => from - stack >= ground);
  if (top === undefined) return undefined;
  return {
    isOver: false,
    isForOrdinate: top === -CLEAR,
    baselines: { number: top - stack, word: top - 2.5 },
  };
};

/**
 * A number and its word stand over the reference line where the cut line leaves room; else under it, still on the part that is
 * kept; else past the cut line.
 */
const standOf = (strip: Strip, station: StationLine, height: number): Stand => {
  const { x, word, label } = station;
  const half = Math.max(textWidth(label, height, true), word ? textWidth(word, 2.5, true) : 0) / 2 + 0.5;
  const stack = (word ? WORD + 2.5 : NUMBER + height) + 1.4;
  if (!strip.upper || roomAbove(strip, x, half) >= stack)
    return { isOver: true, baselines: { number: NUMBER, word: WORD } };
  const under = standUnder(strip, station, half, height);
  if (under) return under;
  if (strip.shared) return { isOver: false };
  // In one row, clear of the highest place of the cut line.
  const past = highest(strip, strip.upper) + CLEAR_OF_HATCH - strip.reference;
  return { isOver: false, isPast: true, baselines: { number: past, word: past + WORD - NUMBER } };
};

const drawLines = (strip: Strip, top: number, standing: (station: StationLine) => Stand): Mark[] =>
  strip.stations.flatMap((station) => {
    const { x, quarter } = station;
    const { reference, upper, lower } = strip;
    const [width, line] = quarter ? ([QUARTER, 'long-dash-dot'] as const) : ([FINE, 'continuous'] as const);
    const end = upper ? upper.at(x) : top;
    const foot = reference + (standing(station).isOver ? LINES_FROM : TICK);
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
  standing: (station: StationLine) => Stand,
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
    const { isOver, isForOrdinate } = standing(station);
    const foot = reference + (isOver ? LINES_FROM : TICK) + 0.8;
    const under = reference - 1.4;
    return [
      ...(ordinate !== undefined && upper && fits(upper, foot, 1, ordinate)
        ? [letter('text', { x: at, y: foot }, ordinate, 2.5, turned)]
        : []),
      ...(lowerOrdinate !== undefined && !isForOrdinate && lower && fits(lower, under, -1, lowerOrdinate)
        ? [letter('text', { x: at, y: under }, lowerOrdinate, 2.5, { ...turned, align: 'right' })]
        : []),
    ];
  });
};

/** Each lettering, first come first served, at the first of its places that stands `gap` mm clear of those before it. */
const placeEach = (places: readonly (readonly Lettering[])[], gap: number): Lettering[] =>
  places.reduce<Lettering[]>((placed, choices) => {
    const clear = choices.find((choice) => keepClear([...placed, choice], gap).length > placed.length);
    return clear ? [...placed, clear] : placed;
  }, []);

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
  const stands = new Map(
    stations.map((station) => [station, standOf(strip, station, heightOf(station))] as const),
  );
  const standing = (station: StationLine): Stand => stands.get(station) ?? { isOver: true };
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
  const write = (
    station: StationLine,
    what: 'number' | 'word',
    text: string,
    height: number,
    bold: boolean,
  ): readonly Lettering[] => {
    const { x, align } = beside(station.x);
    const { baselines, isPast } = standing(station);
    if (baselines === undefined) return [];
    const ups = what === 'word' && isPast ? [0, 3.7, 7.4] : [0];
    return ups.map((up) =>
      letter('text', { x, y: reference + baselines[what] + up }, text, height, { align, bold }),
    );
  };
  const numbers = chosen(labelEvery(stations, 10)).map((station) =>
    write(station, 'number', station.label, heightOf(station), station.quarter),
  );
  const words = stations.map((station) =>
    station.word === undefined ? [] : write(station, 'word', station.word, 2.5, true),
  );
  const ordinates = writeOrdinates(strip, chosen(labelEvery(stations, 4.4)), standing);
  const lines = drawLines(strip, top, standing);
  const placed = placeEach([...numbers, ...words], 1);
  return [
    ...lines,
    ...placed.flatMap((text) => standClear(text, lines)),
    ...keepClear([...placed, ...ordinates], 0.6)
      .slice(placed.length)
      .flatMap((text) => standClear(text, lines)),
  ];
};
