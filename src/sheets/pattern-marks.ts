import { markBounds } from '../drawing/extent.ts';
import type { SheetFigures } from '../drawing/fit-up.ts';
import type { Spot } from '../drawing/measured.ts';
import type { Box, Figure, Mark, Path, Segment, Table } from '../drawing/model.ts';
import { cubicPath, FINE, NARROW, ruleLine, stroke } from '../drawing/paths.ts';
import { cubicAt, reverseLine, straight, type Cubic } from '../geometry/cubic.ts';
import { halve } from '../geometry/halving.ts';
import { itemAt, lastOf } from '../lists.ts';
import { cubicsArea, patternOutline, type PatternEnds } from '../geometry/pattern.ts';
import { add2, cross2, distance2, dot2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { requestError } from '../issue.ts';
import { told } from '../units/format.ts';
import { lengthOf } from '../units/quantity.ts';
import { say } from '../words/say.ts';
import { pathFigures } from './fit-record.ts';
import { drawOutline, drawPunch } from './flat-marks.ts';
import { apart, crossAt, endAt, shown } from './measured.ts';
import type { SeamValues } from './pattern-fields.ts';
import { patternNames } from './pattern-names.ts';

/** A straight line of a pattern that is marked: a bend, or a line that is only laid out by. */
export interface PatternLine {
  readonly foot: Vec2;
  readonly head: Vec2;
  /** What the table calls it. */
  readonly name: string;
  readonly kind: 'bend' | 'station';
  /** What stands on it, if anything. */
  readonly label?: string;
  /** The stretch of it that no other line crosses, where that is not all of it. */
  readonly clear?: readonly [Vec2, Vec2];
}

/** Pattern of one part: its two ends, and the lines on it from left to right, the seams not among them. */
export interface Pattern {
  readonly ends: PatternEnds;
  /** Where the upper end is a point. */
  readonly apex?: Vec2;
  readonly lines: readonly PatternLine[];
  readonly seam: SeamValues;
  /** Names of the left and the right seam, e.g. `SEAM 0°`. */
  readonly seams: readonly [string, string];
}

const isStraight = ({ start, c1, c2, end }: Cubic): boolean => {
  const third = (k: number, p: Vec2): number =>
    Math.hypot(p.x - start.x - k * (end.x - start.x), p.y - start.y - k * (end.y - start.y));
  return (
    third(1 / 3, c1) < 1e-9 * (1 + distance2(start, end)) &&
    third(2 / 3, c2) < 1e-9 * (1 + distance2(start, end))
  );
};

/** Cubics end to end as a path, straight ones as lines; those of no length are left out. */
export const patternPath = (line: readonly Cubic[], closed: boolean): Path => {
  const drawn = line.filter(({ start, end }) => distance2(start, end) > 1e-9);
  const { start, segments } = cubicPath(drawn, closed);
  const straightened = segments.map((segment, i): Segment =>
    isStraight(itemAt(drawn, i)) ? { kind: 'line', to: segment.to } : segment,
  );
  return { start, segments: straightened, closed };
};

/** The seams of a pattern, each from its foot to its head. */
export interface PatternSeams {
  readonly left: readonly [Vec2, Vec2];
  readonly right: readonly [Vec2, Vec2];
}

/** Where a pattern's seams lie; both heads are one point where it comes to an apex. */
export const patternCorners = ({
  ends: { lower, upper },
  apex,
}: Pick<Pattern, 'ends' | 'apex'>): PatternSeams => {
  const [first, last] = [itemAt(lower, 0), lastOf(lower)];
  return {
    left: [first.start, upper[0]?.start ?? (apex as Vec2)],
    right: [last.end, upper[upper.length - 1]?.end ?? (apex as Vec2)],
  };
};

/** A seam's line moved square to itself by `by`, away from the pattern. */
const moveSeam = ([foot, head]: readonly [Vec2, Vec2], by: number, side: 1 | -1): readonly [Vec2, Vec2] => {
  const out = scale2(left2(unit2(sub2(head, foot))), -side * by);
  return [add2(foot, out), add2(head, out)];
};

/** The closed line to cut, seams with their allowance. */
export const cutOutline = (pattern: Pattern): readonly Cubic[] => {
  const { seam, ends, apex } = pattern;
  const { left, right } = patternCorners(pattern);
  const allowance = seam.seamAllowance;
  if (allowance === 0) return patternOutline(ends, left[1]);
  if (seam.join === 'weld') {
    // Half the gap comes off either edge: the ends are cut where the moved seam crosses them.
    const [l, r] = [moveSeam(left, -allowance / 2, -1), moveSeam(right, -allowance / 2, 1)];
    const lower = between(ends.lower, l, r);
    const upper = between(ends.upper, l, r);
    const tip = apex ? crossing(l, r) : undefined;
    return patternOutline({ lower, upper }, tip ?? left[1]);
  }
  const flaps = seam.join === 'flange' ? 2 : 1;
  const isPointed = distance2(left[1], right[1]) < 1e-6;
  const beyond = (edge: readonly [Vec2, Vec2], side: 1 | -1): readonly [Vec2, Vec2] => {
    const [foot, head] = moveSeam(edge, allowance, side);
    if (!isPointed) return [foot, head];
    // At a point there is no room beside the seam: the flap tapers into it, by 45° or by half of what lies open there.
    const along = sub2(edge[0], edge[1]);
    const open = openAngle(along, sub2(head, edge[1]), sub2((side === 1 ? left : right)[0], edge[1]));
    return [foot, add2(head, scale2(unit2(along), allowance / Math.tan(Math.min(Math.PI / 4, open / 2))))];
  };
  const r = beyond(right, 1);
  const l = flaps === 2 ? beyond(left, -1) : left;
  const edges = [
    [r[0], r[1]],
    [r[1], right[1]],
  ] as const;
  const others = [[l[0], l[1]], ...(flaps === 2 && !isPointed ? ([[l[1], left[1]]] as const) : [])] as const;
  const isBack = dot2(sub2(r[0], r[1]), sub2(right[0], right[1])) <= 0;
  if (isBack || edges.some((edge) => others.some((other) => areCrossing(edge, other))))
    throw requestError(
      'seam-allowance',
      'no-room',
      say`a seam allowance of ${told(allowance)} does not fit between the two seams of the pattern`,
      say`give less, or more parts`,
    );
  return [
    ...ends.lower,
    straight(right[0], r[0]),
    straight(r[0], r[1]),
    straight(r[1], right[1]),
    ...reverseLine(ends.upper),
    straight(left[1], l[1]),
    straight(l[1], l[0]),
    straight(l[0], left[0]),
  ].filter(({ start, end }) => distance2(start, end) > 1e-9);
};

/** How far it is from a seam around to the other one, by the way out of the pattern, radians from 0 to 2π. */
const openAngle = (along: Vec2, out: Vec2, other: Vec2): number => {
  const angle = Math.atan2(dot2(other, unit2(out)), dot2(other, unit2(along)));
  return angle < 0 ? angle + 2 * Math.PI : angle;
};

/** Whether two straight lines cross between their ends. */
const areCrossing = ([a, b]: readonly [Vec2, Vec2], [c, d]: readonly [Vec2, Vec2]): boolean => {
  const side = (p: Vec2, q: Vec2, at: Vec2): number => cross2(sub2(q, p), sub2(at, p));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
};

/** Where two straight lines cross. */
const crossing = ([a, b]: readonly [Vec2, Vec2], [c, d]: readonly [Vec2, Vec2]): Vec2 => {
  const [u, v] = [sub2(b, a), sub2(d, c)];
  return add2(a, scale2(u, cross2(sub2(c, a), v) / cross2(u, v)));
};

/** The part of an end between two straight lines that cross it near its left and its right. */
const between = (
  line: readonly Cubic[],
  left: readonly [Vec2, Vec2],
  right: readonly [Vec2, Vec2],
): readonly Cubic[] => {
  const side = (edge: readonly [Vec2, Vec2], p: Vec2): number =>
    cross2(sub2(edge[1], edge[0]), sub2(p, edge[0]));
  const cut = (cubics: readonly Cubic[], past: (p: Vec2) => boolean): readonly Cubic[] => {
    const index = cubics.findIndex(({ end }) => past(end));
    const cubic = cubics[index];
    if (!cubic) return cubics;
    const { high } = halve((u) => !past(cubicAt(cubic, u)), 0, 1);
    return [tail(cubic, high), ...cubics.slice(index + 1)];
  };
  const fromLeft = cut(line, (p) => side(left, p) <= 0);
  return reverseLine(cut(reverseLine(fromLeft), (p) => side(right, p) >= 0));
};

/** A cubic from parameter u on (de Casteljau). */
const tail = ({ start, c1, c2, end }: Cubic, u: number): Cubic => {
  const mix = (p: Vec2, q: Vec2): Vec2 => add2(scale2(p, 1 - u), scale2(q, u));
  const [ab, bc, cd] = [mix(start, c1), mix(c1, c2), mix(c2, end)];
  const [abc, bcd] = [mix(ab, bc), mix(bc, cd)];
  return { start: mix(abc, bcd), c1: bcd, c2: cd, end };
};

/** Everything on a pattern: cut line, seams, bends and lines with their names, punch marks at the corners. */
export const patternMarks = (pattern: Pattern): Mark[] => {
  const { seam, lines, seams } = pattern;
  const { left, right } = patternCorners(pattern);
  const outline = cutOutline(pattern);
  const role = seam.join === 'flange' ? 'bend' : 'reference';
  const inner = (edge: readonly [Vec2, Vec2]): Mark =>
    ruleLine(role, edge[0], edge[1], NARROW, role === 'bend' ? 'long-dash-double-dot' : 'continuous');
  const allowed = seam.seamAllowance > 0 && seam.join !== 'weld';
  return [
    ...lines.map((line) =>
      line.kind === 'bend'
        ? ruleLine('bend', line.foot, line.head, NARROW, 'long-dash-double-dot')
        : ruleLine('station', line.foot, line.head, FINE),
    ),
    ...(allowed ? [inner(right), ...(seam.join === 'flange' ? [inner(left)] : [])] : []),
    drawOutline(patternPath(outline, true)),
    ...patternNames(
      lines.map((line) => ({ ...line, text: line.label ?? line.name })),
      [left, right],
      seams,
    ),
  ];
};

/** True of a point that half the root gap of a welded seam takes away, as it does the apex. */
const isInGap = (pattern: Pattern, p: Vec2): boolean => {
  const { seamAllowance, join } = pattern.seam;
  if (join !== 'weld' || seamAllowance === 0) return false;
  const { left, right } = patternCorners(pattern);
  return [left, right].some(([foot, head]) => {
    const [up, out] = [sub2(head, foot), sub2(p, foot)];
    const t = Math.min(1, Math.max(0, dot2(out, up) / dot2(up, up)));
    return distance2(out, scale2(up, t)) < seamAllowance / 2;
  });
};

/** What a pattern must show where: its cut line, which the ends of its bend lines lie on, those lines, and its corners. */
export const patternFigures = (pattern: Pattern): Partial<SheetFigures> => {
  const { lines, curves } = pathFigures(patternPath(cutOutline(pattern), true));
  const bends = pattern.lines.filter(({ kind }) => kind === 'bend');
  const ends = pattern.lines.flatMap(({ foot, head }) => [foot, head]);
  return {
    points: punchCorners(pattern).points,
    lines: [...lines, ...bends.map(({ foot, head }) => ({ from: foot, to: head, role: 'bend' as const }))],
    curves: [...curves, { points: ends.filter((p) => !isInGap(pattern, p)) }],
  };
};

/** The smallest upright box round a pattern's cut line, mm. */
export const outlineBox = (pattern: Pattern): Box =>
  markBounds(stroke('cut', patternPath(cutOutline(pattern), true), 0));

/** Area of what is cut, the seams' allowances with it, mm². */
export const patternArea = (pattern: Pattern): number => Math.abs(cubicsArea(cutOutline(pattern)));

/** Punch marks where the seams begin and end, and their places. */
export const punchCorners = (
  pattern: Pattern,
): { readonly marks: readonly Mark[]; readonly points: readonly Vec2[] } => {
  const { left, right } = patternCorners(pattern);
  const points = [left[0], right[0], left[1], ...(distance2(left[1], right[1]) > 1e-6 ? [right[1]] : [])];
  return { points, marks: points.flatMap((at) => drawPunch(at)) };
};

const onCross = (p: Vec2): Spot => crossAt('punch', p.x, p.y);

/**
 * True lengths for laying out by tape: from each line its own length, from its foot and head to those of the next, and
 * the diagonal from its foot to the next head. Swung from both ends they set out the whole pattern in triangles.
 */
export const tapeTable = (pattern: Pattern): Table => {
  const { left, right } = patternCorners(pattern);
  const all = [
    { name: say`left seam`, foot: left[0], head: left[1], at: onCross },
    ...pattern.lines.map((line) => ({ ...line, at: (p: Vec2) => endAt(line.kind, p.x, p.y) })),
    { name: say`right seam`, foot: right[0], head: right[1], at: onCross },
  ].filter(
    (line, i, lines) =>
      i === 0 ||
      distance2(line.foot, itemAt(lines, i - 1).foot) > 1e-6 ||
      distance2(line.head, itemAt(lines, i - 1).head) > 1e-6,
  );
  return {
    title: say`True lengths by tape: each line; from it to the next along the lower end, along the upper end, and across from its lower to the next one’s upper end`,
    header: [say`Line`, say`length`, say`lower`, say`upper`, say`across`],
    rows: all.map(({ name, foot, head, at }, i) => {
      const next = all[i + 1];
      const way = (from: Vec2, to: Vec2, toAt = at): Figure =>
        shown(lengthOf(distance2(from, to)), apart(at(from), toAt(to)));
      return [
        name,
        way(foot, head),
        ...(next
          ? [way(foot, next.foot, next.at), way(head, next.head, next.at), way(foot, next.head, next.at)]
          : ['', '', '']),
      ];
    }),
  };
};
