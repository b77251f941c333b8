import type { Vec } from "../space/index.ts";
import { type Chain, placeRod, rodRod } from "./chain.ts";
import type { Pose } from "./pose.ts";
import { type Facet, height, type Obstacle, over, type Scene } from "./scene.ts";
import type { Solid, SolidEnd } from "./solid.ts";

/** What a bar at a pose has around it. */
export interface Clearance {
  /** Least distance between the bar and what it may meet (mm); negative: how deep it is inside. */
  readonly least: number;
  /** What is nearest (index in the scene's list; −1 where nothing is within the cap). */
  readonly nearest: number;
}

export interface Asked {
  /** Ends are looked at wall line by wall line once the coarse answer is below this (mm). */
  readonly fineBelow?: number;
  /** How far each obstacle may be sprung aside (mm), in the scene's order. */
  readonly give?: Float64Array;
  /** Distances beyond this need not be known (mm). */
  readonly cap?: number;
}

export type Checker = (pose: Pose, asked?: Asked) => Clearance;

/**
 * Distances of one bar from a scene at any pose. Broad phase: spheres round runs of rods and round ends; then exact
 * distances between rods. A bar is coarsely its `whole` (which holds it, so that the answer errs toward "too near");
 * where that comes near, it is its `core` and the wall lines and bore rim of its ends. Accuracy: 0.006 mm (chords of
 * bends) and 0.005 mm (between wall lines). A bar that has passed wholly through a panel is not told from one
 * beside it: paths are followed in steps that cannot jump.
 */
export function checker(solid: Solid, scene: Scene): Checker {
  const whole = new Float64Array(solid.whole.rods.length);
  const core = new Float64Array(solid.core.rods.length);
  const walls = solid.ends.map((e) => new Float64Array(e.walls.length));
  const bore = solid.ends.map((e) => new Float64Array(e.bore.length));
  const r = solid.radius;
  const m = new Float64Array(12);
  const runs = solid.whole.runs.map((run) => ({ ...run, x: 0, y: 0, z: 0 }));

  return (pose, asked = {}) => {
    const fineBelow = asked.fineBelow ?? 2;
    let least = asked.cap ?? 400;
    let nearest = -1;
    matrix(pose, solid.about, m);
    apply(m, solid.whole.rods, whole);
    for (const run of runs) {
      const [x, y, z] = run.centre;
      run.x = m[0]! * x + m[1]! * y + m[2]! * z + m[9]!;
      run.y = m[3]! * x + m[4]! * y + m[5]! * z + m[10]!;
      run.z = m[6]! * x + m[7]! * y + m[8]! * z + m[11]!;
    }
    let coreDone = false;
    const endDone = [false, false];
    for (let k = 0; k < scene.obstacles.length; k++) {
      const o = scene.obstacles[k]!;
      const give = asked.give ? asked.give[k]! : 0;
      const bound = least - give;
      let d = coarse(o, whole, runs, r, bound);
      if (d < bound && d < fineBelow) {
        if (!coreDone) {
          apply(m, solid.core.rods, core);
          coreDone = true;
        }
        d = core.length > 0 ? rodsTo(o, core, r, bound) : bound;
        for (let e = 0; e < 2; e++) {
          const end = solid.ends[e]!;
          const x = end.centre[0];
          const y = end.centre[1];
          const z = end.centre[2];
          const centre: Vec = [
            m[0]! * x + m[1]! * y + m[2]! * z + m[9]!,
            m[3]! * x + m[4]! * y + m[5]! * z + m[10]!,
            m[6]! * x + m[7]! * y + m[8]! * z + m[11]!,
          ];
          if (tooFar(o, centre, end.reach, d)) continue;
          if (!endDone[e]) {
            apply(m, end.walls, walls[e]!);
            apply(m, end.bore, bore[e]!);
            endDone[e] = true;
          }
          d = endTo(o, end, centre, walls[e]!, bore[e]!, d);
        }
      }
      if (d + give < least) {
        least = d + give;
        nearest = k;
      }
    }
    return { least, nearest };
  };
}

function matrix(pose: Pose, about: Vec, m: Float64Array): void {
  const [x, y, z, w] = pose.turn;
  m[0] = 1 - 2 * (y * y + z * z);
  m[1] = 2 * (x * y - z * w);
  m[2] = 2 * (x * z + y * w);
  m[3] = 2 * (x * y + z * w);
  m[4] = 1 - 2 * (x * x + z * z);
  m[5] = 2 * (y * z - x * w);
  m[6] = 2 * (x * z - y * w);
  m[7] = 2 * (y * z + x * w);
  m[8] = 1 - 2 * (x * x + y * y);
  for (let i = 0; i < 3; i++) {
    m[9 + i] =
      about[i]! + pose.at[i]! - m[3 * i]! * about[0] - m[3 * i + 1]! * about[1] - m[3 * i + 2]! * about[2];
  }
}

