import { markBounds } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { centreLines, diameterDimension, drawHole, pitchCircle } from '../drawing/plate.ts';
import { circlePath, FINE, stroke } from '../drawing/shape.ts';
import type { Hole } from '../geometry/hole-pattern.ts';
import type { BoltCircle } from './bolt-checks.ts';
import { drawHoles, holeOutline } from './hole-parts.ts';
import type { Setting } from './layout.ts';
import { axisBoxes, labelRings } from './ring-parts.ts';
import { writeBoth } from './wrap-parts.ts';

const TURN = 2 * Math.PI;

/** The full-size lines of a bolt circle: center lines, circle, outlines, holes with their numbers. */
export const boltMarks = (circle: BoltCircle, holes: readonly Hole[], setting: Setting): Mark[] => {
  const radius = Math.max(circle.outside ?? 0, circle.circle + (circle.slot?.length ?? circle.hole)) / 2;
  const reach = radius + 6;
  const rings = [
    ...(circle.outside === undefined ? [] : [{ diameter: circle.outside, name: 'outside' }]),
    ...(circle.bore === undefined ? [] : [{ diameter: circle.bore, name: 'bore' }]),
    ...circle.gasket.map((diameter) => ({ diameter, name: 'gasket' })),
  ];
  const dimension = diameterDimension(
    { x: 0, y: 0 },
    circle.circle,
    clearAngle(circle),
    `⌀ ${writeBoth(circle.circle, setting)}`,
    circle.circle > 110 ? 3.5 : 2.5,
  );
  const boxes: Box[] = [
    ...axisBoxes(reach),
    ...dimension.filter((mark) => mark.kind === 'text').map(markBounds),
    ...holes.map((hole) => markBounds(holeOutline(hole))),
  ];
  return [
    ...centreLines({ x: 0, y: 0 }, reach, reach),
    pitchCircle({ x: 0, y: 0 }, circle.circle),
    ...rings.map(({ diameter }) => drawHole({ x: 0, y: 0 }, diameter)),
    stroke('reference', circlePath({ x: 0, y: 0 }, 2), FINE),
    ...(circle.circle > 60 ? dimension : []),
    ...labelRings(
      rings.map(({ diameter, name }) => ({
        diameter,
        text: `${name} ⌀ ${writeBoth(diameter, setting)}`,
        side: -1,
      })),
      boxes,
    ),
    ...drawHoles(holes, axisBoxes(reach)),
  ];
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
