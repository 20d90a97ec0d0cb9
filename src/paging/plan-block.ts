import { setText, textWidth } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { boxPath, letter, NARROW, stroke } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { type Block, type Fitted, makeBlock, pitchOf } from './block.ts';
import { boxAt } from './box.ts';
import type { SheetCheck } from './check-line.ts';
import type { Grid, Tile } from './tile.ts';
import { say } from '../words/say.ts';

const height = 2.5;

const instructions = (check: SheetCheck, isStrip: boolean): string => {
  const lengths = [
    check.across === undefined ? '' : say`${check.across} across`,
    check.up === undefined ? '' : say`${check.up} up`,
  ].filter((text) => text !== '');
  return (
    say`${
      isStrip
        ? say`Cut the strips out along their frames. `
        : say`Trim the left and upper edge of each page to its frame. `
    }Lap it onto the previous one until that edge lies on the dashed lap line and the half crosses are whole, and tape. ` +
    say`Then measure from arrow to arrow: ${lengths.join(', ')}.`
  );
};

/** Tallest a plan may be, mm: it has to go on a page beside what else is said. */
const mostHeight = 70;
/** The names of pages: in each tile, or, where tiles are too small for that, at the ends of the first and last row. */
const nameTiles = (grid: Grid, boxOf: (tile: Tile) => Box, isCrowded: boolean): Mark[] => {
  const write = (text: string, at: Vec2, align: 'left' | 'centre' | 'right') =>
    letter('text', at, text, height, { align, valign: 'middle', bold: true });
  if (!isCrowded)
    return grid.tiles.map((tile) => {
      const { minX, maxX, minY, maxY } = boxOf(tile);
      return write(tile.name, { x: (minX + maxX) / 2, y: (minY + maxY) / 2 }, 'centre');
    });
  const rows = grid.rows > 1 ? [0, grid.rows - 1] : [0];
  return rows.flatMap((row) => {
    const tiles = grid.tiles.filter((tile) => tile.row === row).sort((a, b) => a.column - b.column);
    const [first, last] = [tiles[0], tiles[tiles.length - 1]];
    if (first === undefined || last === undefined) return [];
    const y = row === 0 ? boxOf(first).maxY + pitchOf(height) / 2 : boxOf(first).minY - pitchOf(height) / 2;
    const start = write(first.name, { x: boxOf(first).minX, y }, 'left');
    return first === last ? [start] : [start, write(last.name, { x: boxOf(last).maxX, y }, 'right')];
  });
};

const shapePlan = (
  grid: Grid,
  check: SheetCheck,
  isStrip: boolean,
  most: { plan: number; text: number },
): Fitted => {
  const name = Math.max(...grid.tiles.map((tile) => textWidth(tile.name, height, true)));
  const named = { width: Math.max(9, name + 2.6), height: 6.5 };
  const cell = {
    width: Math.min(named.width, most.plan / grid.columns),
    height: Math.min(named.height, mostHeight / grid.rows),
  };
  const isCrowded = cell.width < named.width || cell.height < named.height;
  const [width, tall] = [grid.columns * cell.width, grid.rows * cell.height];
  const text = setText(instructions(check, isStrip), height, false, Math.max(most.text, width));
  const title = say`How the pages go together`;
  const outside = isCrowded ? pitchOf(height) : 0;
  const below = grid.rows > 1 ? outside : 0;
  const textHeight = text.count * pitchOf(height) + 1.5;
  const total = pitchOf(height) * 1.3 + outside + tall + below + textHeight;
  const boxOf = (tile: Tile): Box =>
    boxAt(
      tile.column * cell.width,
      textHeight + below + (grid.rows - 1 - tile.row) * cell.height,
      cell.width,
      cell.height,
    );
  const draw = (): Mark[] => [
    letter('text', { x: 0, y: total - height * 1.15 }, title, height, { bold: true }),
    ...grid.tiles.map((tile) => stroke('text', boxPath(boxOf(tile)), NARROW)),
    ...nameTiles(grid, boxOf, isCrowded),
    ...text
      .lines()
      .map((line, i) =>
        letter('text', { x: 0, y: textHeight - 1.5 - height * 1.15 - i * pitchOf(height) }, line, height),
      ),
  ];
  const widest = Math.max(width + NARROW, textWidth(title, height, true), text.width);
  return { width: widest, height: total, draw };
};

/** A small plan of all pages with their names, and how to tape them. */
export const planBlock = (grid: Grid, check: SheetCheck, isStrip: boolean): Block =>
  makeBlock({
    kind: 'plan',
    fit: (width) => {
      const shape = shapePlan(grid, check, isStrip, { plan: Math.min(130, width - 1), text: width - 1 });
      return shape.width <= width + 1e-6 ? shape : undefined;
    },
  });
