import { keepClear } from '../drawing/clear.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Box, Figure, Mark, Table } from '../drawing/model.ts';
import { bigWord, hatchScrap } from '../drawing/scrap.ts';
import {
  boxPath,
  cubicPath,
  FINE,
  growBox,
  knockout,
  letter,
  MEDIUM,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from '../drawing/paths.ts';
import { cubicAt, fitCurve, lineExtent, type Cubic } from '../geometry/cubic.ts';
import { halve } from '../geometry/halving.ts';
import type { Opening } from '../geometry/opening.ts';
import { checkSize } from '../geometry/size-limit.ts';
import { CURVE_TOLERANCE } from '../geometry/tolerance.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { OpeningGround, QuarterWords } from '../joint/bodies/body.ts';
import { lengthOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { say } from '../words/say.ts';
import { roundBelow } from './band-paper.ts';
import { apart, levelAt, ORIGIN, shown, uprightAt } from './measured.ts';

/** Lines across the opening for tape layout, both tips included. */
const LINES = 13;

/** Least width of paper round the opening, mm. */
const BORDER = 22;

/** A line across the opening: where it lies, and its edges along it, mm. */
export interface TapeLine {
  readonly s: number;
  readonly lower: number;
  readonly upper: number;
}

/** An opening drawn full size. */
export interface OpeningDrawing {
  readonly marks: readonly Mark[];
  readonly bounds: Box;
  /** Box round the opening. */
  readonly inner: Box;
  /** Height of the paper's lower edge, mm. */
  readonly reference: number;
  readonly lines: readonly TapeLine[];
}

const tapeLines = (opening: Opening): readonly TapeLine[] =>
  Array.from({ length: LINES }, (_, i) => {
    const s = i === LINES - 1 ? opening.to : opening.from + ((opening.to - opening.from) * i) / (LINES - 1);
    return { s, lower: opening.lower(s), upper: opening.upper(s) };
  });

/**
 * Draws an opening on its ground. `line` is its edge on the paper. Sheet frame: origin where 0° line and square line cross,
 * y along the body toward station 0 of the branch, x × y out of the body.
 * @param numbers stations of the branch toward the top, right, bottom and left of the sheet
 */
export const drawOpening = (
  opening: Opening,
  line: readonly Cubic[],
  ground: OpeningGround,
  words: QuarterWords,
  name: string,
  setting: Setting,
  numbers: QuarterWords = ['0°', '90°', '180°', '270°'],
): OpeningDrawing => {
  const inner: Box = lineExtent(line);
  const reference = roundBelow(Math.min(inner.minY, 0), BORDER, setting);
  const area: Box = {
    minX: Math.min(inner.minX, 0) - BORDER,
    maxX: Math.max(inner.maxX, 0) + BORDER,
    minY: reference,
    maxY: Math.max(inner.maxY, 0) + BORDER,
  };
  checkSize(area);
  const lines = tapeLines(opening);
  const place = ({ s }: TapeLine, t: number): Vec2 => ground.place(s, t);
  const marks: Mark[] = [
    stroke('reference', boxPath(area), FINE),
    ruleLine('reference', { x: area.minX, y: area.minY }, { x: area.maxX, y: area.minY }, MEDIUM),
    ...drawAxes(area, inner, ground, words, numbers, name),
    ...lines
      .slice(1, -1)
      .map((tape) => ruleLine('station', place(tape, tape.lower), place(tape, tape.upper), FINE)),
    ...numberLines(lines, opening, ground),
    ...hatchScrap(line, -1),
    letter('text', { x: area.minX + 4, y: area.minY + 11 }, say`KEEP`, 5, { bold: true }),
    ...scrapWord(inner, opening, ground),
    // Drawn last, so that the white paper behind a number never lies over it.
    stroke('cut', cubicPath(line, true), WIDE),
  ];
  return { marks, bounds: growBox(area, 0.5), inner, reference, lines };
};

/** The line of the body that faces the branch, the square line, and which way the branch leans. */
const drawAxes = (
  area: Box,
  inner: Box,
  ground: OpeningGround,
  words: QuarterWords,
  numbers: QuarterWords,
  name: string,
): Mark[] => {
  const [heel, right, crotch, left] = words.map((word) => word.replace(' · TDC', ''));
  const square = squareLine(area, ground);
  return [
    ruleLine('centre', { x: 0, y: area.minY }, { x: 0, y: area.maxY }, QUARTER, 'long-dash-dot'),
    stroke('centre', cubicPath(square), QUARTER, 'long-dash-dot'),
    ...nameEnd(area.maxY - 4.5, `▲ ${numbers[0]} ${heel ?? ''}`, area),
    ...nameEnd(area.minY + 4.5, `▼ ${numbers[2]} ${crotch ?? ''}`, area),
    ...nameSide(square, -1, numbers[1], right ?? ''),
    ...nameSide(square, 1, numbers[3], left ?? ''),
    nameAxis(say`0° line of the ${name}`, inner.minY - 9, area),
  ];
};

/** The name of an end of the 0° line, over the line but inside the paper, whose edge may be near. */
const nameEnd = (y: number, text: string, { minX, maxX }: Box): Mark[] => {
  const half = textWidth(text, 3.5, true) / 2 + 1.5;
  return bigWord({ x: Math.max(minX + half, Math.min(0, maxX - half)), y }, text, 3.5);
};

/** The number over an end of the square line and its word under it, clear of a line that is curved: `way` leads along it, 1 from its left end. */
const nameSide = (square: readonly Cubic[], way: 1 | -1, number: string, word: string): Mark[] => {
  const end = way > 0 ? square[0]?.start : square.at(-1)?.end;
  if (end === undefined) return [];
  const along = square.flatMap((cubic) => Array.from({ length: 17 }, (_, i) => cubicAt(cubic, i / 16)));
  const heights = (width: number): number[] => [
    end.y,
    ...along.filter(({ x }) => (x - end.x) * way <= width + 2).map(({ y }) => y),
  ];
  const align = way > 0 ? 'left' : 'right';
  const x = end.x + way * 1.5;
  const over = Math.max(...heights(textWidth(number, 3.5, true)));
  const under = Math.min(...heights(textWidth(word, 2.5, false)));
  return [
    letter('text', { x, y: over + 1.2 }, number, 3.5, { align, bold: true }),
    letter('text', { x, y: under - 4.8 }, word, 2.5, { align }),
  ];
};

/** The name of the 0° line: to its right, or to its left where there is no room; short where there is none on either side. */
const nameAxis = (text: string, y: number, { minX, maxX }: Box): Mark => {
  const reach = 1.2 + textWidth(text, 2.5, false) + 1;
  if (reach < maxX) return letter('text', { x: 1.2, y }, text, 2.5);
  return reach < -minX
    ? letter('text', { x: -1.2, y }, text, 2.5, { align: 'right' })
    : letter('text', { x: 1.2, y }, say`0° line`, 2.5);
};

/** The square line across the paper: straight on a stock, curved on a cone. */
const squareLine = (area: Box, ground: OpeningGround): readonly Cubic[] => {
  const at = (s: number): Vec2 => ground.place(s, ground.level(s));
  const edge = (x: number, far: number): number => {
    const isShort = (s: number): boolean => (at(s).x - x) * Math.sign(far - ground.middle) < 0;
    return (at(far).x - x) * Math.sign(far - ground.middle) <= 0
      ? far
      : halve(isShort, ground.middle, far).low;
  };
  const from = edge(area.minX, 2 * ground.facing[0] - ground.middle);
  const to = edge(area.maxX, 2 * ground.facing[1] - ground.middle);
  return fitCurve(at, from, to, CURVE_TOLERANCE);
};

/** Lines in the order they are numbered where there is no room for all: the tips, the middle, between these, the rest. */
const numberOrder = (i: number): number => {
  const middle = (LINES - 1) / 2;
  if (i === 0 || i === LINES - 1) return 0;
  if (i === middle) return 1;
  return i % 3 === 0 ? 2 : 3;
};

/** Height of the numbers, and how far they keep from the square line, mm. */
const [NUMBER, CLEAR_OF_SQUARE] = [2.5, 0.8];

/** Numbers of the tape lines, outside the opening and clear of each other, on white where an axis would run through them. */
const numberLines = (lines: readonly TapeLine[], opening: Opening, ground: OpeningGround): Mark[] => {
  const { from, to } = opening;
  const edge = Array.from({ length: 401 }, (_, i) => from + ((to - from) * i) / 400).map((s) =>
    ground.place(s, opening.upper(s)),
  );
  /** How high the edge reaches over a number, which stands on it where it rises steeply. */
  const top = (x: number, half: number): number =>
    Math.max(...edge.filter((p) => Math.abs(p.x - x) <= half).map((p) => p.y));
  const numbers = lines.map(({ s, upper }, i) => {
    const { x, y } = ground.place(s, upper);
    const tip = i === 0 ? 'right' : i === LINES - 1 ? 'left' : undefined;
    const half = textWidth(String(i + 1), NUMBER, false) / 2 + 0.6;
    const at =
      tip === undefined
        ? { x, y: Math.max(y, top(x, half)) + 1.6 }
        : { x: tip === 'right' ? x - 1.6 : x + 1.6, y: y - NUMBER / 2 };
    // Not on the square line, which would join one number to the next: over it.
    const square = ground.place(s, ground.level(s)).y;
    const isOnSquare = at.y - CLEAR_OF_SQUARE < square && at.y + NUMBER + CLEAR_OF_SQUARE > square;
    const number = letter(
      'text',
      isOnSquare ? { x: at.x, y: square + CLEAR_OF_SQUARE } : at,
      String(i + 1),
      NUMBER,
      { align: tip ?? 'centre' },
    );
    return { number, order: numberOrder(i) };
  });
  return keepClear(
    numbers.sort((a, b) => a.order - b.order).map(({ number }) => number),
    0.8,
  ).flatMap((number) => [knockout('text', growBox(letteringBox(number), 0.3)), number]);
};

const scrapWord = (inner: Box, opening: Opening, ground: OpeningGround): Mark[] => {
  const { from, to } = opening;
  const s = (from + to) / 2;
  const [lower, upper] = [opening.lower(s), opening.upper(s)];
  const middle = ground.place(s, (lower + upper) / 2);
  const room = Math.min(inner.maxX - inner.minX - 16, (upper - lower - 8) * 2);
  // On the sheet: the positions on a cone are no lengths.
  const edge = Array.from({ length: 401 }, (_, i) => from + ((to - from) * i) / 400).flatMap((at) => [
    ground.place(at, opening.lower(at)),
    ground.place(at, opening.upper(at)),
  ]);
  const height = [7, 5, 3.5].find((h) => {
    const half = textWidth(say`SCRAP`, h, true) / 2 + 2;
    if (2 * half - 2 >= room || middle.x - half < inner.minX || middle.x + half > inner.maxX) return false;
    return edge.every(({ x, y }) => Math.abs(x - middle.x) > half || Math.abs(y - middle.y) > h / 2 + 2);
  });
  return height === undefined ? [] : bigWord(middle, say`SCRAP`, height);
};

/** Length round the body's outside from the 0° line to position `s` along the square line, mm. */
const roundTo = (ground: OpeningGround, s: number): number => {
  if (ground.parallel) return s - ground.middle;
  const STEPS = 200;
  let sum = 0;
  let last: readonly [number, number, number] | undefined;
  for (let i = 0; i <= STEPS; i++) {
    const a = ground.middle + ((s - ground.middle) * i) / STEPS;
    const { outside: origin, direction } = ground.skin.layers(a);
    const t = ground.level(a);
    const p = [origin.x + t * direction.x, origin.y + t * direction.y, origin.z + t * direction.z] as const;
    if (last) sum += Math.hypot(p[0] - last[0], p[1] - last[1], p[2] - last[2]);
    last = p;
  }
  return s < ground.middle ? -sum : sum;
};

/** The opening for those who lay out by tape. */
export const openingTable = (lines: readonly TapeLine[], ground: OpeningGround): Table => ({
  title: say`By tape: around from the 0° line (right is +), ${ground.parallel ? say`along` : say`up the side`} from the square line (up is +)`,
  header: [say`Line`, say`around`, say`lower`, say`upper`],
  rows: lines.map(({ s, lower, upper }, i) => {
    const edge = (t: number): Figure => {
      const { x, y } = ground.place(s, t);
      const length = lengthOf(t - ground.level(s));
      return ground.parallel ? shown(length, apart(ORIGIN, uprightAt('cut', x, y), 'y')) : length;
    };
    const { x, y } = ground.place(s, (lower + upper) / 2);
    const isTip = i === 0 || i === LINES - 1;
    const round = lengthOf(roundTo(ground, s));
    return [
      String(i + 1),
      ground.parallel
        ? shown(round, apart(ORIGIN, levelAt(isTip ? 'cut' : 'station', x, y), 'around'))
        : round,
      edge(lower),
      edge(upper),
    ];
  }),
});
