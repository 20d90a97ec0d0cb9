import { add3, dot3, length3, scale3, sub3, unit3, vec3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, type Form, type Row } from '../form.ts';
import type { ShellRule, ShellShape } from '../shape.ts';

/** A fold sharper than this is a bend line, as the cosine between its normals. */
const FOLD = 1 - 1e-7;

const middle = ({ before, after }: ShellRule): Vec3 => unit3(add3(before, after));

/** How far square to the middle of a fold a point lies that is `by` off both its flats. */
const spread = (rule: ShellRule, by: number): Vec3 => {
  const out = middle(rule);
  return scale3(out, by / Math.max(0.2, dot3(out, rule.after)));
};

/** A sheet bent to a ring: outside, inside and both rims. An end may be a point. */
export const shellForm = ({ rules, thickness }: ShellShape): Form => {
  const maker = makeForm();
  const first = rules[0] as ShellRule;
  const pointed = rules.every(({ head }) => length3(sub3(head, first.head)) < 1e-9);
  // Where the sides come to a point, both faces have a point of their own along the cone's middle line.
  const up = unit3(rules.reduce<Vec3>((sum, rule) => add3(sum, middle(rule)), vec3(0, 0, 0)));
  const steep = rules.reduce((sum, rule) => sum + dot3(middle(rule), up), 0) / rules.length;
  const side = (sign: 1 | -1): readonly [Row, Row] => {
    const half = (sign * thickness) / 2;
    const before = rules.map((rule) => maker.normal(scale3(rule.before, sign)));
    const after = rules.map((rule) => maker.normal(scale3(rule.after, sign)));
    const feet = rules.map((rule) => maker.point(add3(rule.foot, spread(rule, half))));
    const apex = pointed ? maker.point(add3(first.head, scale3(up, half / steep))) : undefined;
    const heads = rules.map((rule) => apex ?? maker.point(add3(rule.head, spread(rule, half))));
    const low = { points: feet, before, after };
    const high = { points: heads, before, after };
    if (sign > 0) maker.strip(low, high, true);
    else maker.strip(high, low, true);
    return [low, high];
  };
  const [low, high] = side(1);
  const [inLow, inHigh] = side(-1);
  const rim = (row: Row, sign: 1 | -1): Row => {
    const normals = rules.map(({ foot, head }) => maker.normal(scale3(unit3(sub3(head, foot)), sign)));
    return { points: row.points, before: normals, after: normals };
  };
  const [foot, inFoot] = [rim(low, -1), rim(inLow, -1)];
  maker.strip(inFoot, foot, true);
  maker.edgeBetween(foot, low, 'cut', true);
  maker.edgeBetween(inLow, inFoot, 'inner', true);
  if (!pointed) {
    const [top, inTop] = [rim(high, 1), rim(inHigh, 1)];
    maker.strip(top, inTop, true);
    maker.edgeBetween(high, top, 'cut', true);
    maker.edgeBetween(inTop, inHigh, 'inner', true);
  }
  rules.forEach((rule, i) => {
    if (dot3(rule.before, rule.after) > FOLD) return;
    const [left, right] = [low.before[i] as number, low.after[i] as number];
    maker.edge({
      points: [low.points[i] as number, high.points[i] as number],
      left: [left, left],
      right: [right, right],
      kind: 'bend',
    });
  });
  return maker.done();
};
