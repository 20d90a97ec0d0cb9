import { add3, cross3, dot3, length3, scale3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { contoursOf } from './contours.ts';
import { numberAt, vectorAt, type Form, type FormEdge } from './form.ts';
import { formOf } from './forms/form-of.ts';
import type { Part, SurfaceLine } from './scene.ts';
import { makeScreen, type Screen } from './screen.ts';
import { girthRadius } from './size.ts';
import { seenAt, towardEye, type Sight } from './sight.ts';

/** What a line of a picture is. */
export type SeenKind = 'contour' | 'edge' | 'cut' | 'weld' | 'inner' | 'seam' | 'bend';

/** A line as it is seen: a run of it that is wholly in sight or wholly hidden, in the scene's mm to the right and up. */
export interface SeenLine {
  readonly part: Part;
  readonly kind: SeenKind;
  readonly seen: boolean;
  readonly points: readonly Vec2[];
}

/** A part with its triangles. */
export interface FormedPart {
  readonly part: Part;
  readonly form: Form;
}

/** Triangles of a picture lie off the surface by at most this part of the radius of what they show. */
const PICTURE_SHARE = 1e-3;

/** Parts with triangles fine enough for a picture. */
export const formParts = (parts: readonly Part[]): readonly FormedPart[] =>
  parts.map((part) => ({ part, form: formOf(part.shape, PICTURE_SHARE * girthRadius(part.shape)) }));

/** How fine a view is looked at, in the scene's mm. */
export interface Fineness {
  /** Places where a line is tried lie no farther apart. */
  readonly step: number;
  /** A line is tried this far beside itself, on the faces it borders. */
  readonly beside: number;
  /** And this far above them; more than the triangles lie off the surface. */
  readonly above: number;
}

/** A line with the points that must be in sight for a place of it to be seen, any of them: after point `index`, `share` of the step. */
interface Trials {
  readonly points: readonly Vec3[];
  readonly tries: (at: Vec3, index: number, share: number) => readonly Vec3[];
}

/**
 * All lines of the parts as they are seen along `sight`, in runs that are seen and runs that are hidden: contours, where a face
 * turns away from the eye, sharp edges, and the lines on the surfaces. A phantom part (`next`) hides nothing and nothing of it is
 * hidden by others.
 *
 * An edge is seen where a face that it borders is seen just beside it; a contour, just outside it. A place is seen where no triangle
 * that faces the eye lies in front of it.
 */
export const seeLines = (
  parts: readonly FormedPart[],
  sight: Sight,
  fineness: Fineness,
): readonly SeenLine[] => {
  const eye = towardEye(sight);
  const screen = makeScreen(
    joined(
      parts.flatMap(({ part, form }) => (part.role === 'next' ? [] : [facingTriangles(form, sight, eye)])),
    ),
  );
  return parts.flatMap(({ part, form }) => {
    const own = part.role === 'next' ? makeScreen(facingTriangles(form, sight, eye)) : screen;
    const runs = (kind: SeenKind, trials: Trials): readonly SeenLine[] =>
      splitRuns(trials, own, sight, eye, fineness.step).map((run) => ({ part, kind, ...run }));
    return [
      ...contoursOf(form, eye).flatMap(({ points, normals }) =>
        runs('contour', contourTrials(points, normals, fineness)),
      ),
      ...form.edges.flatMap((edge) => runs(edge.kind, edgeTrials(form, edge, eye, fineness))),
      ...(part.lines ?? []).flatMap((line) => runs(line.kind, surfaceTrials(line, eye, fineness))),
    ];
  });
};

const joined = (lists: readonly Float64Array[]): Float64Array => {
  const whole = new Float64Array(lists.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const list of lists) {
    whole.set(list, at);
    at += list.length;
  }
  return whole;
};

/** The triangles of a form that are turned to the eye, as they are seen. */
const facingTriangles = ({ positions, corners }: Form, { right, up }: Sight, eye: Vec3): Float64Array => {
  const seen = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const x = numberAt(positions, i);
    const y = numberAt(positions, i + 1);
    const z = numberAt(positions, i + 2);
    seen[i] = x * right.x + y * right.y + z * right.z;
    seen[i + 1] = x * up.x + y * up.y + z * up.z;
    seen[i + 2] = x * eye.x + y * eye.y + z * eye.z;
  }
  const triangles = new Float64Array((corners.length / 2) * 3);
  let count = 0;
  for (let i = 0; i < corners.length; i += 6) {
    const a = 3 * numberAt(corners, i);
    const b = 3 * numberAt(corners, i + 2);
    const c = 3 * numberAt(corners, i + 4);
    const ux = numberAt(seen, b) - numberAt(seen, a);
    const uy = numberAt(seen, b + 1) - numberAt(seen, a + 1);
    const wx = numberAt(seen, c) - numberAt(seen, a);
    const wy = numberAt(seen, c + 1) - numberAt(seen, a + 1);
    // Seen edge-on it hides nothing.
    if (ux * wy - uy * wx <= 1e-9 * (Math.abs(ux) + Math.abs(uy) + Math.abs(wx) + Math.abs(wy))) continue;
    for (const p of [a, b, c]) {
      triangles[count++] = numberAt(seen, p);
      triangles[count++] = numberAt(seen, p + 1);
      triangles[count++] = numberAt(seen, p + 2);
    }
  }
  return triangles.subarray(0, count);
};

