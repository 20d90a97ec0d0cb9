import type { SheetFigures } from '../../../drawing/fit-up.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import type { Mark, Picture } from '../../../drawing/model.ts';
import { boxPath, circlePath, FINE, letter, MEDIUM, ruleLine } from '../../../drawing/paths.ts';
import { fitView, makePicture, viewLine, viewPath, viewText, type Sight } from '../../../drawing/view.ts';
import { itemAt, lastOf } from '../../../lists.ts';
import {
  add3,
  cross3,
  dot3,
  length3,
  scale3,
  sub3,
  unit3,
  vec3,
  type Vec3,
} from '../../../geometry/vector.ts';
import { drawOutline } from '../../../sheets/flat-marks.ts';
import { drawScaleEdge } from '../../../sheets/scale-edge.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { SolvedBends } from './bends-solve.ts';

const DEPTH = 40;

/** The strip's edge and ends, and the lines where bends begin and end. */
export const stripFigures = ({ layout: { marks, cutLength } }: SolvedBends): Partial<SheetFigures> => ({
  lines: [
    { from: { x: 0, y: 0 }, to: { x: cutLength, y: 0 } },
    ...[0, cutLength].map((x) => ({ from: { x, y: 0 }, to: { x, y: -DEPTH } })),
    ...marks
      .flatMap(({ from, to }) => [from, to])
      .map((x) => ({ from: { x, y: 0 }, to: { x, y: -DEPTH + 6 }, role: 'bend' as const })),
  ],
});

/**
 * The strip: start end on x = 0, the edge that is laid along the stock on y = 0. Lines of layer `bend` stand where each bend
 * begins and ends.
 */
export const stripMarks = ({ layout }: SolvedBends, setting: Setting): Mark[] => {
  const { marks, cutLength } = layout;
  const bendMarks = marks.flatMap(({ from, to }, i): Mark[] => {
    const name = `B${i + 1}`;
    const wide = to - from > textWidth(name, 5, true) + 4;
    const figure = (x: number, align: 'left' | 'right'): Mark =>
      letter('text', { x: align === 'left' ? x + 1 : x - 1, y: -DEPTH + 2 }, writeShort(x, setting), 2.5, {
        align,
      });
    return [
      ...[from, to].map((x) =>
        ruleLine('bend', { x, y: 0 }, { x, y: -DEPTH + 6 }, MEDIUM, 'long-dash-double-dot'),
      ),
      ruleLine('reference', { x: from, y: -22 }, { x: to, y: -22 }, FINE),
      letter('text', { x: wide ? (from + to) / 2 : to + 2, y: -28.5 }, name, 5, {
        align: wide ? 'centre' : 'left',
        bold: true,
      }),
      figure(from, 'right'),
      figure(to, 'left'),
    ];
  });
  return [
    drawOutline(boxPath({ minX: 0, maxX: cutLength, minY: -DEPTH, maxY: 0 })),
    ...drawScaleEdge({
      zero: { x: 0, y: 0 },
      along: 0,
      length: cutLength,
      side: -1,
      units: setting.units,
      crossed: marks.flatMap(({ from, to }) => [from, to]),
    }),
    letter('text', { x: 2, y: -16 }, say`START`, 3.5, { bold: true }),
    ...(cutLength > 60
      ? [letter('text', { x: cutLength - 2, y: -16 }, say`FINISH`, 3.5, { align: 'right', bold: true })]
      : []),
    ...bendMarks,
  ];
};

const SIGHT: Sight = {
  right: unit3(vec3(-0.64, 0.77, 0)),
  up: unit3(vec3(-0.34, -0.28, 0.9)),
};

/** Arc points of one bend, from tangent point to tangent point. */
const arcPoints = (
  before: Vec3,
  corner: Vec3,
  after: Vec3,
  takeOff: number,
  radius: number,
): readonly Vec3[] => {
  const [u, v] = [unit3(sub3(corner, before)), unit3(sub3(after, corner))];
  const start = sub3(corner, scale3(u, takeOff));
  const normal = cross3(u, v);
  const inward = unit3(cross3(normal, u));
  const turn = Math.atan2(length3(normal), dot3(u, v));
  return Array.from({ length: 13 }, (_, i) => {
    const angle = (turn * i) / 12;
    return add3(
      start,
      add3(scale3(u, radius * Math.sin(angle)), scale3(inward, radius * (1 - Math.cos(angle)))),
    );
  });
};

/** The bent center line in space, its bends numbered. */
export const bentPicture = ({ points, line }: SolvedBends): Picture => {
  const first = itemAt(points, 0);
  const last = lastOf(points);
  const curve = [
    first,
    ...line.bends.flatMap(({ corner, takeOff, radius }, i) =>
      arcPoints(itemAt(points, i), corner, itemAt(points, i + 2), takeOff, radius),
    ),
    last,
  ];
  const { project } = fitView(SIGHT, [...curve, ...points], 80, 60);
  const marks: Mark[] = [
    viewLine(project, points, 'long-dash-dot', FINE),
    viewLine(project, curve, 'continuous', MEDIUM),
    ...line.bends.flatMap(({ corner }, i) => {
      const at = project(corner);
      return [
        viewPath(circlePath(at, 0.8)),
        ...viewText({ x: at.x, y: at.y + 4 }, `B${i + 1}`, 'centre', true),
      ];
    }),
    ...viewText({ x: project(first).x, y: project(first).y - 4 }, say`start`),
    ...viewText({ x: project(last).x, y: project(last).y - 4 }, say`finish`),
  ];
  return makePicture(say`The center line in space`, marks);
};
