import { markBounds } from '../drawing/extent.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { bigWord, bigWordBox } from '../drawing/scrap.ts';
import { growBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { say } from '../words/say.ts';
import { edgeRange, LINES_FROM, ORDINATE_LENGTH, type CutEdge, type Strip } from './band-edges.ts';

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

/** How far KEEP may move aside from its place, mm, nearest first. */
const ASIDE = [0, ...Array.from({ length: 12 }, (_, i) => [6 * (i + 1), -6 * (i + 1)]).flat()];

/**
 * KEEP between the cut lines, over the figures, or under the reference line where there is a lower cut: on steel and clear of
 * figures, at its places or a little aside; smaller where there is no other room.
 */
export const writeKeep = (
  strip: Strip,
  marks: readonly Mark[],
  [top, bottom]: readonly [number, number],
): Mark[] => {
  const { from, to, upper } = strip;
  if (!upper) return [];
  const largest = (to - from) / 4 < 30 ? 5 : 7;
  const taken = [...lettered(marks)];
  const words = keepPlaces(strip).flatMap((place) => {
    for (const height of [largest, 5, 3.5].filter((size) => size <= largest))
      for (const aside of ASIDE) {
        const at = keepAt(strip, upper, place + aside, height, taken);
        if (!at) continue;
        taken.push(bigWordBox(at, say`KEEP`, height));
        return bigWord(at, say`KEEP`, height);
      }
    return [];
  });
  return words.length > 0 ? words : pointAtKeep(strip, [top, bottom], taken);
};

/** Where no letters go in on the steel, KEEP points at it from the scrap, below or above. */
const pointAtKeep = (
  strip: Strip,
  [top, bottom]: readonly [number, number],
  taken: readonly Box[],
): Mark[] => {
  const { from, to, upper, lower } = strip;
  const sides = [
    [lower, -1, bottom, say`▲ KEEP`],
    [upper, 1, top, say`▼ KEEP`],
  ] as const;
  for (const [edge, side, limit, text] of sides) {
    if (!edge) continue;
    const half = textWidth(text, 3.5, true) / 2 + 1;
    const room = to - from - 2 * half;
    for (let k = 0; k <= 20; k += 1) {
      // From the middle outward.
      const x = (from + to) / 2 + (room / 2) * (Math.ceil(k / 2) / 10) * (k % 2 === 0 ? 1 : -1);
      const y = edgeRange(strip, edge, x, half)[side > 0 ? 1 : 0] + side * 7.5;
      if (side * (limit - y) > 3 && isClear(taken, { x, y }, text, 3.5)) return bigWord({ x, y }, text, 3.5);
    }
  }
  return [];
};

/** Where KEEP stands clear at a sheet x, in letters of a height; undefined where it does not. */
const keepAt = (
  strip: Strip,
  upper: CutEdge,
  x: number,
  height: number,
  taken: readonly Box[],
): Vec2 | undefined => {
  const { from, to, reference, lower, openings = [], bend = Infinity } = strip;
  const half = textWidth(say`KEEP`, height, true) / 2 + 1;
  if (x - half < from || x + half > to) return undefined;
  if (openings.some(([left, right]) => x + half > left && x - half < right)) return undefined;
  const ceiling = Math.min(edgeRange(strip, upper, x, half)[0], bend);
  const floor = reference + LINES_FROM + ORDINATE_LENGTH + 1.5;
  const over = Math.max(floor + height / 2 + 0.6, Math.min((floor + ceiling) / 2, floor + 30));
  const heights = over + height / 2 + (lower ? 1.6 : 1) < ceiling ? [over] : [];
  if (lower) {
    const ground = edgeRange(strip, lower, x, half)[1];
    if (reference - ground > height + 5) heights.push((reference + ground) / 2);
    // The lower ordinates hang from the reference line; between them and the cut there may be room.
    if (reference - ground > height + ORDINATE_LENGTH + 5)
      heights.push((reference - ORDINATE_LENGTH + ground) / 2);
  }
  return heights.map((y) => ({ x, y })).find((at) => isClear(taken, at, say`KEEP`, height));
};

/** Scrap deeper than this from the hatching to the paper's edge has room for the word and for more, mm. */
const DEEP = 14;

/** SCRAP beyond a cut line, where the scrap is highest, one every 250 mm or so, 120 mm apart at least. `limit` is the paper's edge. */
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
  const found: { readonly at: Vec2; readonly depth: number }[] = [];
  for (let k = 0; k < count; k++) {
    const a = Math.max(from, from + ((to - from) * k) / count) + half + 2;
    const b = Math.min(to, from + ((to - from) * (k + 1)) / count) - half - 2;
    const spots = Array.from({ length: 25 }, (_unused, i) => {
      const x = a + ((b - a) * i) / 24;
      const [low, high] = edgeRange(strip, edge, x, half);
      const floor = (side > 0 ? high : low) + side * 5.5;
      const middle = (floor + limit) / 2;
      const y = side > 0 ? Math.min(middle, floor + 7) : Math.max(middle, floor - 7);
      return { at: { x, y }, depth: side * (limit - floor) };
    }).filter(
      ({ at, depth }) =>
        depth > 6 && at.x - (found.at(-1)?.at.x ?? -Infinity) >= 120 && isClear(taken, at, say`SCRAP`, 5),
    );
    const best = spots.reduce<(typeof spots)[number] | undefined>(
      (found, spot) => (found === undefined || spot.depth > found.depth + 1e-6 ? spot : found),
      undefined,
    );
    if (best) found.push(best);
  }
  // Where there is a deep place, the narrow strip along the paper's edge stays clear for the taping check.
  const isDeep = found.some(({ depth }) => depth > DEEP);
  return found.filter(({ depth }) => !isDeep || depth > DEEP).flatMap(({ at }) => bigWord(at, say`SCRAP`, 5));
};
