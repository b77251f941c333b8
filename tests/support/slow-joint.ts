/**
 * The joint of geometry.md once more, slowly and with code of its own: centrelines from their corners, rings scanned
 * step by step, wall lines stepped through every fraction of a millimetre. It shares nothing with src/core/cope.
 */
type V = readonly [number, number, number];
const add = (a: V, b: V, k = 1): V => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const norm = (a: V): number => Math.sqrt(dot(a, a));
const unit = (a: V): V => add([0, 0, 0], a, 1 / norm(a));
const cross = (a: V, b: V): V => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const about = (v: V, axis: V, angle: number): V =>
  add(
    add(add([0, 0, 0], v, Math.cos(angle)), cross(axis, v), Math.sin(angle)),
    axis,
    dot(axis, v) * (1 - Math.cos(angle)),
  );

type Piece =
  | { readonly from: V; readonly dir: V; readonly length: number }
  | {
      readonly centre: V;
      readonly axis: V;
      readonly start: V;
      readonly angle: number;
      readonly length: number;
    };

export interface SlowLine {
  readonly pieces: readonly Piece[];
  readonly length: number;
}

/** A centreline from its corners, bent at one radius. */
export function slowLine(corners: readonly V[], clr = 1): SlowLine {
  const dirs = corners.slice(1).map((c, i) => unit(add(c, corners[i]!, -1)));
  const turns = dirs.slice(1).map((d, i) => Math.acos(Math.max(-1, Math.min(1, dot(d, dirs[i]!)))));
  const cut = (i: number): number => (turns[i] === undefined ? 0 : clr * Math.tan(turns[i] / 2));
  const pieces: Piece[] = [];
  dirs.forEach((dir, i) => {
    const before = i === 0 ? 0 : cut(i - 1);
    const from = add(corners[i]!, dir, before);
    pieces.push({ from, dir, length: norm(add(corners[i + 1]!, corners[i]!, -1)) - before - cut(i) });
    if (turns[i] === undefined) return;
    const begins = add(corners[i + 1]!, dir, -cut(i));
    const axis = unit(cross(dir, dirs[i + 1]!));
    const centre = add(begins, cross(axis, dir), clr);
    pieces.push({ centre, axis, start: add(begins, centre, -1), angle: turns[i], length: clr * turns[i] });
  });
  return { pieces, length: pieces.reduce((sum, p) => sum + p.length, 0) };
}

/** Place, direction (A to B) and how a vector carried without twist from end A comes out, at station s. */
export function slowAt(line: SlowLine, s: number, carried: V = [0, 0, 0]): { at: V; dir: V; carried: V } {
  let left = s;
  let v = carried;
  for (const [i, p] of line.pieces.entries()) {
    const last = i === line.pieces.length - 1;
    if ("from" in p) {
      if (left <= p.length || last) return { at: add(p.from, p.dir, left), dir: p.dir, carried: v };
    } else {
      const angle = (Math.min(left, p.length) / p.length) * p.angle;
      const radial = about(p.start, p.axis, angle);
      v = about(v, p.axis, angle);
      if (left <= p.length)
        return { at: add(p.centre, radial), dir: unit(cross(p.axis, radial)), carried: v };
    }
    left -= p.length;
  }
  throw new Error("a line without pieces");
}

/** Distance from a place to a line whose end straights run on by `past` (mm). */
export function slowDistance(line: SlowLine, p: V, past: readonly [number, number] = [0, 0]): number {
  let best = Infinity;
  line.pieces.forEach((piece, i) => {
    if ("from" in piece) {
      const low = i === 0 ? -past[0] : 0;
      const high = piece.length + (i === line.pieces.length - 1 ? past[1] : 0);
      const t = Math.min(high, Math.max(low, dot(add(p, piece.from, -1), piece.dir)));
      best = Math.min(best, norm(add(p, add(piece.from, piece.dir, t), -1)));
      return;
    }
    const v = add(p, piece.centre, -1);
    const angle = Math.atan2(dot(piece.axis, cross(piece.start, v)), dot(piece.start, v));
    for (const a of [Math.min(piece.angle, Math.max(0, angle)), 0, piece.angle])
      best = Math.min(best, norm(add(v, about(piece.start, piece.axis, a), -1)));
  });
  return best;
}

/** A bar that ends with its B end on a host, and what the joint of that end wants to know. */
export interface SlowEnd {
  readonly bar: SlowLine;
  readonly rho: number;
  readonly bore: number;
  readonly host: SlowLine;
  readonly hostRadius: number;
}

/** Backs of the rings at B that meet the host, and of its wall lines at some directions (V, square to the bar at B). */
export function slowJoint(end: SlowEnd, directions: readonly V[], rho: number) {
  const { bar, host, hostRadius: h } = end;
  const landing = slowAt(bar, bar.length);
  // γ at the host's point nearest the landing, by dense sampling.
  let nearest = 0;
  for (let s = 0; s <= host.length; s += 0.05)
    if (norm(add(slowAt(host, s).at, landing.at, -1)) < norm(add(slowAt(host, nearest).at, landing.at, -1)))
      nearest = s;
  const sin = norm(cross(landing.dir, slowAt(host, nearest).dir));
  const reach = (h + end.rho) / sin;
  const clear = (p: V): number => slowDistance(host, p, [reach, reach]) - h;
  // Vectors carried back from B: carry a frame from A to B, and express B's directions in it.
  const d0 = slowAt(bar, 0).dir;
  const a0 = unit(cross(d0, Math.abs(d0[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const b0 = cross(d0, a0);
  const atEnd = [slowAt(bar, bar.length, a0).carried, slowAt(bar, bar.length, b0).carried] as const;
  const onWall = (b: number, x: number, y: number): V => {
    const s = bar.length - b;
    const here = slowAt(bar, s, a0);
    const there = slowAt(bar, s, b0);
    return add(add(here.at, here.carried, x), there.carried, y);
  };
  const ringMeets = (b: number): boolean => {
    for (const r of [end.rho, end.bore])
      for (let i = 0; i < 240; i++) {
        const a = (i * Math.PI) / 120;
        if (clear(onWall(b, r * Math.cos(a), r * Math.sin(a))) <= 0.001) return true;
      }
    return false;
  };
  let at = 0;
  for (let off = 0; !ringMeets(at); off += 0.25) {
    if (off > bar.length) return undefined;
    at = ringMeets(off) ? off : -off;
  }
  let inner = at;
  while (inner < bar.length && ringMeets(inner)) inner += 0.25;
  const start = inner;
  const backs = directions.map((d) => {
    const [x, y] = [rho * dot(d, atEnd[0]), rho * dot(d, atEnd[1])];
    let b = start;
    for (; b > -reach; b -= 0.02) if (clear(onWall(b, x, y)) <= 0) return b;
    return Number.NaN;
  });
  return { inner, backs };
}
