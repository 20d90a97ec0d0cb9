import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Lettering } from '../../src/drawing/model.ts';
import { textWidth } from '../../src/drawing/lettering.ts';
import { angleCard } from '../../src/sheets/angle-card.ts';

const DEGREE = Math.PI / 180;
const RADIUS = 64;
const names = [
  'edge to cut',
  'side 2: edge to cut',
  'inside, face to face',
  'lado 2: borde a corte',
  'mesa a hoja',
];

/** The corners of a line of lettering that stands on its middle. */
const cornersOf = ({ at, angle, text, height, bold }: Lettering) => {
  const [along, up] = [textWidth(text, height, bold) / 2, height / 2];
  return [-1, 1].flatMap((a) =>
    [-1, 1].map((b) => ({
      x: at.x + a * along * Math.cos(angle) - b * up * Math.sin(angle),
      y: at.y + a * along * Math.sin(angle) + b * up * Math.cos(angle),
    })),
  );
};

it('the words of a card of 45° and more are on it, so that they are cut out with it', () => {
  fc.assert(
    fc.property(fc.double({ min: 45, max: 175, noNaN: true }), fc.constantFrom(...names), (degrees, name) => {
      const angle = degrees * DEGREE;
      const marks = angleCard({
        corner: { x: 0, y: 0 },
        angle,
        radius: RADIUS,
        name,
        value: `${degrees.toFixed(2)}°`,
      });
      const texts = marks.filter((mark) => mark.kind === 'text');
      expect(texts).toHaveLength(2);
      for (const { x, y } of texts.flatMap(cornersOf)) {
        expect(Math.hypot(x, y)).toBeLessThan(RADIUS);
        const turn = Math.atan2(y, x);
        expect(turn).toBeGreaterThan(0);
        expect(turn).toBeLessThan(angle);
      }
    }),
  );
});
