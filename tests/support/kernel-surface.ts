import initKernel, {
  type OpenCascadeInstance,
  type TopoDS_Shape,
  type TopoDS_Wire,
} from 'replicad-opencascadejs';
import type { Vec3 } from './space.ts';

/** Areas of sheets by Open CASCADE, which shares nothing with this project: ruled shells between outlines, cut by bodies. */
let kernel: Promise<OpenCascadeInstance> | undefined;
const loadKernel = (): Promise<OpenCascadeInstance> => (kernel ??= initKernel());

/** An outline: a level circle, a level arc (degrees), or a single point. */
export type Ring =
  | {
      readonly kind: 'circle';
      readonly centre: Vec3;
      readonly radius: number;
      readonly from?: number;
      readonly to?: number;
    }
  | { readonly kind: 'point'; readonly at: Vec3 };

/** What is cut off a shell: all behind a plane, or all inside a cylinder. */
export type Off =
  | { readonly kind: 'half'; readonly through: Vec3; readonly away: Vec3; readonly behind: Vec3 }
  | {
      readonly kind: 'cylinder';
      readonly from: Vec3;
      readonly along: Vec3;
      readonly radius: number;
      readonly length: number;
    };

/** Area, mm², of the straight-ruled shell between two outlines whose points pair by their angle, less what is cut off. */
export const shellArea = async (lower: Ring, upper: Ring, off: readonly Off[] = []): Promise<number> => {
  const oc = await loadKernel();
  const kept: { delete(): void }[] = [];
  const keep = <T extends { delete(): void }>(object: T): T => {
    kept.push(object);
    return object;
  };
  const point = ({ x, y, z }: Vec3) => keep(new oc.gp_Pnt(x, y, z));
  const direction = ({ x, y, z }: Vec3) => keep(new oc.gp_Dir(x, y, z));
  const wire = (ring: Extract<Ring, { kind: 'circle' }>): TopoDS_Wire => {
    const axes = keep(
      new oc.gp_Ax2(point(ring.centre), direction({ x: 0, y: 0, z: 1 }), direction({ x: 1, y: 0, z: 0 })),
    );
    const circle = keep(new oc.gp_Circ(axes, ring.radius));
    const [from, to] = [ring.from ?? 0, ring.to ?? 360].map((a) => (a * Math.PI) / 180);
    const edge = keep(keep(new oc.BRepBuilderAPI_MakeEdge(circle, from!, to!)).Edge());
    const maker = keep(new oc.BRepBuilderAPI_MakeWire());
    maker.Add(edge);
    return keep(maker.Wire());
  };
  try {
    const through = keep(new oc.BRepOffsetAPI_ThruSections(false, true, 1e-6));
    through.CheckCompatibility(false);
    for (const ring of [lower, upper])
      if (ring.kind === 'circle') through.AddWire(wire(ring));
      else through.AddVertex(keep(keep(new oc.BRepBuilderAPI_MakeVertex(point(ring.at))).Vertex()));
    through.Build();
    let shape: TopoDS_Shape = keep(through.Shape());
    for (const body of off) {
      let tool: TopoDS_Shape;
      if (body.kind === 'half') {
        const plane = keep(new oc.gp_Pln(point(body.through), direction(body.away)));
        const face = keep(keep(new oc.BRepBuilderAPI_MakeFace(plane, -5000, 5000, -5000, 5000)).Face());
        tool = keep(keep(new oc.BRepPrimAPI_MakeHalfSpace(face, point(body.behind))).Solid());
      } else {
        const axes = keep(new oc.gp_Ax2(point(body.from), direction(body.along)));
        tool = keep(keep(new oc.BRepPrimAPI_MakeCylinder(axes, body.radius, body.length)).Shape());
      }
      shape = keep(keep(new oc.BRepAlgoAPI_Cut(shape, tool)).Shape());
    }
    const properties = keep(new oc.GProp_GProps());
    oc.BRepGProp.SurfaceProperties(shape, properties, 1e-7, false);
    return properties.Mass();
  } finally {
    kept.reverse().forEach((object) => object.delete());
  }
};
