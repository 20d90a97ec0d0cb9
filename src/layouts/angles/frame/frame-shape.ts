import { mustBeLess, needed, onlyOne } from '../../../fields/among.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { regularFrame, type RegularFrame } from '../../../geometry/corner.ts';
import { requestError } from '../../../issue.ts';
import type { Setting } from '../../../units/setting.ts';
import { formatAngle } from '../../../units/angle.ts';
import { say } from '../../../words/say.ts';
export const MOST_SIDES = 60;

/** What a frame's inputs read to, mm and radians. */
export interface FrameAsked {
  readonly sides?: number;
  readonly corner?: number;
  readonly side?: number;
  readonly acrossFlats?: number;
  readonly acrossCorners?: number;
  readonly length?: number;
  readonly width?: number;
  readonly taken: 'outside' | 'inside';
  readonly bar: number;
}

/** One kind of piece: its long and short point to point, and how many there are. */
export interface FramePiece {
  readonly name: string;
  readonly count: number;
  readonly long: number;
  readonly short: number;
}

/** A frame whose corners are all mitered alike. */
export type FrameShape =
  | { readonly kind: 'regular'; readonly frame: RegularFrame; readonly bar: number }
  | { readonly kind: 'rectangle'; readonly length: number; readonly width: number; readonly bar: number };

/** Number of sides from itself or from the angle between them. Throws where no frame has such a corner. */
const countSides = ({ sides, corner }: FrameAsked): number | undefined => {
  onlyOne({ sides, corner }, say`give one: each gives the other`);
  if (corner === undefined) return sides;
  const exact = (2 * Math.PI) / (Math.PI - corner);
  const count = Math.round(exact);
  if (count >= 3 && count <= MOST_SIDES && Math.abs(corner - (Math.PI - (2 * Math.PI) / count)) < 1e-6)
    return count;
  const near = [Math.floor(exact), Math.ceil(exact)]
    .map((n) => Math.min(MOST_SIDES, Math.max(3, n)))
    .filter((n, i, all) => all.indexOf(n) === i)
    .map((n) => say`${formatAngle(Math.PI - (2 * Math.PI) / n, 3)} (${n} sides)`);
  throw requestError(
    'corner',
    'no-such-frame',
    say`no frame of equal sides has corners of ${formatAngle(corner, 4)}`,
    say`equal sides turn 360° in all: nearest ${near.join(say` or `)}`,
  );
};

const readRectangle = (asked: FrameAsked, setting: Setting): FrameShape => {
  const { bar, taken } = asked;
  const other = (['sides', 'corner', 'side', 'acrossFlats', 'acrossCorners'] as const).find(
    (name) => asked[name] !== undefined,
  );
  if (other !== undefined)
    throw requestError(
      other.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`),
      'two-shapes',
      say`length and width make a rectangle, which has its own sides and corners`,
      say`give length and width, or sides with one size`,
    );
  const both = say`a rectangle needs length and width: --length 1200mm --width 800mm`;
  const length = needed('length', asked.length, both);
  const width = needed('width', asked.width, both);
  const more = taken === 'inside' ? 2 * bar : 0;
  mustBeLess('bar', bar, (Math.min(length, width) + more) / 2, say`leaves nothing open`, setting);
  return { kind: 'rectangle', length: length + more, width: width + more, bar };
};

/** The frame asked for. Throws where it is given twice, not wholly, or its bars meet in the middle. */
export const readFrame = (asked: FrameAsked, setting: Setting): FrameShape => {
  if (asked.length !== undefined || asked.width !== undefined) return readRectangle(asked, setting);
  const sides = needed(
    'sides',
    countSides(asked),
    say`give sides (or corner) and one size, or length and width of a rectangle`,
  );
  const half = Math.PI / sides;
  const sizes: readonly (readonly [string, number | undefined, number])[] = [
    ['side', asked.side, 1 / (2 * Math.tan(half))],
    ['across-flats', asked.acrossFlats, 0.5],
    ['across-corners', asked.acrossCorners, Math.cos(half) / 2],
  ];
  const { side, acrossFlats, acrossCorners } = asked;
  const hint = say`give one of side, across-flats and across-corners`;
  onlyOne({ side, acrossFlats, acrossCorners }, hint);
  const first = needed(
    'side',
    sizes.find(([, size]) => size !== undefined),
    hint,
  );
  if (first[0] === 'across-flats' && sides % 2 === 1)
    throw requestError(
      'across-flats',
      'no-flats-across',
      say`with ${sides} sides a corner lies across from each side`,
      say`give side or across-corners (the circle through the corners)`,
    );
  const radius = (first[1] as number) * first[2] + (asked.taken === 'inside' ? asked.bar : 0);
  mustBeLess('bar', asked.bar, radius, say`meets the others in the middle`, setting);
  return { kind: 'regular', frame: regularFrame(sides, radius, asked.bar), bar: asked.bar };
};

/** Angle between neighboring sides. */
export const cornerOf = (shape: FrameShape): number =>
  shape.kind === 'regular' ? shape.frame.between : 90 * DEGREE;

/** The pieces to cut. */
export const framePieces = (shape: FrameShape): readonly FramePiece[] => {
  if (shape.kind === 'regular') {
    const { sides, outside, inside } = shape.frame;
    return [{ name: say`side`, count: sides, long: outside.side, short: inside.side }];
  }
  const { length, width, bar } = shape;
  if (Math.abs(length - width) < 1e-9)
    return [{ name: say`side`, count: 4, long: length, short: length - 2 * bar }];
  return [
    { name: say`long side`, count: 2, long: length, short: length - 2 * bar },
    { name: say`short side`, count: 2, long: width, short: width - 2 * bar },
  ];
};

/** Lengths of all pieces in their middle, mm: what the frame weighs by. */
export const middleLengths = (shape: FrameShape): number =>
  framePieces(shape).reduce((sum, piece) => sum + (piece.count * (piece.long + piece.short)) / 2, 0);

/**
 * Length of bar for all pieces. Where each may be turned over after the one before, one cut makes two ends: middle lengths, one cut
 * more than pieces, and the corner lost at the first end. Else every piece takes its long length.
 * @param backOff what a piece is shorter by for the gaps at both its ends, mm
 */
export const barNeeded = (shape: FrameShape, backOff: number, kerf: number, turns: boolean): number => {
  const pieces = framePieces(shape);
  const cut = (Math.PI - cornerOf(shape)) / 2;
  const count = pieces.reduce((sum, piece) => sum + piece.count, 0);
  if (!turns)
    return (
      pieces.reduce((sum, piece) => sum + piece.count * (piece.long - backOff), 0) +
      (2 * count * kerf) / Math.cos(cut)
    );
  const middle = middleLengths(shape) - count * backOff;
  return middle + shape.bar * Math.tan(cut) + ((count + 1) * kerf) / Math.cos(cut);
};
