import { type Centreline, placeAt, type Straight } from "../bar/index.ts";
import { copeOf } from "../cope/index.ts";
import { leastSquares } from "../estimate/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar, Seat } from "../layout/types.ts";
import { add, along, cross, dist, dot, len, neg, scale, sub, turn, unit, type Vec } from "../space/index.ts";
import { type BarShape, lineOf, type Start, startOf } from "./shape.ts";

/** The bar as wanted, and what its ends land on (host first; empty for a plate or a free end). */
export interface Wanted {
  readonly bar: ResolvedBar;
  readonly hosts: Readonly<Record<End, readonly ResolvedBar[]>>;
}

/** How far a bar may be put from where it was wanted (mm). */
export interface Freedom {
  /** A landing along its host, or a foot on its plate. */
  readonly slide: number;
  /** Anywhere along the bar. */
  readonly aside: number;
}

/** Where one end comes to land. */
export interface Landing {
  /** How far the landing moved, in the car (mm). */
  readonly moved: Vec;
  /** How far the end's centreline passes its host's (with `off`) by: a cut can follow, the joint is that eccentric (mm). */
  readonly misses: number;
  /** Tube that stands over at this end once the new cope is cut; negative: missing (mm). */
  readonly spare: number;
}

/** A bar as bent, laid where it suits best. */
export interface Placed {
  /** The bar with its true centreline, from landing to landing. */
  readonly bar: ResolvedBar;
  readonly landings: Readonly<Record<End, Landing>>;
  /** Where the bar stands farthest from where it was wanted: station on the wanted bar, and how far (mm). */
  readonly worst: { readonly along: number; readonly off: number };
}

/** Stations at which the run of a bar is held against the wanted one. */
const RUN = 12;

/** A landing's miss is held to this (mm): as good as none. */
const HELD = 0.05;

/**
 * The best place for a bent bar on its hosts.
 *
 * A rigid motion (six unknowns) by least squares: each end's centreline on its host's (held), the landing near the
 * planned one (± half of `slide`), the run near the wanted run (± half of `aside`) at even steps from landing to
 * landing. Slides on a bent host follow its centreline. Then each end is cut anew: cope, long point, and what tube is
 * left beyond it.
 * Convention: `shape` is the bar with its ends sawn square, from end A. Units: mm, radians, car axes.
 * Range: `short` lays it where it belongs even if tube is then missing; ends within a few degrees of what was wanted; undefined where the search does not settle. What the two
 * half freedoms weigh against each other is a choice, not a law; whether the place is within the freedom is for the
 * caller to ask.
 */
export function placeBar(
  shape: BarShape,
  wanted: Wanted,
  freedom: Freedom,
  { short }: { readonly short: boolean } = { short: false },
): Placed | undefined {
  const found = search(() => shape, 0, wanted, freedom, short);
  return found && settle(found.line, shape, wanted);
}

/**
 * How far a bar's shape is best changed for its place: `changed` gives it for so many unknowns (0: as it is), each
 * believed 0 ± 1 beforehand, so that no more is changed than helps. Undefined where the search does not settle.
 */
export const bestChange = (
  changed: (by: readonly number[]) => BarShape,
  unknowns: number,
  wanted: Wanted,
  freedom: Freedom,
): readonly number[] | undefined => search(changed, unknowns, wanted, freedom, false)?.by;

