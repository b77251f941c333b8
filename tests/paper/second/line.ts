import { across, apart, go, inner, minus, opening, outer, size, spun, times, toOne, type V } from "./vec.ts";

/** A straight of a centreline, or a bend: turned about `n` through `angle` from `x` (out from `centre`), tangent `dir`. */
export type Part =
  | { kind: "straight"; s: number; length: number; from: V; dir: V }
  | {
      kind: "bend";
      s: number;
      length: number;
      from: V;
      dir: V;
      centre: V;
      x: V;
      n: V;
      r: number;
      angle: number;
    };

export interface BendOf {
  n: number;
  angle: number;
  /** Radians, (-π, π], right-handed about the leg before it. */
  rotation: number;
  start: number;
  end: number;
  straightBefore: number;
  corner: V;
  normal: V;
  part: Extract<Part, { kind: "bend" }>;
}

export interface Line {
  parts: Part[];
  bends: BendOf[];
  length: number;
  lastStraight: number;
  start: V;
  finish: V;
  clr: number;
}

/** The centreline through nodes (geometry.md, "A bar"). Nodes in a row that turn less than 0.001° are no corners. */
export function lineThrough(nodes: V[], clr: number): Line {
  const kept = nodes.filter((p, i) => {
    const [a, b] = [nodes[i - 1], nodes[i + 1]];
    return !a || !b || opening(minus(p, a), minus(b, p)) > 0.001 * (Math.PI / 180);
  });
  const dirs = kept.slice(1).map((p, i) => toOne(minus(p, kept[i]!)));
  const angles = dirs.slice(1).map((d, i) => opening(dirs[i]!, d));
  const cut = angles.map((a) => clr * Math.tan(a / 2));
  const parts: Part[] = [];
  const bends: BendOf[] = [];
  let s = 0;
  let from = kept[0]!;
  dirs.forEach((dir, i) => {
    const leg = apart(kept[i]!, kept[i + 1]!);
    const length = leg - (cut[i - 1] ?? 0) - (cut[i] ?? 0);
    parts.push({ kind: "straight", s, length, from, dir });
    s += length;
    if (i === angles.length) return;
    const angle = angles[i]!;
    const corner = kept[i + 1]!;
    const begins = go(corner, dir, -cut[i]!);
    const inward = toOne(across(dirs[i + 1]!, dir));
    const n = toOne(outer(dir, dirs[i + 1]!));
    const part: Part = {
      kind: "bend",
      s,
      length: clr * angle,
      from: begins,
      dir,
      centre: go(begins, inward, clr),
      x: times(inward, -1),
      n,
      r: clr,
      angle,
    };
    const before = bends[bends.length - 1];
    bends.push({
      n: i + 1,
      angle,
      rotation: before ? turnBetween(dir, before.normal, n) : 0,
      start: s,
      end: s + clr * angle,
      straightBefore: length,
      corner,
      normal: n,
      part,
    });
    parts.push(part);
    s += clr * angle;
    from = go(corner, dirs[i + 1]!, cut[i]!);
  });
  return {
    parts,
    bends,
    length: s,
    lastStraight: parts[parts.length - 1]!.length,
    start: kept[0]!,
    finish: kept[kept.length - 1]!,
    clr,
  };
}

function turnBetween(d: V, n1: V, n2: V): number {
  const phi = Math.atan2(inner(d, outer(n1, n2)), inner(n1, n2));
  if (Math.abs(phi) < 1e-8) return 0;
  return Math.abs(phi) > Math.PI - 1e-8 ? Math.PI : phi;
}

/** The same bar read from B to A. */
export function backward(line: Line): Line {
  const nodes = [line.start, ...line.bends.map((b) => b.corner), line.finish].reverse();
  return lineThrough(nodes, line.clr);
}

/** The bar with its nodes mirrored about y = 0. */
export function mirrorLine(line: Line): Line {
  const nodes = [line.start, ...line.bends.map((b) => b.corner), line.finish];
  return lineThrough(
    nodes.map((p): V => [p[0], -p[1], p[2]]),
    line.clr,
  );
}

