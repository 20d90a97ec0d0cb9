import { itemAt } from '../../../lists.ts';
import { add3, cross3, scale3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import type { Note, Scene } from '../../../scene/scene.ts';
import { labelNote } from '../../../scene/scene.ts';
import type { ShellHole, ShellRule } from '../../../scene/shape.ts';
import { say } from '../../../words/say.ts';
import type { SolvedBlank } from './blank-shape.ts';

/** Steps of a bend. */
const STEPS = 16;

/** The strip's middle line bent up: x along its first leg, z toward the side the sheet shows; rules run across it along y. */
interface Folded {
  readonly rules: readonly ShellRule[];
  readonly holes: readonly ShellHole[];
  /** The middle of each leg, and the direction out of the side the sheet shows. */
  readonly legs: readonly { readonly at: Vec3; readonly out: Vec3 }[];
}

const fold = ({ parts, bends, holes }: SolvedBlank, thickness: number, width: number): Folded => {
  const ACROSS = vec3(0, 1, 0);
  let [at, heading, number] = [vec3(0, 0, 0), 0, 0];
  const rules: ShellRule[] = [];
  const legs: { at: Vec3; out: Vec3 }[] = [];
  const pierced: ShellHole[] = [];
  const along = (): Vec3 => vec3(Math.cos(heading), 0, Math.sin(heading));
  const out = (): Vec3 => cross3(along(), ACROSS);
  const put = (): void => {
    const normal = out();
    rules.push({ foot: at, head: add3(at, scale3(ACROSS, width)), before: normal, after: normal });
  };
  put();
  for (const part of parts) {
    if (part.kind === 'flat') {
      const [start, way] = [at, along()];
      const after = rules.length - 1;
      const place = (x: number, y: number): Vec3 => add3(add3(start, scale3(way, x)), scale3(ACROSS, y));
      for (const { at: hole, diameter } of holes)
        if (hole.x > part.from && hole.x < part.to)
          pierced.push({ after, center: place(hole.x - part.from, hole.y), radius: diameter / 2 });
      legs.push({ at: place((part.to - part.from) / 2, 0), out: out() });
      if (part.to - part.from < 1e-9) continue;
      at = place(part.to - part.from, 0);
      put();
      continue;
    }
    const bend = itemAt(bends, number);
    number += 1;
    const sign = bend.up ? 1 : -1;
    const toMiddle = scale3(out(), sign * (bend.radius + thickness / 2));
    const middle = add3(at, toMiddle);
    const before = heading;
    for (let i = 1; i <= STEPS; i++) {
      heading = before + (sign * bend.angle * i) / STEPS;
      at = add3(middle, scale3(out(), -sign * (bend.radius + thickness / 2)));
      put();
    }
  }
  return { rules, holes: pierced, legs };
};

/** The folded strip, its legs numbered, from its lower edge and from above it. */
export const blankScene = (solved: SolvedBlank, thickness: number, width: number): Scene => {
  const { rules, holes, legs } = fold(solved, thickness, width);
  const numbers = legs.map(({ at, out }, i): Note =>
    labelNote(add3(at, scale3(out, thickness / 2)), String(i + 1), { toward: out }),
  );
  return {
    parts: [
      {
        id: 'blank',
        name: say`blank`,
        role: 'work',
        shape: { kind: 'shell', open: true, rules, thickness, holes },
      },
    ],
    views: [
      {
        title: say`The folded strip from its lower edge; legs numbered`,
        sight: { right: vec3(1, 0, 0), up: vec3(0, 0, 1) },
        width: 44,
        height: 40,
        notes: numbers,
      },
      {
        title: say`The folded strip`,
        sight: { right: vec3(0.9, 0.436, 0), up: vec3(-0.17, 0.351, 0.921) },
        width: 44,
        height: 40,
        notes: [],
      },
    ],
  };
};
