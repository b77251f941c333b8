import type { End, JobOf } from "./job.ts";
import type { Laid } from "./layout.ts";
import { closestOn, type Line, placeOn } from "./line.ts";
import { marcher, stretchOf } from "./march.ts";
import { endedTube, platePiece, type Solid, tube, tubeNear } from "./solids.ts";
import { across, go, inner, opening, outer, plus, size, spun, times, toOne, type V } from "./vec.ts";

export interface Frame {
  landing: V;
  u: V;
  e0: V;
  e90: V;
  zeroLine: string;
}

export interface HostOf {
  id: string;
  H: number;
  /** Direction and place of its centreline nearest the landing. */
  dir: V;
  at: V;
  s: number;
  gamma: number;
  /** How far its own ends run on for this cut. */
  past: number;
  solid: Solid;
  laid: Laid;
}

/** One end of a bar as a slow march sees it: b(ρ, φ) by the signed distance to its hosts (geometry.md, "A cope"). */
export interface JointOf {
  kind: "square" | "plate" | "on";
  onto: string[];
  frame: Frame;
  hosts: HostOf[];
  solid: Solid;
  rho: number;
  bore: number;
  /** Back where every line starts, and where it gives up. */
  from: number;
  until: number;
  at: (b: number, rho: number, phi: number) => V;
  /** Back at radius ρ, φ in degrees; NaN where the line misses. */
  back: (rho: number, phi: number) => number;
  /** Straight tube from the landing to the nearest bend or the other end. */
  straight: number;
  /** Off square of a plate's flat (degrees) and φ of its long point (degrees). */
  tilt: number;
  longSide: number;
}

const SMALLEST_ZERO = 3 * (Math.PI / 180);

export function frameOf(line: Line, end: End): Frame {
  const parts = end === "A" ? line.parts : [...line.parts].reverse();
  const u = end === "A" ? times(parts[0]!.dir, -1) : parts[0]!.dir;
  const landing = end === "A" ? line.start : line.finish;
  const bends = (end === "A" ? line.bends : [...line.bends].reverse()).filter(
    (b) => b.angle >= SMALLEST_ZERO,
  );
  const bend = bends[0];
  let e0: V;
  let zeroLine: string;
  if (bend) {
    // the outside of the bend, square to the leg at this end
    const leg = end === "A" ? bend.part.dir : spun(bend.part.dir, bend.normal, bend.angle);
    e0 = outer(leg, bend.normal);
    zeroLine = `bend ${bend.n}`;
  } else {
    const plumb = Math.abs(u[2]) >= Math.cos(Math.PI / 180);
    e0 = toOne(across(plumb ? [1, 0, 0] : [0, 0, 1], u));
    zeroLine = plumb ? "forward" : "up";
  }
  return { landing, u, e0, e90: outer(u, e0), zeroLine };
}

export function jointOf(laid: Laid, end: End, all: Map<string, Laid>, job: JobOf): JointOf {
  const { line } = laid;
  const frame = frameOf(line, end);
  const seat = laid.seat[end];
  const rho = laid.tube.od / 2;
  const parts = end === "A" ? line.parts : [...line.parts].reverse();
  const straight = parts[0]!.length;
  const at = wallLine(line, end, frame);
  const base = { frame, rho, bore: rho - laid.tube.wall, at, straight, hosts: [], tilt: 0, longSide: 0 };
  if (seat.kind === "square") {
    const none = { solid: () => Infinity, from: 0, until: 0, back: () => 0 };
    return { ...base, ...none, kind: "square", onto: [] };
  }
  if (seat.kind === "plate") {
    const tilt = opening(frame.u, times(seat.normal, -1));
    const solid = platePiece(
      job,
      seat.plate,
      laid.own.mirrorOf !== undefined,
      seat.at,
      seat.normal,
      2 * rho,
      tilt,
    );
    const reach = (4 * rho) / Math.cos(tilt);
    const lean = across(seat.normal, frame.u);
    const longSide = Math.atan2(inner(lean, frame.e90), inner(lean, frame.e0)) * (180 / Math.PI);
    const { from } = stretchOf(laid, at, solid, -reach, rho);
    const back = marcher(line, at, solid, from, -reach);
    return {
      ...base,
      kind: "plate",
      onto: [seat.plate],
      solid,
      from,
      until: -reach,
      back,
      tilt: tilt * (180 / Math.PI),
      longSide,
    };
  }
  const hosts = seat.hosts.map((id, i): HostOf => {
    const host = all.get(id)!;
    const near = closestOn(host.line, frame.landing);
    const { at: place, dir } = placeOn(host.line, near.s);
    const slant = opening(frame.u, dir);
    const gamma = Math.min(slant, Math.PI - slant);
    const H = host.tube.od / 2;
    const past = (H + rho) / Math.sin(gamma);
    const solid = i === 0 ? tube(host, past) : endedTube(host, all);
    return { id, H, dir, at: place, s: near.s, gamma, past, solid, laid: host };
  });
  const beyond = size(seat.off) / Math.sin(hosts[0]!.gamma);
  const until = -Math.max(...hosts.map((h) => (h.H + rho) / Math.sin(h.gamma))) - beyond;
  const first = stretchOf(laid, at, hosts[0]!.solid, until, rho);
  const counting = hosts.filter((h, i) => {
    if (i === 0) return true;
    const own = stretchOf(laid, at, h.solid, until, rho);
    return own.low <= first.high && own.high >= first.low;
  });
  const solid: Solid = (p) => Math.min(...counting.map((h) => h.solid(p)));
  const { from } = stretchOf(laid, at, solid, until, rho);
  const middle = at((from + until) / 2, 0, 0);
  const within = (from - until) / 2 + 3 * rho;
  const quick =
    counting.length > 1 ? solid : tubeNear(hosts[0]!.laid, hosts[0]!.past, middle, within + hosts[0]!.H);
  return {
    ...base,
    kind: "on",
    onto: seat.hosts,
    hosts: counting,
    solid,
    from,
    until,
    back: marcher(line, at, quick, from, until),
  };
}

/** The place of a wall line at back b: square to the centreline, carried along bends without twist. */
function wallLine(line: Line, end: End, frame: Frame): JointOf["at"] {
  const parts = end === "A" ? line.parts : [...line.parts].reverse();
  const straight = parts[0]!.length;
  return (b, rho, phi) => {
    const [c, s] = [Math.cos(phi * (Math.PI / 180)), Math.sin(phi * (Math.PI / 180))];
    const w: V = [
      rho * (frame.e0[0] * c + frame.e90[0] * s),
      rho * (frame.e0[1] * c + frame.e90[1] * s),
      rho * (frame.e0[2] * c + frame.e90[2] * s),
    ];
    if (b <= straight || line.bends.length === 0) return plus(go(frame.landing, frame.u, -b), w);
    const station = end === "A" ? b : line.length - b;
    let v = w;
    for (const bend of end === "A" ? line.bends : [...line.bends].reverse()) {
      const swept = end === "A" ? (station - bend.start) / bend.part.r : (bend.end - station) / bend.part.r;
      if (swept <= 0) break;
      v = spun(v, bend.normal, (end === "A" ? 1 : -1) * Math.min(swept, bend.angle));
    }
    return plus(placeOn(line, station).at, v);
  };
}
