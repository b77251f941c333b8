import { add, anyPerpendicular, cross, neg, scale, type Vec } from "../../space/index.ts";
import { type Pose, SEAT } from "../scene/index.ts";
import { advance, SEARCH_TOUCH } from "./advance.ts";
import { unitOf, WAYS } from "./directions.ts";
import { type How, type Motion, type MotionTask, onward, overlap, pressed } from "./push.ts";

/** A course to push on in: the coordinate of the small move (shift, turn) that must go forward. */
interface Course {
  readonly g: readonly number[];
  readonly how: How;
}

/** A bar is out of its joints once it is this far from everything (mm). */
const AWAY = 6;

/**
 * The least springing (or gap) with which a locked bar leaves its joints: an upper bound, found by pushing.
 *
 * The bar is pushed on in one coordinate, step by step (turned about each of eight axes square to it and about
 * itself, shifted in eight directions square to it and along it). At every step a linear programme over the other
 * five coordinates, on the touches as they are there, makes the deepest overlap with any host as small as it can be:
 * sequential linear programming of a minimax (J. Hald and K. Madsen, Mathematical Programming 20, 1981, 49-62). What
 * cannot give (other bars, plates, lines) is a fixed bound. The worst step of a push is what it costs; the best push
 * that ends where the bar can be lifted straight away, hosts back in place, is the answer. Better motions may exist.
 */
export function leastSpring(task: MotionTask): Motion | undefined {
  const axis = scale(add(task.ends[1], neg(task.ends[0])), 1);
  const along = unitOf(axis);
  let best: Motion | undefined;
  for (const course of [...tipCourses(task), ...courses(along)]) {
    if (task.stop()) break;
    const limit = Math.min(task.most, best ? best.spring - 1e-4 : task.most);
    const found = follow(task, course, limit);
    if (found && (!best || found.spring < best.spring)) best = found;
    if (best && best.spring <= SEARCH_TOUCH) break;
  }
  return best;
}

function tipCourses(task: MotionTask): readonly Course[] {
  const half = Math.max(20, task.solid.length / 2);
  return task.tips.map((t): Course => {
    const g = [...t.shift, ...scale(t.turn, half)];
    const size = Math.hypot(...g);
    return { g: g.map((k) => k / size), how: "tipped" };
  });
}

function courses(along: Vec): readonly Course[] {
  const e = anyPerpendicular(along);
  const f = cross(along, e);
  const round = Array.from({ length: 8 }, (_, i): Vec => {
    const a = (i * Math.PI) / 4;
    return add(scale(e, Math.cos(a)), scale(f, Math.sin(a)));
  });
  const still = [0, 0, 0];
  return [
    ...round.map((d) => ({ g: [...d, ...still], how: "shifted" as const })),
    ...round.map((d) => ({ g: [...still, ...d], how: "swung" as const })),
    { g: [...along, ...still], how: "pushed" },
    { g: [...neg(along), ...still], how: "pushed" },
    { g: [...still, ...along], how: "turned" },
    { g: [...still, ...neg(along)], how: "turned" },
  ];
}

/** One push to its end; undefined where it jams, costs more than `limit` or leads nowhere. */
function follow(task: MotionTask, course: Course, limit: number): Motion | undefined {
  const { solid } = task;
  const half = Math.max(20, solid.length / 2);
  const step = Math.min(2, Math.max(0.6, half / 200));
  const turning = course.g.slice(3).some((k) => k !== 0);
  const far = turning ? half * 1.1 : 4 * solid.radius + 80;
  let pose = SEAT;
  const poses: Pose[] = [SEAT];
  let spring = 0;
  let worst = SEAT;
  const steps = far / step;
  for (let n = 0; n < steps; n++) {
    if (task.stop()) return undefined;
    const next = onward(task, pose, course.g, step, half, limit);
    if (!next) return undefined;
    pose = next.pose;
    if (next.cost > spring) {
      spring = next.cost;
      worst = pose;
    }
    poses.push(pose);
    if (n % 8 === 7 && overlap(task, pose) <= SEARCH_TOUCH) {
      const out = liftedAway(task, pose);
      const needs = spring > SEARCH_TOUCH;
      if (out) {
        return {
          poses: [...poses, out],
          spring: needs ? spring : 0,
          how: course.how,
          pushes: needs ? pressed(task, worst) : [],
        };
      }
    }
  }
  return undefined;
}

/** From a pose out of the joints a straight lift that gets well away, hosts back in place. */
function liftedAway(task: MotionTask, pose: Pose): Pose | undefined {
  const { solid } = task;
  const far = 4 * solid.radius + 60;
  for (const d of WAYS) {
    const to: Pose = { at: add(pose.at, scale(d, far)), turn: pose.turn };
    const got = advance(task.check, solid.reach, pose, to, {
      keep: -SEARCH_TOUCH,
      step: 0.4,
      asked: { give: task.allowed, cap: 60 },
    });
    // Away, not along: a bar that only runs along its hosts is still between them.
    if (got.reached === 1 && task.check(to, { cap: 2 * AWAY }).least >= AWAY) return to;
  }
  return undefined;
}
