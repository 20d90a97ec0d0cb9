import type { FitLine, SheetFigures, SheetFit } from '../drawing/fit-up.ts';
import type { Path } from '../drawing/model.ts';
import type { Contour } from '../geometry/contour.ts';
import { cubicAt } from '../geometry/cubic.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Stock } from '../stock/stock.ts';
import type { Setting } from '../units/setting.ts';
import { paperGirth, type BandPaper } from './band-paper.ts';

/** What the sheet of a stock carries for those who prove the finished file, where it lies around the outside. */
export const fitAround = (
  stock: Stock,
  { paperThickness }: Pick<Setting, 'paperThickness'>,
  lines: readonly FitLine[],
): SheetFit => ({
  lay:
    stock.round === undefined
      ? { kind: 'section', section: stock.section, lift: paperThickness / 2 }
      : {
          kind: 'round',
          od: 2 * stock.round,
          sheetGirth: paperGirth(stock.girth, paperThickness),
          allowance: 0,
        },
  wall: stock.wall,
  lines,
});

/** The same for a band, which may also lie on plate that is rolled to a round. */
export const fitBand = (
  stock: Stock,
  { girth, sides }: Pick<BandPaper, 'girth' | 'sides'>,
  setting: Pick<Setting, 'paperThickness'>,
  lines: readonly FitLine[],
): SheetFit =>
  sides.kind === 'tab'
    ? fitAround(stock, setting, lines)
    : {
        lay: { kind: 'round', od: stock.girth / Math.PI, sheetGirth: girth, allowance: sides.allowance },
        wall: stock.wall,
        lines,
      };

/** The one cut line of a part that is bent in until it closes on itself. */
export const CLOSES: FitLine = { which: 'upper', contact: 'od', gap: 0, solids: [] };

/** What a flat sheet carries: what it must show, by its figures. */
export const fitFlat = (figures: Partial<SheetFigures>): SheetFit => ({
  lay: { kind: 'flat' },
  wall: 0,
  lines: [],
  figures: { circles: [], points: [], ...figures },
});

/** The sides of a closed outline of straight lines that is cut. */
export const sideFigures = (corners: readonly Vec2[]): Required<Pick<SheetFigures, 'lines'>> => ({
  lines: corners.map((from, i) => ({ from, to: corners[(i + 1) % corners.length] ?? from })),
});

/** A path that is cut: its straight sides, and points of its curves. */
export const pathFigures = ({ start, segments }: Path): Required<Pick<SheetFigures, 'lines' | 'curves'>> => {
  const froms = [start, ...segments.map(({ to }) => to)];
  const points = segments.flatMap((segment, i) => {
    const from = froms[i] ?? start;
    if (segment.kind === 'line') return [];
    const cubic = { start: from, c1: segment.c1, c2: segment.c2, end: segment.to };
    return [0, 0.25, 0.5, 0.75, 1].map((u) => cubicAt(cubic, u));
  });
  return {
    lines: segments.flatMap(({ kind, to }, i) => (kind === 'line' ? [{ from: froms[i] ?? start, to }] : [])),
    curves: points.length === 0 ? [] : [{ points }],
  };
};

/** The straight lines and arcs of closed contours that are cut. */
export const contourFigures = (
  ...contours: readonly Contour[]
): Required<Pick<SheetFigures, 'lines' | 'arcs'>> => {
  const edges = contours.flat();
  return {
    lines: edges.flatMap((edge) => (edge.kind === 'line' ? [{ from: edge.from, to: edge.to }] : [])),
    arcs: edges.flatMap((edge) =>
      edge.kind === 'arc'
        ? [{ centre: edge.centre, radius: edge.radius, from: edge.start, sweep: edge.sweep }]
        : [],
    ),
  };
};
