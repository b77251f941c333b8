// biome-ignore-all lint/style/noNonNullAssertion: paths have a pose at least, and indices into them run between their ends.
import { seeded } from "../../numeric/index.ts";
import { add, scale, type Vec } from "../../space/index.ts";
import {
  type Asked,
  type Checker,
  interpolate,
  type Pose,
  type Scene,
  SEAT,
  type Solid,
} from "../scene/index.ts";
import { advance, SEARCH_TOUCH, type Stride } from "./advance.ts";
import { WAYS } from "./directions.ts";
import { farIn, outsideOf } from "./outside.ts";
import { connectTrees } from "./trees.ts";

/** Poses from outside to the seat, and how it was found. */
export interface Way {
  readonly ok: true;
  readonly poses: readonly Pose[];
  readonly found: "straight out" | "searched";
}

/** No way found: what stopped the straight ways, and how hard it was sought. */
export interface NoWay {
  readonly ok: false;
  /** IDs, those that stopped most first. */
  readonly stoppedBy: readonly string[];
  /** How far the best straight way got (mm). */
  readonly got: number;
  /** Whether the search had anywhere to set out from. */
  readonly loose: boolean;
}

export interface WayTask {
  readonly solid: Solid;
  readonly scene: Scene;
  readonly check: Checker;
  /** Overlap to put up with, by obstacle (mm): hosts sprung, or what a seat itself overlaps. */
  readonly give: Float64Array;
  readonly seed: number;
  /** Nodes that the search may make. */
  readonly nodes: number;
  readonly stop: () => boolean;
}

/** Kept in free flight (mm), so that what lies between steps is clear for certain. */
const KEEP = 0.4;
/** Out of the joints once this clear (mm). */
const LOOSE = 1;

/**
 * The way from a motion out of the joints (poses from the seat on, `leaves`; or straight `slides`) to the outside.
 * First straight lines: each slide to its end, and from wherever it comes loose. Then a search with two trees
 * (RRT-Connect), one from the loose poses and one from outside. The path found is shortened by cutting corners.
 * Returned from outside to the seat; where the search gave up, which proves nothing, what was in the way.
 */
export function findWay(
  task: WayTask,
  slides: readonly Vec[],
  leaves: readonly (readonly Pose[])[],
): Way | NoWay {
  const { solid, check, give } = task;
  const outside = outsideOf(solid, task.scene);
  const near: Asked = { give, cap: 400 };
  const sliding: Stride = { keep: -SEARCH_TOUCH, step: 0.1, asked: near };
  const starts: (readonly Pose[])[] = [];
  const stops = new Map<string, number>();
  let furthest = 0;
  // What stops a slide counts by how far the bar had got: more than what stops one of the many tries from there.
  const stopped = (by: number | undefined, weight = 1): void => {
    const id = by === undefined ? undefined : task.scene.obstacles[by]?.id;
    if (id !== undefined) stops.set(id, (stops.get(id) ?? 0) + weight);
  };
  const none = (): NoWay => ({
    ok: false,
    stoppedBy: [...stops].sort((a, b) => b[1] - a[1]).map(([id]) => id),
    got: furthest,
    loose: starts.length > 0,
  });
  for (const d of slides) {
    if (task.stop()) return none();
    const far = farIn(solid, outside, SEAT, d);
    const at = (t: number): Pose => ({ at: scale(d, t), turn: SEAT.turn });
    const got = advance(check, solid.reach, SEAT, at(far), sliding);
    if (got.reached === 1) return { ok: true, poses: [at(far), SEAT], found: "straight out" };
    const most = got.reached * far;
    stopped(got.by, 10 + most);
    furthest = Math.max(furthest, most);
    for (const part of [0.15, 0.5, 0.9]) {
      const t = Math.min(most * part, 600 * part);
      if (t < 4) continue;
      if (check(at(t), near).least >= LOOSE) starts.push([SEAT, at(t)]);
    }
  }
  for (const leave of leaves) {
    let n = leave.length - 1;
    while (n > 0 && !(check(leave[n]!, near).least >= LOOSE)) n--;
    if (n > 0) starts.push(leave.slice(0, n + 1));
  }
  if (starts.length === 0) return none();
  const free: Stride = { keep: KEEP, step: 0.4, asked: { cap: 400, give: zero(give) } };
  for (const start of starts) {
    const from = start[start.length - 1]!;
    for (const d of WAYS) {
      if (task.stop()) return none();
      const far = farIn(solid, outside, from, d);
      const to: Pose = { at: add(from.at, scale(d, far)), turn: from.turn };
      const got = advance(check, solid.reach, from, to, free);
      if (got.reached < 1) stopped(got.by);
      else {
        return { ok: true, poses: [to, ...[...start].reverse()], found: "searched" };
      }
    }
  }
  const random = seeded(task.seed);
  const path = connectTrees({
    solid,
    check,
    free,
    roots: starts.map((s) => s[s.length - 1]!),
    outside,
    random,
    nodes: task.nodes,
    stop: task.stop,
  });
  if (!path) return none();
  const root = path.poses[path.poses.length - 1]!;
  const start = starts.find((s) => s[s.length - 1] === root)!;
  const short = shortened(path.poses, check, solid.reach, free, random);
  return { ok: true, poses: [...short, ...[...start].reverse().slice(1)], found: "searched" };
}

const zero = (give: Float64Array): Float64Array => give.map((g) => (g > 900 ? g : 0));

/** Cuts corners: two places of the path joined straight where that is clear; then drops poses that are not needed. */
function shortened(
  poses: readonly Pose[],
  check: Checker,
  reach: number,
  free: Stride,
  random: () => number,
): readonly Pose[] {
  let path = [...poses];
  const clear = (a: Pose, b: Pose): boolean => advance(check, reach, a, b, free).reached === 1;
  for (let tries = 0; tries < 60 && path.length > 2; tries++) {
    const i = Math.floor(random() * (path.length - 1));
    const j = Math.floor(random() * (path.length - 1));
    const [a, b] = i <= j ? [i, j] : [j, i];
    if (a === b) continue;
    const p = interpolate(path[a]!, path[a + 1]!, random());
    const q = interpolate(path[b]!, path[b + 1]!, random());
    if (clear(path[a]!, p) && clear(p, q) && clear(q, path[b + 1]!)) {
      path = [...path.slice(0, a + 1), p, q, ...path.slice(b + 1)];
    }
  }
  for (let i = 1; i + 1 < path.length; ) {
    if (clear(path[i - 1]!, path[i + 1]!)) path.splice(i, 1);
    else i++;
  }
  return path;
}
