import initKernel, {
  type gp_Ax2,
  type OpenCascadeInstance,
  type TopoDS_Edge,
  type TopoDS_Shape,
} from 'replicad-opencascadejs';
import { axesAt, inner, minus, norm, plus, times, type Axes, type Vec3 } from './space.ts';

/**
 * An outside witness for where two bodies meet: Open CASCADE, a solid modeller that shares nothing with this project. The
 * compiled kernel loads once, on first use.
 */
let kernel: Promise<OpenCascadeInstance> | undefined;
const loadKernel = (): Promise<OpenCascadeInstance> => (kernel ??= initKernel());

/** Bytes the kernel holds, to see that nothing is left behind. */
export const kernelMemory = async (): Promise<number> =>
  ((await loadKernel()) as unknown as { wasmMemory: WebAssembly.Memory }).wasmMemory.buffer.byteLength;

/** A body to be cut against another, mm. Those without ends reach `extent` either way from their own point; cones and heads are
 * their sloping surface alone. */
export type Body =
  | { readonly kind: 'plane'; readonly through: Vec3; readonly normal: Vec3 }
  | { readonly kind: 'cylinder'; readonly through: Vec3; readonly along: Vec3; readonly radius: number }
  | {
      readonly kind: 'cone';
      readonly from: Vec3;
      readonly radiusFrom: number;
      readonly to: Vec3;
      readonly radiusTo: number;
    }
  | { readonly kind: 'sphere'; readonly centre: Vec3; readonly radius: number }
  | {
      readonly kind: 'torus';
      readonly centre: Vec3;
      readonly axis: Vec3;
      readonly major: number;
      readonly minor: number;
    }
  | {
      /** A rectangular bar: `width` along `across`, `depth` square to it, `length` along `axis`, about its centre. */
      readonly kind: 'bar';
      readonly centre: Vec3;
      readonly axis: Vec3;
      readonly across: Vec3;
      readonly width: number;
      readonly depth: number;
      readonly length: number;
    }
  | {
      /** Straight stock without ends: a closed section in the plane of `across` (its x) and axis × across (its y). */
      readonly kind: 'prism';
      readonly origin: Vec3;
      readonly axis: Vec3;
      readonly across: Vec3;
      readonly section: Section;
    }
  | {
      /** Half an ellipsoid ahead of the tangent line: `radius` round the axis, `depth` along it. */
      readonly kind: 'ellipsoidal head';
      readonly tangent: Vec3;
      readonly axis: Vec3;
      readonly radius: number;
      readonly depth: number;
    }
  | {
      /** Crown and knuckle ahead of the tangent line, as in `heads.ts`. */
      readonly kind: 'torispherical head';
      readonly tangent: Vec3;
      readonly axis: Vec3;
      readonly radius: number;
      readonly crown: number;
      readonly knuckle: number;
    };

/** A closed section, by the places its sides and arcs run to, or an ellipse by its half sizes along x and y. */
export type Section =
  | { readonly start: Place; readonly sides: readonly Side[] }
  | { readonly ellipse: readonly [number, number] };
type Place = readonly [x: number, y: number];
/** A straight side, or an arc round a center, clockwise where it says so. */
interface Side {
  readonly to: Place;
  readonly centre?: Place;
  readonly clockwise?: boolean;
}

interface Bench {
  readonly oc: OpenCascadeInstance;
  /** Marks an object in the kernel's memory to be freed when the work is done. */
  readonly keep: <T extends { delete(): void }>(object: T) => T;
  readonly extent: number;
}

/**
 * Points on the curves in which the surfaces of two bodies meet, one list for each edge found, in order along it: a pipe
 * meets the far side of a header too, so keep the side that is wanted. `deviation` (mm)
 * is how far the curve may bulge over the chords between them; `extent` how far bodies without ends reach.
 */
export async function sectionPoints(a: Body, b: Body, deviation: number, extent = 2000): Promise<Vec3[][]> {
  const oc = await loadKernel();
  const kept: { delete(): void }[] = [];
  const keep = <T extends { delete(): void }>(object: T): T => {
    kept.push(object);
    return object;
  };
  const bench = { oc, keep, extent };
  try {
    const section = keep(new oc.BRepAlgoAPI_Section(makeShape(bench, a), makeShape(bench, b), false));
    section.Approximation(true);
    section.Build();
    if (!section.IsDone()) throw new Error(`the kernel found no section of ${a.kind} and ${b.kind}`);
    const shape = keep(section.Shape());
    const { TopAbs_EDGE, TopAbs_SHAPE } = oc.TopAbs_ShapeEnum;
    const edges = keep(new oc.TopExp_Explorer(shape, TopAbs_EDGE, TopAbs_SHAPE));
    const curves: Vec3[][] = [];
    for (; edges.More(); edges.Next())
      curves.push(pointsAlong(bench, keep(oc.TopoDS.Edge(keep(edges.Current()))), deviation));
    return curves;
  } finally {
    kept.reverse().forEach((object) => object.delete());
  }
}

