import { contourPath } from '../../../drawing/contour-path.ts';
import { markBounds } from '../../../drawing/extent.ts';
import type { Box, Mark } from '../../../drawing/model.ts';
import { letter, NARROW, stroke, unionBox } from '../../../drawing/paths.ts';
import { contourPoints, isInside } from '../../../geometry/contour.ts';
import { add2, polar2, scale2, sub2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { faceWords } from '../../../sheets/face-words.ts';
import {
  centreLines,
  circleBoxes,
  drawHole,
  drawOutline,
  drawTarget,
  leaderNote,
  linearDimension,
  onPaper,
  pitchCircle,
} from '../../../sheets/flat-marks.ts';
import { drawHoles, holeOutline } from '../../../sheets/holes.ts';
import { axisBoxes, labelRings } from '../../../sheets/labeled-rings.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { PlateAsked } from './plate-fields.ts';
import type { PlatePart } from './plate-part.ts';

const ORIGIN = { x: 0, y: 0 };

/** The upright box of a part. */
export const partBox = ({ contour }: PlatePart): Box =>
  unionBox(contourPoints(contour).map(({ x, y }) => ({ minX: x, maxX: x, minY: y, maxY: y })));

/** The full-size lines of a part: outline, holes, center lines, what stands on it, and its main dimensions. */
export const plateMarks = (part: PlatePart, asked: PlateAsked, setting: Setting): Mark[] => {
  const { contour, holes, bore, circle, footprint, round } = part;
  const both = (length: number): string => writeBoth(length, setting);
  const box = partBox(part);
  const gusset = asked.shape === 'gusset';
  // Past a straight edge they would only make the paper larger.
  const past = round ? 5 : 0;
  const [reachX, reachY] = [box.maxX + past, box.maxY + past];
  const outline = drawOutline(contourPath(contour));
  const rings = [
    ...(round ? [{ diameter: part.width, text: `⌀ ${both(part.width)}`, side: -1 as const }] : []),
    ...(bore === undefined ? [] : [{ diameter: bore, text: say`bore ⌀ ${both(bore)}`, side: 1 as const }]),
  ];
  const circles = [
    ...rings.map(({ diameter }) => diameter),
    ...(circle === undefined ? [] : [circle]),
    ...(footprint && asked.pipe ? [asked.pipe.od] : []),
  ];
  const axes: Box[] = gusset ? [] : axisBoxes(Math.max(reachX, reachY));
  const drilled = drawHoles(holes, [
    ...axes,
    ...circles.flatMap((diameter) => circleBoxes(ORIGIN, diameter)),
  ]);
  const numbers = drilled.filter((mark) => mark.kind === 'text').map(markBounds);
  const labels = labelRings(rings, circles, [
    ...axes,
    ...numbers,
    ...holes.map((hole) => markBounds(holeOutline(hole))),
  ]);
  const marks: Mark[] = [
    ...(gusset ? [] : centreLines(ORIGIN, reachX, reachY)),
    ...(circle === undefined ? [] : [pitchCircle(ORIGIN, circle)]),
    ...(footprint ? [stroke('reference', contourPath(footprint.contour), NARROW, 'dashed')] : []),
    outline,
    ...(bore === undefined ? [] : [drawHole(ORIGIN, bore)]),
    ...drilled,
    ...labels,
    ...(gusset ? gussetDimensions(part, asked, setting) : []),
    ...(gusset || round
      ? []
      : [
          ...edgeLength(vec2(box.minX, box.minY), vec2(box.maxX, box.minY), vec2(0, 1), both(part.width)),
          ...edgeLength(vec2(box.minX, box.minY), vec2(box.minX, box.maxY), vec2(1, 0), both(part.height)),
        ]),
    ...(gusset ? [] : drawTarget(ORIGIN, 2)),
  ];
  const isOn = (p: Vec2): boolean => isInside(contour, p) && Math.hypot(p.x, p.y) > (bore ?? 0) / 2;
  const center = gusset ? {} : { center: ORIGIN, isByDegrees: round };
  return [...marks, ...faceWords(marks, { box, isOn, holes, ...center })];
};

/** The length of an edge written along it inside the plate, clear of the center lines: it takes no paper. */
const edgeLength = (a: Vec2, b: Vec2, inward: Vec2, text: string): Mark[] => {
  const along = sub2(b, a);
  const angle = Math.atan2(along.y, along.x);
  // The lettering stands on its baseline, which on an upright edge is its far side.
  const off = inward.x > 0 ? 4.6 : 2.2;
  const at = add2(add2(a, scale2(along, 0.25)), scale2(inward, off));
  return onPaper(letter('text', at, text, 2.5, { align: 'centre', angle }), 0.4);
};

const gussetDimensions = ({ contour }: PlatePart, asked: PlateAsked, setting: Setting): Mark[] => {
  const both = (length: number): string => writeBoth(length, setting);
  const { width: foot = 0, height: upright = 0, angle } = asked;
  const cope = contour.find((edge) => edge.kind === 'arc');
  return [
    ...linearDimension(vec2(0, 0), vec2(foot, 0), -8, both(foot), 2.5),
    ...linearDimension(vec2(0, 0), polar2(upright, angle), 8, both(upright), 2.5),
    ...(cope?.kind === 'arc' && cope.radius > 8
      ? leaderNote(
          polar2Of(cope.centre, cope.radius, cope.start + cope.sweep / 2),
          polar2Of(cope.centre, cope.radius + 9, cope.start + cope.sweep / 2),
          `R ${both(cope.radius)}`,
          2.5,
        )
      : []),
  ];
};

const polar2Of = (centre: { readonly x: number; readonly y: number }, radius: number, angle: number) => {
  const out = polar2(radius, angle);
  return vec2(centre.x + out.x, centre.y + out.y);
};
