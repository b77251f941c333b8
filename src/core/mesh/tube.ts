import type { Cope } from "../cope/index.ts";
import { carriedAngle } from "../cope/index.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { rad } from "../numeric/index.ts";
import { along, cross, len, ORIGIN, scale, sub, type Vec } from "../space/index.ts";
import { type Mesh, MeshBuilder } from "./mesh.ts";
import { depthAt, type RimLine, rimLines } from "./rim.ts";
import { type Ring, zip } from "./ring.ts";
import { type Carried, carriedFrames } from "./spine.ts";

export interface TubeMeshOptions {
  /** Lines round each wall. Default 48. */
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
  /** How many of the edges' segments are the outside's; they come first. */
  readonly outerEdges: number;
  /** Whether one sees into an end: it is plain, or part of its rim meets nothing. */
  readonly hasOpenEnd: boolean;
  /** x, y, z (less the origin) and station of places along the centreline: straight between them. */
  readonly spine: Float32Array;
  /** Outside radius (mm). */
  readonly radius: number;
  /** Line segments of the rim where its lines meet nothing; such lines run to the landing plane. */
  readonly open: Float32Array;
  /** Four places on each shaped end's outside rim (less the origin): where it is tacked. */
  readonly tacks: Float32Array;
}

type Wall = "outer" | "bore";

interface Making {
  readonly into: MeshBuilder;
  readonly stations: number[];
  readonly frameAt: (s: number) => Carried;
  readonly length: number;
  readonly rims: readonly [readonly RimLine[], readonly RimLine[]];
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
    frameAt: carriedFrames(line, copes.A.zero),
    length: line.length,
    rims: [rimLines(copes.A, around, -1, 0), rimLines(copes.B, around, 1, offset)],
  };
  const { into, stations } = making;
  const between = line.bends.flatMap((bend) => {
    const steps = Math.max(1, Math.ceil((bend.angle / (Math.PI / 2)) * perBend));
    return Array.from({ length: steps + 1 }, (_, k) => bend.start + (k / steps) * (bend.end - bend.start));
  });
  const outer = skin(making, "outer", bar.tube.od / 2, between, around);
  const outerCount = into.indices.length;
  const bore = skin(making, "bore", bar.tube.od / 2 - bar.tube.wall, between, around);
  const open: number[] = [];
  rim(making, 0, outer[0], bore[0], open);
  rim(making, 1, outer[1], bore[1], open);
  outlines(into, outer);
  const outerEdges = into.edges.length / 6;
  outlines(into, bore);
  return {
    ...into.finish(),
    stations: Float32Array.from(stations),
    outerCount,
    outerEdges,
    hasOpenEnd: [copes.A, copes.B].some((cope) => cope.kind === "square" || cope.misses.length > 0),
    spine: spineOf(making, [
      Math.max(0, copes.A.least),
      ...between,
      line.length - Math.max(0, copes.B.least),
    ]),
    radius: bar.tube.od / 2,
    open: Float32Array.from(open),
    tacks: Float32Array.from([...tacksOf(making, copes.A, 0), ...tacksOf(making, copes.B, offset)]),
  };
}

/** One wall from rim to rim; returns the rings of its two rims. */
function skin(
  making: Making,
  wall: Wall,
  radius: number,
  between: readonly number[],
  around: number,
): readonly [Ring, Ring] {
  const { into, frameAt, length, rims } = making;
  const face = wall === "outer" ? 1 : -1;
  const put = (frame: Carried, s: number, psi: number): void => {
    const c = Math.cos(psi);
    const d = Math.sin(psi);
    const { e, f } = frame;
    const out: Vec = [c * e[0] + d * f[0], c * e[1] + d * f[1], c * e[2] + d * f[2]];
    into.vertex(along(frame.at, out, radius), face === 1 ? out : scale(out, -1));
    making.stations.push(s);
  };
  const rimRing = (end: 0 | 1): Ring => {
    const first = into.count;
    for (const l of rims[end]) {
      const s = end === 0 ? l[wall] : length - l[wall];
      put(frameAt(s), s, l.psi);
    }
    return { first, psi: rims[end].map((l) => l.psi) };
  };
  const psi = Array.from({ length: around }, (_, i) => (2 * Math.PI * i) / around);
  const deepest = rims.map((lines) => Math.max(...lines.map((l) => l[wall])));
  const ring = (s: number): Ring => {
    const first = into.count;
    const whole = frameAt(s);
    const clear = s > deepest[0]! && s < length - deepest[1]!;
    for (const p of psi) {
      if (clear) put(whole, s, p);
      else {
        const from = depthAt(rims[0], wall, p);
        const to = length - depthAt(rims[1], wall, p);
        const held = Math.min(Math.max(s, from), Math.max(from, to));
        put(held === s ? whole : frameAt(held), held, p);
      }
    }
    return { first, psi };
  };
  const start = rimRing(0);
  let before = start;
  for (const s of withEndRings(between, deepest[0]! + CLEAR, length - deepest[1]! - CLEAR)) {
    const here = ring(s);
    zip(into.indices, before, here, wall === "bore");
    before = here;
  }
  const finish = rimRing(1);
  zip(into.indices, before, finish, wall === "bore");
  return [start, finish];
}

