import init, { type TopoDS_Shape } from "replicad-opencascadejs";
import { onArc } from "../../../src/core/bar/index.ts";
import { along, type Vec } from "../../../src/core/space/index.ts";
import { type Kernel, piecesOn } from "./contract.ts";

/** A kernel that can also be asked how far things are from one another, by its own extrema algorithms. */
export interface ExactKernel extends Kernel<TopoDS_Shape> {
  /** The edges of a cut solid along which it was cut: those that lie on the hosts' outside. */
  readonly cutEdges: (solid: TopoDS_Shape, hosts: readonly TopoDS_Shape[]) => TopoDS_Shape;
  /** So many places along each of some edges, even in the edge's own parameter. */
  readonly placesOn: (edges: TopoDS_Shape, each: number) => readonly Vec[];
  /** The faces of solids, so that a place inside one still has a distance to its outside. */
  readonly faces: (...solids: TopoDS_Shape[]) => TopoDS_Shape;
  /** Distance (mm) from a place to a shape. */
  readonly distance: (from: Vec, to: TopoDS_Shape) => number;
  /** Whether some of the straight line between two places lies inside a solid. */
  readonly enters: (from: Vec, to: Vec, solid: TopoDS_Shape) => boolean;
}

type Owned = { delete(): void };

/** Objects of the kernel live outside the garbage collector: what a step makes on its way is given back after it. */
function step<T>(work: (own: <X extends Owned>(x: X) => X) => T): T {
  const held: Owned[] = [];
  try {
    return work((x) => {
      held.push(x);
      return x;
    });
  } finally {
    for (const x of held.reverse()) x.delete();
  }
}

/** Above this an edge of a cut is not where the kernel says, by its own account (mm). */
const UNSOUND = 1e-3;

/**
 * The exact kernel: Open CASCADE Technology (npm replicad-opencascadejs 1.1.0, LGPL-2.1, used in tests and benches
 * only). A pipe of a circle along lines and arcs is cylinders and tori, no approximation. Volumes are asked with an
 * error bound of 1e-9: without one they were measured to be off by 4e-5. A cut that the kernel itself finds invalid,
 * or whose edges it holds to no better than 0.001 mm, throws: that would test nothing.
 */
