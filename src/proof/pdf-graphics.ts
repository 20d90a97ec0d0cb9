import type { Path } from './paths.ts';
import type { Vec2 } from './space.ts';

/** A transform of the page (ISO 32000-1 §8.3.3). */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** The graphics state, as far as prints set it. */
export interface GraphicsState {
  readonly ctm: Matrix;
  readonly width: number;
  readonly dash: readonly number[];
  readonly strokeColour: readonly number[];
  readonly fillColour: readonly number[];
  readonly clips: readonly Path[];
  readonly textSize: number;
  readonly font: string;
}

export const identity: Matrix = [1, 0, 0, 1, 0, 0];
export const freshState: GraphicsState = {
  ctm: identity,
  width: 1,
  dash: [],
  strokeColour: [0],
  fillColour: [0],
  clips: [],
  textSize: 0,
  font: '',
};

/** `inner` applied first, then `outer` (ISO 32000-1 §8.3.4). */
export const chain = (i: Matrix, o: Matrix): Matrix => [
  i[0] * o[0] + i[1] * o[2],
  i[0] * o[1] + i[1] * o[3],
  i[2] * o[0] + i[3] * o[2],
  i[2] * o[1] + i[3] * o[3],
  i[4] * o[0] + i[5] * o[2] + o[4],
  i[4] * o[1] + i[5] * o[3] + o[5],
];
/** Where a point comes to lie. */
export const apply = (m: Matrix, x: number, y: number): Vec2 => ({
  x: m[0] * x + m[2] * y + m[4],
  y: m[1] * x + m[3] * y + m[5],
});
/** How much a transform enlarges lengths, evenly over all directions. */
export const growth = (m: Matrix): number => Math.sqrt(Math.abs(m[0] * m[3] - m[1] * m[2]));
