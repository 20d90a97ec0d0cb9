import type { Mark, Picture } from '../../../drawing/model.ts';
import { FINE, MEDIUM } from '../../../drawing/shape.ts';
import {
  fitView,
  makePicture,
  sampleCurve,
  viewDimension,
  viewLine,
  viewText,
  type Projection,
  type Sight,
} from '../../../drawing/view.ts';
import { contourPatch } from '../../../geometry/silhouette.ts';
import { vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { stockReach, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import type { PieceEnd } from './piece-end.ts';
import { endBodies, fromJoint } from './piece-joint.ts';
import type { Piece, SolvedEnd } from './piece-solve.ts';

const TURN = 2 * Math.PI;

/** Start on the left, station 0 on top: the eye looks at station 270. */
const SIGHT: Sight = { right: vec3(0, 0, 1), up: vec3(1, 0, 0) };
const EYE = vec3(0, 1, 0);

/** A piece longer than so many diameters is drawn broken. */
const LONGEST = 5;

/** A cut end's outside edge, by the angle in its own stock frame. */
type Rim = (angle: number) => Vec3;

/** The whole piece from the side, start on the left, with what its ends are cut to. */
export const piecePicture = (piece: Piece, setting: Setting): Picture => {
  const { request, centers, start, finish } = piece;
  const { stock } = request;
  const r = stockReach(stock);
  const taken = Math.max(0, piece.shortest.length - LONGEST * 2 * r);
  const middle = (centers + finish.development.low - start.development.low) / 2;
  const shrink = (p: Vec3): Vec3 => ({ ...p, z: p.z > middle ? p.z - taken : p.z });
  const place = (end: SolvedEnd, p: Vec3): Vec3 =>
    shrink(end === start ? vec3(p.x, -p.y, -p.z) : vec3(p.x, p.y, centers + p.z));
  const cut =
    (end: SolvedEnd) =>
    (angle: number): Vec3 =>
      place(
        end,
        vec3(
          r * Math.cos(angle),
          r * Math.sin(angle),
          end.development.ordinate((angle / TURN) * stock.girth),
        ),
      );
  const rims = [start, finish].map(cut) as [Rim, Rim];
  const bodies = [start, finish].map((end) => bodyLines(end, end.stock, (p) => place(end, p)));
  const frame = [
    ...rims.flatMap((rim) => sampleCurve(rim, 0, TURN, 72)),
    ...bodies.flatMap(({ points }) => points),
  ];
  const { project, scale } = fitView(SIGHT, frame, 90, 44);
  const marks: Mark[] = [
    ...bodies.flatMap(({ lines }) =>
      lines.map(({ points, axis }) =>
        viewLine(project, points, axis ? 'long-dash-dot' : 'long-dash-double-dot', FINE),
      ),
    ),
    ...sideLines(rims, r, taken > 0 ? middle : undefined, project, scale),
    ...boreLines(piece, rims, project, taken > 0 ? middle : undefined, scale),
    ...rims.flatMap((rim, i) => rimLines(rim, i === 0, project)),
    viewLine(
      project,
      [
        vec3(0, 0, Math.min(0, rimReach(rims[0], 'low')) - 4 / scale),
        vec3(0, 0, Math.max(centers - taken, rimReach(rims[1], 'high')) + 4 / scale),
      ],
      'long-dash-dot',
    ),
    ...lengths(piece, rims, taken, project, setting, frame),
  ];
  return makePicture('The piece seen from its 270° side, TDC up', marks);
};

const rimReach = (rim: Rim, which: 'low' | 'high'): number => {
  const zs = sampleCurve(rim, 0, TURN, 180).map((p) => p.z);
  return which === 'low' ? Math.min(...zs) : Math.max(...zs);
};

/** Top and bottom line, interrupted by a break where the piece is drawn short. */
const sideLines = (
  rims: readonly [Rim, Rim],
  r: number,
  broken: number | undefined,
  project: Projection,
  scale: number,
): Mark[] => {
  const gap = 1.2 / scale;
  const line = (angle: number): Mark[] => {
    const [a, b] = [rims[0](angle), rims[1](angle)];
    if (broken === undefined) return [viewLine(project, [a, b])];
    return [
      viewLine(project, [a, { ...a, z: broken - gap }]),
      viewLine(project, [{ ...b, z: broken + gap }, b]),
    ];
  };
  const breaks =
    broken === undefined
      ? []
      : [-gap, gap].map((off) =>
          viewLine(
            project,
            [1.12, 0.12, 0.06, -0.06, -0.12, -1.12].map((k, i) =>
              vec3(k * r, 0, broken + off + (i === 2 ? 1 : i === 3 ? -1 : 0) / scale),
            ),
            'continuous',
            FINE,
          ),
        );
  return [...line(0), ...line(Math.PI), ...breaks];
};

const boreLines = (
  { request: { stock } }: Piece,
  rims: readonly [Rim, Rim],
  project: Projection,
  broken: number | undefined,
  scale: number,
): Mark[] => {
  const inner = 1 - stock.wall / stockReach(stock);
  const gap = 1.2 / scale;
  return [0, Math.PI].flatMap((angle) => {
    const [a, b] = rims.map((rim) => ({ ...rim(angle), x: rim(angle).x * inner })) as [Vec3, Vec3];
    if (broken === undefined) return [viewLine(project, [a, b], 'dashed')];
    return [
      viewLine(project, [a, { ...a, z: broken - gap }], 'dashed'),
      viewLine(project, [{ ...b, z: broken + gap }, b], 'dashed'),
    ];
  });
};

/** The near half of a cut continuous, the far half dashed where it shows apart. */
const rimLines = (rim: Rim, isStart: boolean, project: Projection): Mark[] => {
  // The start's own frame sees station 90 on the other side of the piece.
  const near = sampleCurve(rim, isStart ? Math.PI : 0, isStart ? TURN : Math.PI);
  const far = sampleCurve(rim, isStart ? 0 : Math.PI, isStart ? Math.PI : TURN);
  const apart = Math.max(
    ...near.map((p, i) => {
      const [a, b] = [project(p), project(far[far.length - 1 - i] as Vec3)];
      return Math.hypot(a.x - b.x, a.y - b.y);
    }),
  );
  return [
    ...(apart > 0.3 ? [viewLine(project, far, 'dashed')] : []),
    viewLine(project, near, 'continuous', MEDIUM),
  ];
};

interface BodyLine {
  readonly points: readonly Vec3[];
  readonly axis?: boolean;
}

/** The outline of what an end is cut to, as far as it helps to see which way it lies. */
const bodyLines = (
  { joint, numbering }: SolvedEnd,
  stock: Stock,
  place: (p: Vec3) => Vec3,
): { readonly lines: readonly BodyLine[]; readonly points: readonly Vec3[] } => {
  const { shape } = joint;
  if (shape.kind === 'bodies') {
    const at = (p: Vec3): Vec3 => place(fromJoint(numbering, p));
    const lines = endBodies(joint, stock).flatMap(({ view }) => [
      ...view.patches.flatMap((patch) =>
        contourPatch({ ...patch, at: (u, v) => at(patch.at(u, v)) }, EYE).map((points) => ({ points })),
      ),
      ...view.edges.map((points) => ({ points: points.map(at) })),
      ...view.centres.map((points) => ({ points: points.map(at), axis: true })),
    ]);
    return { lines, points: lines.flatMap(({ points }) => points) };
  }
  return { lines: [], points: [] };
};

const lengths = (
  piece: Piece,
  rims: readonly [Rim, Rim],
  taken: number,
  project: Projection,
  setting: Setting,
  frame: readonly Vec3[],
): Mark[] => {
  const flat = frame.map(project);
  const xs = flat.map((p) => p.x);
  const ys = flat.map((p) => p.y);
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const at = (z: number) => project(vec3(0, 0, z));
  const axis = at(0).y;
  const [from, to] = [at(rimReach(rims[0], 'low')), at(rimReach(rims[1], 'high'))];
  return [
    ...viewDimension(
      at(0),
      at(piece.centers - taken),
      high - axis + 4,
      `centers ${writeShort(piece.centers, setting)}`,
    ),
    ...viewDimension(from, to, low - axis - 4, `long points ${writeShort(piece.overall, setting)}`),
    ...endNote(piece.start.joint, { x: Math.min(...xs, from.x) - 5, y: axis }, 'START'),
    ...endNote(piece.finish.joint, { x: Math.max(...xs, to.x) + 5, y: axis }, 'FINISH'),
  ];
};

const endNote = ({ shape }: PieceEnd, at: Vec2, name: 'START' | 'FINISH'): Mark[] => {
  const kind =
    shape.kind === 'miter'
      ? `miter ${formatAngle(shape.cut)}`
      : shape.kind === 'bodies'
        ? `on ${shape.on.map(({ designation }) => designation).join(', ')}`
        : shape.kind;
  const align = name === 'START' ? 'right' : 'left';
  return [
    ...viewText({ x: at.x, y: at.y + 2 }, name, align, true),
    ...viewText({ x: at.x, y: at.y - 1.8 }, kind, align),
  ];
};
