import { itemAt } from '../lists.ts';
import { mirrorOutline, sameOutside, type Outline } from '../geometry/outline.ts';
import { crossEdge, insideContour } from '../geometry/section-crossing.ts';
import { mirrorSection, runOf, type Section } from '../geometry/section.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { add2, dot2, scale2, type Vec2 } from '../geometry/vector.ts';
import type { RolledSizes } from './rolled.ts';

/** What stock may be. */
export const stockKinds = [
  'pipe',
  'tube',
  'angle',
  'channel',
  'beam',
  'flat',
  'oval',
  'ellipse',
  'half-round',
] as const;
export type StockKind = (typeof stockKinds)[number];

/** Stock whose outside is closed and bulges outward all around. */
export const closedKinds = [
  'pipe',
  'tube',
  'flat',
  'oval',
  'ellipse',
  'half-round',
] as const satisfies readonly StockKind[];

/** A size that a sheet prints, mm: as the table or the person gives it. */
export interface StockSize {
  /** Lower case, such as `outside` or `wall`. */
  readonly label: string;
  readonly length: number;
}

/** A line to mark along the stock. */
export interface StockLine {
  /** Girth position, mm, in [0, girth). */
  readonly s: number;
  /** What stands beside it; empty on quarter lines, which the layout names. */
  readonly name: string;
  /** A quarter line of a round, the middle of a face, or where a corner begins or ends. */
  readonly kind: 'quarter' | 'middle' | 'fold';
}

/**
 * What is cut: anything straight with the same cross-section all along. Lengths in mm, in the stock frame: +x through
 * position 0, +y a quarter turn counter-clockwise seen facing the cut end.
 */
export interface Stock {
  readonly kind: StockKind;
  /** As printed; reads back as the same stock. */
  readonly designation: string;
  readonly outline: Outline;
  /** Wall, or the least thickness of an open section. */
  readonly wall: number;
  /** Once round the outside, as a tape reads it. */
  readonly girth: number;
  /** True where the girth was measured on the stock itself. */
  readonly measured: boolean;
  /** The girth of its size in the table, mm, where another was measured. */
  readonly tableGirth?: number;
  /** Where its outside comes from: a table's name, `given` or `measured girth`. */
  readonly source: string;
  readonly sizes: readonly StockSize[];
  readonly lines: readonly StockLine[];
  /** Outside radius, where the outside is a true circle. */
  readonly round?: number;
  /** All sizes of an angle, a channel or a beam, and from the outside of its flange or leg to the end of the fillet, mm. */
  readonly rolled?: RolledSizes & { readonly k: number };
  /** The cross-section as plain data: bodies, meshes and the proof are made from it. */
  readonly section: Section;
}

/** The quarter lines of a round or nearly round stock: equal parts of its girth. */
export const quarterLines = (girth: number): readonly StockLine[] =>
  [0, 1, 2, 3].map((quarter) => ({ s: (quarter * girth) / 4, name: '', kind: 'quarter' }));

/** True for stock with a mouth, such as an angle or a channel: its outline runs over the mouth, where there is no steel. */
export const isOpen = ({ section, outline }: Pick<Stock, 'section' | 'outline'>): boolean =>
  section.inside === undefined && outline.wallAt !== undefined;

/** A place well within a stock's bore, or within its steel where it has none: the axis, where that lies there. */
export const withinStock = (stock: Stock): Vec2 => {
  const axis = { x: 0, y: 0 };
  const { inside, outside } = stock.section;
  const contour = inside ?? outside;
  if (stock.round !== undefined || (!isOpen(stock) && insideContour(contour, axis))) return axis;
  // Half way across from the middle of its first side.
  const run = runOf(itemAt(contour, 0));
  const { point, out } = run.at(run.length / 2);
  const inward = scale2(out, -1);
  const across = contour
    .flatMap((edge) => crossEdge(edge, point, inward))
    .filter(({ t, entering }) => !entering && t > SAME_LENGTH);
  return add2(point, scale2(inward, Math.min(...across.map(({ t }) => t)) / 2));
};

/** How far the outside reaches from the axis at most, mm. */
export const stockReach = ({ round, outline }: Stock): number =>
  round ??
  Math.max(
    ...[...outline.joints, ...Array.from({ length: 90 }, (_, i) => (i * outline.girth) / 90)].map((s) => {
      const { x, y } = outline.at(s, 0);
      return Math.hypot(x, y);
    }),
  );

/** From where to where the outside reaches along a unit direction of the section's plane, mm from the axis. */
export const stockSpan = ({ round, outline }: Stock, direction: Vec2): readonly [number, number] => {
  if (round !== undefined) return [-round, round];
  const places = [...outline.joints, ...Array.from({ length: 360 }, (_, i) => (i * outline.girth) / 360)];
  const along = places.map((s) => dot2(outline.at(s, 0), direction));
  return [Math.min(...along), Math.max(...along)];
};

/** The same along y: what must find room on a straight body. */
export const stockAcross = (stock: Stock): readonly [number, number] => stockSpan(stock, { x: 0, y: 1 });

/** True where its section is the same turned half around its axis, so that a piece may be rotated 180° on one length of it. */
export const isAlikeTurned = ({ round, outline }: Stock): boolean =>
  round !== undefined ||
  sameOutside(outline, {
    ...outline,
    at: (s, depth) => scale2(outline.at(s + outline.girth / 2, depth), -1),
  });

/** The stock in the frame of its other end, which looks the other way: mirrored in x, positions running back from 0. */
export const mirrorStock = <S extends Stock>(stock: S): S =>
  stock.round !== undefined
    ? stock
    : {
        ...stock,
        outline: mirrorOutline(stock.outline),
        section: mirrorSection(stock.section),
        lines: stock.lines.map((line) => ({ ...line, s: line.s === 0 ? 0 : stock.girth - line.s })),
      };
