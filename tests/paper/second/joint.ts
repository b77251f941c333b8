import type { End, JobOf } from "./job.ts";
import type { Laid } from "./layout.ts";
import { closestOn, fromPart, type Line, type Part, placeOn } from "./line.ts";
import {
  across,
  flipped,
  go,
  inner,
  minus,
  opening,
  outer,
  plus,
  size,
  spun,
  times,
  toOne,
  type V,
} from "./vec.ts";

/** Signed distance to something that an end may meet (mm). */
export type Solid = (p: V) => number;

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

/** A tube's outside; its end straights run on by `past`. */
function tube(laid: Laid, past: number): Solid {
  const { parts } = laid.line;
  const last = parts.length - 1;
  const H = laid.tube.od / 2;
  return (p) => {
    let d = Infinity;
    for (let i = 0; i <= last; i++) {
      d = Math.min(d, fromPart(parts[i]!, p, i === 0 ? past : 0, i === last ? past : 0));
    }
    return d - H;
  };
}

/** The same for places within `within` of a place alone: parts farther off are left out. */
function tubeNear(laid: Laid, past: number, centre: V, within: number): Solid {
  const { parts } = laid.line;
  const last = parts.length - 1;
  const H = laid.tube.od / 2;
  const near = parts.flatMap((part, i): [Part, number, number][] => {
    const ends = [i === 0 ? past : 0, i === last ? past : 0] as const;
    return fromPart(part, centre, ...ends) < within + 2 * H ? [[part, ...ends]] : [];
  });
  return (p) => {
    let d = within;
    for (const [part, a, b] of near) d = Math.min(d, fromPart(part, p, a, b));
    return d - H;
  };
}

/** A tube that ends where its own ends land, less what they land on. */
function endedTube(laid: Laid, all: Map<string, Laid>): Solid {
  const whole = tube(laid, 0);
  const others = (["A", "B"] as const).flatMap((end) => {
    const seat = laid.seat[end];
    return seat.kind === "on" ? seat.hosts.map((h) => tube(all.get(h)!, 0)) : [];
  });
  return (p) => Math.max(whole(p), ...others.map((o) => -o(p)));
}

/** The half-space behind a plate's outline: its rectangle, or a disc. */
function platePiece(
  job: JobOf,
  id: string,
  mirror: boolean,
  at: V,
  normal: V,
  od: number,
  tilt: number,
): Solid {
  const { size: sizes, along } = job.plates[id]!;
  if (sizes && along) {
    const a = toOne(across(mirror ? flipped(along) : along, normal));
    const b = outer(normal, a);
    return (p) => {
      const v = minus(p, at);
      const q = [
        Math.abs(inner(v, a)) - sizes[0] / 2,
        Math.abs(inner(v, b)) - sizes[1] / 2,
        inner(v, normal),
      ];
      return box(q);
    };
  }
  const disc = sizes ? Math.hypot(...sizes) / 2 : (1.5 * od) / Math.cos(tilt);
  return (p) => {
    const v = minus(p, at);
    const h = inner(v, normal);
    return box([size(go(v, normal, -h)) - disc, h]);
  };
}

const box = (q: number[]): number =>
  Math.min(0, Math.max(...q)) + Math.hypot(...q.map((x) => Math.max(0, x)));

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

/**
 * The joint: the unbroken stretch of rings that meet the solid, that which holds or lies nearest b = 0; lines start
 * half way through the clear stretch beyond it, one OD farther in at most.
 */