const contourTrials = (points: readonly Vec3[], normals: readonly Vec3[], { above }: Fineness): Trials => ({
  points,
  tries: (at, index, share) => [
    add3(at, scale3(blend(normals[index] as Vec3, normals[index + 1] as Vec3, share), above)),
  ],
});

const edgeTrials = (
  { positions, normals }: Form,
  { points, left, right }: FormEdge,
  eye: Vec3,
  { beside, above }: Fineness,
): Trials => {
  const line = points.map((p) => vectorAt(positions, p));
  const faces = [
    { list: left, sign: beside },
    { list: right, sign: -beside },
  ];
  return {
    points: line,
    tries: (at, index, share) => {
      const ahead = sub3(line[index + 1] as Vec3, line[index] as Vec3);
      const size = length3(ahead);
      return faces.flatMap(({ list, sign }) => {
        const [a, b] = [numberAt(list, 2 * index), numberAt(list, 2 * index + 1)];
        const n = blend(vectorAt(normals, a), vectorAt(normals, b), share);
        if (dot3(n, eye) < -EDGE_ON || size === 0) return [];
        const into = scale3(cross3(n, ahead), sign / size);
        return [add3(add3(at, into), scale3(n, above))];
      });
    },
  };
};

/** A line on a surface is seen where the surface is, just beside it: on one side of it another part may stand. */
const surfaceTrials = ({ points, normals }: SurfaceLine, eye: Vec3, { beside, above }: Fineness): Trials => ({
  points,
  tries: (at, index, share) => {
    const n = blend(normals[index] as Vec3, normals[index + 1] as Vec3, share);
    const ahead = sub3(points[index + 1] as Vec3, points[index] as Vec3);
    const size = length3(ahead);
    if (dot3(n, eye) < -EDGE_ON || size === 0) return [];
    const lifted = add3(at, scale3(n, above));
    const aside = scale3(cross3(n, ahead), beside / size);
    return [add3(lifted, aside), sub3(lifted, aside)];
  },
});

/** A face turned away by less than this cosine is seen edge-on: beside it nothing of its own part stands in the way. */
const EDGE_ON = 1e-6;

const blend = (a: Vec3, b: Vec3, share: number): Vec3 => add3(scale3(a, 1 - share), scale3(b, share));

/** Halvings by which the place is found where a line passes out of sight. */
const HALVINGS = 5;

interface Run {
  readonly seen: boolean;
  readonly points: Vec2[];
}

/** A line in runs: tried at its points and between them no farther apart than `step`. */
const splitRuns = (
  { points, tries }: Trials,
  screen: Screen,
  sight: Sight,
  eye: Vec3,
  step: number,
): readonly Run[] => {
  const isSeen = (at: Vec3, index: number, share: number): boolean =>
    tries(at, index, share).some((p) => !screen.hides(dot3(p, sight.right), dot3(p, sight.up), dot3(p, eye)));
  const runs: Run[] = [];
  let run: Run | undefined;
  const reach = (place: Vec3, seen: boolean): void => {
    const here = seenAt(sight, place);
    if (run?.seen !== seen) {
      run?.points.push(here);
      run = { seen, points: [] };
      runs.push(run);
    }
    run.points.push(here);
  };
  points.slice(1).forEach((q, index) => {
    const p = points[index] as Vec3;
    const count = Math.max(1, Math.ceil(length3(sub3(q, p)) / step));
    let before = isSeen(p, index, 0);
    reach(p, before);
    for (let k = 1; k <= count; k++) {
      const here = isSeen(blend(p, q, k / count), index, k / count);
      if (here !== before) {
        let [low, high] = [(k - 1) / count, k / count];
        for (let i = 0; i < HALVINGS; i++) {
          const middle = (low + high) / 2;
          if (isSeen(blend(p, q, middle), index, middle) === before) low = middle;
          else high = middle;
        }
        reach(blend(p, q, (low + high) / 2), here);
      }
      reach(blend(p, q, k / count), here);
      before = here;
    }
  });
  return runs.filter((found) => found.points.length > 1);
};
