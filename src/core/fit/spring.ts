import { add, between as angleOf, anySquare, cross, lerp, neg, scale, type Vec } from "../space/index.ts";
import { advance, SEARCH_TOUCH } from "./advance.ts";
import type { Checker } from "./clearance.ts";
import { maximise } from "./lp.ts";
import type { Twist } from "./mobility.ts";
import { between, moved, type Pose, placed, SEAT, turned } from "./pose.ts";
import type { Scene } from "./scene.ts";
import type { Solid } from "./solid.ts";
import { opening, touchesOf } from "./touches.ts";

/** A motion out of the joints, from the seat on. */
export interface Leave {
  readonly poses: readonly Pose[];
  /** How far each host must give, at most (mm a side); 0 where none must. */
  readonly spring: number;
  /** In words, what kind of motion. */
  readonly how: string;
}

export interface LeaveTask {
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

/** A push: the coordinate of the small move (shift, turn) that must go forward. */
interface Push {
  readonly g: readonly number[];
  readonly how: string;
}

/** A bar is out of its joints once it is this far from everything (mm). */
const AWAY = 6;

/** Kept from what is no host, where there is room (mm). */
const KEEP_OFF = 0.5;

/** Touches farther off than this do not matter in one step (mm). */
const NEAR = 1.5;

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
export function leastSpring(task: LeaveTask): Leave | undefined {
  const axis = scale(add(task.ends[1], neg(task.ends[0])), 1);
  const along = unitOf(axis);
  let best: Leave | undefined;
  for (const push of [...tipPushes(task), ...pushes(along)]) {
    if (task.stop()) break;
    const limit = Math.min(task.most, best ? best.spring - 1e-4 : task.most);
    const found = follow(task, push, limit);
    if (found && (!best || found.spring < best.spring)) best = found;
    if (best && best.spring <= SEARCH_TOUCH) break;
  }
  return best;
}

const unitOf = (v: Vec): Vec => scale(v, 1 / Math.hypot(v[0], v[1], v[2]));

function tipPushes(task: LeaveTask): readonly Push[] {
  const half = Math.max(20, task.solid.length / 2);
  return task.tips.map((t) => {
    const g = [...t.shift, ...scale(t.turn, half)];
    const size = Math.hypot(...g);
    return { g: g.map((k) => k / size), how: "tipped out" };
  });
}

function pushes(along: Vec): readonly Push[] {
  const e = anySquare(along);
  const f = cross(along, e);
  const round = Array.from({ length: 8 }, (_, i): Vec => {
    const a = (i * Math.PI) / 4;
    return add(scale(e, Math.cos(a)), scale(f, Math.sin(a)));
  });
  const still = [0, 0, 0];
  return [
    ...round.map((d) => ({ g: [...d, ...still], how: "shifted sideways" })),
    ...round.map((d) => ({ g: [...still, ...d], how: "swung round one end" })),
    { g: [...along, ...still], how: "pushed along" },
    { g: [...neg(along), ...still], how: "pushed along" },
    { g: [...still, ...along], how: "rolled" },
    { g: [...still, ...neg(along)], how: "rolled" },
  ];
}

/** One push to its end; undefined where it jams, costs more than `limit` or leads nowhere. */
function follow(task: LeaveTask, push: Push, limit: number): Leave | undefined {
  const { solid } = task;
  const half = Math.max(20, solid.length / 2);
  const step = Math.min(2, Math.max(0.6, half / 200));
  const turning = push.g.slice(3).some((k) => k !== 0);
  const far = turning ? half * 1.1 : 4 * solid.radius + 80;
  let pose = SEAT;
  const poses: Pose[] = [SEAT];
  let spring = 0;
  const steps = far / step;
  for (let n = 0; n < steps; n++) {
    if (task.stop()) return undefined;
    const next = onward(task, pose, push.g, step, half, limit);
    if (!next) return undefined;
    const { cost } = next;
    spring = Math.max(spring, cost);
    pose = next.pose;
    poses.push(pose);
    if (n % 8 === 7 && overlap(task, pose) <= SEARCH_TOUCH) {
      const out = liftedAway(task, pose);
      if (out) return { poses: [...poses, out], spring: spring <= SEARCH_TOUCH ? 0 : spring, how: push.how };
    }
  }
  return undefined;
}

/** How deep the bar is in any host (mm, 0 where it is in none); Infinity where it is in something else. */
function overlap(task: LeaveTask, pose: Pose): number {
  const give = task.allowed.map((a, k) => a + (task.hosts[k] ? 1e3 : 0));
  const others = task.check(pose, { give, cap: 1 });
  if (others.least < -SEARCH_TOUCH) return Infinity;
  const got = task.check(pose, { give: task.allowed, cap: 1 });
  return Math.max(0, -got.least);
}

/** One step on and what it costs; where a whole step runs into something fixed, a shorter one. */
function onward(
  task: LeaveTask,
  pose: Pose,
  g: readonly number[],
  step: number,
  half: number,
  limit: number,
): { readonly pose: Pose; readonly cost: number } | undefined {
  for (const part of [1, 0.3, 0.1]) {
    const next = pushed(task, pose, g, step * part, half);
    if (!next) continue;
    const cost = Math.max(overlap(task, between(pose, next, 0.5)), overlap(task, next));
    if (cost <= limit) return { pose: next, cost };
    if (cost < Infinity) return undefined;
  }
  return undefined;
}

/** The pose one step on that overlaps its hosts least, to first order, put right by a second look. */
function pushed(
  task: LeaveTask,
  pose: Pose,
  g: readonly number[],
  step: number,
  half: number,
): Pose | undefined {
  const first = descend(task, pose, g, step, half, 2 * step);
  return first && (descend(task, first, g, 0, half, step) ?? first);
}

function descend(
  task: LeaveTask,
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

/** Where an overlong bar first gets between its hosts: how far it is swung, and how far out its far end is then. */
export interface Stands {
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
export function standsAt(task: LeaveTask, axis: Vec): Stands | undefined {
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

const swungBy = (pose: Pose, line: Vec): number => angleOf(line, turned(pose.turn, line));

/** How deep the bar is in anything (mm; negative: how far off). */
const depth = (task: LeaveTask, pose: Pose): number =>
  -task.check(pose, { give: task.allowed, cap: 5 }).least;

/** From a pose out of the joints a straight lift that gets well away, hosts back in place. */
function liftedAway(task: LeaveTask, pose: Pose): Pose | undefined {
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

/** The 26 directions of a cube's faces, edges and corners (length 1). */
export const WAYS: readonly Vec[] = [0, 1, 2].flatMap((rank) =>
  [-1, 0, 1].flatMap((x) =>
    [-1, 0, 1].flatMap((y) =>
      [-1, 0, 1].flatMap((z): Vec[] => {
        const n = Math.abs(x) + Math.abs(y) + Math.abs(z);
        return n === rank + 1 ? [unitOf([x, y, z])] : [];
      }),
    ),
  ),
);