export async function exactKernel(): Promise<ExactKernel> {
  const oc = await init();
  const { TopAbs_FACE, TopAbs_EDGE, TopAbs_SOLID } = oc.TopAbs_ShapeEnum;

  const circle = (at: Vec, normal: Vec, radius: number): TopoDS_Shape =>
    step((own) => {
      const axes = own(new oc.gp_Ax2(own(new oc.gp_Pnt(...at)), own(new oc.gp_Dir(...normal))));
      const edge = own(new oc.BRepBuilderAPI_MakeEdge(own(new oc.gp_Circ(axes, radius))));
      return own(new oc.BRepBuilderAPI_MakeWire(own(edge.Edge()))).Wire();
    });

  const disc = (at: Vec, normal: Vec, outer: number, bore: number): TopoDS_Shape =>
    step((own) => {
      const rim = own(oc.TopoDS.Wire(own(circle(at, normal, outer))));
      const face = own(new oc.BRepBuilderAPI_MakeFace(rim, true));
      if (bore > 0) {
        const hole = own(own(circle(at, normal, bore)).Reversed());
        face.Add(own(oc.TopoDS.Wire(hole)));
      }
      return face.Face();
    });

  const makeTube: ExactKernel["makeTube"] = (line, run, outer, bore) =>
    step((own) => {
      const wire = own(new oc.BRepBuilderAPI_MakeWire());
      const parts = piecesOn(line, run);
      for (const { piece, from, to } of parts) {
        if (piece.kind === "straight") {
          const ends = [from, to].map((t) => own(new oc.gp_Pnt(...along(piece.from, piece.dir, t))));
          wire.Add(own(own(new oc.BRepBuilderAPI_MakeEdge(ends[0]!, ends[1]!)).Edge()));
        } else {
          const [centre, n, x] = [
            own(new oc.gp_Pnt(...piece.centre)),
            own(new oc.gp_Dir(...piece.n)),
            own(new oc.gp_Dir(...piece.x)),
          ];
          const arc = own(new oc.gp_Circ(own(new oc.gp_Ax2(centre, n, x)), piece.radius));
          const angles = [from / piece.radius, to / piece.radius] as const;
          wire.Add(own(own(new oc.BRepBuilderAPI_MakeEdge(arc, ...angles)).Edge()));
        }
      }
      const { piece, from } = parts[0]!;
      const start =
        piece.kind === "straight"
          ? { at: along(piece.from, piece.dir, from), dir: piece.dir }
          : onArc(piece, from / piece.radius);
      const profile = own(disc(start.at, start.dir, outer, bore));
      return own(new oc.BRepOffsetAPI_MakePipe(own(wire.Wire()), profile)).Shape();
    });

  const list = (shapes: readonly TopoDS_Shape[]): InstanceType<typeof oc.NCollection_List_TopoDS_Shape> => {
    const all = new oc.NCollection_List_TopoDS_Shape();
    for (const shape of shapes) all.Append(shape);
    return all;
  };

  type Kind = (typeof oc.TopAbs_ShapeEnum)[keyof typeof oc.TopAbs_ShapeEnum];
  const parts = (shape: TopoDS_Shape, kind: Kind): TopoDS_Shape[] =>
    step((own) => {
      const found: TopoDS_Shape[] = [];
      const walk = own(new oc.TopExp_Explorer(shape, kind));
      for (; walk.More(); walk.Next()) found.push(walk.Current());
      return found;
    });

  const compound = (shapes: readonly TopoDS_Shape[]): TopoDS_Shape => {
    const all = new oc.TopoDS_Compound();
    step((own) => {
      const builder = own(new oc.TopoDS_Builder());
      builder.MakeCompound(all);
      for (const shape of shapes) builder.Add(all, shape);
    });
    return all;
  };

  const distance: ExactKernel["distance"] = (from, to) =>
    step((own) => {
      const place = own(new oc.BRepBuilderAPI_MakeVertex(own(new oc.gp_Pnt(...from))));
      const gap = own(new oc.BRepExtrema_DistShapeShape(own(place.Vertex()), to));
      if (!gap.IsDone()) throw new Error("the kernel found no distance");
      return gap.Value();
    });

  const enters: ExactKernel["enters"] = (from, to, solid) =>
    step((own) => {
      const ends = [from, to].map((v) => own(new oc.gp_Pnt(...v)));
      const line = own(own(new oc.BRepBuilderAPI_MakeEdge(ends[0]!, ends[1]!)).Edge());
      const op = own(new oc.BRepAlgoAPI_Common());
      op.SetArguments(own(list([line])));
      op.SetTools(own(list([solid])));
      op.Build();
      if (op.HasErrors()) throw new Error("the kernel could not intersect");
      return parts(own(op.Shape()), TopAbs_EDGE).map(own).length > 0;
    });

  const subtract: ExactKernel["subtract"] = (tube, hosts) =>
    step((own) => {
      const op = own(new oc.BRepAlgoAPI_Cut());
      op.SetArguments(own(list([tube])));
      op.SetTools(own(list(hosts)));
      op.Build();
      if (op.HasErrors()) throw new Error("the kernel could not cut");
      return op.Shape();
    });

  const cut: ExactKernel["cut"] = (tube, hosts, keep) =>
    step((own) => {
      const result = own(subtract(tube, hosts));
      const tolerance = oc.BRep_Tool.MaxTolerance(result, TopAbs_EDGE);
      if (tolerance > UNSOUND) throw new Error(`the kernel holds its cut to ${tolerance} mm only`);
      if (!own(new oc.BRepCheck_Analyzer(result)).IsValid()) throw new Error("the kernel's cut is not valid");
      const pieces = parts(result, TopAbs_SOLID);
      const kept = pieces.filter((piece) => distance(keep, piece) < 1e-6);
      for (const piece of pieces) if (piece !== kept[0]) piece.delete();
      if (kept.length !== 1) throw new Error(`${kept.length} pieces of ${pieces.length} hold the far end`);
      return kept[0]!;
    });

  const faces: ExactKernel["faces"] = (...solids) => {
    const all = solids.flatMap((solid) => parts(solid, TopAbs_FACE));
    const joined = compound(all);
    for (const face of all) face.delete();
    return joined;
  };

  const middle = (edge: TopoDS_Shape): Vec =>
    step((own) => {
      const curve = own(new oc.BRepAdaptor_Curve(own(oc.TopoDS.Edge(edge))));
      const p = own(curve.Value((curve.FirstParameter() + curve.LastParameter()) / 2));
      return [p.X(), p.Y(), p.Z()];
    });

  const placesOn: ExactKernel["placesOn"] = (edges, each) =>
    step((own) =>
      parts(edges, TopAbs_EDGE)
        .map(own)
        .flatMap((edge) => {
          const curve = own(new oc.BRepAdaptor_Curve(own(oc.TopoDS.Edge(edge))));
          const [from, to] = [curve.FirstParameter(), curve.LastParameter()];
          return Array.from({ length: each + 1 }, (_, i): Vec => {
            const p = own(curve.Value(from + ((to - from) * i) / each));
            return [p.X(), p.Y(), p.Z()];
          });
        }),
    );

  const cutEdges: ExactKernel["cutEdges"] = (solid, hosts) =>
    step((own) => {
      const outside = own(faces(...hosts));
      const edges = parts(solid, TopAbs_EDGE).map(own);
      return compound(edges.filter((edge) => distance(middle(edge), outside) < UNSOUND));
    });

  return {
    makeTube,
    makeHost: (line, run, outer) => makeTube(line, run, outer, 0),
    makePlate: (at, normal) =>
      step((own) => {
        const into = own(new oc.gp_Vec(...(normal.map((x) => -100 * x) as [number, number, number])));
        return own(new oc.BRepPrimAPI_MakePrism(own(disc(at, normal, 300, 0)), into)).Shape();
      }),
    subtract,
    cut,
    volume: (solid) =>
      step((own) => {
        const props = own(new oc.GProp_GProps());
        oc.BRepGProp.VolumeProperties(solid, props, 1e-9, true, false);
        return props.Mass();
      }),
    free: (...solids) => {
      for (const solid of solids) solid.delete();
    },
    cutEdges,
    placesOn,
    faces,
    distance,
    enters,
  };
}
