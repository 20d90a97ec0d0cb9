import { itemAt, numberAt } from '../lists.ts';
import { add2, dot2, scale2, sub2, unit2, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { vectorAt } from '../scene/form.ts';
import { formParts, seeLines, type FormedPart, type SeenLine } from '../scene/hidden-lines.ts';
import type { Note, Scene, View } from '../scene/scene.ts';
import { seenAt, type Sight } from '../scene/sight.ts';
import { markBounds } from './extent.ts';
import type { Box, LineType, Mark, Picture } from './model.ts';
import { placeAngle, placeLabel, placeLength } from './notes.ts';
import { once } from './once.ts';
import { uncovered } from './overlaps.ts';
import { makeGround, type Ground } from './placing.ts';
import { FINE, MEDIUM, polylinePath, QUARTER, stroke, unionBox, WIDE } from './paths.ts';
import { makePicture } from './view.ts';

/** A picture that is drawn when it is first looked at: a file for a cutter and a sheet on a screen go without. */
const drawLater = (title: string, draw: () => Picture): Picture => {
  const picture = once(draw);
  return {
    title,
    get marks() {
      return picture().marks;
    },
    get bounds() {
      return picture().bounds;
    },
  };
};

/** The pictures of a scene, one for each of its views, each drawn when it is first looked at. */
export const scenePictures = (scene: Scene): readonly Picture[] => {
  const parts = once(() => formParts(scene.parts));
  return scene.views.map((view) => drawLater(view.title, () => viewPicture(parts(), view)));
};

/** Paper and scene: places of the scene as paper mm, about the middle of the picture. */
interface Paper {
  readonly scale: number;
  readonly flat: (p: Vec2) => Vec2;
  readonly project: (p: Vec3) => Vec2;
}

const layPaper = (parts: readonly FormedPart[], { sight, width, height, around = [] }: View): Paper => {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  const take = (p: Vec3): void => {
    const { x, y } = seenAt(sight, p);
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
  };
  for (const { form } of parts)
    for (let i = 0; i < form.positions.length / 3; i++) take(vectorAt(form.positions, i));
  around.forEach(take);
  const scale = Math.min(width / Math.max(maxX - minX, 1e-6), height / Math.max(maxY - minY, 1e-6));
  const [midX, midY] = [(minX + maxX) / 2, (minY + maxY) / 2];
  const flat = ({ x, y }: Vec2): Vec2 => ({ x: (x - midX) * scale, y: (y - midY) * scale });
  return { scale, flat, project: (p) => flat(seenAt(sight, p)) };
};

const viewPicture = (all: readonly FormedPart[], view: View): Picture => {
  const parts = all.filter(({ part }) => view.parts?.includes(part.id) ?? true);
  const paper = layPaper(parts, view);
  const fineness = { step: 0.8 / paper.scale, beside: 0.25 / paper.scale, above: 0.1 / paper.scale };
  const lines = seeLines(parts, view.sight, fineness).map((line) => ({
    ...line,
    points: simplify(line.points.map(paper.flat)),
  }));
  const seen = lines.filter((line) => line.seen);
  const hidden = uncovered(
    seen.map(({ points }) => points),
    lines.filter(showsHidden).map(({ points }) => points),
  );
  const drawn: Mark[] = [
    ...hidden.map((points) => stroke('dimension', polylinePath(points), FINE, 'dashed')),
    ...seen.map((line) => drawSeen(line, view.about)),
  ];
  const bounds = unionBox([
    ...drawn.map(markBounds),
    ...(view.around ?? []).map((p) => pointBox(paper.project(p))),
    ...view.notes.flatMap((note) =>
      note.kind === 'line' ? note.points.map((p) => pointBox(paper.project(p))) : [],
    ),
  ]);
  const ground = makeGround(bounds);
  for (const points of [...hidden, ...seen.map((line) => line.points)]) ground.addLine(points);
  const centers = view.notes.flatMap((note) =>
    note.kind === 'center' ? centerLine(note.points.map(paper.project), note.past ?? 3, ground) : [],
  );
  const middle = { x: (bounds.minX + bounds.maxX) / 2, y: (bounds.minY + bounds.maxY) / 2 };
  const notes = inOrder(view.notes).flatMap((note) => drawNote(note, paper, view.sight, middle, ground));
  return makePicture(view.title, [...drawn, ...centers, ...notes]);
};

const pointBox = ({ x, y }: Vec2): Box => ({ minX: x, minY: y, maxX: x, maxY: y });

/** Hidden lines that help: not welds nor the inner edges of cuts, and none of a phantom. */
const showsHidden = ({ seen, kind, part }: SeenLine): boolean =>
  !seen && part.role !== 'next' && kind !== 'weld' && kind !== 'inner' && kind !== 'bend';

const STYLES: Readonly<Record<SeenLine['kind'], readonly [width: number, line: LineType]>> = {
  contour: [QUARTER, 'continuous'],
  edge: [QUARTER, 'continuous'],
  cut: [MEDIUM, 'continuous'],
  inner: [FINE, 'continuous'],
  weld: [FINE, 'continuous'],
  seam: [WIDE, 'continuous'],
  bend: [FINE, 'long-dash-double-dot'],
};

const drawSeen = ({ part, kind, points }: SeenLine, about: string | undefined): Mark => {
  const [width, line] = part.role === 'next' ? STYLES.bend : STYLES[kind];
  const weight = about === undefined ? width : part.id === about ? Math.max(width, MEDIUM) : FINE;
  return stroke('dimension', polylinePath(points), weight, line);
};

/** Straight runs as one line: points less than this off the line through their neighbours are left out, paper mm. */
const STRAIGHT = 0.004;

/** Notes in `keep` the points by which a line leaves the straight run between two of its points. */
const keepBends = (points: readonly Vec2[], from: number, to: number, keep: Uint8Array): void => {
  const [a, b] = [itemAt(points, from), itemAt(points, to)];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const size = dx * dx + dy * dy;
  let [worst, at] = [STRAIGHT * STRAIGHT, -1];
  for (let i = from + 1; i < to; i++) {
    const { x, y } = itemAt(points, i);
    // A line seen edge-on may run past both ends and back.
    const t = size > 0 ? Math.max(0, Math.min(1, ((x - a.x) * dx + (y - a.y) * dy) / size)) : 0;
    const [offX, offY] = [x - a.x - t * dx, y - a.y - t * dy];
    const off = offX * offX + offY * offY;
    if (off > worst) [worst, at] = [off, i];
  }
  if (at < 0) return;
  keep[at] = 1;
  keepBends(points, from, at, keep);
  keepBends(points, at, to, keep);
};

const simplify = (points: readonly Vec2[]): readonly Vec2[] => {
  const keep = new Uint8Array(points.length);
  keepBends(points, 0, points.length - 1, keep);
  keep[0] = 1;
  keep[points.length - 1] = 1;
  return points.filter((_, i) => numberAt(keep, i) === 1);
};

/** A center line, carried on a little past both its ends. */
const centerLine = (points: readonly Vec2[], past: number, ground: Ground): Mark[] => {
  const beyond = (end: Vec2, from: Vec2 | undefined): Vec2 => {
    const run = from ? sub2(end, from) : { x: 0, y: 0 };
    return Math.hypot(run.x, run.y) > 1e-6 ? add2(end, scale2(unit2(run), past)) : end;
  };
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || points.length < 2) return [];
  const whole = [beyond(first, points[1]), ...points.slice(1, -1), beyond(last, points.at(-2))];
  if (whole.every((p) => Math.hypot(p.x - first.x, p.y - first.y) < 0.5)) return [];
  ground.addLine(whole);
  return [stroke('dimension', polylinePath(whole), FINE, 'long-dash-dot')];
};

