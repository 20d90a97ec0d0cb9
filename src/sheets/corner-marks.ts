import { markBounds } from '../drawing/extent.ts';
import type { SheetFigures } from '../drawing/fit-up.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Measured } from '../drawing/measured.ts';
import type { Lettering, Mark } from '../drawing/model.ts';
import { FINE, letter, polylinePath, ruleLine } from '../drawing/paths.ts';
import { splitCorner, type CornerSplit } from '../geometry/corner.ts';
import { add2, left2, polar2, scale2, vec2, type Vec2 } from '../geometry/vector.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import { say } from '../words/say.ts';
import { angleDimension, drawOutline, uprightAngle } from './flat-marks.ts';
import { formatAngle, writeAngle } from '../units/angle.ts';
import { angleOfEnds, apart, endAt, levelAt, ORIGIN, taken, uprightAt } from './measured.ts';

/** The full-size corner of two parts. mm and radians; the inside corner lies on the sheet's origin, part 1 along +x. */
export interface Corner {
  readonly between: number;
  /** Widths of part 1 and part 2. */
  readonly widths: readonly [number, number];
  /** Root gap, square to the joint line; each part is set back by half of it. */
  readonly gap: number;
  /** Length of the inside edges drawn. */
  readonly reach: number;
}

/** One part's end. */
export interface CornerPart {
  readonly width: number;
  /** Angle between cut and edge. */
  readonly edgeAngle: number;
  /** Angle of the cut from square; negative where it leans the other way. */
  readonly miter: number;
  /** From long to short point along the part; negative where the inside point is the long one. */
  readonly cutback: number;
  /** How far the gap sets the part back along itself. */
  readonly setback: number;
}

/** Both parts of a corner, and the joint line between them. */
export const cornerParts = ({
  between,
  widths,
  gap,
}: Corner): {
  readonly parts: readonly [CornerPart, CornerPart];
  readonly split: CornerSplit;
} => {
  const split = splitCorner(between, widths[0], widths[1]);
  const partOf = (width: number, edgeAngle: number): CornerPart => ({
    width,
    edgeAngle,
    miter: Math.PI / 2 - edgeAngle,
    cutback: width / Math.tan(edgeAngle),
    setback: gap / 2 / Math.sin(edgeAngle),
  });
  return { parts: [partOf(widths[0], split.first), partOf(widths[1], split.second)], split };
};

/** Distance of the check marks from the inside corner along both inside edges, and the chord between them. */
export const cornerCheck = (
  corner: Corner,
  { units }: Setting,
): { readonly leg: number; readonly across: number } => {
  const step = units === 'in' ? 12.7 : 10;
  const leg = Math.max(1, Math.floor((corner.reach - 3) / step + 1e-9)) * step;
  return { leg, across: 2 * leg * Math.sin(corner.between / 2) };
};

/** How a corner's figures are measured on its drawing. */
export interface CornerMeasures {
  /** Of each part: its cut from square and to the edge, and from long to short point along it. */
  readonly parts: readonly {
    readonly cut: Measured;
    readonly edge: Measured;
    readonly back: Measured;
    readonly setback: Measured;
  }[];
  readonly joint: Measured;
  /** Between the check marks. */
  readonly across: Measured;
}

/** Where a corner's figures are measured: at the ends of its parts, and between the marks on its inside edges. */
export const cornerMeasures = (corner: Corner, leg: number): CornerMeasures => {
  const { between, reach } = corner;
  const { parts } = cornerParts(corner);
  const along = [vec2(1, 0), polar2(1, between)] as const;
  const out = [vec2(0, -1), left2(along[1])] as const;
  const at = (i: 0 | 1, x: number, y: number): Vec2 => add2(scale2(along[i], x), scale2(out[i], y));
  const cut = (p: Vec2) => endAt('cut', p.x, p.y);
  const measured = parts.map(({ setback, cutback, width, miter }, n) => {
    const i = n as 0 | 1;
    const [inside, end] = [at(i, setback, 0), at(i, reach + Math.max(0, -cutback), 0)];
    const outside = at(i, setback - cutback, width);
    // At the inside point stands what the angle to the edge leaves of a half turn.
    const wide = angleOfEnds([inside, end], [inside, outside]);
    const sense = miter < 0 ? -1 : 1;
    const far = at(i, reach + Math.max(0, -cutback), width);
    return {
      cut: taken(wide, sense, (-sense * Math.PI) / 2),
      edge: taken(wide, -1, Math.PI),
      // The outer edge is longer or shorter than the inner one by it, whichever way the part lies.
      back: taken(apart(cut(outside), cut(far)), sense, -sense * (reach + Math.max(0, -cutback) - setback)),
      setback: apart(ORIGIN, cut(inside)),
      inside,
      outside,
    };
  });
  const [first] = measured;
  const [p, q] = [at(0, leg, 0), at(1, leg, 0)];
  // A mark is square to its edge: it is met along that edge.
  const isSteep = Math.abs(along[1].y) > Math.abs(along[1].x);
  const onTick = isSteep ? uprightAt('reference', q.x, q.y) : levelAt('reference', q.x, q.y);
  return {
    parts: measured,
    joint: apart(cut(first?.inside ?? p), cut(first?.outside ?? p)),
    across: apart(levelAt('reference', p.x, p.y), onTick),
  };
};