function apply(m: Float64Array, from: Float64Array, to: Float64Array): void {
  for (let i = 0; i < from.length; i += 3) {
    const x = from[i]!;
    const y = from[i + 1]!;
    const z = from[i + 2]!;
    to[i] = m[0]! * x + m[1]! * y + m[2]! * z + m[9]!;
    to[i + 1] = m[3]! * x + m[4]! * y + m[5]! * z + m[10]!;
    to[i + 2] = m[6]! * x + m[7]! * y + m[8]! * z + m[11]!;
  }
}

interface PlacedRun {
  readonly first: number;
  readonly last: number;
  readonly reach: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

function coarse(
  o: Obstacle,
  rods: Float64Array,
  runs: readonly PlacedRun[],
  r: number,
  bound: number,
): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(rods) - r - o.z);
  if (o.kind === "panel" || o.kind === "plate") {
    for (const f of o.facets) best = Math.min(best, facetRods(f, rods, r, best));
    return best;
  }
  const { chain } = o;
  const radii = r + chain.radius;
  for (const run of runs) {
    for (const other of chain.runs) {
      const gap = runGap(run, rods, other, chain);
      if (gap - radii >= best) continue;
      for (let i = run.first; i <= run.last; i++) {
        for (let j = other.first; j <= other.last; j++) {
          const d = Math.sqrt(rodRod(rods, 6 * i, chain.rods, 6 * j)) - radii;
          if (d < best) best = d;
        }
      }
    }
  }
  return best;
}

/** No rod of one run is nearer to one of the other than this; single rods are left to the exact distance. */
function runGap(run: PlacedRun, rods: Float64Array, other: Chain["runs"][number], chain: Chain): number {
  if (run.first === run.last) {
    if (other.first === other.last) return -Infinity;
    const [x, y, z] = other.centre;
    return Math.sqrt(placeRod(x, y, z, rods, 6 * run.first)) - other.reach;
  }
  if (other.first === other.last)
    return Math.sqrt(placeRod(run.x, run.y, run.z, chain.rods, 6 * other.first)) - run.reach;
  const [x, y, z] = other.centre;
  return Math.hypot(run.x - x, run.y - y, run.z - z) - run.reach - other.reach;
}

/** Least distance of rods of radius r to one obstacle, `bound` where it is no less (mm). */
export function rodsTo(o: Obstacle, rods: Float64Array, r: number, bound: number): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(rods) - r - o.z);
  if (o.kind === "panel" || o.kind === "plate") {
    for (const f of o.facets) best = Math.min(best, facetRods(f, rods, r, best));
    return best;
  }
  const { chain } = o;
  const radii = r + chain.radius;
  for (let i = 0; i < rods.length; i += 6) {
    for (const other of chain.runs) {
      const [x, y, z] = other.centre;
      if (other.first !== other.last && Math.sqrt(placeRod(x, y, z, rods, i)) - other.reach - radii >= best)
        continue;
      for (let j = other.first; j <= other.last; j++) {
        const d = Math.sqrt(rodRod(rods, i, chain.rods, 6 * j)) - radii;
        if (d < best) best = d;
      }
    }
  }
  return best;
}

function tooFar(o: Obstacle, centre: Vec, reach: number, best: number): boolean {
  const [x, y, z] = centre;
  if (o.kind === "floor") return z - reach - o.z >= best;
  if (o.kind === "panel" || o.kind === "plate") {
    return o.facets.every(
      (f) => Math.hypot(x - f.centre[0], y - f.centre[1], z - f.centre[2]) - reach - f.reach >= best,
    );
  }
  const { chain } = o;
  for (let j = 0; j < chain.rods.length; j += 6) {
    if (Math.sqrt(placeRod(x, y, z, chain.rods, j)) - reach - chain.radius < best) return false;
  }
  return true;
}