function stretchOf(laid: Laid, at: JointOf["at"], solid: Solid, until: number, rho: number) {
  const { length } = laid.line;
  const step = 1;
  const meets = (b: number): boolean => {
    if (solid(at(b, 0, 0)) > rho + 0.001) return false;
    for (const r of [rho, rho - laid.tube.wall])
      for (let phi = 0; phi < 360; phi += 4) if (solid(at(b, r, phi)) <= 0.001) return true;
    return false;
  };
  const runs: [number, number][] = [];
  for (let b = until; b <= length; b += step) {
    const clear = solid(at(b, 0, 0)) - rho - 0.001;
    if (clear > 3 * step) {
      b += Math.floor(clear / step - 1) * step;
      continue;
    }
    if (!meets(b)) continue;
    const last = runs[runs.length - 1];
    if (last && b - last[1] < 1.5 * step) last[1] = b;
    else runs.push([b, b]);
  }
  const miss = ([a, b]: [number, number]): number => Math.max(0, a, -b);
  const own = runs.reduce<[number, number] | undefined>(
    (p, q) => (!p || miss(q) < miss(p) ? q : p),
    undefined,
  );
  if (!own) return { low: 0, high: 0, from: Math.min(2 * rho, length) };
  const next = runs.find((r) => r[0] > own[1]);
  const clear = (next?.[0] ?? length) - own[1];
  return { low: own[0], high: own[1], from: own[1] + Math.min(clear / 2, 2 * rho) };
}

function marcher(line: Line, at: JointOf["at"], solid: Solid, from: number, until: number): JointOf["back"] {
  return (rho, phi) => {
    const clear = (b: number): number => solid(at(b, rho, phi));
    const speed = line.bends.length > 0 ? 1 + rho / line.clr : 1;
    let b = from;
    while (b > until) {
      const d = clear(b);
      if (d > 0.02) {
        b -= d / speed;
        continue;
      }
      // close: either it goes in from here, or it comes closest and leaves again
      let [p, q] = [b, b];
      let dq = d;
      let h = 0.005;
      while (dq > 0) {
        const next = clear(q - h);
        if (next >= dq) break;
        p = q;
        q -= h;
        dq = next;
        h = Math.min(h * 1.4, 0.3);
      }
      if (dq <= 0) return rootOf(clear, p, q);
      const closest = leastOf(clear, q - h, p);
      const least = clear(closest);
      if (least <= 0) return rootOf(clear, p, closest);
      if (least < 0.001) return closest;
      b = Math.min(q - h, closest) - 0.01;
    }
    return Number.NaN;
  };
}

const GOLD = (Math.sqrt(5) - 1) / 2;

/** Where a function with one dip between a and b is least (golden section), to `width`. */
export function leastOf(f: (x: number) => number, a: number, b: number, width = 1e-7): number {
  let [lo, hi] = [a, b];
  let [m, n] = [hi - GOLD * (hi - lo), lo + GOLD * (hi - lo)];
  let [fm, fn] = [f(m), f(n)];
  while (hi - lo > width) {
    if (fm < fn) {
      [hi, n, fn] = [n, m, fm];
      m = hi - GOLD * (hi - lo);
      fm = f(m);
    } else {
      [lo, m, fm] = [m, n, fn];
      n = lo + GOLD * (hi - lo);
      fn = f(n);
    }
  }
  return (lo + hi) / 2;
}

/** The root between a place outside and one inside (false position, the stale end halved). */
function rootOf(f: (x: number) => number, outside: number, inside: number): number {
  let [a, b] = [outside, inside];
  let [fa, fb] = [f(a), f(b)];
  for (let i = 0; i < 60 && Math.abs(b - a) > 1e-9; i++) {
    const m = fa === fb ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    const fm = f(m);
    if (Math.abs(fm) < 1e-10) return m;
    if (fm > 0) {
      [a, fa] = [m, fm];
      fb /= 2;
    } else {
      [b, fb] = [m, fm];
      fa /= 2;
    }
  }
  return (a + b) / 2;
}

export interface CopeOf {
  joint: JointOf;
  /** At every half degree. */
  outside: Float64Array;
  boreLine: Float64Array;
  /** Through the wall, the deepest of 9 radii, at line i of the half degrees. */
  square: (i: number) => number;
  least: number;
  leastAt: number;
  greatest: number;
  /** Arcs in degrees. */
  misses: [number, number][];
  bentInJoint: boolean;
}

export const HALF_DEGREES = 720;

