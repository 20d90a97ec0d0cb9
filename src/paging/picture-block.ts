import { moveMarks } from '../drawing/extent.ts';
import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Mark, Picture } from '../drawing/model.ts';
import { letter } from '../drawing/paths.ts';
import { type Block, type Fitted, linesHeight, makeBlock, pitchOf } from './block.ts';
import { heightOf, widthOf } from './box.ts';

/** A picture shows the joint, not the sheet: none of its lines may look like a line to cut or punch. */
const asPicture = (mark: Mark): Mark => ({ ...mark, role: mark.kind === 'text' ? 'text' : 'dimension' });

const height = 2.5;
/** Space between views, mm. */
const between = 6;

/** Views in rows, as many side by side as the width takes. */
const setRows = (shapes: readonly Fitted[], width: number): Fitted => {
  const rows: Fitted[][] = [];
  let used = Infinity;
  for (const shape of shapes) {
    if (used + between + shape.width > width) {
      rows.push([]);
      used = -between;
    }
    rows[rows.length - 1]?.push(shape);
    used += between + shape.width;
  }
  const heights = rows.map((row) => Math.max(...row.map((shape) => shape.height)));
  const total = heights.reduce((sum, tall) => sum + tall, 0) + between * (rows.length - 1);
  const draw = (): Mark[] => {
    let top = total;
    return rows.flatMap((row, r) => {
      let x = 0;
      const marks = row.flatMap((shape) => {
        const moved = moveMarks(shape.draw(), x, top - shape.height);
        x += shape.width + between;
        return moved;
      });
      top -= (heights[r] ?? 0) + between;
      return marks;
    });
  };
  return { width, height: total, draw };
};

/** All views of a sheet as one block. */
export const joinViews = (views: readonly Block[]): Block =>
  makeBlock({
    kind: 'picture',
    fit: (width, text) => {
      const shapes = views.map((view) => view.fit(width, text));
      const set = shapes.filter((shape) => shape !== undefined);
      return set.length < shapes.length ? undefined : setRows(set, width);
    },
  });

/** A picture with its title under it. */
export const pictureBlock = ({ title, marks, bounds }: Picture): Block => {
  const lines = wrapText(title, height, true, Math.max(widthOf(bounds), 40));
  const below = linesHeight(lines.length, height) + 1.5;
  const width = Math.max(widthOf(bounds), ...lines.map((line) => textWidth(line, height, true)));
  const dx = (width - widthOf(bounds)) / 2 - bounds.minX;
  const draw = (): Mark[] => [
    ...moveMarks(marks.map(asPicture), dx, below - bounds.minY),
    ...lines.map((line, i) =>
      letter('text', { x: width / 2, y: below - 1.5 - height * 1.15 - i * pitchOf(height) }, line, height, {
        align: 'centre',
        bold: true,
      }),
    ),
  ];
  const shape = { width, height: heightOf(bounds) + below, draw };
  return { kind: 'picture', fit: (room) => (width > room + 1e-6 ? undefined : shape) };
};
