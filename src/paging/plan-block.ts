import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { boxPath, letter, NARROW, stroke } from '../drawing/shape.ts';
import { type Block, pitchOf, type Shape } from './block.ts';
import { boxAt } from './box.ts';
import type { SheetCheck } from './check-line.ts';
import type { Grid } from './tile.ts';

const height = 2.5;

const instructions = (check: SheetCheck): string => {
  const lengths = [
    check.across === undefined ? '' : `${check.across} across`,
    check.up === undefined ? '' : `${check.up} up`,
  ].filter((text) => text !== '');
  return (
    'Trim the left and upper edge of each page to its frame. Lay it over the page before until the crosses meet, and ' +
    `tape. Then measure from arrow to arrow: ${lengths.join(', ')}.`
  );
};

const drawPlan = (grid: Grid, check: SheetCheck, textWidthLimit: number): Shape => {
  const name = Math.max(...grid.tiles.map((tile) => textWidth(tile.name, height, true)));
  const cell = { width: Math.max(10, name + 3), height: 7 };
  const [width, tall] = [grid.columns * cell.width, grid.rows * cell.height];
  const lines = wrapText(instructions(check), height, false, Math.max(textWidthLimit, width));
  const title = 'How the pages go together';
  const textHeight = lines.length * pitchOf(height) + 1.5;
  const total = pitchOf(height) * 1.3 + tall + textHeight;
  const marks: Mark[] = [letter('text', { x: 0, y: total - height * 1.15 }, title, height, { bold: true })];
  for (const tile of grid.tiles) {
    const box = boxAt(
      tile.column * cell.width,
      textHeight + (grid.rows - 1 - tile.row) * cell.height,
      cell.width,
      cell.height,
    );
    const centre = { x: box.minX + cell.width / 2, y: box.minY + cell.height / 2 };
    marks.push(stroke('text', boxPath(box), NARROW));
    marks.push(letter('text', centre, tile.name, height, { align: 'centre', valign: 'middle', bold: true }));
  }
  lines.forEach((line, i) =>
    marks.push(
      letter('text', { x: 0, y: textHeight - 1.5 - height * 1.15 - i * pitchOf(height) }, line, height),
    ),
  );
  const widest = Math.max(
    width + NARROW,
    textWidth(title, height, true),
    ...lines.map((line) => textWidth(line, height, false)),
  );
  return { width: widest, height: total, cost: 0, isSmall: true, draw: () => marks };
};

/** A small plan of all pages with their names, and how to tape them. */
export const planBlock = (grid: Grid, check: SheetCheck): Block => ({
  kind: 'plan',
  corner: 'top-left',
  shapes: [70, 100, 140, 200].map((limit, i) => ({ ...drawPlan(grid, check, limit), cost: i * 0.03 })),
});