function search(
  changed: (by: readonly number[]) => BarShape,
  unknowns: number,
  wanted: Wanted,
  freedom: Freedom,
  short: boolean,
): { readonly line: Centreline; readonly by: readonly number[] } | undefined {
  const { bar, hosts } = wanted;
  const least = {
    A: copeOf(bar, "A", hosts.A).cope.least,
    B: copeOf(bar, "B", hosts.B).cope.least,
  };
  const pivot = placeAt(bar.centreline, bar.centreline.length / 2).at;
  const laid = (x: readonly number[]): Centreline => {
    const shape = changed(x.slice(6));
    return lineOf(shape, movedStart(blankStart(shape, bar), pivot, x));
  };
  const residuals = (x: readonly number[]): number[] => {
    const line = laid(x);
    const [a, b] = [meet(line, "A", wanted), meet(line, "B", wanted)];
    const ends = [a, b].flatMap((m) => [m.misses / HELD, ...m.moved.map((v) => (v * 2) / freedom.slide)]);
    const run = runOf(line, a.from, b.from, bar.centreline);
    // Tube must stand over at both ends; a straight bar, which may slide along itself, is laid with as much at each.
    const over = { A: a.from + least.A, B: line.length - b.from + least.B };
    const lacks = (v: number): number => (short ? 0 : Math.min(0, v));
    const tube = [lacks(over.A), lacks(over.B), (over.A - over.B) / 1000];
    const weight = 2 / freedom.aside / Math.sqrt(RUN / 4);
    return [...ends, ...tube, ...run.flatMap(({ off }) => off.map((v) => v * weight))];
  };
  const rigid = [0, 0, 0, 0, 0, 0];
  const rest = Array.from({ length: unknowns }, () => ({ at: 0, sd: 1 }));
  const fit = leastSquares(
    { residuals, prior: [...rigid.map(() => undefined), ...rest] },
    [...rigid, ...rest.map(() => 0)],
    { cosine: 1e-6, iterations: 200 },
  );
  return fit.converged ? { line: laid(fit.x), by: fit.x.slice(6) } : undefined;
}

/** Where the blank would begin if its first leg lay as the wanted one does. */
function blankStart(shape: BarShape, bar: ResolvedBar): Start {
  const wanted = startOf(bar.centreline);
  const first = bar.centreline.bends[0]?.straightBefore ?? bar.centreline.length;
  const [own = 0] = shape.straights;
  return { ...wanted, at: along(wanted.at, wanted.dir, first - own) };
}

/** Turned by a small rotation vector (radians × 100 mm, so that all unknowns are lengths) about `pivot`, and moved. */
function movedStart(start: Start, pivot: Vec, x: readonly number[]): Start {
  const [dx = 0, dy = 0, dz = 0, rx = 0, ry = 0, rz = 0] = x;
  const spin: Vec = [rx / 100, ry / 100, rz / 100];
  const angle = len(spin);
  const axis: Vec = angle > 0 ? scale(spin, 1 / angle) : [0, 0, 1];
  const spun = (v: Vec): Vec => turn(v, axis, angle);
  return {
    at: add(add(pivot, spun(sub(start.at, pivot))), [dx, dy, dz]),
    dir: spun(start.dir),
    inside: spun(start.inside),
  };
}

interface Met {
  /** Station of the bar as laid where it meets, may lie beyond its end (mm from its sawn end A). */
  readonly from: number;
  readonly misses: number;
  readonly moved: Vec;
  /** Station on the host. */
  readonly on?: number;
}

/** Where an end's straight, run on, meets what it lands on. */
function meet(line: Centreline, end: End, { bar, hosts }: Wanted): Met {
  const seat = bar.seat[end];
  const piece = (end === "A" ? line.pieces[0] : line.pieces[line.pieces.length - 1]) as Straight;
  const planned = end === "A" ? bar.centreline.start : bar.centreline.finish;
  const station = (at: Vec): number => piece.s0 + dot(sub(at, piece.from), piece.dir);
  if (seat.kind === "plate") {
    const t = dot(sub(seat.at, piece.from), seat.normal) / dot(piece.dir, seat.normal);
    const at = along(piece.from, piece.dir, t);
    return { from: piece.s0 + t, misses: 0, moved: sub(at, planned) };
  }
  const host = seat.kind === "on" ? hosts[end][0] : undefined;
  if (seat.kind !== "on" || !host) {
    const t = dot(sub(planned, piece.from), piece.dir);
    const at = along(piece.from, piece.dir, t);
    return { from: piece.s0 + t, misses: 0, moved: sub(at, planned) };
  }
  let s = seat.along;
  for (let i = 0; i < 8; i++) {
    const { at, dir } = placeAt(host.centreline, s);
    const w = sub(add(at, seat.off), piece.from);
    const c = dot(dir, piece.dir);
    const step = (c * dot(w, piece.dir) - dot(w, dir)) / Math.max(1e-6, 1 - c * c);
    s += step;
    if (Math.abs(step) < 1e-9) break;
  }
  const { at, dir } = placeAt(host.centreline, s);
  const target = add(at, seat.off);
  const common = cross(dir, piece.dir);
  const misses = len(common) > 1e-6 ? dot(sub(piece.from, target), unit(common)) : 0;
  return { from: station(target), misses, moved: sub(target, planned), on: s };
}

