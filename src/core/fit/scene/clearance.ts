// biome-ignore-all lint/style/noNonNullAssertion: a pose's matrix has twelve numbers, segments six and places three each, loops step by as many below their length; give has one entry an obstacle, and a bar two ends.
import type { Vec } from "../../space/index.ts";
import { type Capsules, pointSegmentDistanceSquared, segmentDistanceSquared } from "./capsules.ts";
import { facetSegments, lowest, segmentsTo, tooFar } from "./distance.ts";
import { endTo } from "./enddistance.ts";
import type { Pose } from "./pose.ts";
import type { Obstacle, Scene } from "./scene.ts";
import { slabSegments } from "./slab.ts";
import type { Solid } from "./solid.ts";

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
 * Distances of one bar from a scene at any pose. Broad phase: spheres round runs of segments and round ends; then exact
 * distances between segments. A bar is coarsely its `whole` (which holds it, so that the answer errs toward "too near");
 * where that comes near, it is its `core` and the wall lines and bore rim of its ends. Accuracy: 0.006 mm (chords of
 * bends) and 0.005 mm (between wall lines). A bar that has passed wholly through a panel is not told from one
 * beside it: paths are followed in steps that cannot jump.
 */
export function checker(solid: Solid, scene: Scene): Checker {
  const whole = new Float64Array(solid.whole.segments.length);
  const core = new Float64Array(solid.core.segments.length);
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
    apply(m, solid.whole.segments, whole);
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
          apply(m, solid.core.segments, core);
          coreDone = true;
        }
        d = core.length > 0 ? segmentsTo(o, core, r, bound) : bound;
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
  segments: Float64Array,
  runs: readonly PlacedRun[],
  r: number,
  bound: number,
): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(segments) - r - o.z);
  if (o.kind === "plate") return slabSegments(o.slab, segments, r, best);
  if (o.kind === "panel") {
    for (const f of o.facets) best = Math.min(best, facetSegments(f, segments, r, best));
    return best;
  }
  const { capsules } = o;
  const radii = r + capsules.radius;
  for (const run of runs) {
    for (const other of capsules.runs) {
      const gap = runGap(run, segments, other, capsules);
      if (gap - radii >= best) continue;
      for (let i = run.first; i <= run.last; i++) {
        for (let j = other.first; j <= other.last; j++) {
          const d = Math.sqrt(segmentDistanceSquared(segments, 6 * i, capsules.segments, 6 * j)) - radii;
          if (d < best) best = d;
        }
      }
    }
  }
  return best;
}

/** No segment of one run is nearer to one of the other than this; single segments are left to the exact distance. */
function runGap(
  run: PlacedRun,
  segments: Float64Array,
  other: Capsules["runs"][number],
  capsules: Capsules,
): number {
  if (run.first === run.last) {
    if (other.first === other.last) return -Infinity;
    const [x, y, z] = other.centre;
    return Math.sqrt(pointSegmentDistanceSquared(x, y, z, segments, 6 * run.first)) - other.reach;
  }
  if (other.first === other.last)
    return (
      Math.sqrt(pointSegmentDistanceSquared(run.x, run.y, run.z, capsules.segments, 6 * other.first)) -
      run.reach
    );
  const [x, y, z] = other.centre;
  return Math.hypot(run.x - x, run.y - y, run.z - z) - run.reach - other.reach;
}
