// biome-ignore-all lint/style/noNonNullAssertion: indices are held between the first and the last pose.
import { add, neg, scale } from "../../space/index.ts";
import { compose, interpolate, type Pose, placed, type Quat } from "../scene/index.ts";
import { type MotionTask, relaxed } from "./push.ts";
import type { Swept } from "./sweep.ts";

/** A pose may be moved by so much at a time (mm of the bar's ends). */
const TRUST = 0.3;
/** Sweeps that one way is worth. */
const ROUNDS = 4;
/** A round that takes away less than this share of what is too much is the last. */
const GAIN = 0.2;

/**
 * A way that touches, moved aside where it does: at the worst place of every move that overlaps by more than is allowed
 * a pose is put in, and it and the poses before and after it are moved off what they touch (`relaxed`); then all is
 * swept again. The first and the last pose stay. The best way met, with its sweep; never worse than the one given.
 */
export function nudged(
  task: Omit<MotionTask, "hosts">,
  poses: readonly Pose[],
  sweep: (poses: readonly Pose[]) => Swept,
  enough: number,
): { readonly poses: readonly Pose[]; readonly swept: Swept } {
  let best = { poses, swept: sweep(poses) };
  for (let round = 0; round < ROUNDS && best.swept.overlap > enough && !task.stop(); round++) {
    const next = aside(task, best.poses, best.swept.spots);
    const swept = sweep(next);
    const gain = best.swept.overlap - swept.overlap;
    const isLast = gain < GAIN * (best.swept.overlap - enough);
    if (gain > 0) best = { poses: next, swept };
    if (isLast) break;
  }
  return best;
}

function aside(
  task: Omit<MotionTask, "hosts">,
  poses: readonly Pose[],
  spots: Swept["spots"],
): readonly Pose[] {
  const half = Math.max(20, task.solid.length / 2);
  const at = new Map(spots.map((s) => [s.move, s.t]));
  const out: Pose[] = [];
  poses.forEach((pose, i) => {
    const touches = at.has(i) || at.has(i - 1);
    const isFixed = i === 0 || i === poses.length - 1;
    const a = poses[Math.max(0, i - 1)]!;
    const b = poses[Math.min(poses.length - 1, i + 1)]!;
    out.push(
      touches && !isFixed ? (relaxed(task, pose, course(task, a, b, half), half, TRUST) ?? pose) : pose,
    );
    const t = at.get(i);
    // Between the ends of the move, so that no move gets too short to be one.
    if (t === undefined) return;
    const put = interpolate(pose, b, Math.min(0.9, Math.max(0.1, t)));
    out.push(relaxed(task, put, course(task, pose, b, half), half, TRUST) ?? put);
  });
  return out;
}

/** The way from one pose to the next as a small move (shift of the bar's middle, turn times `half`), length 1. */
function course(
  { solid, ends }: Omit<MotionTask, "hosts">,
  a: Pose,
  b: Pose,
  half: number,
): readonly number[] {
  const middle = scale(add(...ends), 0.5);
  const [p, q] = [placed(a, solid.about, middle), placed(b, solid.about, middle)];
  const back: Quat = [...neg([a.turn[0], a.turn[1], a.turn[2]]), a.turn[3]];
  const [x, y, z, w] = compose(b.turn, back);
  const sine = Math.hypot(x, y, z);
  const angle = 2 * Math.atan2(sine, w);
  const turn = sine < 1e-12 ? 0 : ((angle > Math.PI ? angle - 2 * Math.PI : angle) * half) / sine;
  const g = [q[0] - p[0], q[1] - p[1], q[2] - p[2], x * turn, y * turn, z * turn];
  const size = Math.hypot(...g);
  return size < 1e-9 ? g.map(() => 0) : g.map((v) => v / size);
}
