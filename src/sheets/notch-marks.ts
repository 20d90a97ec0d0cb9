import type { Circle, FitLine, SheetFigures } from '../drawing/fit-up.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Measured } from '../drawing/measured.ts';
import type { Mark, Path, Segment, Stroke } from '../drawing/model.ts';
import { bigWord, hatchScrap } from '../drawing/scrap.ts';
import { cubicPath, FINE, letter, MEDIUM, QUARTER, ruleLine, stroke, WIDE } from '../drawing/paths.ts';
import { TURN } from '../geometry/angle-units.ts';
import { contourOutline, type ContourOutline } from '../geometry/contour-outline.ts';
import { mapCubic, reverseLine, type Cubic } from '../geometry/cubic.ts';
import { halve } from '../geometry/halving.ts';
import { notchSides, notchStretches, type Notch, type Opened } from '../geometry/notch.ts';
import { distance2, vec2, vec3, type Vec2 } from '../geometry/vector.ts';
import type { Solid } from '../joint/solid.ts';
import type { Stock } from '../stock/stock.ts';
import type { Setting } from '../units/setting.ts';
import { writeShort } from '../units/writing.ts';
import { translateName } from '../words/say.ts';
import { nameTab } from './band-marks.ts';
import { bandPaper } from './band-paper.ts';
import { drawHole, drawPunch, linearDimension, onPaper } from './flat-marks.ts';
import { apart, endAt, rise } from './measured.ts';
/** Paper kept above and below the notch, mm. */
const KEPT = 42;
/** Width of the overlap tab of a closed stock's paper. */
const TAB = 15;

/** A notch to be drawn around its stock. */
export interface NotchBand {
  readonly stock: Stock;
  readonly notch: Notch;
  readonly turn: number;
  readonly hinge: string;
  readonly gap: number;
  /** Diameter of the holes drilled where the notch ends; 0 for none. */
  readonly relief: number;
}

const lineTo = (to: Vec2): Segment => ({ kind: 'line', to });

const endOf = ({ start, segments }: Path): Vec2 => segments.at(-1)?.to ?? start;

/** A straight join to where the next line begins; none where a sharp fold without a gap lets both sides meet in a point. */
const joinTo = (from: Vec2, to: Vec2): readonly Segment[] => (distance2(from, to) > 1e-9 ? [lineTo(to)] : []);

/** The cut of one stretch: all the way round, or open where the steel's own edge ends it. */
const stretchPath = (
  upper: readonly Cubic[],
  lower: readonly Cubic[],
  openEnd: 'from' | 'to' | undefined,
): Path => {
  const back = cubicPath(reverseLine(lower));
  const ahead = cubicPath(upper);
  if (openEnd === 'to') {
    // From the edge of the steel down to the notch's end and back along the other side.
    const first = cubicPath(reverseLine(upper));
    const second = cubicPath(lower);
    return {
      start: first.start,
      segments: [...first.segments, ...joinTo(endOf(first), second.start), ...second.segments],
      closed: false,
    };
  }
  const segments = [...ahead.segments, ...joinTo(endOf(ahead), back.start), ...back.segments];
  return openEnd === 'from'
    ? { start: ahead.start, segments, closed: false }
    : { start: ahead.start, segments: [...segments, ...joinTo(endOf(back), ahead.start)], closed: true };
};

/** Where a stretch of an open section ends at the steel's own edge. */
const openEndOf = (
  outline: ContourOutline,
  notch: Notch,
  { from, to }: Opened,
): 'from' | 'to' | undefined => {
  if (!outline.wallAt) return undefined;
  return notch.heightAt(from + 1e-6) > notch.heightAt(to - 1e-6) ? 'from' : 'to';
};

/**
 * The wedge that is taken out, for those who prove the sheet: along the hinge, straight up to the height of the bend's center
 * and spread from there on, to well over the far edge. y of the sheet is z.
 */
