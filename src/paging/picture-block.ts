import { textWidth, wrapText } from '../drawing/lettering.ts';
import { translateMark } from '../drawing/extent.ts';
import type { Mark, Picture } from '../drawing/model.ts';
import { letter } from '../drawing/shape.ts';
import { type Block, linesHeight, pitchOf } from './block.ts';
import { heightOf, widthOf } from './box.ts';

/** A picture is a drawing of the joint, not of the sheet: none of its lines may be taken for a line to cut or punch. */
const asPicture = (mark: Mark): Mark => ({ ...mark, role: mark.kind === 'text' ? 'text' : 'dimension' });

/** A picture with its title under it. */
export const pictureBlock = ({ title, marks, bounds }: Picture): Block => {
  const height = 2.5;
  const lines = title === '' ? [] : wrapText(title, height, true, Math.max(widthOf(bounds), 40));
  const below = lines.length === 0 ? 0 : linesHeight(lines.length, height) + 1.5;
  const width = Math.max(widthOf(bounds), ...lines.map((line) => textWidth(line, height, true)));
  const dx = (width - widthOf(bounds)) / 2 - bounds.minX;
  const drawPicture = (): Mark[] =>
    marks.map((mark) => translateMark(asPicture(mark), dx, below - bounds.minY));
  const caption = lines.map((line, i) =>
    letter('text', { x: width / 2, y: below - 1.5 - height * 1.15 - i * pitchOf(height) }, line, height, {
      align: 'centre',
      bold: true,
    }),
  );
  return {
    kind: 'picture',
    corner: 'top-right',
    shapes: [
      {
        width,
        height: heightOf(bounds) + below,
        cost: 0,
        isSmall: true,
        draw: () => [...drawPicture(), ...caption],
      },
    ],
  };
};
