import { placeAt } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { dot, len, neg, scale, sub, unit, type Vec } from "../space/index.ts";
import { type EndAxes, inAxes } from "./axes.ts";
import { type Cut, clearance, type Host, hostPieces, type RunsOn } from "./host.ts";

/** Finds a bar by its ID. */
export type Lookup = (id: string) => ResolvedBar | undefined;

/** sin γ below this: what such an end is cut by is taken as flat. */
const PARALLEL = 1e-3;

/**
 * A bar named in `also`, as metal in an end's axes: unlike the host of `on` it ends where its own ends land, cut by
 * what they land on. Each end straight runs on as far as its own joint reaches; what is beyond that cut is taken off:
 * for a square end what is past its plane, on a plate what is behind its face, on a bar what is inside it and what is
 * past its axis, on the far side.
 */
export function alsoHost(host: ResolvedBar, axes: EndAxes, lookup: Lookup): Host {
  const ends = { A: endOf(host, "A", axes, lookup), B: endOf(host, "B", axes, lookup) };
  return cutAtEnds(host, axes, { A: ends.A.past, B: ends.B.past }, { A: ends.A.cuts, B: ends.B.cuts });
}

/** A bar whose end straights run on past its ends, each less what is cut off there: a cut is of its own end alone. */
function cutAtEnds(
  host: ResolvedBar,
  axes: EndAxes,
  past: RunsOn,
  cuts: Readonly<Record<End, readonly Cut[]>>,
): Host {
  const pieces = hostPieces(host.centreline, host.tube.od / 2, axes, past);
  return pieces.map((piece, i) => ({
    piece,
    cuts: [...(i === 0 ? cuts.A : []), ...(i === pieces.length - 1 ? cuts.B : [])],
  }));
}

function endOf(
  host: ResolvedBar,
  end: End,
  axes: EndAxes,
  lookup: Lookup,
): { readonly past: number; readonly cuts: readonly Cut[] } {
  const line = host.centreline;
  const at = end === "A" ? line.start : line.finish;
  const dir = placeAt(line, end === "A" ? 0 : line.length).dir;
  const out = end === "A" ? neg(dir) : dir;
  const seat = host.seat[end];
  if (seat.kind === "plate") {
    const cos = Math.max(PARALLEL, Math.abs(dot(seat.normal, out)));
    return { past: (2 * host.tube.od) / cos, cuts: [beyond(axes, seat.at, neg(seat.normal))] };
  }
  const [first] = seat.kind === "on" ? seat.hosts : [];
  const landsOn = first === undefined ? undefined : lookup(first);
  if (!landsOn || seat.kind !== "on") return { past: 0, cuts: [beyond(axes, at, out)] };
  const on = placeAt(landsOn.centreline, seat.along);
  const square = sub(out, scale(on.dir, dot(out, on.dir)));
  const sin = len(square);
  if (sin < PARALLEL) return { past: 0, cuts: [beyond(axes, at, out)] };
  const inside = seat.hosts.flatMap((id): Cut[] => {
    const other = lookup(id);
    return other ? [insideOf(other, axes)] : [];
  });
  return {
    past: (landsOn.tube.od + host.tube.od) / 2 / sin + len(seat.off),
    cuts: [beyond(axes, on.at, unit(square)), ...inside],
  };
}

/** Positive past the plane through a place, `out` square to it (car axes). */
function beyond(axes: EndAxes, at: Vec, out: Vec): Cut {
  const p = inAxes(axes, sub(at, axes.landing));
  const n = inAxes(axes, out);
  return (x, y, z) => (x - p[0]) * n[0] + (y - p[1]) * n[1] + (z - p[2]) * n[2];
}

/** Positive inside a bar; its end straights run on, as they do for what lands on it. */
function insideOf(bar: ResolvedBar, axes: EndAxes): Cut {
  const far = 4 * bar.tube.od;
  const pieces = hostPieces(bar.centreline, bar.tube.od / 2, axes, { A: far, B: far });
  return (x, y, z) => -Math.min(...pieces.map((piece) => clearance(piece, x, y, z)));
}

/** A bar without what it runs on past its ends: cut flat there, as if both were square. */
export function endedHost(host: ResolvedBar, axes: EndAxes): Host {
  const { centreline: line } = host;
  const [a, b] = [placeAt(line, 0), placeAt(line, line.length)];
  const cuts = { A: [beyond(axes, a.at, neg(a.dir))], B: [beyond(axes, b.at, b.dir)] };
  return cutAtEnds(host, axes, { A: 0, B: 0 }, cuts);
}