/** The wall lines and the bore rim of one end against one obstacle. */
function endTo(
  o: Obstacle,
  end: SolidEnd,
  centre: Vec,
  walls: Float64Array,
  bore: Float64Array,
  bound: number,
): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(walls) - o.z);
  if (o.kind === "plate") return Math.min(best, plateTo(o, walls), plateTo(o, bore));
  if (o.kind === "panel") {
    for (const f of o.facets) best = Math.min(best, facetRods(f, walls, 0, best));
    return best;
  }
  const { rods, radius, spans } = o.chain;
  const [x, y, z] = centre;
  for (const [first, last] of spans) {
    // The part of the span that this end can reach.
    let a = first;
    let b = last;
    while (a <= b && Math.sqrt(placeRod(x, y, z, rods, 6 * a)) - end.reach - radius >= best) a++;
    while (b >= a && Math.sqrt(placeRod(x, y, z, rods, 6 * b)) - end.reach - radius >= best) b--;
    if (a > b) continue;
    best = Math.min(best, walk(walls, 6, rods, a, b, radius, best), walk(bore, 3, rods, a, b, radius, best));
  }
  return best;
}

/**
 * Least distance of wall lines (6 numbers each) or places (3) to the rods a to b of one bend. Along a bend of less
 * than half a turn the distance falls and then rises, and neighbours round the end have their nearest rods close
 * together: from one line's nearest rod the next one's is found by walking downhill.
 */
function walk(
  from: Float64Array,
  stride: 3 | 6,
  rods: Float64Array,
  a: number,
  b: number,
  radius: number,
  bound: number,
): number {
  const to = (i: number, j: number): number =>
    stride === 6 ? rodRod(from, i, rods, 6 * j) : placeRod(from[i]!, from[i + 1]!, from[i + 2]!, rods, 6 * j);
  let best = bound;
  let j = (a + b) >> 1;
  for (let i = 0; i < from.length; i += stride) {
    let d = to(i, j);
    if (a < b) {
      const step = j < b && to(i, j + 1) < d ? 1 : -1;
      for (;;) {
        if (j + step < a || j + step > b) break;
        const next = to(i, j + step);
        if (next >= d) break;
        d = next;
        j += step;
      }
    }
    const gap = Math.sqrt(d) - radius;
    if (gap < best) best = gap;
  }
  return best;
}

/** Height over a plate of the places that stand over it; the plate is taken as solid as deep as it is wide. */
function plateTo(o: Extract<Obstacle, { kind: "plate" }>, places: Float64Array): number {
  let best = Infinity;
  const { at, normal: n } = o;
  for (let i = 0; i < places.length; i += 3) {
    const x = places[i]! - at[0];
    const y = places[i + 1]! - at[1];
    const z = places[i + 2]! - at[2];
    const h = x * n[0] + y * n[1] + z * n[2];
    const side = Math.sqrt(Math.max(0, x * x + y * y + z * z - h * h)) - o.radius;
    const d = side <= 0 ? (h > -o.radius ? h : Infinity) : h >= 0 ? Math.hypot(h, side) : side;
    if (d < best) best = d;
  }
  return best;
}

function lowest(rods: Float64Array): number {
  let z = Infinity;
  for (let i = 2; i < rods.length; i += 3) if (rods[i]! < z) z = rods[i]!;
  return z;
}

/** Least distance of rods of radius r to a facet; where a rod crosses it, minus r. */
function facetRods(f: Facet, rods: Float64Array, r: number, bound: number): number {
  let best = bound;
  const [cx, cy, cz] = f.centre;
  for (let i = 0; i < rods.length; i += 6) {
    if (Math.sqrt(placeRod(cx, cy, cz, rods, i)) - f.reach - r >= best) continue;
    const h1 = height(f, rods[i]!, rods[i + 1]!, rods[i + 2]!);
    const h2 = height(f, rods[i + 3]!, rods[i + 4]!, rods[i + 5]!);
    if (h1 * h2 <= 0 && h1 !== h2) {
      const t = h1 / (h1 - h2);
      const x = rods[i]! + t * (rods[i + 3]! - rods[i]!);
      const y = rods[i + 1]! + t * (rods[i + 4]! - rods[i + 1]!);
      const z = rods[i + 2]! + t * (rods[i + 5]! - rods[i + 2]!);
      if (over(f, x, y, z)) return -r;
    }
    if (Math.abs(h1) - r < best && over(f, rods[i]!, rods[i + 1]!, rods[i + 2]!)) best = Math.abs(h1) - r;
    if (Math.abs(h2) - r < best && over(f, rods[i + 3]!, rods[i + 4]!, rods[i + 5]!)) best = Math.abs(h2) - r;
    for (let e = 0; e < f.edges.length; e += 6) {
      const d = Math.sqrt(rodRod(rods, i, f.edges, e)) - r;
      if (d < best) best = d;
    }
  }
  return best;
}
