import { itemAt, lastOf } from '../lists.ts';
import { rangeOf } from './cut-lines.ts';
import { samplePath, sheetStrokes, type PdfFile } from './pdf-reader.ts';
import type { Spot } from './printed-record.ts';
import type { Role } from './record.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

/** Finds what a sheet draws where `soapstone.json` says that it does. Sheet mm. */

/** What is looked for stands this near to its place, mm, and far out as a part of its distance from the sheet's origin. */
export const NEAR = 0.05;
/**
 * Where a line runs nearly along the way it is measured, as at the point of a long shallow opening, its own 0.002 mm count for
 * more: so much of a long length, a tenth of what the best class of tape may be wrong by (OIML R 35, class I: 0.1 mm and 0.1 mm
 * a meter; from memory).
 */
export const LONG = 2e-5;

export const nearness = ({ x, y }: Vec2): number => Math.max(NEAR, LONG * Math.hypot(x, y));
/** Steps along curves, mm. */
export const STEP = 0.1;

/** One straight or curved stretch as points, and the ground it takes. */
export interface Piece {
  readonly points: readonly Vec2[];
  readonly isStraight: boolean;
  readonly low: Vec2;
  readonly high: Vec2;
}

const pieceOf = (points: readonly Vec2[], isStraight: boolean): Piece => {
  const [xs, ys] = [rangeOf(points.map(({ x }) => x)), rangeOf(points.map(({ y }) => y))];
  return { points, isStraight, low: { x: xs[0], y: ys[0] }, high: { x: xs[1], y: ys[1] } };
};

const nearPieces = (pieces: readonly Piece[], at: Vec2): readonly Piece[] => {
  const [{ x, y }, near] = [at, nearness(at)];
  return pieces.filter(
    ({ low, high }) => x > low.x - near && x < high.x + near && y > low.y - near && y < high.y + near,
  );
};

export const gap = (a: Vec2, b: Vec2): number => Math.hypot(a.x - b.x, a.y - b.y);

export const notThere = (what: string, { x, y }: Vec2): never => {
  throw new Error(`no ${what} at ${x.toFixed(2)}, ${y.toFixed(2)}`);
};

const nearest = (found: readonly Vec2[], at: Vec2, what: string): Vec2 => {
  const best = found.reduce<Vec2 | undefined>(
    (a, b) => (a === undefined || gap(b, at) < gap(a, at) ? b : a),
    undefined,
  );
  return best !== undefined && gap(best, at) < nearness(at) ? best : notThere(what, at);
};

const endsOf = ({ points }: Piece): readonly Vec2[] => [itemAt(points, 0), lastOf(points)];

/** Where a piece crosses the upright through x; an upright piece crosses it nowhere but with its ends. */
const crossings = ({ points }: Piece, x: number): readonly Vec2[] => {
  const found: Vec2[] = [];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [itemAt(points, i - 1), itemAt(points, i)];
    if (x < Math.min(a.x, b.x) - 1e-6 || x > Math.max(a.x, b.x) + 1e-6) continue;
    if (Math.abs(b.x - a.x) < 1e-9) found.push(a, b);
    else found.push({ x, y: a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x) });
  }
  return found;
};

const turned = ({ x, y }: Vec2): Vec2 => ({ x: y, y: x });

/** Where two straight strokes cross each other near a point. */
const crossAt = (pieces: readonly Piece[], at: Vec2): Vec2 => {
  const passing = nearPieces(pieces, at).filter(({ isStraight }) => isStraight);
  const found = passing.flatMap((one, i) =>
    passing.slice(i + 1).flatMap((other) => {
      const [a, b] = [itemAt(one.points, 0), lastOf(one.points)];
      const [c, d] = [itemAt(other.points, 0), lastOf(other.points)];
      const across = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
      if (Math.abs(across) < 0.1 * gap(a, b) * gap(c, d)) return [];
      const t = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / across;
      return [{ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t }];
    }),
  );
  return nearest(found, at, 'cross');
};

/** The lines and curves a sheet draws, by layer, and the places that are looked for on them. */
export interface Drawn {
  readonly pieces: (role: Role) => readonly Piece[];
  /** Throws where nothing is drawn there. */
  readonly find: (spot: Spot) => Vec2;
}

const listPieces = (file: PdfFile, sheet: string, role: Role): readonly Piece[] =>
  sheetStrokes(file, sheet, role).flatMap(({ path }) =>
    path.flatMap(({ start, segments }) => {
      let from = start;
      return segments.map((segment) => {
        const begin = from;
        from = segment.to;
        return segment.kind === 'line'
          ? pieceOf([begin, segment.to], true)
          : pieceOf(samplePath([{ start: begin, segments: [segment], closed: false }], STEP), false);
      });
    }),
  );

/** What one sheet of a file draws; `spend` counts what is looked at. */
export const drawnOn = (file: PdfFile, sheet: string, spend: (looks: number) => void): Drawn => {
  const known = new Map<Role, readonly Piece[]>();
  const pieces = (role: Role): readonly Piece[] => {
    const found = known.get(role) ?? listPieces(file, sheet, role);
    known.set(role, found);
    return found;
  };
  const find = (spot: Spot): Vec2 => {
    if (spot.find === 'origin') return { x: 0, y: 0 };
    const { at } = spot;
    spend(pieces(spot.on).length);
    const near = nearPieces(pieces(spot.on), at);
    switch (spot.find) {
      case 'end':
        return nearest(near.flatMap(endsOf), at, say`end of a line on ${spot.on}`);
      case 'upright':
        // A line may end at the place itself, as at the edge of a flange.
        return nearest(
          near.flatMap((piece) => [...crossings(piece, at.x), ...endsOf(piece)]),
          at,
          say`line on ${spot.on}`,
        );
      case 'level': {
        const found = near.flatMap(({ points, ...piece }) =>
          crossings({ ...piece, points: points.map(turned) }, at.y),
        );
        return nearest(found.map(turned), at, say`line on ${spot.on}`);
      }
      case 'cross':
        return crossAt(near, at);
    }
  };
  return { pieces, find };
};
