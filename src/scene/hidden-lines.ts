import { halve } from '../geometry/halving.ts';
import { itemAt, numberAt, realAt } from '../lists.ts';
import { dot3, intoAxes, length3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { contoursOf } from './contours.ts';
import { vectorAt, type Form, type FormEdge } from './form.ts';
import { formOf } from './forms/form-of.ts';
import { girthRadius } from './girth-radius.ts';
import type { Part, SurfaceLine } from './scene.ts';
import { hides, makeScreen, type Screen } from './screen.ts';
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
 * A line and the places beside each of its steps; the line is seen where any of them is in sight. Eight numbers a place, since a
 * picture has thousands: how far off the line it lies at the beginning and at the end of the step (right, up and toward the eye),
 * and how far its face is turned to the eye at both.
 */
interface Trials {
  readonly points: readonly Vec3[];
  readonly places: readonly number[];
  /** How many of the numbers belong to the steps up to this one and to it. */
  readonly ends: readonly number[];
}
const PLACE = 8;

/** The scene as it is seen: its directions to the right, up, and toward the eye. */
interface Eye extends Sight {
  readonly toward: Vec3;
}

const lookAt = ({ right, up, toward }: Eye, v: Vec3): Vec3 => intoAxes({ x: right, y: up, z: toward }, v);

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
  const toward = towardEye(sight);
  const eye: Eye = { ...sight, toward };
  const screen = makeScreen(
    joined(parts.flatMap(({ part, form }) => (part.role === 'next' ? [] : [facingTriangles(form, eye)]))),
  );
  return parts.flatMap(({ part, form }) => {
    const own = part.role === 'next' ? makeScreen(facingTriangles(form, eye)) : screen;
    const runs = (kind: SeenKind, trials: Trials): readonly SeenLine[] =>
      splitRuns(trials, own, eye, fineness.step).map((run) => ({ part, kind, ...run }));
    return [
      ...contoursOf(form, toward).flatMap(({ points, normals }) =>
        runs('contour', contourTrials(points, normals, eye, fineness)),
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
const facingTriangles = ({ positions, corners }: Form, { right, up, toward }: Eye): Float64Array => {
  const seen = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const x = numberAt(positions, i);
    const y = numberAt(positions, i + 1);
    const z = numberAt(positions, i + 2);
    seen[i] = x * right.x + y * right.y + z * right.z;
    seen[i + 1] = x * up.x + y * up.y + z * up.z;
    seen[i + 2] = x * toward.x + y * toward.y + z * toward.z;
  }
  const seenAt = (k: number): number => realAt(seen, k);
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

/** Adds what a direction comes to as it is seen. */
const push = (places: number[], { right, up, toward }: Eye, x: number, y: number, z: number): void => {
  places.push(
    x * right.x + y * right.y + z * right.z,
    x * up.x + y * up.y + z * up.z,
    x * toward.x + y * toward.y + z * toward.z,
  );
};

/** A contour is tried just outside itself. */
const contourTrials = (
  points: readonly Vec3[],
  normals: readonly Vec3[],
  eye: Eye,
  { above }: Fineness,
): Trials => {
  const places: number[] = [];
  const ends: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    for (const n of [itemAt(normals, i), itemAt(normals, i + 1)])
      push(places, eye, n.x * above, n.y * above, n.z * above);
    places.push(1, 1);
    ends.push(places.length);
  }
  return { points, places, ends };
};

/** Adds the place on a face beside a step of its edge, lifted off it. `aside` is negative for the face on the right. */
const addBeside = (
  places: number[],
  eye: Eye,
  ahead: Vec3,
  from: Vec3,
  to: Vec3,
  aside: number,
  above: number,
): void => {
  const size = length3(ahead);
  if (size === 0) return;
  const k = aside / size;
  for (const n of [from, to])
    push(
      places,
      eye,
      (n.y * ahead.z - n.z * ahead.y) * k + n.x * above,
      (n.z * ahead.x - n.x * ahead.z) * k + n.y * above,
      (n.x * ahead.y - n.y * ahead.x) * k + n.z * above,
    );
  places.push(dot3(from, eye.toward), dot3(to, eye.toward));
};

const edgeTrials = (
  { positions, normals }: Form,
  { points: numbers, left, right }: FormEdge,
  eye: Eye,
  { beside, above }: Fineness,
): Trials => {
  const points = numbers.map((p) => vectorAt(positions, p));
  const onLeft = left.map((n) => vectorAt(normals, n));
  const onRight = right.map((n) => vectorAt(normals, n));
  const places: number[] = [];
  const ends: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const ahead = sub3(itemAt(points, i + 1), itemAt(points, i));
    addBeside(places, eye, ahead, itemAt(onLeft, 2 * i), itemAt(onLeft, 2 * i + 1), beside, above);
    addBeside(places, eye, ahead, itemAt(onRight, 2 * i), itemAt(onRight, 2 * i + 1), -beside, above);
    ends.push(places.length);
  }
  return { points, places, ends };
};

/** A line on a surface is seen where the surface is, just beside it: on one side of it another part may stand. */
const surfaceTrials = ({ points, normals }: SurfaceLine, eye: Eye, { beside, above }: Fineness): Trials => {
  const places: number[] = [];
  const ends: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const ahead = sub3(itemAt(points, i + 1), itemAt(points, i));
    const [from, to] = [itemAt(normals, i), itemAt(normals, i + 1)];
    addBeside(places, eye, ahead, from, to, beside, above);
    addBeside(places, eye, ahead, from, to, -beside, above);
    ends.push(places.length);
  }
  return { points, places, ends };
};

/** A face turned away by less than this cosine is seen edge-on: beside it nothing of its own part stands in the way. */
const EDGE_ON = 1e-6;
/** Halvings by which the place is found where a line passes out of sight. */
const HALVINGS = 5;

interface Run {
  readonly seen: boolean;
  readonly points: Vec2[];
}

/** A step of a line as it is seen, and which of the places beside the line are tried for it. */
interface Step {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly first: number;
  readonly end: number;
}

/** True where a step of a line is seen, at a share of its length. */
const isSeenAt = (
  places: readonly number[],
  { from, to, first, end }: Step,
  screen: Screen,
  share: number,
): boolean => {
  const rest = 1 - share;
  for (let k = first; k < end; k += PLACE) {
    if (rest * numberAt(places, k + 6) + share * numberAt(places, k + 7) < -EDGE_ON) continue;
    const x = rest * (from.x + numberAt(places, k)) + share * (to.x + numberAt(places, k + 3));
    const y = rest * (from.y + numberAt(places, k + 1)) + share * (to.y + numberAt(places, k + 4));
    const z = rest * (from.z + numberAt(places, k + 2)) + share * (to.z + numberAt(places, k + 5));
    if (!hides(screen, x, y, z)) return true;
  }
  return false;
};

/** A line in runs: tried at its points and between them no farther apart than `fineness`. */
const splitRuns = (
  { points, places, ends }: Trials,
  screen: Screen,
  eye: Eye,
  fineness: number,
): readonly Run[] => {
  const seenPoints = points.map((point) => lookAt(eye, point));
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
  for (let index = 0; index < ends.length; index++) {
    const [first, end] = [index === 0 ? 0 : numberAt(ends, index - 1), numberAt(ends, index)];
    const [from, to] = [itemAt(seenPoints, index), itemAt(seenPoints, index + 1)];
    const step = { from, to, first, end };
    const at = (share: number, seen: boolean): void =>
      reach(from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share, seen);
    const count = Math.max(1, Math.ceil(length3(sub3(to, from)) / fineness));
    let before = isSeenAt(places, step, screen, 0);
    at(0, before);
    for (let k = 1; k <= count; k++) {
      const here = isSeenAt(places, step, screen, k / count);
      if (here !== before) {
        const was = before;
        const isSame = (t: number): boolean => isSeenAt(places, step, screen, t) === was;
        at(halve(isSame, (k - 1) / count, k / count, HALVINGS).middle, here);
      }
      before = here;
      at(k / count, here);
    }
  }
  return runs.filter((found) => found.points.length > 1);
};