/** How the run of the laid bar departs from the wanted one, at even shares of both from landing to landing. */
function runOf(
  line: Centreline,
  from: number,
  to: number,
  wanted: Centreline,
): { along: number; off: Vec }[] {
  return Array.from({ length: RUN + 1 }, (_, i) => {
    const share = i / RUN;
    const s = wanted.length * share;
    return { along: s, off: sub(placeAt(line, from + (to - from) * share).at, placeAt(wanted, s).at) };
  });
}

/** The bar laid, cut to its landings. */
function settle(line: Centreline, shape: BarShape, wanted: Wanted): Placed {
  const { bar, hosts } = wanted;
  const met = { A: meet(line, "A", wanted), B: meet(line, "B", wanted) };
  const beyond = { A: met.A.from, B: line.length - met.B.from };
  const first = placeAt(line, met.A.from).at;
  const n = shape.straights.length - 1;
  const straights = shape.straights.map((s, i) => s - (i === 0 ? beyond.A : 0) - (i === n ? beyond.B : 0));
  const seatOf = (end: End): Seat => {
    const seat = bar.seat[end];
    return seat.kind === "on" ? { ...seat, along: met[end].on ?? seat.along } : seat;
  };
  const start = startOf(line);
  const placed: ResolvedBar = {
    ...bar,
    centreline: lineOf({ ...shape, straights }, { ...start, at: first }),
    seat: { A: seatOf("A"), B: seatOf("B") },
  };
  const landing = (end: End): Landing => {
    const { least } = copeOf(placed, end, hosts[end]).cope;
    return { moved: met[end].moved, misses: Math.abs(met[end].misses), spare: beyond[end] + least };
  };
  const run = runOf(placed.centreline, 0, placed.centreline.length, bar.centreline);
  const worst = run.reduce((a, b) => (len(b.off) > len(a.off) ? b : a));
  return {
    bar: placed,
    landings: { A: landing("A"), B: landing("B") },
    worst: { along: worst.along, off: len(worst.off) },
  };
}

/** How far the far end of a bent bar lies from where it was wanted, the first end held as wanted (mm). */
export function freeEndOff(shape: BarShape, wanted: BarShape, held: End): number {
  const origin: Start = { at: [0, 0, 0], dir: [1, 0, 0], inside: [0, 1, 0] };
  const a = lineOf(shape, origin);
  const b = lineOf(wanted, origin);
  if (held === "A") return dist(a.finish, b.finish);
  // Seen from B: the start of each in the axes of its own finish.
  const seen = (l: Centreline): Vec => {
    const last = l.pieces[l.pieces.length - 1] as Straight;
    const bend = l.bends[l.bends.length - 1];
    const d = neg(last.dir);
    if (!bend) return [dist(l.start, l.finish), 0, 0];
    const n = bend.arc.n;
    const v = sub(l.start, l.finish);
    return [dot(v, d), dot(v, n), dot(v, cross(n, d))];
  };
  return dist(seen(a), seen(b));
}
