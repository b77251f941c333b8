import { type Centreline, closestOnPiece, type Piece, placeAt } from "../bar/index.ts";
import type { CopeResult } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { goldenLeast } from "../numeric/index.ts";
import { dist, dot, len, sub, type Vec } from "../space/index.ts";
import { travel } from "./advance.ts";
import { sphereRound } from "./chain.ts";
import { between, type Pose, placer } from "./pose.ts";
import { height, type Obstacle, over } from "./scene.ts";
import { inwardFrom, rimPlace } from "./solid.ts";

/** What a sweep of a way found. */
export interface Swept {
  /** Least distance to what the bar does not touch at its seat (mm), and to what; Infinity where there is nothing. */
  readonly clearance: number;
  readonly nearest?: string;
  /** Deepest overlap with anything (mm, 0 where there is none), and with what. */
  readonly overlap: number;
  readonly deepest?: string;
  readonly poses: number;
}

/** The bar's own shape in places: stations of its centreline where it is whole, and places of its rims. */
interface Shape {
  readonly line: Centreline;
  readonly r: number;
  readonly from: number;
  readonly to: number;
  readonly stations: readonly number[];
  readonly rims: readonly { readonly places: readonly Vec[]; readonly centre: Vec; readonly reach: number }[];
  readonly reach: number;
}

const APART = 20;

/**
 * Follows a way in even steps and measures the bar against everything anew, by another road than the search took:
 * the tubes as true straights and bends (no chords), the bar as places of its rims (every 3°, outside and bore) and
 * as its own centreline between them, nearest places found by golden section. Steps are at most `step` mm of the
 * fastest point (0.25 mm, by which 0.1° of a 140 mm lever is held too) wherever anything is near; where the nearest
 * thing is d away, up to d/2. The slow twin of the search's own check.
 */
export function sweep(
  bar: ResolvedBar,
  copes: Readonly<Record<End, CopeResult>>,
  poses: readonly Pose[],
  tacked: readonly ResolvedBar[],
  parts: readonly Obstacle[],
  step = 0.25,
): Swept {
  const shape = shapeOf(bar, copes);
  const seated = new Set<string>();
  const things = [...tacked.map((t) => thingOf(t)), ...parts.map(partOf)];
  const at0 = poses[poses.length - 1]!;
  for (const thing of things) if (gap(shape, posed(shape, at0), thing, 1) < 0.05) seated.add(thing.id);
  let clearance = Infinity;
  let nearest: string | undefined;
  let overlap = 0;
  let deepest: string | undefined;
  let count = 0;
  // What a thing was last measured at, and how far the bar had gone by then: it cannot have come nearer by more than
  // the bar's fastest point has gone since, so that far things are rarely asked.
  const seen = things.map(() => ({ d: -Infinity, at: 0 }));
  const look = (pose: Pose, gone: number): number => {
    count++;
    let least = 400;
    const now = posed(shape, pose);
    things.forEach((thing, k) => {
      const last = seen[k]!;
      const bound = last.d - (gone - last.at);
      if (bound > 0 && bound > last.d / 2 && (seated.has(thing.id) || bound >= clearance)) {
        least = Math.min(least, bound);
        return;
      }
      // Exact wherever it could be the least of what is reported; else a bound that it does not fall below.
      const d = gap(shape, now, thing, seated.has(thing.id) ? 0.5 : Math.min(200, clearance));
      seen[k] = { d, at: gone };
      least = Math.min(least, d);
      if (!seated.has(thing.id) && d < clearance) {
        clearance = d;
        nearest = thing.id;
      }
      if (-d > overlap) {
        overlap = -d;
        deepest = thing.id;
      }
    });
    return least;
  };
  let gone = 0;
  for (let i = 0; i + 1 < poses.length; i++) {
    const [a, b] = [poses[i]!, poses[i + 1]!];
    const total = travel(a, b, shape.reach);
    for (let t = 0; t < 1; ) {
      const d = look(between(a, b, t), gone + t * total);
      t += total > 0 ? Math.max(step, d / 2) / total : 1;
    }
    gone += total;
  }
  look(at0, gone);
  return {
    clearance,
    ...(nearest === undefined ? {} : { nearest }),
    overlap,
    ...(deepest === undefined ? {} : { deepest }),
    poses: count,
  };
}

function shapeOf(bar: ResolvedBar, copes: Readonly<Record<End, CopeResult>>): Shape {
  const { centreline: line } = bar;
  const r = bar.tube.od / 2;
  const from = copes.A.cope.greatest;
  const to = line.length - copes.B.cope.greatest;
  const rims = (["A", "B"] as const).map((end) => {
    const places: Vec[] = [];
    const inward = inwardFrom(line, end);
    for (const wall of ["outer", "bore"] as const) {
      for (let phi = 0; phi < 360; phi += 3) {
        if (!Number.isNaN(copes[end].cope[wall][phi]!)) places.push(rimPlace(inward, copes[end], wall, phi));
      }
    }
    return { places, ...sphereRound(places.length > 0 ? places : [end === "A" ? line.start : line.finish]) };
  });
  const n = Math.max(2, Math.ceil((to - from) / APART) + 1);
  const stations = to > from ? Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1)) : [];
  const reach = Math.max(
    ...rims.flatMap((e) => e.places.map((p) => dist(p, line.start))),
    ...stations.map((s) => dist(placeAt(line, s).at, line.start) + r),
  );
  return { line, r, from, to, stations, rims, reach };
}

