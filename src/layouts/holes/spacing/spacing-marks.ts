import type { SheetFigures } from '../../../drawing/fit-up.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import type { Mark } from '../../../drawing/model.ts';
import { boxPath, letter, MEDIUM, NARROW, QUARTER, ruleLine } from '../../../drawing/paths.ts';
import { vec2 } from '../../../geometry/vector.ts';
import { drawOutline, drawPunch, linearDimension } from '../../../sheets/flat-marks.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

/** Equal parts along a length or a girth, mm on the steel. */
export interface Spacing {
  readonly total: number;
  readonly parts: number;
  readonly first: number;
  readonly last: number;
  readonly part: number;
  /** True for a strip that is wrapped round. */
  readonly wraps: boolean;
  /** Length on the sheet over length on the steel: paper that is wrapped lies further out. */
  readonly stretch: number;
  readonly punchLine?: number;
}

const DEPTH = 25;
const TAB = 15;
const TICK = 6;
const LONG_TICK = 9;
const NUMBER = 3.5;
/** White space between two numbers, mm. */
const NUMBERS_APART = 1.2;

/** How many marks go to one number, so that numbers do not touch. */
const numberStep = (strip: Spacing): number => {
  const room = strip.part * strip.stretch;
  const need = textWidth(`${strip.parts}`, NUMBER, true) + 2;
  return [1, 2, 5, 10, 20, 50, 100].find((step) => step * room >= need) ?? 100;
};

/** The marks along the edge, equal parts from the first to the last; the ends; the punch marks. */
export const spacingFigures = (strip: Spacing): Partial<SheetFigures> => {
  const { total, parts, first, last, part, wraps, stretch, punchLine } = strip;
  const xOf = (place: number): number => place * stretch;
  const end = wraps ? xOf(total) + TAB : xOf(total);
  return {
    lines: [{ from: vec2(0, 0), to: vec2(end, 0) }],
    scales: [{ from: vec2(xOf(first), 0), to: vec2(xOf(total - last), 0), count: parts + 1 }],
    ...(punchLine !== undefined && {
      points: Array.from({ length: parts + 1 }, (_, i) => vec2(xOf(first + i * part), -punchLine)),
    }),
  };
};

/** The numbers under the ticks: at the strip's own ends inside it, and no other where that one stands. */
const numberMarks = ({ parts, first, last }: Spacing, places: readonly number[], step: number): Mark[] => {
  const numbers = places.flatMap((x, i) => {
    if (i % step !== 0) return [];
    const half = textWidth(`${i}`, NUMBER, true) / 2;
    const isEnd = i === 0 ? first === 0 : i === parts && last === 0;
    return [{ i, half, isEnd, x: x + (!isEnd ? 0 : i === 0 ? half + 1 : -half - 1) }];
  });
  const ends = numbers.filter(({ isEnd }) => isEnd);
  return numbers
    .filter(
      ({ x, half, isEnd }) =>
        isEnd || ends.every((end) => Math.abs(end.x - x) > half + end.half + NUMBERS_APART),
    )
    .map(({ i, x }) =>
      letter('text', vec2(x, -LONG_TICK - 1.2 - NUMBER), `${i}`, NUMBER, { align: 'centre', bold: true }),
    );
};

/** The strip: edge to mark along on y = 0, start on x = 0, ticks down from the edge with their numbers. */
export const spacingMarks = (strip: Spacing, setting: Setting): Mark[] => {
  const { total, parts, first, last, part, wraps, stretch, punchLine } = strip;
  const xOf = (place: number): number => place * stretch;
  const end = xOf(total);
  const depth = Math.max(DEPTH, (punchLine ?? 0) + 9);
  const step = numberStep(strip);
  const places = Array.from({ length: parts + 1 }, (_, i) => xOf(first + i * part));
  const both = (length: number): string => writeBoth(length, setting);
  const fine = (length: number): string => writeBoth(length, { ...setting, denominator: 64 });
  const low = -17;
  const note = say`mark along the upper edge · ${parts} equal parts`;
  const dims = (from: number, to: number, text: string): Mark[] =>
    xOf(to - from) > textWidth(text, 2.5, false) + 8
      ? linearDimension(vec2(xOf(from), low), vec2(xOf(to), low), -0.5, text, 2.5)
      : [];
  return [
    drawOutline(boxPath({ minX: 0, maxX: wraps ? end + TAB : end, minY: -depth, maxY: 0 })),
    ...(wraps
      ? [
          ruleLine('reference', vec2(end, 0), vec2(end, -depth), QUARTER),
          letter('text', vec2(end + TAB / 2, -depth / 2), say`TAB`, 3.5, {
            align: 'centre',
            valign: 'middle',
            angle: Math.PI / 2,
          }),
        ]
      : []),
    ...places.map((x, i) =>
      ruleLine(
        'station',
        vec2(x, 0),
        vec2(x, i % step === 0 ? -LONG_TICK : -TICK),
        i % step === 0 ? MEDIUM : NARROW,
      ),
    ),
    ...numberMarks(strip, places, step),
    ...(punchLine === undefined ? [] : places.flatMap((x) => drawPunch(vec2(x, -punchLine)))),
    ...(end > textWidth(note, 2.5, false) + 8 ? [letter('text', vec2(4, -depth + 1.8), note, 2.5)] : []),
    ...dims(0, first, say`first ${both(first)}`),
    ...dims(first, first + part, fine(part)),
    ...dims(total - last, total, say`last ${both(last)}`),
  ];
};
