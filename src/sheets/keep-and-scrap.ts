import { markBounds } from '../drawing/extent.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { bigWord, bigWordBox } from '../drawing/scrap.ts';
import { growBox } from '../drawing/shape.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { edgeRange, LINES_FROM, ORDINATE_LENGTH, type CutEdge, type Strip } from './band-edges.ts';
import { say } from '../words/say.ts';

/** True for a mark that stays between two sheet x. */
export const hatchClear =
  (from: number, to: number) =>
  (mark: Mark): boolean => {
    const { minX, maxX } = markBounds(mark);
    return minX >= from && maxX <= to;
  };

const overlaps = (a: Box, b: Box): boolean =>
  a.minX < b.maxX && a.maxX > b.minX && a.minY < b.maxY && a.maxY > b.minY;

/** The boxes of lettering already set. */
const lettered = (marks: readonly Mark[]): readonly Box[] =>
  marks.filter(({ kind }) => kind === 'text').map((mark) => growBox(markBounds(mark), 0.4));

const isClear = (taken: readonly Box[], at: Vec2, text: string, height: number): boolean =>
  taken.every((box) => !overlaps(box, bigWordBox(at, text, height)));

/** The places for KEEP along the band: between quarter lines, about one every 150 mm. */
const keepPlaces = ({ from, to, stations }: Strip): number[] => {
  const count = Math.max(1, Math.round((to - from) / 150));
  return Array.from({ length: count }, (_, i) => {
    const x = from + ((to - from) * (i + 0.5)) / count;
    const near = stations.find((station) => station.quarter && Math.abs(station.x - x) < 14);
    const gap = (to - from) / 8;
    return near ? Math.min(to - 14, near.x + Math.min(gap, 40)) : x;
  });
};

/** KEEP between the cut lines, above the figures, or below the reference line where there is a lower cut. */
export const writeKeep = (strip: Strip, marks: readonly Mark[]): Mark[] => {
  const { from, to, reference, upper, lower } = strip;
  if (!upper) return [];
  const height = (to - from) / 4 < 30 ? 5 : 7;
  const half = textWidth(say`KEEP`, height, true) / 2;
  const taken = lettered(marks);
  return keepPlaces(strip).flatMap((x) => {
    const ceiling = Math.min(edgeRange(strip, upper, x, half + 1)[0], strip.bend ?? Infinity);
    const floor = reference + LINES_FROM + ORDINATE_LENGTH + 1.5;
    const y = Math.max(floor + height / 2 + 0.6, Math.min((floor + ceiling) / 2, floor + 30));
    if (!lower) return writeAside(strip, upper, x, height, taken);
    const [, ground] = edgeRange(strip, lower, x, half + 1);
    const under = (reference + ground) / 2;
    if (y + height / 2 + 1.6 < ceiling && isClear(taken, { x, y }, say`KEEP`, height))
      return bigWord({ x, y }, say`KEEP`, height);
    if (reference - ground > height + 5 && isClear(taken, { x, y: under }, say`KEEP`, height))
      return bigWord({ x, y: under }, say`KEEP`, height);
    return [];
  });
};

/** How far KEEP may move aside from its place, mm, nearest first. */
const ASIDE = [0, ...Array.from({ length: 12 }, (_, i) => [6 * (i + 1), -6 * (i + 1)]).flat()];

/** KEEP under the only cut line, on steel and clear of figures, at a place or a little aside; smaller where there is no other room. */
const writeAside = (
  strip: Strip,
  upper: CutEdge,
  place: number,
  largest: number,
  taken: readonly Box[],
): Mark[] => {
  const floor = strip.reference + LINES_FROM + ORDINATE_LENGTH + 1.5;
  for (const height of [largest, 5, 3.5].filter((size) => size <= largest)) {
    const half = textWidth(say`KEEP`, height, true) / 2 + 1;
    for (const aside of ASIDE) {
      const x = place + aside;
      if (x - half < strip.from || x + half > strip.to) continue;
      if ((strip.openings ?? []).some(([from, to]) => x + half > from && x - half < to)) continue;
      const ceiling = Math.min(edgeRange(strip, upper, x, half)[0], strip.bend ?? Infinity);
      const y = Math.max(floor + height / 2 + 0.6, Math.min((floor + ceiling) / 2, floor + 30));
      if (y + height / 2 + 1 < ceiling && isClear(taken, { x, y }, say`KEEP`, height))
        return bigWord({ x, y }, say`KEEP`, height);
    }
  }
  return [];
};

/** SCRAP beyond a cut line, where the scrap is highest, one every 250 mm at least. `limit` is the paper's edge. */
export const writeScrap = (
  strip: Strip,
  edge: CutEdge,
  side: 1 | -1,
  limit: number,
  marks: readonly Mark[],
): Mark[] => {
  const { from, to } = strip;
  const half = textWidth(say`SCRAP`, 5, true) / 2;
  const taken = lettered(marks);
  const count = Math.max(1, Math.round((to - from) / 250));
  const placed: Mark[] = [];
  let last = -Infinity;
  for (let k = 0; k < count; k++) {
    const a = Math.max(from, from + ((to - from) * k) / count) + half + 2;
    const b = Math.min(to, from + ((to - from) * (k + 1)) / count) - half - 2;
    const spots = Array.from({ length: 25 }, (_unused, i) => {
      const x = a + ((b - a) * i) / 24;
      const [low, high] = edgeRange(strip, edge, x, half);
      const floor = (side > 0 ? high : low) + side * 5.5;
      const middle = (floor + limit) / 2;
      const y = side > 0 ? Math.min(middle, floor + 12) : Math.max(middle, floor - 12);
      return { at: { x, y }, depth: side * (limit - floor) };
    }).filter(({ at, depth }) => depth > 6 && at.x - last >= 60 && isClear(taken, at, say`SCRAP`, 5));
    const best = spots.reduce<(typeof spots)[number] | undefined>(
      (found, spot) => (found === undefined || spot.depth > found.depth + 1e-6 ? spot : found),
      undefined,
    );
    if (!best) continue;
    placed.push(...bigWord(best.at, say`SCRAP`, 5));
    last = best.at.x;
  }
  return placed;
};