/** Place and direction at station s; past the ends it runs straight on. */
export function placeOn(line: Line, s: number): { at: V; dir: V; part: Part; t: number } {
  const last = line.parts.length - 1;
  const i = line.parts.findIndex((p, k) => k === last || s <= p.s + p.length);
  const part = line.parts[i]!;
  const t = s - part.s;
  if (part.kind === "straight") return { at: go(part.from, part.dir, t), dir: part.dir, part, t };
  const a = t / part.r;
  return {
    at: go(part.centre, spun(part.x, part.n, a), part.r),
    dir: spun(part.dir, part.n, a),
    part,
    t,
  };
}

/** Station and distance of the closest point of one part to a place; an end straight may run on by `past`. */
export function closestOnPart(part: Part, p: V, before = 0, after = 0): { s: number; d: number } {
  const v = minus(p, part.kind === "bend" ? part.centre : part.from);
  if (part.kind === "straight") {
    const t = Math.min(part.length + after, Math.max(-before, inner(v, part.dir)));
    return { s: part.s + t, d: size(minus(v, times(part.dir, t))) };
  }
  const a = inner(v, part.x);
  const b = inner(v, part.dir);
  const h = inner(v, part.n);
  const angle = Math.atan2(b, a);
  if (angle >= 0 && angle <= part.angle) {
    return { s: part.s + part.r * angle, d: Math.hypot(Math.hypot(a, b) - part.r, h) };
  }
  const end = (t: number): number => Math.hypot(a - part.r * Math.cos(t), b - part.r * Math.sin(t), h);
  const [d0, d1] = [end(0), end(part.angle)];
  return d0 <= d1 ? { s: part.s, d: d0 } : { s: part.s + part.length, d: d1 };
}

/** Distance of a place from one part, in plain numbers: this is asked millions of times. */
export function fromPart(part: Part, [px, py, pz]: V, before = 0, after = 0): number {
  const o = part.kind === "bend" ? part.centre : part.from;
  const [x, y, z] = [px - o[0], py - o[1], pz - o[2]];
  const { dir } = part;
  const b = x * dir[0] + y * dir[1] + z * dir[2];
  if (part.kind === "straight") {
    const t = Math.min(part.length + after, Math.max(-before, b));
    const [u, v, w] = [x - t * dir[0], y - t * dir[1], z - t * dir[2]];
    return Math.sqrt(u * u + v * v + w * w);
  }
  const a = x * part.x[0] + y * part.x[1] + z * part.x[2];
  const h = x * part.n[0] + y * part.n[1] + z * part.n[2];
  const angle = Math.atan2(b, a);
  if (angle >= 0 && angle <= part.angle) {
    const q = Math.sqrt(a * a + b * b) - part.r;
    return Math.sqrt(q * q + h * h);
  }
  const end = (t: number): number => {
    const [u, v] = [a - part.r * Math.cos(t), b - part.r * Math.sin(t)];
    return Math.sqrt(u * u + v * v + h * h);
  };
  return Math.min(end(0), end(part.angle));
}

export function closestOn(line: Line, p: V): { s: number; d: number } {
  let best = { s: 0, d: Infinity };
  for (const part of line.parts) {
    const found = closestOnPart(part, p);
    if (found.d < best.d - 1e-12) best = found;
  }
  return best;
}

/** Stations where the centreline crosses a plane of the car, by halving over fine steps. */
export function crossingsOf(line: Line, axis: 0 | 1 | 2, value: number): number[] {
  const over = (s: number): number => placeOn(line, s).at[axis] - value;
  const found: number[] = [];
  const steps = Math.ceil(line.length / 0.5);
  for (let i = 0; i < steps; i++) {
    let [a, b] = [(line.length * i) / steps, (line.length * (i + 1)) / steps];
    const [fa, fb] = [over(a), over(b)];
    if (fa === 0) found.push(a);
    else if (fa * fb < 0) {
      for (let k = 0; k < 60; k++) {
        const m = (a + b) / 2;
        if (over(m) * fa > 0) a = m;
        else b = m;
      }
      found.push((a + b) / 2);
    }
  }
  if (Math.abs(over(line.length)) < 1e-9) found.push(line.length);
  return found;
}
