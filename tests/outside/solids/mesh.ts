import init, { type Manifold } from "manifold-3d";
import { onArc } from "../../../src/core/bar/index.ts";
import { along, anyPerpendicular, cross, sub, turn, type Vec } from "../../../src/core/space/index.ts";
import { type Kernel, piecesOn } from "./contract.ts";

export interface MeshKernel extends Kernel<Manifold> {
  /** Corners of what a cut left of a tube that the tube had not before. */
  readonly cutCorners: (solid: Manifold, tube: Manifold) => Vec[];
  /**
   * How far the faces of a host of this outside radius, bent on `clr` at its tightest, may lie inside and outside of
   * the true one (mm, both positive).
   */
  readonly departs: (outer: number, clr: number) => { readonly inside: number; readonly outside: number };
}

/** A corner of a tube comes out of a cut within this of where it went in (mm). */
const SAME_CORNER = 1e-3;

let wasm: Awaited<ReturnType<typeof init>> | undefined;

/**
 * A straight has a ring at least this often (mm). Two would do, but long thin triangles have boxes that meet
 * everything: with them cuts were measured to take up to forty times as long.
 */
const LONGEST = 20;

/** The ring that a mesh stands on: where, and the two directions that span it. */
interface Ring {
  readonly at: Vec;
  readonly e: Vec;
  readonly f: Vec;
}

/**
 * The mesh kernel: Manifold (npm manifold-3d 3.5.4, Apache-2.0). A circle is a polygon of `segments` corners that lie
 * on it, a bend a row of such rings, as far apart as makes its chords depart about as much as the polygon's sides.
 * `origin` is taken off every place on the way in and put on again on the way out: the kernel hands vertices out as
 * 32-bit floats, good to 2e-5 mm within 300 mm of it and no better than 1e-4 mm two metres away.
 */
export async function meshKernel(segments: number, origin: Vec): Promise<MeshKernel> {
  if (!wasm) {
    wasm = await init();
    wasm.setup();
  }
  const { Manifold } = wasm;
  const turned = (2 * Math.PI) / segments;
  /** Angle between rings of a bend: its outermost chord departs by as much as a side of the polygon. */
  const bendStep = (outer: number, clr: number): number => turned * Math.sqrt(outer / (clr + outer));

  const polygon = (radius: number, way: 1 | -1): [number, number][] =>
    Array.from({ length: segments }, (_, i) => [
      radius * Math.cos(turned * i * way),
      radius * Math.sin(turned * i * way),
    ]);

  /** A solid through rings: an upright prism, its layer i moved to ring i. */
  const through = (rings: readonly Ring[], outer: number, bore: number): Manifold => {
    const outline = bore > 0 ? [polygon(outer, 1), polygon(bore, -1)] : [polygon(outer, 1)];
    const upright = Manifold.extrude(outline, rings.length - 1, rings.length - 2);
    const moved = upright.warp((v) => {
      const { at, e, f } = rings[Math.round(v[2])]!;
      const [x, y] = v;
      for (let k = 0; k < 3; k++) v[k] = at[k]! + e[k]! * x + f[k]! * y - origin[k]!;
    });
    upright.delete();
    return moved;
  };

  const makeTube: MeshKernel["makeTube"] = (line, run, outer, bore) => {
    const rings: Ring[] = [];
    let e: Vec | undefined;
    const ring = (at: Vec, dir: Vec): void => {
      e ??= anyPerpendicular(dir);
      rings.push({ at, e, f: cross(dir, e) });
    };
    for (const { piece, from, to } of piecesOn(line, run)) {
      if (piece.kind === "straight") {
        if (rings.length === 0) ring(along(piece.from, piece.dir, from), piece.dir);
        const steps = Math.ceil((to - from) / LONGEST);
        for (let i = 1; i <= steps; i++)
          ring(along(piece.from, piece.dir, from + ((to - from) * i) / steps), piece.dir);
        continue;
      }
      const [a, b] = [from / piece.radius, to / piece.radius];
      const steps = Math.ceil((b - a) / bendStep(outer, piece.radius));
      for (let i = 0; i <= steps; i++) {
        const on = onArc(piece, a + ((b - a) * i) / steps);
        if (rings.length === 0) ring(on.at, on.dir);
        else if (i > 0) {
          e = turn(e!, piece.n, (b - a) / steps);
          ring(on.at, on.dir);
        }
      }
    }
    return through(rings, outer, bore);
  };

  const vertices = (solid: Manifold): Vec[] => {
    const { vertProperties: p, numProp } = solid.getMesh();
    return Array.from(
      { length: p.length / numProp },
      (_, i): Vec => [0, 1, 2].map((k) => p[i * numProp + k]! + origin[k]!) as unknown as Vec,
    );
  };

  const subtract: MeshKernel["subtract"] = (tube, hosts) => {
    const rest = hosts.reduce((left, host) => {
      const less = left.subtract(host);
      if (left !== tube) left.delete();
      return less;
    }, tube);
    // The kernel puts its work off until it is asked for something.
    rest.numTri();
    return rest;
  };

  return {
    makeTube,
    makeHost: (line, run, outer) => makeTube(line, run, outer, 0),
    makePlate: (at, normal) => {
      const e = anyPerpendicular(normal);
      const rings = [along(at, normal, -100), at].map((p): Ring => ({ at: p, e, f: cross(normal, e) }));
      return through(rings, 300, 0);
    },
    subtract,
    cut: (tube, hosts, keep) => {
      const rest = subtract(tube, hosts);
      const pieces = rest.decompose();
      rest.delete();
      // The far end is the only flat that a piece keeps of the tube, and `keep` lies on it.
      const gap = (piece: Manifold): number =>
        Math.min(...vertices(piece).map((v) => Math.hypot(...sub(v, keep))));
      const gaps = pieces.map(gap);
      const nearest = gaps.indexOf(Math.min(...gaps));
      pieces.forEach((piece, i) => {
        if (i !== nearest) piece.delete();
      });
      return pieces[nearest]!;
    },
    volume: (solid) => solid.volume(),
    free: (...solids) => {
      for (const solid of solids) solid.delete();
    },
    cutCorners: (solid, tube) => {
      const key = (v: Vec): string => v.map((x) => Math.round(x / SAME_CORNER)).join();
      const before = new Set(vertices(tube).map(key));
      return vertices(solid).filter((v) => !before.has(key(v)));
    },
    departs: (outer, clr) => {
      const side = outer * (1 - Math.cos(turned / 2));
      if (!Number.isFinite(clr)) return { inside: side, outside: 0 };
      const chord = 1 - Math.cos(bendStep(outer, clr) / 2);
      return { inside: side + (clr + outer) * chord, outside: (clr - outer) * chord };
    },
  };
}
