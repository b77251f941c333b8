import { closestTo, placeAt } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { ROOT } from "../numeric/index.ts";
import { cross, dot, len, sub, type Vec } from "../space/index.ts";
import { type EndFrame, endFrame, inFrame } from "./frame.ts";
import { type Bow, type Cylinder, clearance, type HostPiece, hostPieces, nearest } from "./host.ts";
import { firstMeeting } from "./meet.ts";
import { type WallPath, walkToHost, wallPath } from "./walk.ts";

/** A host at a joint, as the notcher needs to know it. */
export interface JointHost {
  readonly id: string;
  /** Outside radius (mm). */
  readonly radius: number;
  /** Direction of its centreline (A to B) at the landing, in the end's frame; for `also`, at its closest point. */
  readonly dir: Vec;
  /** The point of its centreline that `dir` belongs to, in the end's frame (mm). */
  readonly at: Vec;
  /** Whether it is straight wherever this end can reach it. */
  readonly straight: boolean;
}

/** One end of a bar and all it may meet, ready to be asked wall line by wall line. */
export interface Joint {
  readonly frame: EndFrame;
  readonly hosts: readonly JointHost[];
  readonly pieces: readonly HostPiece[];
  /** Back (mm) where lines start: nothing is met before it. */
  readonly from: number;
  /** Whether a wall line begins inside a host there. */
  readonly startsInside: boolean;
  /** Back (mm) at which a wall line at radius ρ, φ (cos, sin) first meets a host; NaN where it misses. */
  readonly back: (rho: number, cos: number, sin: number) => number;
  /** Length of the straight at this end, from the landing to the nearest bend or the other end (mm). */
  readonly endStraight: number;
  /** Whether a bend of the bar comes within reach of the joint, so that the wall lines must be walked. */
  readonly walked: boolean;
}

/** sin γ below this counts as parallel: the march would have no end worth the name. */
const PARALLEL = 1e-3;

/** Sets up the joint at one end that lands on bars or on a plate. */
export function jointOf(bar: ResolvedBar, end: End, hostBars: readonly ResolvedBar[]): Joint {
  const line = bar.centreline;
  const frame = endFrame(line, end);
  const seat = bar.seat[end];
  const rho = bar.tube.od / 2;
  const all: HostPiece[] = [];
  const hosts: JointHost[] = [];
  const byHost: (Cylinder | Bow)[][] = [];
  let reach: (radius: number) => number;
  if (seat.kind === "plate") {
    const normal = inFrame(frame, seat.normal);
    all.push({ kind: "plane", at: inFrame(frame, sub(seat.at, frame.landing)), normal });
    const limit = (2 * bar.tube.od) / Math.max(PARALLEL, -normal[2]);
    reach = () => limit;
  } else {
    hostBars.forEach((host, i) => {
      const pieces = hostPieces(host.centreline, host.tube.od / 2, frame);
      byHost.push(pieces);
      all.push(...pieces);
      const s = i === 0 && seat.kind === "on" ? seat.along : closestTo(host.centreline, frame.landing).s;
      const on = placeAt(host.centreline, s);
      const dir = inFrame(frame, on.dir);
      const at = inFrame(frame, sub(on.at, frame.landing));
      hosts.push({ id: host.id, radius: host.tube.od / 2, dir, at, straight: true });
    });
    const ends = hosts.map((h) => ({ radius: h.radius, sin: Math.hypot(h.dir[0], h.dir[1]) }));
    const meeting = ends.filter((h) => h.sin > PARALLEL);
    const shift = beyondLanding(hosts[0]);
    reach = (radius) => {
      let far = 0;
      for (const h of meeting) far = Math.max(far, (h.radius + radius) / h.sin);
      return far + shift;
    };
  }

  const path = wallPath(line, end, frame);
  const half = line.length / 2;
  const axis = (b: number): Vec => path.at(b, [0, 0, 0]);
  const room = (b: number): number => {
    const p = axis(b);
    return nearest(all, p[0], p[1], p[2]) - rho;
  };
  let from = half;
  const startsInside = room(half) <= 0 && rimInside(all, path, frame, rho, half);
  for (let i = 0; i < 1000; i++) {
    const free = room(from);
    if (free < 1 || from - free < -reach(rho)) break;
    from -= free;
  }
  const endStraight = end === "A" ? line.pieces[0]!.length : line.pieces[line.pieces.length - 1]!.length;
  const walked = line.bends.length > 0 && from > endStraight;
  const near = walked ? all : all.filter((p) => inReach(p, from, reach(rho), rho));
  const straight = byHost.map((pieces) => !pieces.some((p) => p.kind === "bow" && near.includes(p)));

  const back = walked
    ? (r: number, cos: number, sin: number): number =>
        walkToHost(all, path, combine(frame, r * cos, r * sin), r, from, -reach(r))
    : (r: number, cos: number, sin: number): number => {
        let z = Number.POSITIVE_INFINITY;
        for (const piece of near) {
          const met = firstMeeting(piece, r * cos, r * sin, -from, reach(r));
          if (met < z) z = met;
        }
        return z === Number.POSITIVE_INFINITY ? Number.NaN : z === 0 ? 0 : -z;
      };
  return {
    frame,
    hosts: hosts.map((h, i) => ({ ...h, straight: straight[i]! })),
    pieces: all,
    from,
    startsInside,
    back,
    endStraight,
    walked,
  };
}

/** How far beyond the landing (mm, not below 0) the bar's axis passes its host's closest: what `off` shifts b by. */
function beyondLanding(host: JointHost | undefined): number {
  if (!host) return 0;
  const { at, dir } = host;
  const sin2 = dir[0] * dir[0] + dir[1] * dir[1];
  return sin2 > PARALLEL * PARALLEL ? Math.max(0, (at[2] - dot(at, dir) * dir[2]) / sin2) : 0;
}

const combine = (frame: EndFrame, x: number, y: number): Vec => [
  frame.zero[0] * x + frame.quarter[0] * y,
  frame.zero[1] * x + frame.quarter[1] * y,
  frame.zero[2] * x + frame.quarter[2] * y,
];

/** Whether some wall line, sampled every 3° at both walls' outer radius, is inside a host at back b. */
function rimInside(
  pieces: readonly HostPiece[],
  path: WallPath,
  frame: EndFrame,
  rho: number,
  b: number,
): boolean {
  for (let i = 0; i < 120; i++) {
    const a = (i * Math.PI) / 60;
    const p = path.at(b, combine(frame, rho * Math.cos(a), rho * Math.sin(a)));
    if (nearest(pieces, p[0], p[1], p[2]) < 0) return true;
  }
  return false;
}

/** Whether a piece comes within ρ of the bar's axis between back `from` and −`reach` (sampled, never missing one). */
function inReach(piece: HostPiece, from: number, reach: number, rho: number): boolean {
  if (piece.kind === "plane") return true;
  const steps = 12;
  const gap = (from + reach) / steps;
  for (let i = 0; i <= steps; i++) {
    if (clearance(piece, 0, 0, -from + i * gap) <= rho + gap / 2 + ROOT) return true;
  }
  return false;
}

/** Included angle γ between the bar and a host's direction at the joint (radians, 0 to π/2). */
export const includedAngle = (dir: Vec): number => {
  const u: Vec = [0, 0, 1];
  return Math.atan2(len(cross(u, dir)), Math.abs(dot(u, dir)));
};
