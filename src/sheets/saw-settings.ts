import type { Fact, Table } from '../drawing/model.ts';
import { contourOutline } from '../geometry/contour-outline.ts';
import { easiestFace, sawFaces } from '../geometry/saw-faces.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Stock } from '../stock/stock.ts';
import { angleOf, sizeOf } from '../units/quantity.ts';
import { worded } from '../drawing/worded.ts';
import { say, translateName } from '../words/say.ts';

/** How shaped stock is laid on a saw; nothing for a pipe. */
export interface SawSettings {
  readonly facts: readonly Fact[];
  readonly tables: readonly Table[];
}

/**
 * Saw settings for each flat face, and the face that needs the least tilt.
 * @param slope of the cut plane, z = x · slope.x + y · slope.y in the stock's frame
 * @param of what the cut belongs to, where a sheet has several
 */
export const sawSettings = (stock: Stock, slope: Vec2, of = ''): SawSettings => {
  const settings = stock.kind === 'pipe' ? [] : sawFaces(contourOutline(stock.section), slope);
  const easiest = easiestFace(settings);
  if (!easiest) return { facts: [], tables: [] };
  const degrees = (angle: number, decimals?: number) => angleOf(Math.abs(angle), decimals);
  const part = of === '' ? '' : `, ${of}`;
  return {
    facts: [
      [
        say`Saw${part}: lay it on ${translateName(easiest.face)}, set`,
        worded(
          (value) => say`miter ${value(degrees(easiest.miter))}, bevel ${value(degrees(easiest.bevel))}`,
        ),
      ],
    ],
    tables: [
      {
        title: say`Saw settings from square, by the face that lies on the table${part}`,
        header: [say`Face`, say`width`, say`miter`, say`bevel`],
        rows: settings.map(({ face, width, miter, bevel }) => [
          translateName(face),
          sizeOf(width),
          degrees(miter, 3),
          degrees(bevel, 3),
        ]),
      },
    ],
  };
};