/** The angle of each part's end with its edges, and of the corner itself where the two parts meet in it. */
export const cornerAngles = (corner: Corner): Partial<SheetFigures> => ({
  corners: [
    ...cornerParts(corner).parts.flatMap(({ edgeAngle }) => [
      { angle: edgeAngle },
      { angle: Math.PI - edgeAngle },
    ]),
    ...(corner.gap === 0 ? [{ angle: corner.between }] : []),
  ],
});

/** Outlines of both parts on layer `cut`, sharing the joint line where there is no gap, with names and check marks. */
export const cornerMarks = (corner: Corner, names: readonly [string, string], setting: Setting): Mark[] => {
  const { between, reach } = corner;
  const { parts } = cornerParts(corner);
  const [first, second] = parts;
  const along = polar2(1, between);
  const onFirst = (x: number, y: number): Vec2 => vec2(x, -y);
  const onSecond = (x: number, y: number): Vec2 => add2(scale2(along, x), scale2(left2(along), y));
  const outline = (part: CornerPart, place: (x: number, y: number) => Vec2): Mark => {
    const end = reach + Math.max(0, -part.cutback);
    return drawOutline(
      polylinePath(
        [
          place(part.setback, 0),
          place(end, 0),
          place(end, part.width),
          place(part.setback - part.cutback, part.width),
        ],
        true,
      ),
    );
  };
  return [
    outline(first, onFirst),
    outline(second, onSecond),
    ...partWords(first, names[0], reach, onFirst),
    ...partWords(second, names[1], reach, onSecond),
    ...checkMarks(corner, onFirst, onSecond, setting),
  ];
};

/** A part's name and saw setting inside its outline, as large as there is room for. */
const partWords = (
  part: CornerPart,
  name: string,
  reach: number,
  place: (x: number, y: number) => Vec2,
): Mark[] => {
  const from = Math.max(part.setback, part.setback - part.cutback) + 4;
  const to = reach + Math.max(0, -part.cutback) - 4;
  const saw = say`${writeAngle(Math.abs(part.miter))} from square`;
  const angle = uprightAngle(vec2(place(1, 0).x - place(0, 0).x, place(1, 0).y - place(0, 0).y));
  const up = polar2(1, angle + Math.PI / 2);
  const middle = place((from + to) / 2, part.width / 2);
  const line = (text: string, height: number, off: number, bold = false): Lettering =>
    letter('text', add2(middle, scale2(up, off)), text, height, {
      align: 'centre',
      valign: 'middle',
      angle,
      bold,
    });
  const choices: readonly Lettering[][] = [
    [line(name, 5, 3.5, true), line(saw, 3.5, -3.5)],
    [line(name, 3.5, 2.4, true), line(saw, 2.5, -2.4)],
    [line(`${name}: ${saw}`, 2.5, 0)],
    [line(name, 2.5, 0, true)],
  ];
  const heights = [16, 11, 5, 5];
  const fits = choices.findIndex(
    (texts, i) =>
      part.width >= (heights[i] ?? 0) &&
      texts.every(({ text, height, bold }) => textWidth(text, height, bold) <= to - from),
  );
  return [...(choices[fits] ?? [])];
};

/** The angle at the inside corner, and the marks whose distance proves it. */
const checkMarks = (
  corner: Corner,
  onFirst: (x: number, y: number) => Vec2,
  onSecond: (x: number, y: number) => Vec2,
  setting: Setting,
): Mark[] => {
  const half = corner.between / 2;
  const { leg, across } = cornerCheck(corner, setting);
  const [p, q] = [onFirst(leg, 0), onSecond(leg, 0)];
  const text = writeBoth(across, setting);
  const chordAt = leg * Math.cos(half);
  // Where a wedge is too narrow for the angle's number, the number moves out.
  const radius = Math.max(14, Math.min(8 / Math.tan(half), leg));
  const label = formatAngle(corner.between, 4);
  const dimension = angleDimension(vec2(0, 0), radius, 0, corner.between, label);
  const angleFits = 2 * (radius + 2) * Math.sin(half) > textWidth(label, 3.5, false) + 1;
  const outer = Math.max(
    ...dimension
      .filter((mark) => mark.kind === 'text')
      .map((mark) => {
        const box = markBounds(mark);
        return Math.max(box.maxX * Math.cos(half), 0) + Math.max(box.maxY * Math.sin(half), 0);
      }),
  );
  const chordFits = across > textWidth(text, 2.5, false) + 6 && chordAt > (angleFits ? outer : radius) + 3;
  const tick = (at: number, width: number, place: (x: number, y: number) => Vec2): Mark =>
    ruleLine('reference', place(at, -2.5), place(at, Math.min(2.5, width / 6)), FINE);
  const angle = uprightAngle(vec2(q.x - p.x, q.y - p.y));
  return [
    tick(leg, corner.widths[0], onFirst),
    tick(leg, corner.widths[1], onSecond),
    ...(angleFits ? dimension : []),
    ...(chordFits
      ? [
          ruleLine('reference', p, q, FINE, 'dashed'),
          letter('text', add2(scale2(add2(p, q), 0.5), polar2(2.4, half)), text, 2.5, {
            align: 'centre',
            valign: 'middle',
            angle,
          }),
        ]
      : []),
  ];
};