const notchWedge = ({ stock, notch, hinge }: NotchBand): readonly Solid[] => {
  const outline = contourOutline(stock.section);
  const face = outline.faces.find((part) => part.face === hinge);
  if (!face) return [];
  const { out } = face;
  const middle = (face.from + face.to) / 2;
  const at = outline.at(middle, 0);
  // The inside of the hinge, from the section's origin.
  const inside = at.x * out.x + at.y * out.y + notch.heightAt(middle);
  const top = 2 * notch.farHeight;
  const right = [...new Set([0, notch.bendRadius, top])].map((height) =>
    vec2(notch.halfWidth(height), height),
  );
  const left = right.map(({ x, y }) => vec2(-x, y)).reverse();
  const corners = [...right, ...left].filter((p, i, all) => distance2(p, all.at(i - 1) ?? p) > 1e-9);
  const outside = corners.map((from, i) => ({
    kind: 'line' as const,
    face: 'notch',
    from,
    to: corners[(i + 1) % corners.length] ?? from,
  }));
  return [
    {
      kind: 'prism',
      through: vec3(out.x * inside, out.y * inside, 0),
      along: vec3(out.y, -out.x, 0),
      across: vec3(0, 0, 1),
      section: { outside, thickness: top },
    },
  ];
};

/** What a drawn notch leaves for its sheet. */
export interface DrawnNotch {
  readonly marks: readonly Mark[];
  readonly lines: readonly FitLine[];
  /** The holes drilled where the notch ends. */
  readonly figures: SheetFigures;
  /** How its width at the far edge is measured. */
  readonly farWidth: Measured | undefined;
  /** How its height is measured; undefined where holes are drilled at its ends, past which it does not reach. */
  readonly height: Measured | undefined;
  /** How its bend's length is measured; undefined for a sharp fold. */
  readonly allowance: Measured | undefined;
}

/**
 * Draws a notch on the paper that goes around the stock: x = 0 at position 0, y along the stock from the middle of the bend.
 * Closed stock is wrapped with the seam in the middle of the hinge; open stock is covered from edge to edge.
 */
export const drawNotch = (
  band: NotchBand,
  names: readonly [up: string, down: string],
  setting: Setting,
): DrawnNotch => {
  const { stock, notch, hinge, relief } = band;
  const outline = contourOutline(stock.section);
  const { girth } = outline;
  const paper = bandPaper(stock, (notch.hingeAt / girth) * TURN, setting);
  const xAt = (s: number): number => paper.xAt((s / girth) * TURN);
  const open = outline.wallAt !== undefined;
  const covered = open ? coveredRange(outline, notch) : ([notch.hingeAt, notch.hingeAt + girth] as const);
  // A stretch is found ahead of the hinge; on open stock it may lie behind it.
  const center = (covered[0] + covered[1]) / 2;
  const stretches = notchStretches(outline, notch).map(({ from, to }): Opened => {
    const turn = Math.round(((from + to) / 2 - center) / girth) * girth;
    return { from: from - turn, to: to - turn };
  });
  // The band lies about x = 0 wherever the hinge is.
  const shift = Math.round(center / girth) * girth;
  const place = (s: number): number => xAt(s - shift);
  const [left, right] = [place(covered[0] + 1e-9), place(covered[1] - 1e-9)];
  const half = notch.farWidth / 2 + KEPT;
  const drawn = stretches.map((stretch) => {
    const sides = notchSides(outline, notch, stretch);
    const lay = (line: readonly Cubic[]): readonly Cubic[] =>
      paper.lay(line.map((cubic) => moveCubic(cubic, -shift)));
    const [upper, lower] = [lay(sides.upper), lay(sides.lower)];
    return { stretch, upper, lower, openEnd: openEndOf(outline, notch, stretch) };
  });
  const holes = drawn.flatMap(({ stretch }) => reliefHoles(notch, stretch, relief, place));
  const bent = bendLines(outline, notch, hinge, place, covered);
  const marks: Mark[] = [
    ...edges(left, right, half, open),
    ...stockLines(stock, place, covered, half),
    ...bent,
    ...(open ? [] : nameHinge(hinge, bent)),
    ...drawn.flatMap(({ upper, lower }) => [
      ...hatchScrap(upper, -1).filter(insideNotch(notch)),
      ...hatchScrap(lower, 1).filter(insideNotch(notch)),
    ]),
    ...drawn.map(({ upper, lower, openEnd }) => stroke('cut', stretchPath(upper, lower, openEnd), WIDE)),
    ...holes.flatMap(({ centre, radius }) => [
      drawHole(centre, 2 * radius),
      ...drawPunch(centre, radius + 2),
    ]),
    ...drawn.flatMap(({ stretch, openEnd }) => widthMark(notch, stretch, openEnd, place, setting)),
    ...names.flatMap((name, i) => sideName(name, [left, right], i === 0 ? half - 12 : -half + 12)),
  ];
  const lines: FitLine[] =
    drawn.length === 0 ? [] : [{ which: 'closed', contact: 'od', gap: 0, solids: notchWedge(band) }];
  const farWidth = drawn.length === 0 ? undefined : rise();
  const out = outline.faces.find((face) => face.face === hinge)?.out;
  const height: Measured | undefined =
    out === undefined || drawn.length === 0 || holes.length > 0 ? undefined : { kind: 'across', along: out };
  const figuresOfHoles = { circles: holes, points: holes.map(({ centre }) => centre) };
  const [begins, ends] = bent.map(({ path }) => endAt('bend', path.start.x, path.start.y));
  const allowance = begins && ends && notch.allowance > 0 ? apart(ends, begins, 'y') : undefined;
  return { marks, lines, farWidth, height, allowance, figures: figuresOfHoles };
};

