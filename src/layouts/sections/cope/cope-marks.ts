import { markBounds } from '../../../drawing/extent.ts';
import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Measured } from '../../../drawing/measured.ts';
import type { Mark, Segment, Sheet } from '../../../drawing/model.ts';
import {
  arcPath,
  FINE,
  growBox,
  letter,
  linePath,
  NARROW,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  unionBox,
  WIDE,
} from '../../../drawing/paths.ts';
import type { CopeCut } from '../../../geometry/cope.ts';
import { add2, distance2, left2, scale2, sub2, unit2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { drawPunch, linearDimension, onPaper } from '../../../sheets/flat-marks.ts';
import { apart, endAt, ORIGIN } from '../../../sheets/measured.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { cutsOf, leanOf, type CopedEnd } from './coped-end.ts';

/** How far the cards reach past the cope, mm, and how far apart they lie. */
const BEYOND = 60;
/** Least height of a web card that is broken off under its cope, mm. */
const LOWEST = 90;
const APART = 24;
/** Names stand this far above their card. */
const NAME = 5;

/** The cut from the end to the outside of the flange, rounded in its corner, and where the rounding has its center. */
const copeCut = ({ corners: [end, corner, outside] }: CopeCut, radius: number) => {
  const level = unit2(sub2(corner, end));
  const plumb = unit2(sub2(outside, corner));
  const centre = add2(corner, add2(scale2(level, -radius), scale2(plumb, radius)));
  const from = Math.atan2(-plumb.y, -plumb.x);
  const to = Math.atan2(level.y, level.x);
  const sweep = Math.atan2(Math.sin(to - from), Math.cos(to - from));
  const arc = arcPath(centre, radius, from, from + sweep);
  const segments: Segment[] = [
    { kind: 'line', to: arc.start },
    ...arc.segments,
    { kind: 'line', to: outside },
  ];
  return { path: { start: end, segments, closed: false }, centre, level, plumb, from, sweep, arc };
};

/** What the web card must show: the radius of each cope and its center, and the two straight cuts that run into it. */
export const copeFigures = (end: CopedEnd): Partial<SheetFigures> => {
  const cuts = cutsOf(end).map(([, cut]) => ({ cut, ...copeCut(cut, end.radius) }));
  return {
    points: cuts.map(({ centre }) => centre),
    arcs: cuts.map(({ centre, from, sweep }) => ({ centre, radius: end.radius, from, sweep })),
    // A cut no longer than its radius has none.
    lines: cuts
      .flatMap(({ cut: { corners }, arc }) => [
        { from: corners[0], to: arc.start },
        { from: arc.segments[arc.segments.length - 1]?.to ?? arc.start, to: corners[2] },
      ])
      .filter(({ from, to }) => distance2(from, to) > 1e-6),
  };
};

/** Middle lines of the flange cards, under the web card and one under the other. */
const flangeLevels = (end: CopedEnd): readonly number[] => {
  const cuts = cutsOf(end);
  const half = end.beam.width / 2;
  const low = -webHeight(end) - (cuts.some(([side]) => side === 'bottom') ? 12 : 0);
  return cuts.map((_, i) => low - APART - half - i * (APART + 2 * half));
};

/** How the figures of the `nth` cope are measured on its cards; its level and plumb ones not on a beam that slopes. */
export const copeMeasures = (
  end: CopedEnd,
  nth: number,
): Partial<Record<'length' | 'depth' | 'long' | 'short', Measured>> => {
  const [side, cut] = cutsOf(end)[nth] ?? [];
  if (!cut) return {};
  const [first, , outside] = cut.corners;
  const [from, to] = [endAt('cut', first.x, first.y), endAt('cut', outside.x, outside.y)];
  const level = flangeLevels(end)[nth] ?? 0;
  const acrossFlange = flangeAcross(end, cut.length, side === 'bottom').map(({ x, y }) =>
    apart(ORIGIN, endAt('cut', x, y + level), 'x'),
  );
  const [long, short] =
    end.angle < Math.PI / 2 !== (side === 'bottom') ? [...acrossFlange].reverse() : acrossFlange;
  return {
    ...(end.slope === 0 && {
      length: apart(from, to, 'x'),
      depth: outside.y > first.y ? apart(from, to, 'y') : apart(to, from, 'y'),
    }),
    ...(long && { long }),
    ...(short && { short }),
  };
};

/** The ends of a line across a flange that is cut `x` from the beam's end at the web, from its lower edge on the card. */
const flangeAcross = (end: CopedEnd, x: number, mirrored: boolean): readonly [Vec2, Vec2] => {
  const half = end.beam.width / 2;
  const lean = (mirrored ? -1 : 1) * Math.sign(Math.tan(end.angle)) * leanOf(end);
  return [vec2(x - lean, -half), vec2(x + lean, half)];
};

const name = (at: Vec2, text: string): Mark[] => onPaper(letter('text', at, text, 3.5, { bold: true }));

/** How far down the web card reaches: over the whole web where both its ends or its own slope are marked, else past the cope. */
const webHeight = (end: CopedEnd): number => {
  const { beam, slope } = end;
  const cuts = cutsOf(end);
  const isWhole = slope !== 0 || cuts.some(([side]) => side === 'bottom');
  const deep = Math.max(...cuts.map(([, { depth }]) => depth));
  return isWhole ? beam.depth : Math.min(beam.depth, Math.max(LOWEST, deep + BEYOND));
};

/** How far the foot of a falling beam's end stands ahead of its top along the beam, mm. */
const endLean = ({ beam, slope }: CopedEnd): number => Math.max(0, -Math.tan(slope) * beam.depth);

/** The web seen from the side, end on the left: y = 0 is the outside of the top flange. */
const webCard = (end: CopedEnd, length: number, setting: Setting): Mark[] => {
  const { beam, radius, slope } = end;
  const { depth: whole, flange, k } = beam;
  const depth = webHeight(end);
  const marks: Mark[] = [];
  // The end of a beam that slopes is plumb, and leans on the card.
  const endX = (y: number): number => y * Math.tan(slope);
  const level = (y: number, role: 'reference' | 'dimension', line: 'continuous' | 'dashed') =>
    ruleLine(role, vec2(endX(y), y), vec2(length, y), role === 'reference' ? QUARTER : FINE, line);
  marks.push(
    level(0, 'reference', 'continuous'),
    level(-depth, 'reference', 'continuous'),
    ...[flange, k, whole - k, whole - flange].flatMap((y, i) =>
      y < depth ? [level(-y, 'dimension', i === 0 || i === 3 ? 'dashed' : 'continuous')] : [],
    ),
    ruleLine('reference', vec2(length, 0), vec2(length, -depth), FINE),
    stroke(
      slope === 0 ? 'reference' : 'cut',
      linePath(vec2(0, 0), vec2(endX(-depth), -depth)),
      slope === 0 ? QUARTER : WIDE,
    ),
  );
  for (const [side, cut] of cutsOf(end)) {
    const { path, centre, level: along } = copeCut(cut, radius);
    const [first, corner, outside] = cut.corners;
    marks.push(
      stroke('cut', path, WIDE),
      ...drawPunch(centre),
      ...linearDimension(
        vec2(first.x, outside.y),
        outside,
        side === 'top' ? 7 : -7,
        writeShort(outside.x - first.x, setting),
      ),
      ...linearDimension(
        add2(outside, vec2(0, 0)),
        vec2(outside.x, corner.y),
        side === 'top' ? 12 : -12,
        writeShort(Math.abs(outside.y - corner.y), setting),
      ),
      ...onPaper(
        letter('text', add2(scale2(add2(first, outside), 0.5), scale2(left2(along), 0)), say`SCRAP`, 3.5, {
          align: 'centre',
          valign: 'middle',
        }),
      ),
    );
  }
  marks.push(
    ...name(
      vec2(4 + Math.max(0, endX(-depth / 2 - 8)), -depth / 2 - 8),
      say`WEB, seen from the side: END at the left`,
    ),
    ...onPaper(
      letter('text', vec2(length - 4, -depth / 2 + 2), say`KEEP`, 5, {
        align: 'right',
        valign: 'middle',
        bold: true,
      }),
    ),
  );
  return marks;
};

/** A flange seen from outside, its middle line level, the end on the left. */
const flangeCard = (
  end: CopedEnd,
  cut: CopeCut,
  title: string,
  length: number,
  mirrored: boolean,
): Mark[] => {
  const { beam, angle } = end;
  const half = beam.width / 2;
  const skew = Math.abs(angle - Math.PI / 2) > 1e-9;
  const [a, b] = flangeAcross(end, 0, mirrored);
  const [c, d] = flangeAcross(end, cut.length, mirrored);
  const middle = beam.kind === 'channel' ? half - beam.web / 2 : 0;
  return [
    stroke('reference', polylinePath([a, vec2(length, -half), vec2(length, half), b]), QUARTER),
    stroke(skew ? 'cut' : 'reference', linePath(a, b), skew ? WIDE : QUARTER),
    stroke('cut', linePath(c, d), WIDE),
    ...[-1, 1].map((sign) =>
      ruleLine(
        'dimension',
        vec2(0, middle + (sign * beam.web) / 2),
        vec2(length, middle + (sign * beam.web) / 2),
        FINE,
        'dashed',
      ),
    ),
    ruleLine('centre', vec2(-6, middle), vec2(length + 4, middle), NARROW, 'long-dash-dot'),
    ...name(vec2(Math.min(a.x, b.x), half + NAME), title),
    ...onPaper(
      letter('text', vec2(length - 4, half / 2), say`KEEP`, 5, {
        align: 'right',
        valign: 'middle',
        bold: true,
      }),
    ),
    ...(cut.length > 22
      ? onPaper(
          letter('text', vec2(cut.length / 2, -half / 2), say`SCRAP`, 3.5, {
            align: 'centre',
            valign: 'middle',
          }),
        )
      : []),
  ];
};

const moveMark = (mark: Mark, by: Vec2): Mark => {
  const move = (p: Vec2): Vec2 => add2(p, by);
  if (mark.kind === 'text') return { ...mark, at: move(mark.at) };
  const segments = mark.path.segments.map((segment): Segment =>
    segment.kind === 'line'
      ? { kind: 'line', to: move(segment.to) }
      : { kind: 'curve', c1: move(segment.c1), c2: move(segment.c2), to: move(segment.to) },
  );
  return { ...mark, path: { ...mark.path, start: move(mark.path.start), segments } };
};

/** The web and the coped flanges as cards, one above the other; the sheet's origin is the web's end at the top of its flange. */
export const copeCards = (end: CopedEnd, setting: Setting): Required<Pick<Sheet, 'marks' | 'cards'>> => {
  const cuts = cutsOf(end);
  const lean = leanOf(end);
  const long =
    Math.max(...cuts.flatMap(([, { corners }]) => corners.map(({ x }) => x)), endLean(end)) + BEYOND;
  const length = long + lean;
  const levels = flangeLevels(end);
  const cards = [
    webCard(end, long, setting),
    ...cuts.map(([side, cut], i) => {
      const at = levels[i] ?? 0;
      const title =
        side === 'top'
          ? say`TOP FLANGE, seen from above: END at the left`
          : say`BOTTOM FLANGE, seen from below: END at the left`;
      return flangeCard(end, cut, title, length, side === 'bottom').map((mark) =>
        moveMark(mark, vec2(0, at)),
      );
    }),
  ];
  return {
    marks: cards.flat(),
    cards: cards.map((marks) => growBox(unionBox(marks.map(markBounds)), 0.5)),
  };
};
