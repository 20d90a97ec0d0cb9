import { contourPath } from '../../../drawing/contour-path.ts';
import { letteringBox, textWidth } from '../../../drawing/lettering.ts';
import type { Mark } from '../../../drawing/model.ts';
import { onPaper } from '../../../sheets/flat-marks.ts';
import { centreLines } from '../../../sheets/flat-marks.ts';
import { drawTarget } from '../../../sheets/flat-marks.ts';
import { drawPunch } from '../../../sheets/flat-marks.ts';
import { drawHole } from '../../../sheets/flat-marks.ts';
import { drawOutline } from '../../../sheets/flat-marks.ts';
import { letter, NARROW, ruleLine } from '../../../drawing/paths.ts';
import { segmentContour, type Ring } from '../../../geometry/ring-segment.ts';
import { add2, polar2, scale2, vec2 } from '../../../geometry/vector.ts';
import type { Setting } from '../../../units/setting.ts';
import { axisBoxes, labelRings } from '../../../sheets/labeled-rings.ts';
import { writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

const ORIGIN = { x: 0, y: 0 };

/** The center is drawn in rings up to this inside diameter; in larger ones it would stand alone on a page. */
const LARGEST_OPEN = 300;

/** True where the whole ring is drawn with its center. */
export const showsCenter = ({ inside }: Ring): boolean => inside <= LARGEST_OPEN;

/** The whole ring; with several segments its joint lines, without a gap between them its circles whole. */
export const wholeMarks = (ring: Ring, setting: Setting): Mark[] => {
  const { outside, inside, segments, gap } = ring;
  const reach = outside / 2 + 6;
  const open = showsCenter(ring);
  const joints = Array.from({ length: segments }, (_, i) => Math.PI / 2 + (2 * i + 1) * (Math.PI / segments));
  const split = segments === 1 && gap > 0;
  return [
    ...(open
      ? centreLines(ORIGIN, reach, reach)
      : [0, 1, 2, 3].map((quarter) => {
          const out = polar2(1, (quarter * Math.PI) / 2);
          return ruleLine('centre', scale2(out, inside / 2 - 6), scale2(out, reach), NARROW, 'long-dash-dot');
        })),
    ...(split
      ? [drawOutline(contourPath(segmentContour(ring)))]
      : [drawHole(ORIGIN, outside), drawHole(ORIGIN, inside)]),
    ...(segments > 1 ? joints.flatMap((angle) => jointLines(ring, angle)) : []),
    ...labelRings(
      [
        { diameter: outside, text: say`outside ⌀ ${writeGiven(outside, setting)}`, side: -1 },
        { diameter: inside, text: say`inside ⌀ ${writeGiven(inside, setting)}`, side: open ? -1 : 1 },
      ],
      [outside, inside],
      axisBoxes(reach),
    ),
    ...(open ? drawTarget(ORIGIN, Math.min(2, inside / 12)) : []),
  ];
};

/** A joint's two edges, or the one line where there is no gap; they end on the circles. */
const jointLines = ({ outside, inside, gap }: Ring, angle: number): Mark[] => {
  const sides = gap > 0 ? [1, -1] : [0];
  return sides.map((side) => {
    const at = (diameter: number) => polar2(diameter / 2, angle + side * Math.asin(gap / diameter));
    return ruleLine('reference', at(inside), at(outside), NARROW);
  });
};

/** One segment with its middle line, punched at both arcs, and its name. */
export const segmentMarks = (ring: Ring, setting: Setting): Mark[] => {
  const { outside, inside, segments } = ring;
  const [out, back] = [outside / 2, inside / 2];
  const width = out - back;
  const lines = [say`1 of ${segments}`, `⌀ ${writeGiven(outside, setting)} / ${writeGiven(inside, setting)}`];
  const room = 2 * back * Math.sin(Math.PI / segments) - 8;
  const height = [5, 3.5, 2.5].find(
    (size) => 3.4 * size + 10 < width && lines.every((line) => textWidth(line, size, true) < room),
  );
  const names =
    height === undefined
      ? []
      : lines.flatMap((line, i) =>
          onPaper(
            letter('text', vec2(0, back + width / 2 + (0.8 - 1.7 * i) * height), line, height, {
              align: 'centre',
              valign: 'middle',
              bold: i === 0,
            }),
          ),
        );
  // On the arcs the cross lies wholly on the part, so that the punch mark is not cut away.
  const inset = Math.min(5, width / 4);
  return [
    ruleLine('centre', vec2(0, back - 4), vec2(0, out + 4), NARROW, 'long-dash-dot'),
    drawOutline(contourPath(segmentContour(ring))),
    ...names,
    ...[out - inset, back + inset].flatMap((y) => drawPunch(add2(ORIGIN, vec2(0, y)), Math.min(2, inset))),
  ].filter((mark) => mark.kind !== 'text' || letteringBox(mark).maxY < out);
};
