import { add, angleBetween, neg, type Vec } from "../../space/index.ts";
import { type Pose, SEAT, turned } from "../scene/index.ts";
import { unitOf } from "./directions.ts";
import { type MotionTask, pushed } from "./push.ts";

/** Where an overlong bar first gets between its hosts: how far it is swung, and how far out its far end is then. */
export interface Swung {
  /** Radians off its seat. */
  readonly angle: number;
  /** Length times sine of that (mm). */
  readonly out: number;
}

/**
 * How far off its seat a bar must be swung to get between its hosts at all, where it is too long to seat: swung either
 * way about `axis` (square to the plane of the bar and its hosts) until no overlap is left, the other five coordinates
 * free; the angle between the last two steps is interpolated. An upper bound, as every push is. (Swung out of that
 * plane a bar may come free at less, but beside its hosts, not between them.)
 */
export function swungClear(task: MotionTask, axis: Vec): Swung | undefined {
  const { solid } = task;
  const half = Math.max(20, solid.length / 2);
  const line = unitOf(add(task.ends[1], neg(task.ends[0])));
  const step = Math.min(1, half / 500);
  let least: number | undefined;
  for (const way of [axis, neg(axis)]) {
    if (task.stop()) break;
    const g = [0, 0, 0, ...way];
    let pose = SEAT;
    let before = depth(task, pose);
    const steps = (least ?? 0.6) * half;
    for (let gone = 0; gone < steps; gone += step) {
      const next = pushed(task, pose, g, step, half);
      if (!next) break;
      const now = depth(task, next);
      if (now <= 0) {
        const a =
          swungBy(pose, line) + (swungBy(next, line) - swungBy(pose, line)) * (before / (before - now || 1));
        least = Math.min(least ?? Infinity, a);
        break;
      }
      pose = next;
      before = now;
    }
  }
  return least === undefined ? undefined : { angle: least, out: solid.length * Math.sin(least) };
}

const swungBy = (pose: Pose, line: Vec): number => angleBetween(line, turned(pose.turn, line));

/** How deep the bar is in anything (mm; negative: how far off). */
const depth = (task: MotionTask, pose: Pose): number =>
  -task.check(pose, { give: task.allowed, cap: 5 }).least;
