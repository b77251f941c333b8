import type { Arc, Centreline } from "../bar/index.ts";
import { beyondOutline, type Outline, outlineOf, sub, unsizedRadius, type Vec } from "../space/index.ts";
import { type EndAxes, inAxes } from "./axes.ts";

/**
 * What an end is coped to, in the end's own axes: x along e0, y along e90, z along u, origin at the landing (mm).
 * There a straight wall line is (ρ cos φ, ρ sin φ, z) with z = −back, so that meeting a host is a problem in z alone.
 */
export type HostPiece = Cylinder | Bow | Slab;

/** A straight of a host: its axis from t0 to t1 as places and as lengths along `dir`, outside radius h. */
export interface Cylinder {
  readonly kind: "cylinder";
  readonly at: Vec;
  readonly dir: Vec;
  readonly t0: number;
  readonly t1: number;
  readonly h: number;
}

/** A bend of a host: circle arc of `radius` from x (at `centre`) toward y through `angle` (below π), outside radius h. */
export interface Bow {
  readonly kind: "bow";
  readonly centre: Vec;
  readonly x: Vec;
  readonly y: Vec;
  readonly n: Vec;
  readonly radius: number;
  readonly angle: number;
  readonly sin: number;
  readonly cos: number;
  readonly h: number;
}

/** A plate: all that is behind its outline, `normal` on the bar's side. */
export interface Slab {
  readonly kind: "slab";
  readonly at: Vec;
  readonly normal: Vec;
  readonly outline: Outline;
}

/** A signed distance (mm) that is positive where something is cut off. */
export type Cut = (px: number, py: number, pz: number) => number;

/** A piece of a host as metal: what its shape holds, less what is cut off it. */
export interface Part {
  readonly piece: HostPiece;
  readonly cuts: readonly Cut[];
}

/** One host: its parts, in the order in which they follow each other. */
export type Host = readonly Part[];

/** Pieces with nothing cut off. */
export const uncut = (pieces: readonly HostPiece[]): Host => pieces.map((piece) => ({ piece, cuts: [] }));

/** How far (mm) a host's end straights run on past its ends, A and B. */
export interface RunsOn {
  readonly A: number;
  readonly B: number;
}

/** A host's centreline as pieces in an end's axes; its end straights run on past its ends. */
export function hostPieces(line: Centreline, h: number, axes: EndAxes, past: RunsOn): (Cylinder | Bow)[] {
  const into = (p: Vec): Vec => inAxes(axes, sub(p, axes.landing));
  const last = line.pieces.length - 1;
  return line.pieces.map((piece, i) =>
    piece.kind === "arc"
      ? bow(piece, h, axes, into)
      : {
          kind: "cylinder",
          at: into(piece.from),
          dir: inAxes(axes, piece.dir),
          t0: i === 0 ? -past.A : 0,
          t1: piece.length + (i === last ? past.B : 0),
          h,
        },
  );
}

const bow = (arc: Arc, h: number, axes: EndAxes, into: (p: Vec) => Vec): Bow => ({
  kind: "bow",
  centre: into(arc.centre),
  x: inAxes(axes, arc.x),
  y: inAxes(axes, arc.y),
  n: inAxes(axes, arc.n),
  radius: arc.radius,
  angle: arc.angle,
  sin: Math.sin(arc.angle),
  cos: Math.cos(arc.angle),
  h,
});

/** A plate in an end's axes, for a bar of outside diameter `od` (mm). */
export function slabOf(
  plate: {
    readonly at: Vec;
    readonly normal: Vec;
    readonly size?: readonly [number, number];
    readonly along?: Vec;
  },
  od: number,
  axes: EndAxes,
): Slab {
  const normal = inAxes(axes, plate.normal);
  const { along: way, ...rest } = plate;
  const along = way ? { along: inAxes(axes, way) } : {};
  return {
    kind: "slab",
    at: inAxes(axes, sub(plate.at, axes.landing)),
    normal,
    // geometry.md, "Hosts end": one whose size nobody gave is as large as the seat needs.
    outline: outlineOf({ ...rest, normal, ...along }, unsizedRadius(od, normal[2])),
  };
}

/** Length of a vector (mm). Nothing in a car is so long or short that squares overflow, and this is asked most of all. */
const long = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);

/** Signed distance (mm) from a place in the end's axes to a host piece's outside; negative inside it. */
export function clearance(piece: HostPiece, px: number, py: number, pz: number): number {
  if (piece.kind === "slab") return slabClearance(piece, px, py, pz);
  if (piece.kind === "cylinder") {
    const { at, dir: d } = piece;
    const x = px - at[0];
    const y = py - at[1];
    const z = pz - at[2];
    const t = Math.min(piece.t1, Math.max(piece.t0, x * d[0] + y * d[1] + z * d[2]));
    return long(x - t * d[0], y - t * d[1], z - t * d[2]) - piece.h;
  }
  const { centre: c, x: ex, y: ey, n } = piece;
  const vx = px - c[0];
  const vy = py - c[1];
  const vz = pz - c[2];
  const a = vx * ex[0] + vy * ex[1] + vz * ex[2];
  const b = vx * ey[0] + vy * ey[1] + vz * ey[2];
  const w = vx * n[0] + vy * n[1] + vz * n[2];
  // Below half a turn the sector of the bend is where both of these are positive.
  if (b >= 0 && a * piece.sin - b * piece.cos >= 0) {
    return long(long(a, b, 0) - piece.radius, w, 0) - piece.h;
  }
  const toStart = long(a - piece.radius, b, w);
  const toEnd = long(a - piece.radius * piece.cos, b - piece.radius * piece.sin, w);
  return Math.min(toStart, toEnd) - piece.h;
}

/** The block behind an outline is the overlap of what is below its face and of what is within its sides. */
function slabClearance({ at, normal: n, outline }: Slab, px: number, py: number, pz: number): number {
  const over = (px - at[0]) * n[0] + (py - at[1]) * n[1] + (pz - at[2]) * n[2];
  const beside = beyondOutline(outline, at, n, [px, py, pz]);
  return over > 0 && beside > 0 ? long(over, beside, 0) : Math.max(over, beside);
}

/**
 * Signed distance (mm) to a host's metal. Its sign is exact; where something is cut off, its size outside is a bound
 * from below, as far as any step may go.
 */
export function hostClearance(host: Host, px: number, py: number, pz: number): number {
  let least = Infinity;
  for (const { piece, cuts } of host) {
    let clear = clearance(piece, px, py, pz);
    for (const cut of cuts) clear = Math.max(clear, cut(px, py, pz));
    least = Math.min(least, clear);
  }
  return least;
}

/** Signed distance to the nearest of several hosts. */
export function nearest(hosts: readonly Host[], x: number, y: number, z: number): number {
  let least = Infinity;
  for (const host of hosts) least = Math.min(least, hostClearance(host, x, y, z));
  return least;
}
