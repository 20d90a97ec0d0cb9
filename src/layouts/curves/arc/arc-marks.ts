import { contourPath } from '../../../drawing/contour-path.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Mark } from '../../../drawing/model.ts';
import { drawPunch } from '../../../sheets/flat-marks.ts';
import { drawOutline } from '../../../sheets/flat-marks.ts';
import { arcPath, FINE, letter, NARROW, ruleLine } from '../../../drawing/paths.ts';
import { arcPoint, type Arc } from '../../../geometry/chord-arc.ts';
import { arcEdge, lineEdge } from '../../../geometry/contour.ts';
import { add2, polar2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { contourFigures } from '../../../sheets/fit-record.ts';
import { ordinateMarks } from '../../../sheets/arcs.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

/** An arc as it is drawn: the whole of it or one of its segments, bare or as a curved strip. */
export interface DrawnArc extends Arc {
  readonly segments: number;
  readonly strip?: { readonly width: number; readonly inward: boolean };
  readonly step: number;
}

/** Up to this rise the chord is drawn with the arc; a deeper arc would leave pages with nothing but its chord. */
const SHALLOW = 100;

export const isShallow = ({ rise }: Arc): boolean => rise <= SHALLOW;

/** The full-size lines of an arc, its chord's middle at the origin. */
export const arcMarks = (drawn: DrawnArc, setting: Setting): Mark[] => {
  const { radius, rise, angle, strip } = drawn;
  const centre = vec2(0, rise - radius);
  const [from, to] = [Math.PI / 2 - angle / 2, Math.PI / 2 + angle / 2];
  const top = vec2(0, rise);
  const ends = [-1, 1].map((side) => arcPoint(drawn, (side * angle) / 2));
  if (strip) {
    const other = radius + (strip.inward ? -strip.width : strip.width);
    const [low, high] = strip.inward ? [rise - strip.width, rise] : [rise, rise + strip.width];
    return [
      ruleLine('centre', vec2(0, low - 4), vec2(0, high + 4), NARROW, 'long-dash-dot'),
      drawOutline(contourPath(stripContour(centre, radius, other, from, to))),
      ...nameMarks(drawn, (low + high) / 2, strip.width, setting),
    ];
  }
  return [
    drawOutline(arcPath(centre, radius, from, to)),
    ...(rise <= radius
      ? ordinateMarks(drawn, vec2(0, 0), drawn.step, setting, SHALLOW)
      : [ruleLine('centre', vec2(0, rise - 15), vec2(0, rise + 4), NARROW, 'long-dash-dot')]),
    ...(drawn.segments > 1
      ? [from, to].map((turn) =>
          ruleLine('reference', at(centre, radius - 8, turn), at(centre, radius + 8, turn), FINE),
        )
      : []),
    ...[top, ...ends].flatMap((p) => drawPunch(p)),
  ];
};

/** What the sheet of an arc must show: the arc itself with its punch marks, or both arcs of a strip and its ends. */
export const arcFigures = (drawn: DrawnArc): Partial<SheetFigures> => {
  const { radius, rise, angle, chord, strip } = drawn;
  const centre = vec2(0, rise - radius);
  const from = Math.PI / 2 - angle / 2;
  if (strip) {
    const other = radius + (strip.inward ? -strip.width : strip.width);
    return contourFigures(stripContour(centre, radius, other, from, from + angle));
  }
  return {
    arcs: [{ centre, radius, from, sweep: angle }],
    points: [vec2(0, rise), vec2(-chord / 2, 0), vec2(chord / 2, 0)],
  };
};

const at = (centre: Vec2, radius: number, turn: number): Vec2 => add2(centre, polar2(radius, turn));

/** A curved strip between two radii, run counter-clockwise. */
const stripContour = (centre: Vec2, a: number, b: number, from: number, to: number) => {
  const [inner, outer] = [Math.min(a, b), Math.max(a, b)];
  const out = arcEdge(centre, outer, from, to - from);
  const back = arcEdge(centre, inner, to, from - to);
  return [out, lineEdge(out.to, back.from), back, lineEdge(back.to, out.from)];
};

/** The strip's words where it is wide and long enough. */
const nameMarks = (drawn: DrawnArc, middle: number, width: number, setting: Setting): Mark[] => {
  const text = `R ${writeBoth(drawn.radius, setting)}${drawn.segments > 1 ? say` · 1 of ${drawn.segments}` : ''}`;
  const height = [5, 3.5, 2.5].find(
    (size) =>
      3 * size < width && 2 * textWidth(text, size, false) + 10 < drawn.chord && drawn.rise <= drawn.radius,
  );
  // To the right of the middle line, clear of it.
  return height === undefined ? [] : [letter('text', vec2(4, middle), text, height, { valign: 'middle' })];
};
