import { boxesMeet } from '../drawing/clear.ts';
import { markBounds } from '../drawing/extent.ts';
import { letteringBox } from '../drawing/lettering.ts';
import type { Box, Lettering, Mark } from '../drawing/model.ts';
import { isStrokeIn } from '../drawing/path-clip.ts';
import { growBox, letter } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Hole } from '../geometry/hole-pattern.ts';
import { say } from '../words/say.ts';
import { holeOutline } from './holes.ts';

/** A flat part whose face must not be turned over, in sheet mm. */
export interface Face {
  /** The ground it takes. */
  readonly box: Box;
  /** True for a point on the part. */
  readonly isOn: (p: Vec2) => boolean;
  /** Its holes, in which nothing is said that must be read once they are cut. */
  readonly holes?: readonly Hole[];
  /** Where its center lines cross, beside whose ends stand TOP and, where its places are counted by degrees, 0°. */
  readonly center?: Vec2;
  readonly isByDegrees?: boolean;
}

/** How far lettering keeps from other marks, and from the center line it stands beside, mm. */
const GAP = 0.8;
const BESIDE = 1.6;
/** How far it keeps from the part's own edge where there is room, mm. */
const ROOMY = 6;
const HEIGHTS = [3.5, 2.5] as const;
const range = (from: number, to: number, step: number): readonly number[] =>
  Array.from({ length: Math.max(0, Math.floor((to - from) / step)) + 1 }, (_, i) => from + i * step);

/** How far past the part a word is tried where nothing on it is clear, mm. */
const PAST = range(GAP, 16, 2);
/** Places tried along a part. */
const TRIED = 48;

const cornersOf = ({ minX, minY, maxX, maxY }: Box): readonly Vec2[] =>
  [minX, (minX + maxX) / 2, maxX].flatMap((x) => [minY, maxY].map((y) => ({ x, y })));

const isMeeting = (mark: Mark, box: Box): boolean =>
  boxesMeet(markBounds(mark), box) && (mark.kind !== 'stroke' || isStrokeIn(mark.path, box));

const bold = (at: Vec2, text: string, height: number, align: Lettering['align']): Lettering =>
  letter('text', at, text, height, { align, bold: true });

/** The name of an upper end: beside the upright center line, as far up on the part as it stands clear; else over the part. */
const topPlaces = ({ box, center = { x: 0, y: 0 }, isByDegrees }: Face): readonly Lettering[] => {
  const text = isByDegrees ? say`▲ TOP · 90°` : say`▲ TOP`;
  const beside = (y: number, height: number): readonly Lettering[] =>
    ([1, -1] as const).map((side) =>
      bold({ x: center.x + side * BESIDE, y }, text, height, side > 0 ? 'left' : 'right'),
    );
  return [
    ...HEIGHTS.flatMap((height) =>
      range(2, box.maxY - center.y, 2).flatMap((down) => beside(box.maxY - down - height, height)),
    ),
    ...HEIGHTS.flatMap((height) => PAST.flatMap((past) => beside(box.maxY + past, height))),
  ];
};

/** 0° beside the level center line, as far right on the part as it stands clear; else past the part. */
const zeroPlaces = ({ box, center = { x: 0, y: 0 } }: Face): readonly Lettering[] => {
  const beside = (x: number, height: number, align: Lettering['align']): readonly Lettering[] =>
    [BESIDE, -BESIDE - height].map((up) => bold({ x, y: center.y + up }, '0°', height, align));
  return [
    ...HEIGHTS.flatMap((height) =>
      range(2, box.maxX - center.x, 2).flatMap((inward) => beside(box.maxX - inward, height, 'right')),
    ),
    ...HEIGHTS.flatMap((height) => PAST.flatMap((past) => beside(box.maxX + past, height, 'left'))),
  ];
};

/** What says that the sheet lies on the part as it is read: nearest the middle of the part; else under it. */
const facePlaces = ({ box, isOn }: Face): readonly Lettering[] => {
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const step = Math.max(2, (box.maxX - box.minX) / TRIED, (box.maxY - box.minY) / TRIED);
  const grid = range(box.minX, box.maxX, step)
    .flatMap((px) => range(box.minY, box.maxY, step).map((py) => ({ x: px, y: py })))
    .sort((a, b) => Math.hypot(a.x - x, a.y - y) - Math.hypot(b.x - x, b.y - y));
  const text = say`THIS FACE UP`;
  const clears =
    (gap: number) =>
    (mark: Lettering): boolean =>
      cornersOf(growBox(letteringBox(mark), gap)).every(isOn);
  return [
    ...HEIGHTS.flatMap((height) => {
      const inside = grid
        .map((at) => letter('text', at, text, height, { align: 'centre', valign: 'middle', bold: true }))
        .filter(clears(GAP));
      return [...inside.filter(clears(ROOMY)), ...inside];
    }),
    ...HEIGHTS.flatMap((height) =>
      PAST.map((past) => bold({ x: x + BESIDE, y: box.minY - height - past }, text, height, 'left')),
    ),
  ];
};

/**
 * The words that keep a flat sheet from being laid on its face or turned: THIS FACE UP, and beside the ends of its center lines TOP
 * and 0°. They stand clear of `marks`; what has no such place is left out.
 */
export const faceWords = (marks: readonly Mark[], face: Face): readonly Lettering[] => {
  const placed: Lettering[] = [];
  const lists = [
    ...(face.center ? [topPlaces(face)] : []),
    ...(face.center && face.isByDegrees ? [zeroPlaces(face)] : []),
    facePlaces(face),
  ];
  // A word that just keeps its distance is not in the hole.
  const inHoles = (face.holes ?? []).map((hole) => growBox(markBounds(holeOutline(hole)), -0.01));
  for (const places of lists) {
    const clear = places.find((place) => {
      const box = growBox(letteringBox(place), GAP);
      return (
        ![...marks, ...placed].some((mark) => isMeeting(mark, box)) &&
        !inHoles.some((hole) => boxesMeet(hole, box))
      );
    });
    if (clear) placed.push(clear);
  }
  return placed;
};
