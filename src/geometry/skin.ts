import type { Outline } from './outline.ts';
import { stockLayers, type Layers } from './reach.ts';
import type { Vec2 } from './vector.ts';

/** A body's wall as straight lines side by side, which can be laid flat: an opening is traced along them. */
export interface Skin {
  /** Once round, in the unit of its positions (mm of girth for a stock); infinite for a plate. */
  readonly girth: number;
  /** Wall thickness, mm. */
  readonly wall: number;
  /** The same at position `s` where it differs from place to place. */
  readonly wallAt?: (s: number) => number;
  /** The layers of the wall at position `s`; lines run from `t` = 0 on, mm. */
  readonly layers: (s: number) => Layers;
  /** The place on the flat of the outside's line at `s`, `t` mm along it. */
  readonly flat: (s: number, t: number) => Vec2;
  /** Positions in [0, girth) where the lines change their turning; the flat may have a corner of curvature there. */
  readonly joints: readonly number[];
}

/** A stock's outside: x along the girth, y along its axis. */
export const stockSkin = (outline: Outline): Skin => ({
  girth: outline.girth,
  wall: outline.wall,
  ...(outline.wallAt && { wallAt: outline.wallAt }),
  layers: (s) => stockLayers(outline, s),
  flat: (s, t) => ({ x: s, y: t }),
  joints: outline.joints,
});