/** Dimensions first, which have the least choice of place; names go where they leave room. */
const inOrder = (notes: readonly Note[]): readonly Note[] => {
  const rank = { break: 0, center: 0, line: 0, length: 1, angle: 2, label: 3 } as const;
  return [...notes].sort((a, b) => rank[a.kind] - rank[b.kind]);
};

const drawNote = (
  note: Note,
  { scale, project }: Paper,
  sight: Sight,
  middle: Vec2,
  ground: Ground,
): Mark[] => {
  const sighted = (v: Vec3): Vec2 | undefined => {
    const flat = seenAt(sight, v);
    return Math.hypot(flat.x, flat.y) > 1e-6 ? unit2(flat) : undefined;
  };
  switch (note.kind) {
    case 'center':
      return [];
    case 'line': {
      const points = note.points.map(project);
      ground.addLine(points);
      const width = note.style === 'bold' ? MEDIUM : FINE;
      return [
        stroke('dimension', polylinePath(points), width, note.style === 'dashed' ? 'dashed' : 'continuous'),
      ];
    }
    case 'length': {
      const [from, end] = [project(note.from), project(note.to)];
      const way = note.measure && sighted(note.measure);
      const along = way && { ...scale2(way, dot2(sub2(end, from), way)) };
      const to = along ? add2(from, along) : end;
      const half = scale2(add2(from, to), 0.5);
      const toward = (note.toward && sighted(note.toward)) ?? sub2(half, middle);
      return placeLength(ground, { from, to, end, text: note.text, toward });
    }
    case 'angle': {
      const [a, b] = [sighted(note.from), sighted(note.to)];
      if (!a || !b) return [];
      const from = Math.atan2(a.y, a.x);
      const sweep = Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
      return placeAngle(ground, { at: project(note.at), from, sweep, text: note.text });
    }
    case 'label': {
      const toward = note.toward && sighted(note.toward);
      const { text, bold = false, on = false } = note;
      const along = note.along && project(note.along);
      return placeLabel(ground, { at: project(note.at), along, text, bold, toward, on });
    }
    case 'break':
      return drawBreak(project(note.at), sighted(note.along), note.half * scale, ground);
  }
};

/** Two jagged lines across a part, and white between them. */
const drawBreak = (at: Vec2, along: Vec2 | undefined, half: number, ground: Ground): Mark[] => {
  if (!along) return [];
  const across = { x: -along.y, y: along.x };
  const point = (u: number, v: number): Vec2 => add2(at, add2(scale2(across, u), scale2(along, v)));
  const zigzag = (off: number): readonly Vec2[] =>
    [1.12, 0.12, 0.06, -0.06, -0.12, -1.12].map((k, i) =>
      point(k * half, off + (i === 2 ? 1 : i === 3 ? -1 : 0)),
    );
  const [one, two] = [zigzag(-1.2), zigzag(1.2)];
  ground.addLine(one);
  ground.addLine(two);
  return [
    {
      kind: 'fill',
      role: 'dimension',
      ink: 'white',
      path: polylinePath([...one, ...[...two].reverse()], true),
    },
    ...[one, two].map((line) => stroke('dimension', polylinePath(line), FINE)),
  ];
};
