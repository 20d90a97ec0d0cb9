import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest } from '../../../src/index.ts';
import { cylinderDistance, rollOn } from '../../support/fit-up.ts';
import { layerPoints, printAndRead, worst } from '../../support/print.ts';
import { minus, point, times, type Vec3 } from '../../support/space.ts';

const degrees = Math.PI / 180;
const origin = point(0, 0, 0);
const along = point(1, 0, 0);

/** Out along a leg: heading counter-clockwise on the plan seen from above, then raised. */
const out = (heading: number, rise: number): Vec3 =>
  point(
    Math.cos(heading * degrees) * Math.cos(rise * degrees),
    Math.sin(heading * degrees) * Math.cos(rise * degrees),
    Math.sin(rise * degrees),
  );

describe('legs on a header', () => {
  it.each([
    [
      'two legs that meet',
      [
        [45, 0],
        [135, 0],
      ],
    ],
    [
      'cross on a whole run',
      [
        [90, 0],
        [270, 0],
      ],
    ],
    [
      'raised legs',
      [
        [60, 35],
        [140, -20],
      ],
    ],
  ] as const)(
    '%s: each opening is the leg’s bore on the header, from the bytes of the print',
    async (_, legs) => {
      const { file } = await printAndRead('wye', {
        pipe: 'OD 88.9mm wall 5.49mm',
        header: 'OD 168.3mm wall 7.11mm',
        leg: legs.map(([heading, rise]) => `${heading} up ${rise}`),
        paper: '36in-roll',
      });
      for (const [i, [heading, rise]] of legs.entries()) {
        const axis = out(heading, rise);
        // The sheet's 0° line is the header line that faces the leg: the part of the leg square to the header.
        const facing = minus(axis, times(along, axis.x));
        const bore = cylinderDistance(origin, axis, 88.9 / 2 - 5.49);
        const points = layerPoints(file, `header opening ${i + 1}`, 'cut').map((p) =>
          rollOn(p, { od: 168.3, paper: 0.1 }, origin, along, facing),
        );
        expect(points.length).toBeGreaterThan(100);
        expect(worst(points.map(bore))).toBeLessThan(0.01);
        // On the leg's own side, not where its axis comes out behind.
        expect(points.every((p) => p.x * axis.x + p.y * axis.y + p.z * axis.z > 0)).toBe(true);
      }
    },
  );

  it('says where the header line is struck, a quarter girth from the top for a level leg', () => {
    const sheets = makeSheets(
      readRequest('wye', {
        pipe: 'NPS 3 sch 40',
        header: 'OD 168.3mm wall 7.11mm',
        leg: ['90', '270'],
        units: 'mm',
      }),
    );
    expect(sheets.map(({ name }) => name)).toEqual([
      'leg 1',
      'leg 2',
      'header opening 1',
      'header opening 2',
    ]);
    const quarter = ((Math.PI * 168.3) / 4).toFixed(1);
    expect(sheets[2]?.steps.join(' ')).toContain(`90° from its top line toward direction 90°, ${quarter} mm`);
    expect(sheets[3]?.steps.join(' ')).toContain(
      `90° from its top line toward direction 270°, ${quarter} mm`,
    );
    // Seen from outside with direction 0 up, the leg's top lies to the right of the 90° side and to the left of the 270° side.
    const right = (i: number) =>
      sheets[i]?.marks.flatMap((mark) =>
        mark.kind === 'text' && mark.align === 'right' && mark.bold ? [mark.text] : [],
      );
    expect(right(2)).toContain('0°');
    expect(right(3)).toContain('180°');
  });
});
