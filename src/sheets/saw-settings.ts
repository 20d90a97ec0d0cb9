import type { Fact, Table } from '../drawing/model.ts';
import { contourOutline, type ContourOutline } from '../geometry/contour-outline.ts';
import { easiestFace, sawFaces } from '../geometry/saw-faces.ts';
import { dot2, left2, vec2, type Vec2 } from '../geometry/vector.ts';
import type { Stock } from '../stock/stock.ts';
import { angleOf, sizeOf } from '../units/quantity.ts';
import { worded } from '../drawing/worded.ts';
import { say, translateName } from '../words/say.ts';

/** How shaped stock is laid on a saw; nothing for a pipe. */
export interface SawSettings {
  readonly facts: readonly Fact[];
  readonly tables: readonly Table[];
}

/** The stock's size along one of its faces, over its corners, as it is ordered and as a rule laid across it reads; mm. */
const overAll = ({ faces, at }: ContourOutline, name: string): number => {
  const along = left2(faces.find(({ face }) => face === name)?.out ?? vec2(0, 0));
  const reaches = faces.flatMap(({ from, to }) =>
    [from, (from + to) / 2, to].map((s) => {
      const { x, y } = at(s, 0);
      return dot2(vec2(x, y), along);
    }),
  );
  return Math.max(...reaches) - Math.min(...reaches);
};

/**
 * Saw settings for each flat face, and the face that needs the least tilt.
 * @param slope of the cut plane, z = x · slope.x + y · slope.y in the stock's frame
 * @param of what the cut belongs to, where a sheet has several
 */
export const sawSettings = (stock: Stock, slope: Vec2, of = ''): SawSettings => {
  const outline = stock.kind === 'pipe' ? undefined : contourOutline(stock.section);
  const settings = outline ? sawFaces(outline, slope) : [];
  const easiest = easiestFace(settings);
  if (!outline || !easiest) return { facts: [], tables: [] };
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
        rows: settings.map(({ face, miter, bevel }) => [
          translateName(face),
          sizeOf(overAll(outline, face)),
          degrees(miter, 3),
          degrees(bevel, 3),
        ]),
      },
    ],
  };
};
