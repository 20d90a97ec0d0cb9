import { add3, cross3, dot3, length3, scale3, sub3, vec3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { contoursOf } from './contours.ts';
import { numberAt, vectorAt, type Form, type FormEdge } from './form.ts';
import { formOf } from './forms/form-of.ts';
import type { Part, SurfaceLine } from './scene.ts';
import { makeScreen, type Screen } from './screen.ts';
import { girthRadius } from './size.ts';
import { towardEye, type Sight } from './sight.ts';

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

/**
 * A place beside a step of a line that must be in sight for the line to be seen: how far off the line it lies at both ends of the
 * step, as it is seen (z toward the eye), and how far its face is turned to the eye there.
 */
interface Beside {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly facing: readonly [number, number];
}

/** A line with the places beside each of its steps; any of them will do. */
interface Trials {
  readonly points: readonly Vec3[];
  readonly beside: readonly (readonly Beside[])[];
}

/** A point or direction as it is seen: right, up, and toward the eye. */
type Look = (v: Vec3) => Vec3;

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
  const look: Look = (v) => vec3(dot3(v, sight.right), dot3(v, sight.up), dot3(v, eye));
  const screen = makeScreen(
    joined(
      parts.flatMap(({ part, form }) => (part.role === 'next' ? [] : [facingTriangles(form, sight, eye)])),
    ),
  );
  return parts.flatMap(({ part, form }) => {
    const own = part.role === 'next' ? makeScreen(facingTriangles(form, sight, eye)) : screen;
    const runs = (kind: SeenKind, trials: Trials): readonly SeenLine[] =>
      splitRuns(trials, own, look, fineness.step).map((run) => ({ part, kind, ...run }));
    return [
      ...contoursOf(form, eye).flatMap(({ points, normals }) =>
        runs('contour', contourTrials(points, normals, look, fineness)),
      ),
      ...form.edges.flatMap((edge) => runs(edge.kind, edgeTrials(form, edge, look, fineness))),
      ...(part.lines ?? []).flatMap((line) => runs(line.kind, surfaceTrials(line, look, fineness))),
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
  const seenAt = (k: number): number => seen[k] as number;
  const triangles = new Float64Array((corners.length / 2) * 3);
  let count = 0;
  for (let i = 0; i < corners.length; i += 6) {
    const a = 3 * numberAt(corners, i);
    const b = 3 * numberAt(corners, i + 2);
    const c = 3 * numberAt(corners, i + 4);
    const ux = seenAt(b) - seenAt(a);
    const uy = seenAt(b + 1) - seenAt(a + 1);
    const wx = seenAt(c) - seenAt(a);
    const wy = seenAt(c + 1) - seenAt(a + 1);
    // Seen edge-on it hides nothing.
    if (ux * wy - uy * wx <= 1e-9 * (Math.abs(ux) + Math.abs(uy) + Math.abs(wx) + Math.abs(wy))) continue;
    for (const p of [a, b, c]) {
      triangles[count++] = seenAt(p);
      triangles[count++] = seenAt(p + 1);
      triangles[count++] = seenAt(p + 2);
    }
  }
  return triangles.subarray(0, count);
};

/** A contour is tried just outside itself. */
const contourTrials = (
  points: readonly Vec3[],
  normals: readonly Vec3[],
  look: Look,
  { above }: Fineness,
): Trials => {
  const off = normals.map((n) => look(scale3(n, above)));
  return {
    points,
    beside: steps(points).map((i) => [{ from: off[i] as Vec3, to: off[i + 1] as Vec3, facing: [1, 1] }]),
  };
};

/** The place on a face beside a step of its edge, lifted off it. `aside` is negative for the face on the right. */
const onFace = (
  look: Look,
  ahead: Vec3,
  normals: readonly [Vec3, Vec3],
  aside: number,
  above: number,
): readonly Beside[] => {
  const size = length3(ahead);
  if (size === 0) return [];
  const [from, to] = normals.map((n) =>
    look(add3(scale3(cross3(n, ahead), aside / size), scale3(n, above))),
  ) as [Vec3, Vec3];
  return [{ from, to, facing: [look(normals[0]).z, look(normals[1]).z] }];
};

const steps = (points: readonly Vec3[]): readonly number[] => points.slice(1).map((_, i) => i);

const edgeTrials = (
  { positions, normals }: Form,
  { points, left, right }: FormEdge,
  look: Look,
  { beside, above }: Fineness,
): Trials => {
  const line = points.map((p) => vectorAt(positions, p));
  return {
    points: line,
    beside: steps(line).map((i) => {
      const ahead = sub3(line[i + 1] as Vec3, line[i] as Vec3);
      const face = (list: readonly number[], aside: number): readonly Beside[] => {
        const [a, b] = [numberAt(list, 2 * i), numberAt(list, 2 * i + 1)];
        return onFace(look, ahead, [vectorAt(normals, a), vectorAt(normals, b)], aside, above);
      };
      return [...face(left, beside), ...face(right, -beside)];
    }),
  };
};

/** A line on a surface is seen where the surface is, just beside it: on one side of it another part may stand. */
const surfaceTrials = (
  { points, normals }: SurfaceLine,
  look: Look,
  { beside, above }: Fineness,
): Trials => ({
  points,
  beside: steps(points).map((i) => {
    const ahead = sub3(points[i + 1] as Vec3, points[i] as Vec3);
    const pair = [normals[i] as Vec3, normals[i + 1] as Vec3] as const;
    return [beside, -beside].flatMap((aside) => onFace(look, ahead, pair, aside, above));
  }),
});

/** A face turned away by less than this cosine is seen edge-on: beside it nothing of its own part stands in the way. */
const EDGE_ON = 1e-6;
/** Halvings by which the place is found where a line passes out of sight. */
const HALVINGS = 5;

interface Run {
  readonly seen: boolean;
  readonly points: Vec2[];
}

/** A line in runs: tried at its points and between them no farther apart than `step`. */
const splitRuns = ({ points, beside }: Trials, screen: Screen, look: Look, step: number): readonly Run[] => {
  const seenPoints = points.map(look);
  const runs: Run[] = [];
  let run: Run | undefined;
  const reach = (x: number, y: number, seen: boolean): void => {
    if (run?.seen !== seen) {
      run?.points.push({ x, y });
      run = { seen, points: [] };
      runs.push(run);
    }
    run.points.push({ x, y });
  };
  beside.forEach((places, index) => {
    const [p, q] = [seenPoints[index] as Vec3, seenPoints[index + 1] as Vec3];
    const isSeen = (share: number): boolean => {
      const rest = 1 - share;
      for (const { from, to, facing } of places) {
        if (rest * facing[0] + share * facing[1] < -EDGE_ON) continue;
        const x = rest * (p.x + from.x) + share * (q.x + to.x);
        const y = rest * (p.y + from.y) + share * (q.y + to.y);
        if (!screen.hides(x, y, rest * (p.z + from.z) + share * (q.z + to.z))) return true;
      }
      return false;
    };
    const at = (share: number, seen: boolean): void =>
      reach(p.x + (q.x - p.x) * share, p.y + (q.y - p.y) * share, seen);
    const count = Math.max(1, Math.ceil(length3(sub3(q, p)) / step));
    let before = isSeen(0);
    at(0, before);
    for (let k = 1; k <= count; k++) {
      const here = isSeen(k / count);
      if (here !== before) {
        let [low, high] = [(k - 1) / count, k / count];
        for (let i = 0; i < HALVINGS; i++) {
          const middle = (low + high) / 2;
          if (isSeen(middle) === before) low = middle;
          else high = middle;
        }
        at((low + high) / 2, here);
      }
      before = here;
      at(k / count, here);
    }
  });
  return runs.filter((found) => found.points.length > 1);
};
