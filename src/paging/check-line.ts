import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { arrowhead, letter, NARROW, ruleLine } from '../drawing/shape.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { formatInches, formatMm } from '../units/format.ts';
import type { PagingOptions } from './options.ts';
import type { Grid, Tile } from './tile.ts';

/** Ground beside the sheet that a check line takes, mm. */
export const checkLane = 10;

const inch = 25.4;
/** Round lengths, roundest first. */
const steps = { in: [6 * inch, inch, inch / 2, inch / 8], mm: [50, 10, 5, 1] } as const;

/** The longest round length up to `longest` that still passes `least`; where none does, `longest` itself. */
export const roundCheck = (longest: number, least: number, units: 'in' | 'mm'): number => {
  for (const step of steps[units]) {
    const length = Math.floor(longest / step + 1e-9) * step;
    if (length > least) return length;
  }
  return longest;
};

const tellLength = (length: number, { units, denominator }: PagingOptions): string => {
  const mm = formatMm(length, Math.abs(length - Math.round(length)) < 1e-6 ? 0 : 1);
  return units === 'in' ? `${formatInches(length, denominator)} (${mm})` : mm;
};

/** How the check length of the whole sheet is written, per axis; undefined for an axis with one page. */
export interface SheetCheck {
  readonly across: string | undefined;
  readonly up: string | undefined;
}

interface Line {
  /** The end where the line starts, and the direction it runs, along one axis. */
  readonly from: Vec2;
  readonly axis: 'x' | 'y';
  readonly length: number;
  readonly text: string;
}

const drawCheckLine = ({ from, axis, length, text }: Line, tiles: readonly Tile[]): Mark[] => {
  const at = (along: number, out: number): Vec2 =>
    axis === 'x' ? { x: from.x + along, y: from.y + out } : { x: from.x - out, y: from.y + along };
  const forward = axis === 'x' ? { x: 1, y: 0 } : { x: 0, y: 1 };
  const back = { x: -forward.x, y: -forward.y };
  const height = 2.5;
  const need = textWidth(text, height, false) + 6;
  // Once on every page the line crosses, in the part that no neighbour covers.
  const rooms = tiles
    .filter(({ own }) =>
      axis === 'x' ? from.y > own.minY && from.y < own.maxY : from.x > own.minX && from.x < own.maxX,
    )
    .map(({ own, window }): [number, number] => {
      const low = Math.max(0, (axis === 'x' ? own.minX - from.x : own.minY - from.y) + 6);
      const high = Math.min(length, (axis === 'x' ? own.maxX - from.x : own.maxY - from.y) - 6);
      const end = (axis === 'x' ? window.maxX - from.x : window.maxY - from.y) - 1;
      return [low, Math.min(high, end)];
    })
    .filter(([low, high]) => high - low >= need);
  return [
    ruleLine('scale', at(0, 0), at(length, 0), NARROW),
    ruleLine('scale', at(0, -2), at(0, 2), NARROW),
    ruleLine('scale', at(length, -2), at(length, 2), NARROW),
    arrowhead('scale', at(0, 0), back),
    arrowhead('scale', at(length, 0), forward),
    ...rooms.map(([low, high]) =>
      letter('scale', at((low + high) / 2, 1.2), text, height, {
        align: 'centre',
        angle: axis === 'x' ? 0 : Math.PI / 2,
      }),
    ),
  ];
};

/**
 * The check lines of a taped sheet, one along each axis that has several pages, below and left of the drawing.
 * `bounds` is the drawing without the lanes.
 */
export const drawSheetCheck = (
  grid: Grid,
  bounds: Box,
  options: PagingOptions,
): { marks: Mark[]; check: SheetCheck } => {
  const marks: Mark[] = [];
  let across: string | undefined;
  let up: string | undefined;
  if (grid.columns > 1) {
    const last = Math.max(
      ...grid.tiles.filter(({ column }) => column === grid.columns - 1).map(({ own }) => own.minX),
    );
    const length = roundCheck(bounds.maxX - bounds.minX, last + 6 - bounds.minX, options.units);
    across = tellLength(length, options);
    const from = { x: bounds.minX, y: bounds.minY - 7 };
    const text = `check after taping: ${across} from arrow to arrow`;
    marks.push(...drawCheckLine({ from, axis: 'x', length, text }, grid.tiles));
  }
  if (grid.rows > 1) {
    const first = Math.min(...grid.tiles.filter(({ row }) => row === 0).map(({ own }) => own.minY));
    const length = roundCheck(bounds.maxY - bounds.minY, first + 6 - bounds.minY, options.units);
    up = tellLength(length, options);
    const from = { x: bounds.minX - 4, y: bounds.minY };
    const text = `check after taping: ${up} from arrow to arrow`;
    marks.push(...drawCheckLine({ from, axis: 'y', length, text }, grid.tiles));
  }
  return { marks, check: { across, up } };
};
