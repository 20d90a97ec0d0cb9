import earcut from 'earcut';
import { itemAt, lastOf, numberAt } from '../../lists.ts';
import { add3, cross3, dot3, length3, scale3, sub3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, type Form, type FormMaker, type Row } from '../form.ts';
import { turnParts } from '../sampling.ts';
import type { ShellHole, ShellRule, ShellShape } from '../shape.ts';

/** A fold sharper than this is a bend line, as the cosine between its normals. */
const FOLD = 1 - 1e-7;

const middle = ({ before, after }: ShellRule): Vec3 => unit3(add3(before, after));

/** How far square to the middle of a fold a point lies that is `by` off both its flats. */
const spread = (rule: ShellRule, by: number): Vec3 => {
  const out = middle(rule);
  return scale3(out, by / Math.max(0.2, dot3(out, rule.after)));
};

/** One face of the sheet: its rows of points from the feet to the heads. */
type Face = readonly Row[];
const lowest = (face: Face): Row => itemAt(face, 0);
const highest = (face: Face): Row => lastOf(face);

/** The points and normals of one face, `half` mm outside the middle of the sheet. */
const faceOf = (maker: FormMaker, rules: readonly ShellRule[], half: number, pointed: boolean): Face => {
  const sign = Math.sign(half);
  const normal = (n: Vec3): number => maker.normal(scale3(n, sign));
  const warped = rules[0]?.along;
  if (warped) {
    return warped.map((_, k): Row => {
      const share = k / (warped.length - 1);
      const normals = rules.map(({ along = [] }) => itemAt(along, k));
      return maker.row(
        rules.map(({ foot, head }, i) => {
          const middle = add3(scale3(foot, 1 - share), scale3(head, share));
          return maker.point(add3(middle, scale3(itemAt(normals, i), half)));
        }),
        normals.map((n) => scale3(n, sign)),
      );
    });
  }
  const [before, after] = [rules.map((rule) => normal(rule.before)), rules.map((rule) => normal(rule.after))];
  const feet = rules.map((rule) => maker.point(add3(rule.foot, spread(rule, half))));
  const heads = pointed
    ? new Array<number>(rules.length).fill(maker.point(add3(itemAt(rules, 0).head, tipOf(rules, half))))
    : rules.map((rule) => maker.point(add3(rule.head, spread(rule, half))));
  return [
    { points: feet, before, after },
    { points: heads, before, after },
  ];
};

/** Where the sides come to a point, both faces have a point of their own along the cone's middle line. */
const tipOf = (rules: readonly ShellRule[], half: number): Vec3 => {
  const up = unit3(rules.reduce<Vec3>((sum, rule) => add3(sum, middle(rule)), vec3(0, 0, 0)));
  const steep = rules.reduce((sum, rule) => sum + dot3(middle(rule), up), 0) / rules.length;
  return scale3(up, half / steep);
};

/** Bent sheet: outside, inside and its rims. An end of a ring may be a point. */
export const shellForm = (
  { rules, thickness, open = false, holes = [] }: ShellShape,
  deviation: number,
): Form => {
  const maker = makeForm();
  const tip = itemAt(rules, 0).head;
  const pointed = rules.every(({ head }) => length3(sub3(head, tip)) < 1e-9);
  const outer = faceOf(maker, rules, thickness / 2, pointed);
  const inner = faceOf(maker, rules, -thickness / 2, pointed);
  const isPierced = (i: number): boolean => holes.some(({ after }) => after === i);
  // Both faces of a warped sheet are parted into the same triangles, so that it is as thick everywhere.
  for (const face of [outer, inner])
    for (const span of spans(rules.length, open, isPierced))
      face.slice(1).forEach((upper, k) => {
        const whole = !open && span.length === rules.length;
        maker.strip(part(itemAt(face, k), span), part(upper, span), whole, face === inner);
      });
  rules.forEach((_, i) => {
    const own = holes.filter(({ after }) => after === i);
    if (own.length > 0) pierce(maker, rules, [outer, inner], i, own, thickness, deviation);
  });
  rims(maker, rules, [outer, inner], pointed, !open);
  if (open) sides(maker, rules, [outer, inner]);
  foldLines(maker, rules, outer);
  return maker.done();
};