/** Distance, mm, from a point to the nearest of the chords between the points of curves. */
export function distanceToCurves(p: Vec3, curves: readonly (readonly Vec3[])[]): number {
  let least = Infinity;
  for (const curve of curves)
    for (let i = 1; i < curve.length; i++) {
      const a = curve[i - 1]!;
      const along = minus(curve[i]!, a);
      const part = inner(minus(p, a), along) / inner(along, along);
      const foot = plus(a, times(along, Math.min(1, Math.max(0, part))));
      least = Math.min(least, norm(minus(p, foot)));
    }
  return least;
}

function pointsAlong({ oc, keep }: Bench, edge: TopoDS_Edge, deviation: number): Vec3[] {
  const curve = keep(new oc.BRepAdaptor_Curve(edge));
  // All eight arguments: fewer are taken for the form without the parameter range or with it by their number alone.
  const [first, last] = [curve.FirstParameter(), curve.LastParameter()];
  const points = keep(new oc.GCPnts_TangentialDeflection(curve, first, last, 0.1, deviation, 2, 1e-9, 1e-7));
  return Array.from({ length: points.NbPoints() }, (_, i) => {
    const p = keep(points.Value(i + 1));
    return { x: p.X(), y: p.Y(), z: p.Z() };
  });
}

function makeShape(bench: Bench, body: Body): TopoDS_Shape {
  const { oc, keep, extent } = bench;
  switch (body.kind) {
    case 'plane': {
      const plane = keep(new oc.gp_Pln(makePoint(bench, body.through), makeDirection(bench, body.normal)));
      return keep(keep(new oc.BRepBuilderAPI_MakeFace(plane, -extent, extent, -extent, extent)).Shape());
    }
    case 'cylinder': {
      const { z, origin } = axesAt(body.through, body.along);
      const foot = makeAxes(bench, axesAt(minus(origin, times(z, extent)), z));
      return keep(keep(new oc.BRepPrimAPI_MakeCylinder(foot, body.radius, 2 * extent)).Shape());
    }
    case 'cone': {
      const length = norm(minus(body.to, body.from));
      const axes = axesAt(body.from, minus(body.to, body.from));
      return revolve(bench, axes, body.radiusFrom, [{ kind: 'line', to: [length, body.radiusTo] }]);
    }
    case 'sphere':
      return keep(keep(new oc.BRepPrimAPI_MakeSphere(makePoint(bench, body.centre), body.radius)).Shape());
    case 'torus': {
      const axes = makeAxes(bench, axesAt(body.centre, body.axis));
      return keep(keep(new oc.BRepPrimAPI_MakeTorus(axes, body.major, body.minor)).Shape());
    }
    case 'bar': {
      const axes = axesAt(body.centre, body.axis, body.across);
      const back = [
        times(axes.x, -body.width / 2),
        times(axes.y, -body.depth / 2),
        times(axes.z, -body.length / 2),
      ];
      const corner = makeAxes(bench, { ...axes, origin: back.reduce(plus, body.centre) });
      return keep(keep(new oc.BRepPrimAPI_MakeBox(corner, body.width, body.depth, body.length)).Shape());
    }
    case 'prism':
      return extrude(bench, axesAt(body.origin, body.axis, body.across), body.section);
    case 'ellipsoidal head':
      return revolve(bench, axesAt(body.tangent, body.axis), body.radius, [
        { kind: 'ellipse', along: body.depth, to: [body.depth, 0] },
      ]);
    case 'torispherical head': {
      const across = body.radius - body.knuckle;
      const back = Math.sqrt((body.crown - body.knuckle) ** 2 - across ** 2);
      const share = body.crown / (body.crown - body.knuckle);
      return revolve(bench, axesAt(body.tangent, body.axis), body.radius, [
        { kind: 'arc', centre: [0, across], to: [back * share - back, across * share] },
        { kind: 'arc', centre: [-back, 0], to: [body.crown - back, 0] },
      ]);
    }
  }
}

