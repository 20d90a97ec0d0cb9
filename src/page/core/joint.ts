import { pointAt } from '../../drawing/curve-split.ts';
import type { Path, Sheet, Stroke } from '../../drawing/model.ts';
import { add3, length3, scale3, sub3, unit3, vec3, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { makeCutterSheets, makeScene } from '../../print.ts';
import type { Request } from '../../request.ts';
import { sceneMeshes, type PartMesh } from '../../scene/mesh.ts';
import type { Part, Scene } from '../../scene/scene.ts';
import { poseDirection, posePoint, type StockEnd, type StockShape } from '../../scene/shape.ts';
import type { BodyView, JointView, WrapView } from './views.ts';

/** Fine enough for a screen, mm; a mesh to be measured is made finer. */
const deviation = 0.15;

/** A stock with a cut end that may bear a template. */
interface CutStock {
  readonly part: Part;
  readonly shape: StockShape;
}

const heightAt = (end: StockEnd, s: number): number => (typeof end === 'number' ? end : end(s));

const cutStocks = ({ parts }: Scene): readonly CutStock[] =>
  parts.flatMap((part) =>
    part.role === 'work' && part.shape.kind === 'stock' ? [{ part, shape: part.shape }] : [],
  );

const middleOf = ({ mesh: { positions } }: PartMesh): Vec3 => {
  let sum = vec3(0, 0, 0);
  for (let i = 0; i < positions.length; i += 3)
    sum = add3(sum, vec3(positions[i] ?? 0, positions[i + 1] ?? 0, positions[i + 2] ?? 0));
  return scale3(sum, 3 / Math.max(3, positions.length));
};

/** Where a part goes when the joint is taken apart: off along its own axis from a cut end, or away from all others. */
const awayOf = (part: Part, mesh: PartMesh, middle: Vec3): Vec3 => {
  if (part.role === 'mate') return vec3(0, 0, 0);
  const { shape } = part;
  if (shape.kind === 'stock' && (typeof shape.end === 'function') !== (typeof shape.start === 'function'))
    return poseDirection(shape.pose, vec3(0, 0, typeof shape.end === 'function' ? -1 : 1));
  const off = sub3(middleOf(mesh), middle);
  return length3(off) > 1e-6 ? unit3(off) : vec3(0, 0, 0);
};

const listOf = ({ x, y, z }: Vec3): readonly [number, number, number] => [x, y, z];

const viewBody = (part: Part, mesh: PartMesh, middle: Vec3): BodyView => {
  const { positions, normals, indices } = mesh.mesh;
  return {
    id: part.id,
    name: part.name,
    role: part.role,
    positions,
    normals,
    indices,
    away: listOf(awayOf(part, mesh, middle)),
  };
};

/** Points along a path, close enough to lie on a curved surface between them. */
const pointsOf = (path: Path, step: number): readonly Vec2[] => {
  const points: Vec2[] = [path.start];
  let from = path.start;
  for (const segment of path.segments) {
    const long = Math.hypot(segment.to.x - from.x, segment.to.y - from.y);
    const count = Math.max(segment.kind === 'line' ? 1 : 8, Math.ceil(long / step));
    for (let i = 1; i <= count; i += 1) points.push(pointAt(from, segment, i / count));
    from = segment.to;
  }
  return points;
};

const strokesOf = (sheet: Sheet): readonly Stroke[] =>
  sheet.marks.filter((mark): mark is Stroke => mark.kind === 'stroke');

/** A sheet lies on a stock where its cut line runs along the stock's own end, within this, mm. */
const closeEnough = 0.5;

const fits = (sheet: Sheet, { shape }: CutStock): boolean => {
  const cut = strokesOf(sheet).filter(({ role }) => role === 'cut');
  const points = cut.flatMap(({ path }) => pointsOf(path, shape.outline.girth / 24));
  return (
    points.length > 2 &&
    points.every(({ x, y }) =>
      [shape.start, shape.end].some((end) => Math.abs(y - heightAt(end, x)) < closeEnough),
    )
  );
};

/** Roles of lines that are worth seeing on the pipe. */
const shownRoles = ['cut', 'station', 'centre', 'reference', 'punch', 'bend'] as const;

const flatten = (points: readonly Vec3[]): Float32Array =>
  Float32Array.from(points.flatMap(({ x, y, z }) => [x, y, z]));

/** Lays a sheet on its stock, as it is wrapped: a little over the surface, from its reference edge to the cut. */
const wrap = (sheet: Sheet, { part, shape }: CutStock): WrapView => {
  const { outline, pose } = shape;
  const { girth } = outline;
  const lift = Math.max(0.15, girth * 4e-4);
  const place = ({ x, y }: Vec2, over = lift): Vec3 => {
    const { x: px, y: py } = outline.at(x, -over);
    return posePoint(pose, vec3(px, py, y));
  };
  const step = girth / 120;
  const strokes = strokesOf(sheet);
  const heights = strokes
    .filter(({ role }) => role === 'reference')
    .flatMap(({ path }) => pointsOf(path, girth));
  const low = Math.min(...(heights.length > 0 ? heights.map(({ y }) => y) : [sheet.bounds.minY]));
  const isOnPipe = ({ x, y }: Vec2): boolean =>
    y <= heightAt(shape.end, x) + 0.05 && y >= heightAt(shape.start, x) - 0.05;
  const lines = shownRoles.flatMap((role) => {
    const pieces = strokes
      .filter((stroke) => stroke.role === role)
      .flatMap(({ path }) => {
        const points = pointsOf(path, step);
        return points.slice(1).flatMap((to, i) => {
          const from = points[i] ?? to;
          const isWithin = Math.min(from.x, to.x) > -girth * 1.01 && Math.max(from.x, to.x) < girth * 1.01;
          return isWithin && isOnPipe(from) && isOnPipe(to)
            ? [place(from, 2 * lift), place(to, 2 * lift)]
            : [];
        });
      });
    return pieces.length === 0 ? [] : [{ role, points: flatten(pieces) }];
  });
  const paper = Array.from({ length: 120 }, (_, i): readonly Vec3[] => {
    const [s, t] = [i * step, (i + 1) * step];
    const [a, b] = [place({ x: s, y: low }), place({ x: t, y: low })];
    const [c, d] = [place({ x: t, y: heightAt(shape.end, t) }), place({ x: s, y: heightAt(shape.end, s) })];
    return [a, b, c, a, c, d];
  });
  return { body: part.id, name: sheet.heading, paper: flatten(paper.flat()), lines };
};

/** Every sheet on a stock of its own. They are drawn without an allowance for paper, so that their lines lie on the steel. */
const wrapAll = (sheets: readonly Sheet[], stocks: readonly CutStock[]): readonly WrapView[] => {
  const free = new Set(stocks);
  return sheets.flatMap((sheet) => {
    const stock = [...free].find((one) => fits(sheet, one));
    if (stock === undefined) return [];
    free.delete(stock);
    return [wrap(sheet, stock)];
  });
};

/** A request's parts in space with its templates on them; undefined where it makes no body. */
export const viewJoint = (request: Request): JointView | undefined => {
  const scene = makeScene(request);
  if (scene === undefined) return undefined;
  const meshes = sceneMeshes(scene, deviation);
  const middles = meshes.map(middleOf);
  const middle = scale3(middles.reduce(add3, vec3(0, 0, 0)), 1 / Math.max(1, middles.length));
  const sight = scene.views[0]?.sight;
  return {
    right: listOf(sight?.right ?? vec3(1, 0, 0)),
    up: listOf(sight?.up ?? vec3(0, 0, 1)),
    bodies: scene.parts.flatMap((part, i) => {
      const mesh = meshes[i];
      return mesh === undefined ? [] : [viewBody(part, mesh, middle)];
    }),
    wraps: wrapAll(makeCutterSheets(request), cutStocks(scene)),
  };
};