/** Runs of rules between which the sheet is whole. */
const spans = (
  count: number,
  open: boolean,
  isPierced: (i: number) => boolean,
): readonly (readonly number[])[] => {
  const runs: number[][] = [[]];
  for (let i = 0; i < count; i++) {
    lastOf(runs).push(i);
    if (open && isPierced(i)) runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
};

const part = ({ points, before, after }: Row, span: readonly number[]): Row => {
  const of = (list: readonly number[]): readonly number[] => span.map((i) => numberAt(list, i));
  return { points: of(points), before: of(before), after: of(after) };
};

/** The edges of the sheet along its feet and its heads. */
const rims = (
  maker: FormMaker,
  rules: readonly ShellRule[],
  [outer, inner]: readonly [Face, Face],
  pointed: boolean,
  closed: boolean,
): void => {
  const [low, high, inLow, inHigh] = [lowest(outer), highest(outer), lowest(inner), highest(inner)];
  const rim = (row: Row, sign: 1 | -1): Row => {
    const normals = rules.map(({ foot, head }) => maker.normal(scale3(unit3(sub3(head, foot)), sign)));
    return { points: row.points, before: normals, after: normals };
  };
  const [foot, inFoot] = [rim(low, -1), rim(inLow, -1)];
  maker.strip(inFoot, foot, closed);
  maker.edgeBetween(foot, low, 'cut', closed);
  maker.edgeBetween(inLow, inFoot, 'inner', closed);
  if (pointed) return;
  const [top, inTop] = [rim(high, 1), rim(inHigh, 1)];
  maker.strip(top, inTop, closed);
  maker.edgeBetween(high, top, 'cut', closed);
  maker.edgeBetween(inTop, inHigh, 'inner', closed);
};

/** The edges of an open sheet along its first and its last rule. */
const sides = (
  maker: FormMaker,
  rules: readonly ShellRule[],
  [outer, inner]: readonly [Face, Face],
): void => {
  for (const [i, sign] of [
    [0, -1],
    [rules.length - 1, 1],
  ] as const) {
    const rule: ShellRule = itemAt(rules, i);
    const { foot, head, after, along = outer.map((): Vec3 => after) } = rule;
    const up = unit3(sub3(head, foot));
    const normals = along.map((n) => maker.normal(scale3(unit3(cross3(up, n)), sign)));
    const pointsOf = (face: Face): readonly number[] => face.map(({ points }) => numberAt(points, i));
    const edge = (face: Face): Row => ({ points: pointsOf(face), before: normals, after: normals });
    const beside = (face: Face): Row => {
      const list = face.map((row) => numberAt(row.after, i));
      return { points: pointsOf(face), before: list, after: list };
    };
    const [out, back] = [edge(outer), edge(inner)];
    // Seen from beside it with the feet at the left, the outer face lies above at the last rule and below at the first.
    if (sign < 0) {
      maker.strip(out, back, false);
      maker.edgeBetween(beside(outer), out, 'cut', false);
      maker.edgeBetween(back, beside(inner), 'cut', false);
    } else {
      maker.strip(back, out, false);
      maker.edgeBetween(out, beside(outer), 'cut', false);
      maker.edgeBetween(beside(inner), back, 'cut', false);
    }
  }
};

const foldLines = (maker: FormMaker, rules: readonly ShellRule[], face: Face): void => {
  const [low, high] = [lowest(face), highest(face)];
  rules.forEach((rule, i) => {
    if (dot3(rule.before, rule.after) > FOLD) return;
    const [left, right] = [numberAt(low.before, i), numberAt(low.after, i)];
    maker.edge({
      points: [numberAt(low.points, i), numberAt(high.points, i)],
      left: [left, left],
      right: [right, right],
      kind: 'bend',
    });
  });
};

/** The flat between a rule and the next one, with round holes through it. */
const pierce = (
  maker: FormMaker,
  rules: readonly ShellRule[],
  [outer, inner]: readonly [Face, Face],
  i: number,
  holes: readonly ShellHole[],
  thickness: number,
  deviation: number,
): void => {
  const { foot, head, after } = itemAt(rules, i);
  const y = unit3(sub3(head, foot));
  const x = cross3(y, after);
  const next = itemAt(rules, i + 1);
  const flat = (p: Vec3): readonly number[] => [dot3(sub3(p, foot), x), dot3(sub3(p, foot), y)];
  const corners = [foot, next.foot, next.head, head];
  const rings = holes.map(({ center, radius }) => {
    const count = turnParts(radius, deviation);
    const spokes = Array.from({ length: count }, (_, k) => {
      const a = (2 * Math.PI * k) / count;
      return add3(scale3(x, Math.cos(a)), scale3(y, Math.sin(a)));
    });
    const inward = spokes.map((s) => maker.normal(scale3(s, -1)));
    const points = spokes.map((s) => add3(center, scale3(s, radius)));
    return { points, inward };
  });
  const triangles = earcut(
    [...corners, ...rings.flatMap(({ points }) => points)].flatMap(flat),
    rings.map((_, k) => corners.length + rings.slice(0, k).reduce((sum, r) => sum + r.points.length, 0)),
  );
  const walls = [outer, inner].map((face, side): readonly Row[] => {
    const [low, high] = [lowest(face), highest(face)];
    const sign = side === 0 ? 1 : -1;
    const normal = maker.normal(scale3(after, sign));
    const offset = scale3(after, (sign * thickness) / 2);
    const own = rings.map(({ points }) => points.map((p) => maker.point(add3(p, offset))));
    const all = [
      numberAt(low.points, i),
      numberAt(low.points, i + 1),
      numberAt(high.points, i + 1),
      numberAt(high.points, i),
      ...own.flat(),
    ];
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => numberAt(all, numberAt(triangles, t + k))) as [
        number,
        number,
        number,
      ];
      const [u, v, w] = sign > 0 ? [a, b, c] : [c, b, a];
      maker.triangle(u, normal, v, normal, w, normal);
    }
    return rings.map(({ inward }, k): Row => {
      const points = itemAt(own, k);
      const list = points.map(() => normal);
      const wall: Row = { points, before: inward, after: inward };
      const flank: Row = { points, before: list, after: list };
      // The ring runs counter-clockwise about the outward normal: the face lies outside it.
      if (sign > 0) maker.edgeBetween(flank, wall, 'cut', true);
      else maker.edgeBetween(wall, flank, 'inner', true);
      return wall;
    });
  });
  const [above, below] = walls as [readonly Row[], readonly Row[]];
  above.forEach((row, k) => maker.strip(row, itemAt(below, k), true));
};
