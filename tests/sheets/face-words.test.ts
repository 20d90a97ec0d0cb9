import { expect, it } from 'vitest';
import { letteringBox } from '../../src/drawing/lettering.ts';
import { faceWords } from '../../src/sheets/face-words.ts';

/** A right triangle of this leg, its right angle at the origin. */
const leg = 150;
const box = { minX: 0, minY: 0, maxX: leg, maxY: leg };
const edges = [
  ({ x }: { x: number; y: number }) => x,
  ({ y }: { x: number; y: number }) => y,
  ({ x, y }: { x: number; y: number }) => (leg - x - y) / Math.SQRT2,
];

it('THIS FACE UP stands clear of a triangle’s long edge, which crosses the middle of its ground', () => {
  const [word] = faceWords([], { box, isOn: (p) => edges.every((edge) => edge(p) >= 0) });
  expect(word?.text).toBe('THIS FACE UP');
  const { minX, minY, maxX, maxY } = letteringBox(word!);
  const corners = [minX, maxX].flatMap((x) => [minY, maxY].map((y) => ({ x, y })));
  expect(Math.min(...corners.flatMap((corner) => edges.map((edge) => edge(corner))))).toBeGreaterThan(5);
});