function outlines(into: MeshBuilder, rings: readonly Ring[]): void {
  for (const { first, psi } of rings) {
    for (let i = 0; i < psi.length; i++) into.edge(first + i, first + ((i + 1) % psi.length));
  }
}

/** The rims' many lines end in a ring this far behind them (mm): long thin triangles are dear to draw. */
const CLEAR = 4;

function withEndRings(between: readonly number[], first: number, last: number): readonly number[] {
  if (first >= last) return between;
  const inside = between.filter((s) => s > first && s < last);
  // A bend that reaches into a rim keeps its rings there.
  const [before, after] = [between.filter((s) => s <= first), between.filter((s) => s >= last)];
  return [...before, first, ...inside, last, ...after];
}

/** The cut face of one end between its outside and bore curves; `open` takes the segments that meet nothing. */
function rim(making: Making, end: 0 | 1, outer: Ring, bore: Ring, open: number[]): void {
  const { into, stations } = making;
  const lines = making.rims[end];
  const n = lines.length;
  const outside = end === 0 ? -1 : 1;
  const normals = lines.map((_, i): Vec => {
    const across = sub(into.placed(outer.first + i), into.placed(bore.first + i));
    const round = sub(into.placed(outer.first + ((i + 1) % n)), into.placed(outer.first + ((i + n - 1) % n)));
    const normal = cross(across, round);
    const l = len(normal);
    return l > 0 ? scale(normal, outside / l) : scale(making.frameAt(end * making.length).dir, outside);
  });
  const copy = (ring: Ring): Ring => {
    const first = into.count;
    normals.forEach((normal, i) => {
      const from = ring.first + i;
      const p = into.placed(from);
      into.positions.push(...p);
      into.normals.push(...normal);
      stations.push(stations[from]!);
    });
    return { first, psi: ring.psi };
  };
  const outerCopy = copy(outer);
  const boreCopy = copy(bore);
  zip(into.indices, outerCopy, boreCopy, end === 0);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    if (lines[i]!.open && lines[j]!.open) {
      open.push(...into.placed(outer.first + i), ...into.placed(outer.first + j));
    }
  }
}

function spineOf(making: Making, at: readonly number[]): Float32Array {
  const o = making.into.origin;
  return Float32Array.from(
    at.flatMap((s) => {
      const p = making.frameAt(s).at;
      return [p[0] - o[0], p[1] - o[1], p[2] - o[2], s];
    }),
  );
}

/** Where four tacks sit: on the outside rim, a quarter apart, half way between the zero line and its neighbours. */
function tacksOf(making: Making, cope: Cope, offset: number): number[] {
  if (cope.kind === "square") return [];
  const o = making.into.origin;
  return [45, 135, 225, 315].flatMap((phi) => {
    const back = cope.outer[phi]!;
    if (Number.isNaN(back)) return [];
    const frame = making.frameAt(cope.end === "A" ? back : making.length - back);
    const psi = cope.end === "A" ? -rad(phi) : rad(phi) + offset;
    const wall = along(frame.at, frame.e, cope.outerRadius * Math.cos(psi));
    const p = along(wall, frame.f, cope.outerRadius * Math.sin(psi));
    return [p[0] - o[0], p[1] - o[1], p[2] - o[2]];
  });
}
