import { keepCompiled } from '../keep-compiled.ts';
import { itemAt } from '../lists.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { boxesMeet } from './clear.ts';
import { textWidth } from './lettering.ts';
import type { Box } from './model.ts';
import { growBox } from './paths.ts';

/** Cells in which ink is noted, mm. */
const CELL = 0.5;
/** White around words, mm. */
const WHITE = 0.6;
/** Height of a picture's lettering, mm. */
export const WORD_HEIGHT = 2.5;

/** What is already drawn, so that words are put where nothing is, and dimensions where they cross little. Paper mm. */
export interface Ground {
  /** Notes drawn lines. */
  readonly addLine: (points: readonly Vec2[]) => void;
  /** Notes words that may not be crossed. */
  readonly addWords: (box: Box) => void;
  /** True where words may stand: white around them, no line through them. */
  readonly isClear: (box: Box) => boolean;
  /** True where a line runs through words. */
  readonly cutsWords: (a: Vec2, b: Vec2) => boolean;
  /** How much ink a line runs over or beside, mm of its length. */
  readonly inkAlong: (a: Vec2, b: Vec2) => number;
  /** How far a box reaches out of the drawing, mm. */
  readonly reach: (box: Box) => number;
}

const keepGround = keepCompiled<Ground>();

/** An empty ground for a drawing that takes `bounds`, with room around it. */
export const makeGround = (bounds: Box): Ground => {
  const area = growBox(bounds, 2);
  const columns = Math.ceil((area.maxX - area.minX) / CELL) + 1;
  const rows = Math.ceil((area.maxY - area.minY) / CELL) + 1;
  const ink = new Uint8Array(columns * rows);
  /** Ink in all cells below and to the left; made when it is first asked for. */
  let sums: Uint32Array | undefined;
  /** Lines that came after, and words. */
  const later: (readonly [Vec2, Vec2])[] = [];
  const words: Box[] = [];

  /** Notes a line's ink, or counts what it runs over, mm. */
  const overCells = (a: Vec2, b: Vec2, isNoted: boolean): number => {
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const steps = Math.max(1, Math.ceil(Math.sqrt(dx * dx + dy * dy) / (0.5 * CELL)));
    let found = 0;
    for (let i = 0; i <= steps; i++) {
      const c = Math.floor((a.x + (dx * i) / steps - area.minX) / CELL);
      const r = Math.floor((a.y + (dy * i) / steps - area.minY) / CELL);
      if (c < 0 || c >= columns || r < 0 || r >= rows) continue;
      if (isNoted) ink[r * columns + c] = 1;
      else found += ink[r * columns + c] ?? 0;
    }
    return found * 0.5 * CELL;
  };
  const summed = (): Uint32Array => {
    if (sums) return sums;
    const width = columns + 1;
    sums = new Uint32Array(width * (rows + 1));
    for (let r = 0; r < rows; r++) {
      let run = 0;
      for (let c = 0; c < columns; c++) {
        run += ink[r * columns + c] ?? 0;
        sums[(r + 1) * width + c + 1] = (sums[r * width + c + 1] ?? 0) + run;
      }
    }
    return sums;
  };
  const inkIn = (box: Box): number => {
    const table = summed();
    const width = columns + 1;
    const c = (x: number): number => Math.max(0, Math.min(columns, x));
    const r = (y: number): number => Math.max(0, Math.min(rows, y));
    const c0 = c(Math.floor((box.minX - area.minX) / CELL));
    const c1 = c(Math.floor((box.maxX - area.minX) / CELL) + 1);
    const r0 = r(Math.floor((box.minY - area.minY) / CELL));
    const r1 = r(Math.floor((box.maxY - area.minY) / CELL) + 1);
    const at = (row: number, column: number): number => table[row * width + column] ?? 0;
    return at(r1, c1) - at(r0, c1) - at(r1, c0) + at(r0, c0);
  };
  return keepGround({
    addLine: (points) =>
      points.slice(1).forEach((q, i) => {
        const p = itemAt(points, i);
        if (sums) later.push([p, q]);
        else overCells(p, q, true);
      }),
    addWords: (box) => words.push(box),
    isClear: (box) => {
      const white = growBox(box, WHITE);
      return (
        inkIn(white) === 0 &&
        words.every((other) => !boxesMeet(white, other)) &&
        later.every(([a, b]) => !segmentMeets(a, b, white))
      );
    },
    cutsWords: (a, b) => words.some((box) => segmentMeets(a, b, growBox(box, WHITE))),
    inkAlong: (a, b) => overCells(a, b, false),
    reach: (box) =>
      Math.max(0, area.minX - box.minX) +
      Math.max(0, box.maxX - area.maxX) +
      Math.max(0, area.minY - box.minY) +
      Math.max(0, box.maxY - area.maxY),
  });
};

/** True where a straight line has a point in a box. */
export const segmentMeets = (a: Vec2, b: Vec2, box: Box): boolean => {
  let [from, to] = [0, 1];
  for (const [start, by, low, high] of [
    [a.x, b.x - a.x, box.minX, box.maxX],
    [a.y, b.y - a.y, box.minY, box.maxY],
  ] as const) {
    if (Math.abs(by) < 1e-12) {
      if (start < low || start > high) return false;
      continue;
    }
    const [s, t] = [(low - start) / by, (high - start) / by];
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
  }
  return from <= to;
};

/** The box of words in the middle of which `at` lies. */
export const wordBox = (at: Vec2, text: string, bold = false): Box => {
  const half = textWidth(text, WORD_HEIGHT, bold) / 2;
  const high = WORD_HEIGHT / 2;
  // Signs such as a comma or a bracket reach a little past the capitals.
  return { minX: at.x - half, maxX: at.x + half, minY: at.y - high - 0.6, maxY: at.y + high + 0.4 };
};

/** The least costly of some choices; undefined where every cost is infinite. */
export const cheapest = <T>(
  choices: Iterable<T>,
  cost: (choice: T, best: number) => number,
): T | undefined => {
  let best: T | undefined;
  let least = Infinity;
  for (const choice of choices) {
    const price = cost(choice, least);
    if (price < least) [best, least] = [choice, price];
  }
  return best;
};