export function copeOf(joint: JointOf): CopeOf {
  const outside = new Float64Array(HALF_DEGREES);
  const boreLine = new Float64Array(HALF_DEGREES);
  if (joint.kind === "square")
    return {
      joint,
      outside,
      boreLine,
      square: () => 0,
      least: 0,
      leastAt: 0,
      greatest: 0,
      misses: [],
      bentInJoint: false,
    };
  const { rho, bore, back } = joint;
  const radii = Array.from({ length: 9 }, (_, k) => rho + ((bore - rho) * k) / 8);
  for (let i = 0; i < HALF_DEGREES; i++) {
    outside[i] = back(rho, i / 2);
    boreLine[i] = back(bore, i / 2);
  }
  const square = (i: number): number => {
    let most = Number.NaN;
    for (const r of radii) {
      const b = back(r, i / 2);
      if (!(b <= most) && !Number.isNaN(b)) most = b;
    }
    return most;
  };
  const missing = (phi: number): boolean => Number.isNaN(back(rho, phi)) || Number.isNaN(back(bore, phi));
  let least = Infinity;
  let leastAt = 0;
  let greatest = -Infinity;
  const see = (b: number, phi: number): void => {
    if (b < least) [least, leastAt] = [b, phi];
    if (b > greatest) greatest = b;
  };
  for (const [r, curve] of [
    [rho, outside],
    [bore, boreLine],
  ] as const) {
    const at = (i: number): number => curve[(i + HALF_DEGREES) % HALF_DEGREES]!;
    for (let i = 0; i < HALF_DEGREES; i++) {
      const b = at(i);
      if (Number.isNaN(b)) continue;
      see(b, i / 2);
      for (const side of [-1, 1]) {
        if (!Number.isNaN(at(i + side))) continue;
        // the last line that meets, and the curve's steep fall to it
        let [meets, past] = [i / 2, (i + side) / 2];
        for (let k = 0; k < 26; k++) {
          const m = (meets + past) / 2;
          if (Number.isNaN(back(r, m))) past = m;
          else meets = m;
        }
        see(back(r, meets), meets);
      }
      const f = (phi: number): number => back(r, phi);
      if (b <= at(i - 1) && b <= at(i + 1)) see(f(leastOf(f, i / 2 - 0.5, i / 2 + 0.5)), i / 2);
      if (b >= at(i - 1) && b >= at(i + 1)) see(f(leastOf((x) => -f(x), i / 2 - 0.5, i / 2 + 0.5)), i / 2);
    }
  }
  if (least === Infinity) [least, greatest] = [0, 0];
  return {
    joint,
    outside,
    boreLine,
    square,
    least,
    leastAt: (leastAt + 360) % 360,
    greatest,
    misses: arcsOf((i) => Number.isNaN(outside[i]!) || Number.isNaN(boreLine[i]!), missing),
    bentInJoint: greatest > joint.straight,
  };
}

function arcsOf(misses: (i: number) => boolean, missing: (phi: number) => boolean): [number, number][] {
  const edge = (meets: number, past: number): number => {
    let [a, b] = [meets, past];
    for (let k = 0; k < 26; k++) {
      const m = (a + b) / 2;
      if (missing(m)) b = m;
      else a = m;
    }
    return a;
  };
  const arcs: [number, number][] = [];
  const first = Array.from({ length: HALF_DEGREES }, (_, i) => i).find((i) => !misses(i));
  if (first === undefined) return [[0, 360]];
  let from: number | undefined;
  for (let k = 1; k <= HALF_DEGREES; k++) {
    const i = first + k;
    const now = misses(i % HALF_DEGREES);
    if (now && from === undefined) from = edge((i - 1) / 2, i / 2);
    if (!now && from !== undefined) {
      arcs.push([from % 360, edge(i / 2, (i - 1) / 2) % 360]);
      from = undefined;
    }
  }
  // ascending, one across the zero line first
  return arcs.sort((a, b) => (a[0] > a[1] ? -1 : a[0]) - (b[0] > b[1] ? -1 : b[0]));
}