/** The name of what lies to one side of the notch, near the left edge of the paper but on it. */
const sideName = (name: string, [left, right]: readonly [number, number], y: number): readonly Mark[] => {
  const widthOf = (height: number): number => textWidth(name, height, true) + 4;
  const height = [5, 3.5].find((one) => widthOf(one) <= right - left) ?? 2.5;
  const half = Math.min(widthOf(height), right - left) / 2;
  return bigWord(vec2(Math.max(left + half, left + (right - left) * 0.2), y), name, height);
};

const moveCubic = (cubic: Cubic, dx: number): Cubic => mapCubic(cubic, (p) => vec2(p.x + dx, p.y));

/** From edge to edge of the steel around the hinge. */
const coveredRange = (outline: ContourOutline, notch: Notch): readonly [number, number] => {
  const { girth, faces } = outline;
  const gaps = [-1, 0, 1].flatMap((round) =>
    faces
      .filter(({ face }) => face === undefined)
      .map(({ from, to }) => ({ from: from + round * girth, to: to + round * girth })),
  );
  const before = Math.max(...gaps.filter(({ to }) => to <= notch.hingeAt).map(({ to }) => to));
  const after = Math.min(...gaps.filter(({ from }) => from >= notch.hingeAt).map(({ from }) => from));
  return [before, after];
};

const edges = (left: number, right: number, half: number, open: boolean): Mark[] => [
  ruleLine('reference', vec2(left, -half), vec2(right, -half), MEDIUM),
  ruleLine('reference', vec2(left, half), vec2(right, half), MEDIUM),
  ruleLine('reference', vec2(left, -half), vec2(left, half), QUARTER),
  ruleLine('reference', vec2(right, -half), vec2(right, half), QUARTER),
  ...(open
    ? []
    : [
        ruleLine('reference', vec2(right, -half), vec2(right + TAB, -half), FINE),
        ruleLine('reference', vec2(right + TAB, -half), vec2(right + TAB, half), FINE),
        ruleLine('reference', vec2(right + TAB, half), vec2(right, half), FINE),
        nameTab(vec2(right + TAB / 2, 0), 2 * half),
      ]),
];

