import { markBounds } from '../../../drawing/extent.ts';
import type { Box, Mark } from '../../../drawing/model.ts';
import { circlePath, FINE, stroke } from '../../../drawing/paths.ts';
import { TURN } from '../../../geometry/angle-units.ts';
import type { Hole } from '../../../geometry/hole-pattern.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { faceWords } from '../../../sheets/face-words.ts';
import {
  centreLines,
  circleBoxes,
  diameterDimension,
  drawHole,
  findClear,
  pitchCircle,
} from '../../../sheets/flat-marks.ts';
import { drawHoles, holeOutline } from '../../../sheets/holes.ts';
import { axisBoxes, labelRings } from '../../../sheets/labeled-rings.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { BoltCircle } from './bolt-checks.ts';

/** The full-size lines of a bolt circle: center lines, circle, outlines, holes with their numbers. */
export const boltMarks = (circle: BoltCircle, holes: readonly Hole[], setting: Setting): Mark[] => {
  const radius = Math.max(circle.outside ?? 0, circle.circle + (circle.slot?.length ?? circle.hole)) / 2;
  const reach = radius + 6;
  const rings = [
    ...(circle.outside === undefined
      ? []
      : [{ diameter: circle.outside, text: say`outside ⌀ ${writeGiven(circle.outside, setting)}` }]),
    ...(circle.bore === undefined
      ? []
      : [{ diameter: circle.bore, text: say`bore ⌀ ${writeGiven(circle.bore, setting)}` }]),
    ...circle.gasket.map((diameter) => ({
      diameter,
      text: say`gasket ⌀ ${writeGiven(diameter, setting)}`,
    })),
  ];
  const o = { x: 0, y: 0 };
  const obstacles: Box[] = [
    ...axisBoxes(reach),
    ...rings.flatMap(({ diameter }) => circleBoxes(o, diameter)),
    ...holes.map((hole) => markBounds(holeOutline(hole))),
  ];
  const drilled = drawHoles(holes, obstacles);
  const numbers = drilled.filter((mark) => mark.kind === 'text').map(markBounds);
  const dimension = placeDimension(circle, [...obstacles, ...numbers], setting);
  const texts = [...dimension, ...drilled].filter((mark) => mark.kind === 'text').map(markBounds);
  const marks: Mark[] = [
    ...centreLines(o, reach, reach),
    pitchCircle(o, circle.circle),
    ...rings.map(({ diameter }) => drawHole(o, diameter)),
    stroke('reference', circlePath(o, 2), FINE),
    ...dimension,
    ...labelRings(
      rings.map(({ diameter, text }) => ({ diameter, text, side: -1 })),
      rings.map(({ diameter }) => diameter),
      [...axisBoxes(reach), ...holes.map((hole) => markBounds(holeOutline(hole))), ...texts],
    ),
    ...drilled,
  ];
  const box = { minX: -radius, maxX: radius, minY: -radius, maxY: radius };
  const bore = (circle.bore ?? 0) / 2;
  const isOn = ({ x, y }: Vec2): boolean => Math.hypot(x, y) < radius && Math.hypot(x, y) > bore;
  return [...marks, ...faceWords(marks, { box, isOn, holes, center: o, isByDegrees: true })];
};

/** The bolt circle's diameter where its value stands clear; nothing where it has no room: the words above give it. */
const placeDimension = (circle: BoltCircle, obstacles: readonly Box[], setting: Setting): Mark[] => {
  const text = `⌀ ${writeGiven(circle.circle, setting)}`;
  const angle = clearAngle(circle);
  for (const height of [3.5, 2.5])
    for (const share of [0.5, -0.5, 0.4, -0.4, 0.6, -0.6, 0.3, -0.3, 0.7, -0.7]) {
      const marks = diameterDimension({ x: 0, y: 0 }, circle.circle, angle, text, height, share);
      const value = marks.find((mark) => mark.kind === 'text');
      if (value?.kind === 'text' && findClear([value], obstacles, 0.5)) return marks;
    }
  return [];
};

/** The direction of the dimension line: furthest from holes and center lines. */
const clearAngle = ({ count, first }: BoltCircle): number => {
  const gap = (angle: number, step: number): number => {
    const off = Math.abs(angle - Math.round(angle / step) * step);
    return off;
  };
  const candidates = Array.from({ length: 15 }, (_, i) => ((i + 2) * 5 * Math.PI) / 180);
  const worth = (angle: number): number =>
    Math.min(
      gap(angle - first, TURN / count),
      gap(angle + Math.PI - first, TURN / count),
      gap(angle, Math.PI / 2),
    );
  return candidates.reduce((best, angle) => (worth(angle) > worth(best) + 1e-9 ? angle : best));
};
