import { markBounds } from '../drawing/extent.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import type { Box, Lettering, Mark } from '../drawing/model.ts';
import { isStrokeIn } from '../drawing/path-clip.ts';
import { arrowhead, growBox, knockout, letter, NARROW, ruleLine, unionBox } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { formatLength, formatMm } from '../units/format.ts';
import { say } from '../words/say.ts';
import { isOverlapping } from './box.ts';
import type { PagingOptions } from './options.ts';
import type { Grid, Tile } from './tile.ts';

/** Ground beside the sheet that a check line takes, mm. */
export const checkLane = 9;

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

const tellLength = (length: number, options: PagingOptions): string => {
  const mm = formatMm(length, Math.abs(length - Math.round(length)) < 1e-6 ? 0 : 1);
  return options.units === 'in' ? `${formatLength(length, options)} (${mm})` : mm;
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

const height = 2.5;
/** How far lettering under the line stands below lettering over it, mm. */
const beneath = height + 2;

/** What lettering may never stand on. */
const forbidden = 100;

/** How bad a place is for the length's own lettering: never on other lettering or on what steel is cut by, rather not on other lines. */
const costOf = (box: Box, marks: readonly Boxed[]): number => {
  let sum = 0;
  for (const { mark, box: other } of marks) {
    if (!isOverlapping(box, other)) continue;
    if (mark.kind === 'text') sum += forbidden;
    else if (mark.kind === 'fill') sum += 1;
    else if (isStrokeIn(mark.path, box)) sum += ['cut', 'punch', 'scale'].includes(mark.role) ? forbidden : 1;
    // Worse than that it cannot be.
    if (sum >= forbidden) return forbidden;
  }
  return sum;
};

/** The length written once on every tile the line crosses, in the part that no neighbour covers, clear of lettering. */
const writeLength = (
  { from, axis, length, text }: Line,
  tiles: readonly Tile[],
  marks: readonly Boxed[],
): Mark[] => {
  const width = textWidth(text, height, false);
  /** Over the line, or under it by so much. */
  const lettering = (along: number, under: number) =>
    letter(
      'scale',
      axis === 'x'
        ? { x: from.x + along, y: from.y + 1 - under }
        : { x: from.x - 1 + under, y: from.y + along },
      text,
      height,
      { align: 'centre', angle: axis === 'x' ? 0 : Math.PI / 2 },
    );
  return tiles.flatMap(({ own, window }): Mark[] => {
    const isCrossed =
      axis === 'x' ? from.y > own.minY && from.y < own.maxY : from.x > own.minX && from.x < own.maxX;
    if (!isCrossed) return [];
    const [ownLow, ownHigh, end] =
      axis === 'x'
        ? [own.minX - from.x, own.maxX - from.x, window.maxX - from.x]
        : [own.minY - from.y, own.maxY - from.y, window.maxY - from.y];
    const low = Math.max(0, ownLow + 6) + width / 2 + 3;
    const high = Math.min(length, ownHigh - 6, end - 1) - width / 2 - 3;
    const middle = (low + high) / 2;
    const boxOf = (mark: Lettering): Box => growBox(letteringBox(mark), 0.4);
    const ends = [low, high].flatMap((along) => [0, beneath].map((under) => boxOf(lettering(along, under))));
    const lane = unionBox(ends);
    const near = marks.filter(({ box }) => isOverlapping(lane, box));
    let best: { mark: Lettering; cost: number } | undefined;
    for (const under of [0, beneath])
      for (let off = 0; off <= (high - low) / 2 && best?.cost !== 0; off += 4)
        for (const along of [middle - off, middle + off]) {
          const mark = lettering(along, under);
          const cost = costOf(boxOf(mark), near);
          if (!best || cost < best.cost) best = { mark, cost };
        }
    if (!best || best.cost >= forbidden) return [];
    return best.cost === 0
      ? [best.mark]
      : [knockout('scale', growBox(letteringBox(best.mark), 0.3)), best.mark];
  });
};

/** A check line with its ends, without its length. */
const ruleCheckLine = ({ from, axis, length }: Line): readonly Mark[] => {
  const at = (along: number, out: number): Vec2 =>
    axis === 'x' ? { x: from.x + along, y: from.y + out } : { x: from.x - out, y: from.y + along };
  const forward = axis === 'x' ? { x: 1, y: 0 } : { x: 0, y: 1 };
  const back = { x: -forward.x, y: -forward.y };
  return [
    ruleLine('scale', at(0, 0), at(length, 0), NARROW),
    ruleLine('scale', at(0, -1.5), at(0, 1.5), NARROW),
    ruleLine('scale', at(length, -1.5), at(length, 1.5), NARROW),
    arrowhead('scale', at(0, 0), back),
    arrowhead('scale', at(length, 0), forward),
  ];
};

/** Where the check lines run: the height of the one across, the x of the one up, sheet mm. */
export interface Levels {
  readonly across: number;
  readonly up: number;
}

/**
 * A level inside a drawing along which a check line of a length, from its left or lower edge, meets no lettering and as few lines along it as may be; undefined
 * where there is none.
 */
export const findLevel = (
  bounds: Box,
  marks: readonly Boxed[],
  axis: 'x' | 'y',
  length: number,
): number | undefined => {
  const isAcross = axis === 'x';
  const end = (isAcross ? bounds.minX : bounds.minY) + length + 2;
  const met = marks.filter(({ box }) => (isAcross ? box.minX : box.minY) < end);
  const spans = met.map(({ mark, box }) => {
    const [low, high] = isAcross ? [box.minY, box.maxY] : [box.minX, box.maxX];
    const along = isAcross ? box.maxX - box.minX : box.maxY - box.minY;
    const isCut = mark.kind === 'stroke' && mark.role === 'cut';
    const cost = mark.kind === 'text' ? 100 : high - low < 4 ? Math.min(5, along / 40) : 0;
    return { low, high, cost, cut: isCut ? mark : undefined };
  });
  /** What steel is cut by is crossed or run along only where there is nothing else. */
  const isOnCut = (level: number, reach: number): boolean => {
    const lane = isAcross
      ? { ...bounds, minY: level - reach, maxY: level + reach }
      : { ...bounds, minX: level - reach, maxX: level + reach };
    return spans.some(
      ({ low, high, cut }) =>
        cut && high > level - reach && low < level + reach && isStrokeIn(cut.path, lane),
    );
  };
  const [from, to] = isAcross ? [bounds.minY + 4, bounds.maxY - 7] : [bounds.minX + 7, bounds.maxX - 4];
  // Room for the arrows on one side, and for the length's lettering on the other; where that meets less, room for the line
  // alone: the lettering finds its own place.
  let best: { level: number; cost: number } | undefined;
  for (const above of [4, 1.8])
    for (let level = from; level <= to && best?.cost !== 0; level += 1) {
      const [low, high] = isAcross ? [level - 1.8, level + above] : [level - above, level + 1.8];
      const cost = spans.reduce(
        (sum, span) => (span.high < low || span.low > high ? sum : sum + span.cost),
        0,
      );
      if (cost >= 100 || (best && cost >= best.cost)) continue;
      const whole = cost + (isOnCut(level, 1.8) ? 20 : 0);
      if (!best || whole < best.cost) best = { level, cost: whole };
    }
  return best?.level;
};

/** A mark with its bounds. */
export interface Boxed {
  readonly mark: Mark;
  readonly box: Box;
}

/**
 * The check lines of a taped sheet, one along each axis that has several pages. `bounds` is the drawing without lanes,
 * `marks` what is drawn there.
 */
export const drawSheetCheck = (
  grid: Grid,
  bounds: Box,
  levels: Levels,
  marks: readonly Boxed[],
  options: PagingOptions,
): { marks: Mark[]; check: SheetCheck } => {
  const lines: Line[] = [];
  let across: string | undefined;
  let up: string | undefined;
  if (grid.columns > 1) {
    const last = Math.max(
      ...grid.tiles.filter(({ column }) => column === grid.columns - 1).map(({ own }) => own.minX),
    );
    const length = roundCheck(bounds.maxX - bounds.minX, last + 6 - bounds.minX, options.units);
    across = tellLength(length, options);
    const from = { x: bounds.minX, y: levels.across };
    lines.push({ from, axis: 'x', length, text: say`taping check ${across}` });
  }
  if (grid.rows > 1) {
    const first = Math.min(...grid.tiles.filter(({ row }) => row === 0).map(({ own }) => own.minY));
    const length = roundCheck(bounds.maxY - bounds.minY, first + 6 - bounds.minY, options.units);
    up = tellLength(length, options);
    const from = { x: levels.up, y: bounds.minY };
    lines.push({ from, axis: 'y', length, text: say`taping check ${up}` });
  }
  const rules = lines.map(ruleCheckLine);
  const drawn = lines.flatMap((line, i): readonly Mark[] => {
    // A length keeps clear of the other line; it stands on its own.
    const others = rules.flatMap((rule, k) => (k === i ? [] : rule));
    const taken = [...marks, ...others.map((mark) => ({ mark, box: markBounds(mark) }))];
    return [...(rules[i] ?? []), ...writeLength(line, grid.tiles, taken)];
  });
  return { marks: drawn, check: { across, up } };
};
