// biome-ignore-all lint/style/noNonNullAssertion: indices round a ring are taken modulo its size; φ runs over the curve's own lines.
import type { Cope } from "../cope/index.ts";
import { carriedAngle } from "../cope/index.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { ORIGIN, type Vec } from "../space/index.ts";
import { type Mesh, MeshBuilder, Triples } from "./mesh.ts";
import { rimLines } from "./rim.ts";
import type { Ring } from "./ring.ts";
import { coarse, cutFace, type Making, type Stop, skin, THIN } from "./skin.ts";
import { carriedAxes } from "./spine.ts";

export interface TubeMeshOptions {
  /** Lines round each wall, a multiple of 8. Default 48. */
  readonly around?: number;
  /** Steps in a bend of 90°. Default 15. */
  readonly perBend?: number;
  /** Subtracted from every place before it becomes a 32-bit number (mm). Default (0, 0, 0). */
  readonly origin?: Vec;
}

/** A coped tube: outside first, then the bore, then the rims. Its edges are the rims' outlines, the outside's first. */
export interface TubeMesh extends Mesh {
  /** Station of every vertex (mm from the A landing). */
  readonly stations: Float32Array;
  /** How many of the indices are the outside's; they come first. */
  readonly outerCount: number;
  /** The same surface with a quarter of the lines and half of the bends' steps, for seeing it from afar. */
  readonly farIndices: Uint32Array;
  readonly farOuterCount: number;
  /** How many of the edges' segments are the outside's; they come first. */
  readonly outerEdges: number;
  /** The edges of the coarse surface, and how many of their segments are the outside's. */
  readonly farEdges: Float32Array;
  readonly farOuterEdges: number;
  /** Whether one sees into an end: it is plain, or part of its rim meets nothing. */
  readonly hasOpenEnd: boolean;
  /** x, y, z (less the origin) and station of places along the centreline: straight between them. */
  readonly spine: Float32Array;
  /** Outside radius (mm). */
  readonly radius: number;
  /** Line segments of the rim where its lines meet nothing; such lines run to the landing plane. */
  readonly open: Float32Array;
}

/**
 * The closed surface of a tube between two computed end curves; no solid is cut.
 *
 * Convention: wall lines keep one angle ψ from A to B, right-handed about the feed direction from A's zero line, carried
 * without twist. φ at A counts about the outward direction, which is against the feed, so φ_A = −ψ; at B it counts from
 * B's own zero line, which stands at the carried angle ψ₀ from A's: φ_B = ψ − ψ₀.
 * Units: mm. Range: any resolved bar; where a line misses its hosts it runs to the landing plane and is listed in `open`.
 * Accuracy: rim vertices are the cope's own lines (float32 of the place less the origin); between them chords, 48 lines
 * round lose 0.3 % of the area. A rim that reaches past a bend's start moves that bend's rings up to itself.
 */
export function tubeMesh(
  bar: ResolvedBar,
  copes: Readonly<Record<"A" | "B", Cope>>,
  options: TubeMeshOptions = {},
): TubeMesh {
  const { around = 48, perBend = 15, origin = ORIGIN } = options;
  const line = bar.centreline;
  const offset = carriedAngle(bar, copes.A.zero, copes.B.zero);
  const making: Making = {
    into: new MeshBuilder(origin),
    stations: [],
    far: [],
    axesAt: carriedAxes(line, copes.A.zero),
    length: line.length,
    rims: [
      rimLines(copes.A, around, around / THIN, -1, 0),
      rimLines(copes.B, around, around / THIN, 1, offset),
    ],
  };
  const { into, stations } = making;
  const bends = line.bends.flatMap((bend) => {
    const steps = Math.max(1, Math.ceil((bend.angle / (Math.PI / 2)) * perBend));
    return Array.from({ length: steps + 1 }, (_, k): Stop => {
      const s = bend.start + (k / steps) * (bend.end - bend.start);
      return { s, isFar: k % 2 === 0 || k === steps };
    });
  });
  const outer = skin(making, "outer", bar.tube.od / 2, bends, around);
  const outerCount = into.indices.length;
  const farOuterCount = making.far.length;
  const bore = skin(making, "bore", bar.tube.od / 2 - bar.tube.wall, bends, around);
  const open: number[] = [];
  cutFace(making, 0, outer[0], bore[0], open);
  cutFace(making, 1, outer[1], bore[1], open);
  const coarseOf = (rings: readonly [Ring, Ring]): [Ring, Ring] => [
    coarse(rings[0], making.rims[0]),
    coarse(rings[1], making.rims[1]),
  ];
  const far = new Triples();
  const outerEdges = outlines(into, outer, into.edges);
  const farOuterEdges = outlines(into, coarseOf(outer), far);
  outlines(into, bore, into.edges);
  outlines(into, coarseOf(bore), far);
  return {
    ...into.finish(),
    stations: new Float32Array(stations),
    outerCount,
    farIndices: new Uint32Array(making.far),
    farOuterCount,
    outerEdges,
    farEdges: far.floats(),
    farOuterEdges,
    hasOpenEnd: [copes.A, copes.B].some((cope) => cope.kind === "square" || cope.misses.length > 0),
    spine: spineOf(making, [
      Math.max(0, copes.A.least),
      ...bends.map((stop) => stop.s),
      line.length - Math.max(0, copes.B.least),
    ]),
    radius: bar.tube.od / 2,
    open: Float32Array.from(open),
  };
}

/** Adds the rings' outlines to a list of edges; how many segments it then has. */
function outlines(into: MeshBuilder, rings: readonly Ring[], edges: Triples): number {
  for (const { ids } of rings) {
    ids.forEach((id, i) => {
      into.edge(id, ids[(i + 1) % ids.length]!, edges);
    });
  }
  return edges.count / 2;
}

function spineOf(making: Making, at: readonly number[]): Float32Array {
  const o = making.into.origin;
  return Float32Array.from(
    at.flatMap((s) => {
      const p = making.axesAt(s).at;
      return [p[0] - o[0], p[1] - o[1], p[2] - o[2], s];
    }),
  );
}