/** Folds and the middles of faces, with their names by the lower edge. */
const stockLines = (
  { lines, girth }: Stock,
  place: (s: number) => number,
  [from, to]: readonly [number, number],
  half: number,
): Mark[] => {
  const drawn = [-1, 0, 1, 2]
    .flatMap((round) => lines.map((line) => ({ ...line, s: line.s + round * girth })))
    .filter(({ s }) => s > from + 1e-6 && s < to - 1e-6)
    .map(({ s, name, kind }) => ({ x: place(s), name, isFold: kind === 'fold' }));
  return [
    ...drawn.map(({ x, isFold }) =>
      ruleLine(
        'station',
        vec2(x, -half),
        vec2(x, half),
        isFold ? FINE : QUARTER,
        isFold ? 'continuous' : 'long-dash-dot',
      ),
    ),
    // After all lines: a name may be wider than its face.
    ...drawn
      .filter(({ isFold }) => !isFold)
      .flatMap(({ x, name }) =>
        onPaper(
          letter('text', vec2(x, -half + 3), translateName(name), 3.5, { align: 'centre', bold: true }),
        ),
      ),
  ];
};

/** Across the hinge: where the bend begins and ends, or the one line of a sharp fold. */
const bendLines = (
  outline: ContourOutline,
  notch: Notch,
  hinge: string,
  place: (s: number) => number,
  [from, to]: readonly [number, number],
): Stroke[] => {
  const { girth, faces } = outline;
  const ys = notch.allowance > 0 ? [notch.allowance / 2, -notch.allowance / 2] : [0];
  return [-1, 0, 1, 2]
    .flatMap((round) =>
      faces
        .filter(({ face }) => face === hinge)
        .map(
          (part) =>
            [Math.max(from, part.from + round * girth), Math.min(to, part.to + round * girth)] as const,
        ),
    )
    .filter(([a, b]) => b - a > 1e-6)
    .flatMap(([a, b]) =>
      ys.map((y) =>
        ruleLine('bend', vec2(place(a + 1e-9), y), vec2(place(b - 1e-9), y), QUARTER, 'long-dash-double-dot'),
      ),
    );
};

/** The hinge's name over its bend line, where the seam divides its face and leaves no middle line that is named. */
const nameHinge = (hinge: string, bent: readonly Stroke[]): Mark[] => {
  const text = translateName(hinge);
  const width = textWidth(text, 2.5, true) + 3;
  const top = Math.max(...bent.map(({ path }) => path.start.y));
  return bent
    .filter(({ path }) => path.start.y === top && distance2(path.start, endOf(path)) >= width)
    .map(({ path }) =>
      letter('text', vec2((path.start.x + endOf(path).x) / 2, top + 1.5), text, 2.5, {
        align: 'centre',
        bold: true,
      }),
    );
};

/** True for hatching that stays inside the notch, whatever the x. */
const insideNotch =
  (notch: Notch) =>
  (mark: Mark): boolean => {
    if (mark.kind !== 'stroke') return false;
    const tip = mark.path.segments[0]?.to ?? mark.path.start;
    return mark.path.start.y * tip.y > 0 && Math.abs(tip.y) < notch.farWidth / 2;
  };

/** A hole at each end of a stretch that ends in the wall, tangent to the inside of the hinge. */
const reliefHoles = (
  notch: Notch,
  { from, to }: Opened,
  relief: number,
  place: (s: number) => number,
): readonly Circle[] => {
  if (relief === 0) return [];
  return [
    [from, to],
    [to, from],
  ].flatMap(([end = 0, other = 0]) => {
    if (Math.abs(notch.heightAt(end)) > 1e-6) return [];
    const { middle } = halve((s) => notch.heightAt(s) < relief / 2, end, (end + other) / 2);
    return [{ centre: vec2(place(middle), 0), radius: relief / 2 }];
  });
};

/** The notch's width where it is widest. */
const widthMark = (
  notch: Notch,
  { from, to }: Opened,
  openEnd: 'from' | 'to' | undefined,
  place: (s: number) => number,
  setting: Setting,
): Mark[] => {
  const s = openEnd === 'from' ? from + 1e-6 : openEnd === 'to' ? to - 1e-6 : (from + to) / 2;
  const x = place(s);
  const half = notch.halfWidth(notch.heightAt(s));
  const inward = openEnd === 'to' ? 9 : -9;
  return linearDimension(vec2(x, -half), vec2(x, half), inward, writeShort(2 * half, setting));
};