/** Something to measure against: distance of a place from its middle line (or face) and how thick it is. */
interface Thing {
  readonly id: string;
  readonly radius: number;
  readonly far: (p: Vec) => number;
  readonly centre: Vec;
  readonly reach: number;
}

function thingOf(bar: ResolvedBar): Thing {
  const { pieces, length } = bar.centreline;
  const centre = placeAt(bar.centreline, length / 2).at;
  return {
    id: bar.id,
    radius: bar.tube.od / 2,
    far: (p) => {
      let least = Infinity;
      for (const piece of pieces) least = Math.min(least, farFrom(piece, p));
      return least;
    },
    centre,
    reach: length / 2,
  };
}

/** Distance of a place from one piece of a centreline. */
function farFrom(piece: Piece, p: Vec): number {
  if (piece.kind === "arc") return closestOnPiece(piece, p).distance;
  const { from, dir, length } = piece;
  const x = p[0] - from[0];
  const y = p[1] - from[1];
  const z = p[2] - from[2];
  const t = Math.min(length, Math.max(0, x * dir[0] + y * dir[1] + z * dir[2]));
  return Math.hypot(x - t * dir[0], y - t * dir[1], z - t * dir[2]);
}

function partOf(o: Obstacle): Thing {
  const everywhere = { centre: [0, 0, 0] as Vec, reach: Infinity };
  if (o.kind === "floor") return { id: o.id, radius: 0, far: (p) => p[2] - o.z, ...everywhere };
  if (o.kind === "panel" || o.kind === "plate") {
    const far = (p: Vec): number =>
      Math.min(
        ...o.facets.map((f) => {
          const h = Math.abs(height(f, ...p));
          return over(f, ...p) ? h : toRods(f.edges, p);
        }),
      );
    return { id: o.id, radius: 0, far, ...everywhere };
  }
  return { id: o.id, radius: o.chain.radius, far: (p) => toRods(o.chain.rods, p), ...everywhere };
}

function toRods(rods: Float64Array, p: Vec): number {
  let best = Infinity;
  for (let i = 0; i < rods.length; i += 6) {
    const a: Vec = [rods[i]!, rods[i + 1]!, rods[i + 2]!];
    const d = sub([rods[i + 3]!, rods[i + 4]!, rods[i + 5]!], a);
    const l = dot(d, d);
    const t = l > 0 ? Math.min(1, Math.max(0, dot(sub(p, a), d) / l)) : 0;
    best = Math.min(best, len(sub(p, [a[0] + t * d[0], a[1] + t * d[1], a[2] + t * d[2]])));
  }
  return best;
}

/** A bar at one pose: what is needed of it is placed once for all things. */
interface Posed {
  readonly put: (p: Vec) => Vec;
  readonly middle: Vec;
  stations?: readonly Vec[];
  readonly rims: (readonly Vec[] | undefined)[];
}

function posed(shape: Shape, pose: Pose): Posed {
  const put = placer(pose, shape.line.start);
  return { put, middle: put(placeAt(shape.line, shape.line.length / 2).at), rims: [undefined, undefined] };
}

/** Distance of the posed bar from one thing; exact below `care` (mm), else no more than it is. */
function gap(shape: Shape, now: Posed, thing: Thing, care: number): number {
  const { line, r, stations, rims } = shape;
  const { put, middle } = now;
  const rough = dist(middle, thing.centre) - line.length / 2 - thing.reach - r - thing.radius;
  if (rough > care) return rough;
  const at = (s: number): number => thing.far(put(placeAt(line, s).at));
  const spacing = stations.length > 1 ? stations[1]! - stations[0]! : 0;
  now.stations ??= stations.map((s) => put(placeAt(line, s).at));
  const places = now.stations;
  const body = stations
    .map((s, i) => ({ s, d: thing.far(places[i]!) - r - thing.radius }))
    .sort((a, b) => a.d - b.d);
  const ends = rims.map((e, i) => ({ e, i, d: thing.far(put(e.centre)) - e.reach - thing.radius }));
  // Between two stations the middle line comes no nearer than half of what lies between them.
  const lower = Math.min((body[0]?.d ?? Infinity) - spacing / 2, ...ends.map((e) => e.d));
  if (lower > care) return lower;
  let best = Infinity;
  // Its last bit before an end is left to the rim: a tube that ends there in a round is none.
  const [from, to] = [shape.from + r, shape.to - r];
  for (const { s, d } of to > from ? body : []) {
    if (d - spacing / 2 >= best) break;
    const [lo, hi] = [Math.max(from, s - spacing), Math.min(to, s + spacing)];
    if (hi > lo) best = Math.min(best, at(goldenLeast(at, lo, hi, 1e-3)) - r - thing.radius);
  }
  for (const { e, i, d } of ends) {
    if (d >= best) continue;
    now.rims[i] ??= e.places.map(put);
    for (const p of now.rims[i]!) best = Math.min(best, thing.far(p) - thing.radius);
  }
  return best;
}