const makePoint = ({ oc, keep }: Bench, p: Vec3) => keep(new oc.gp_Pnt(p.x, p.y, p.z));
const makeDirection = ({ oc, keep }: Bench, d: Vec3) => keep(new oc.gp_Dir(d.x, d.y, d.z));
const makeAxes = (bench: Bench, { origin, x, z }: Axes): gp_Ax2 =>
  bench.keep(new bench.oc.gp_Ax2(makePoint(bench, origin), makeDirection(bench, z), makeDirection(bench, x)));

/** The surface of a section carried along the axes' z, as far as bodies without ends reach. */
function extrude(bench: Bench, axes: Axes, section: Section): TopoDS_Shape {
  const { oc, keep, extent } = bench;
  const foot = plus(axes.origin, times(axes.z, -extent));
  const place = ([x, y]: Place): Vec3 => plus(foot, plus(times(axes.x, x), times(axes.y, y)));
  const wire = keep(new oc.BRepBuilderAPI_MakeWire());
  const add = (maker: { Edge(): TopoDS_Edge; delete(): void }) => wire.Add(keep(keep(maker).Edge()));
  if ('ellipse' in section) {
    const [x, y] = section.ellipse;
    const along = x >= y ? axes.x : axes.y;
    const flat = makeAxes(bench, axesAt(foot, axes.z, along));
    add(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Elips(flat, Math.max(x, y), Math.min(x, y)))));
  } else {
    let from = section.start;
    for (const { to, centre, clockwise } of section.sides) {
      const [start, end] = [makePoint(bench, place(from)), makePoint(bench, place(to))];
      if (centre) {
        const around = makeAxes(bench, axesAt(place(centre), times(axes.z, clockwise ? -1 : 1), axes.x));
        const reach = Math.hypot(from[0] - centre[0], from[1] - centre[1]);
        add(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Circ(around, reach)), start, end));
      } else add(new oc.BRepBuilderAPI_MakeEdge(start, end));
      from = to;
    }
  }
  const way = times(axes.z, 2 * extent);
  const sweep = keep(new oc.gp_Vec(way.x, way.y, way.z));
  return keep(keep(new oc.BRepPrimAPI_MakePrism(keep(wire.Wire()), sweep, false, true)).Shape());
}

type Height = readonly [along: number, radius: number];
/** A stretch of a meridian; its arcs and ellipses fall from the side to the axis, so they run clockwise. */
type Stretch =
  | { readonly kind: 'line'; readonly to: Height }
  | { readonly kind: 'arc'; readonly centre: Height; readonly to: Height }
  | { readonly kind: 'ellipse'; readonly along: number; readonly to: Height };

/** The surface swept once round the axis by an outline that starts at `radius` abreast of the axes' origin; no flat ends. */
function revolve(bench: Bench, axes: Axes, radius: number, outline: readonly Stretch[]): TopoDS_Shape {
  const { oc, keep } = bench;
  const place = ([h, r]: Height): Vec3 => plus(axes.origin, plus(times(axes.z, h), times(axes.x, r)));
  // About −y of the axes the turn from x (radius) to z (height) is clockwise seen with height to the right.
  const around = (centre: Height) => makeAxes(bench, axesAt(place(centre), times(axes.y, -1), axes.x));
  const wire = keep(new oc.BRepBuilderAPI_MakeWire());
  let from: Height = [0, radius];
  const add = (maker: { Edge(): TopoDS_Edge; delete(): void }) => wire.Add(keep(keep(maker).Edge()));
  for (const stretch of outline) {
    const [start, end] = [makePoint(bench, place(from)), makePoint(bench, place(stretch.to))];
    if (stretch.kind === 'line') add(new oc.BRepBuilderAPI_MakeEdge(start, end));
    else if (stretch.kind === 'arc') {
      const reach = Math.hypot(from[0] - stretch.centre[0], from[1] - stretch.centre[1]);
      add(new oc.BRepBuilderAPI_MakeEdge(keep(new oc.gp_Circ(around(stretch.centre), reach)), start, end));
    } else {
      const ellipse = keep(new oc.gp_Elips(around([0, 0]), from[1], stretch.along));
      add(new oc.BRepBuilderAPI_MakeEdge(ellipse, start, end));
    }
    from = stretch.to;
  }
  const axis = keep(new oc.gp_Ax1(makePoint(bench, axes.origin), makeDirection(bench, axes.z)));
  return keep(keep(new oc.BRepPrimAPI_MakeRevol(keep(wire.Wire()), axis, false)).Shape());
}
