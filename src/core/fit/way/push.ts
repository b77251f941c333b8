// biome-ignore-all lint/style/noNonNullAssertion: hosts and allowed have one entry an obstacle; a push has six unknowns.
import { maximise } from "../../numeric/index.ts";
import { along, dist, lerp, neg, scale, type Vec } from "../../space/index.ts";
import { opening, type Touch, type Twist, touchesOf } from "../joint/index.ts";
import {
  type Checker,
  interpolate,
  moved,
  type Pose,
  placed,
  type Scene,
  type Solid,
} from "../scene/index.ts";
import { SEARCH_TOUCH } from "./advance.ts";

/** The kind of motion that a bar is pushed out by: tipped about an end, shifted or swung square to it, pushed along it, turned about itself. */
export type How = "tipped" | "shifted" | "swung" | "pushed" | "turned";

/** Where a host has to give when it is sprung: pushed at `at` (car axes, mm) toward `dir` (length 1) by `by` mm. */
export interface Push {
  readonly id: string;
  readonly at: Vec;
  readonly dir: Vec;
  readonly by: number;
}

/** A motion out of the joints, from the seat on. */
export interface Motion {
  readonly poses: readonly Pose[];
  /** How far each host must give, at most (mm a side); 0 where none must. */
  readonly spring: number;
  /** In words, what kind of motion. */
  readonly how: How;
  /** Where the hosts are pushed aside at the worst of it. */
  readonly pushes: readonly Push[];
}

export interface MotionTask {
  readonly solid: Solid;
  readonly scene: Scene;
  readonly check: Checker;
  /** Where the bar's two ends are at its seat. */
  readonly ends: readonly [Vec, Vec];
  /** Which of the scene's obstacles may be sprung: the bar's hosts. */
  readonly hosts: readonly boolean[];
  /** Overlap at the seat itself that has to be put up with, by obstacle (mm). */
  readonly allowed: Float64Array;
  /** Small moves to push along first: those that the contacts leave open. */
  readonly tips: readonly Twist[];
  /** No answer with more spring than this is of use (mm a side). */
  readonly most: number;
  readonly stop: () => boolean;
}

/** Kept from what is no host, where there is room (mm). */
const KEEP_OFF = 0.5;

/** Touches farther off than this do not matter in one step (mm). */
const NEAR = 1.5;

/** How deep the bar is in any host (mm, 0 where it is in none); Infinity where it is in something else. */
export function overlap(task: MotionTask, pose: Pose): number {
  const give = task.allowed.map((a, k) => a + (task.hosts[k] ? 1e3 : 0));
  const others = task.check(pose, { give, cap: 1 });
  if (others.least < -SEARCH_TOUCH) return Infinity;
  const got = task.check(pose, { give: task.allowed, cap: 1 });
  return Math.max(0, -got.least);
}

/** One step on and what it costs; where a whole step runs into something fixed, a shorter one. */
export function onward(
  task: MotionTask,
  pose: Pose,
  g: readonly number[],
  step: number,
  half: number,
  limit: number,
): { readonly pose: Pose; readonly cost: number } | undefined {
  for (const part of [1, 0.3, 0.1]) {
    const next = pushed(task, pose, g, step * part, half);
    if (!next) continue;
    const cost = Math.max(overlap(task, interpolate(pose, next, 0.5)), overlap(task, next));
    if (cost <= limit) return { pose: next, cost };
    if (cost < Infinity) return undefined;
  }
  return undefined;
}

/** The pose one step on that overlaps its hosts least, to first order, put right by a second look. */
export function pushed(
  task: MotionTask,
  pose: Pose,
  g: readonly number[],
  step: number,
  half: number,
): Pose | undefined {
  const first = descend(task, pose, g, step, half, 2 * step);
  return first && (descend(task, first, g, 0, half, step) ?? first);
}

/**
 * The pose beside this one that is as far as can be from everything that stands (up to 0.2 mm; hosts and all else
 * alike), moved by no more than `trust` mm and not along `g`, the coordinate in which the bar is under way.
 */
export const relaxed = (
  task: Omit<MotionTask, "hosts">,
  pose: Pose,
  g: readonly number[],
  half: number,
  trust: number,
): Pose | undefined =>
  descend({ ...task, hosts: task.scene.obstacles.map(() => true) }, pose, g, 0, half, trust);

function descend(
  task: MotionTask,
  pose: Pose,
  g: readonly number[],
  ahead: number,
  half: number,
  trust: number,
): Pose | undefined {
  const { solid } = task;
  const c = placed(pose, solid.about, lerp(task.ends[0], task.ends[1], 0.5));
  const touches = touchesOf(solid, pose, task.scene, NEAR + trust);
  // Unknowns: shift and turn (6), the overlap, and the sizes of the six, which are kept small: what need not move stays.
  const none = [0, 0, 0, 0, 0, 0];
  const rows = touches.map((t) => [...opening(t, c, half), task.hosts[t.obstacle] ? 1 : 0, ...none]);
  const atLeast = touches.map((t) => {
    if (task.hosts[t.obstacle]) return -t.distance - task.allowed[t.obstacle]!;
    // What cannot give is kept off a little, so far as there is room.
    const room = t.distance + task.allowed[t.obstacle]!;
    return Math.min(0, Math.min(KEEP_OFF, 0.8 * room) - room);
  });
  const row = (g6: readonly number[], s: number, least: number): void => {
    rows.push([...g6, s, ...none]);
    atLeast.push(least);
  };
  row(g, 0, ahead);
  if (ahead === 0)
    row(
      g.map((k) => -k),
      0,
      0,
    );
  // No use in keeping farther off than this: the seventh unknown is the overlap.
  row(none, 1, -0.2);
  for (let k = 0; k < 6; k++) {
    for (const sign of [1, -1]) {
      rows.push([...none.map((_, j) => (j === k ? sign : 0)), 0, ...none.map((_, j) => (j === k ? 1 : 0))]);
      atLeast.push(0);
    }
  }
  const size = Math.hypot(...g) || 1;
  const most = Math.max(trust, ahead / size);
  const box = [...none.map(() => most), 100, ...none.map(() => most)];
  const c7 = [...none, -1, ...none.map(() => -0.003)];
  const solved = maximise({ c: c7, rows, atLeast, box });
  if (!solved.ok) return undefined;
  const x = solved.x;
  return moved(pose, solid.about, [x[0]!, x[1]!, x[2]!], scale([x[3]!, x[4]!, x[5]!], 1 / half), c);
}

/** Where a posed bar presses its hosts most: the deepest place of either end (and of the tube between) on each host. */
export function pressed(
  { solid, scene, hosts, allowed, ends }: Pick<MotionTask, "solid" | "scene" | "hosts" | "allowed" | "ends">,
  pose: Pose,
): readonly Push[] {
  const deepest = new Map<string, Touch>();
  for (const t of touchesOf(solid, pose, scene, 0)) {
    if (!hosts[t.obstacle] || !(-t.distance > allowed[t.obstacle]! + SEARCH_TOUCH)) continue;
    const [a, b] = ends.map((e) => dist(placed(pose, solid.about, e), t.at));
    const key = `${t.obstacle} ${a! <= b! ? "A" : "B"}`;
    const kept = deepest.get(key);
    if (!kept || t.distance < kept.distance) deepest.set(key, t);
  }
  return [...deepest.values()].map((t) => ({
    id: scene.obstacles[t.obstacle]!.id,
    at: along(t.at, t.normal, -t.distance),
    dir: neg(t.normal),
    by: -t.distance - allowed[t.obstacle]!,
  }));
}
