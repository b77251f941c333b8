import { add, cross, scale, sub, type Vec } from "../../space/index.ts";

/** A turn as a unit quaternion [x, y, z, w]. */
export type Quat = readonly [number, number, number, number];

/**
 * Where a bar is, told from its seat: first turned about its own A landing, then shifted by `at` (mm). The seat
 * itself is { at: [0, 0, 0], turn: [0, 0, 0, 1] }.
 */
export interface Pose {
  readonly at: Vec;
  readonly turn: Quat;
}

export const NO_TURN: Quat = [0, 0, 0, 1];
export const SEAT: Pose = { at: [0, 0, 0], turn: NO_TURN };

/** The turn by `angle` (radians, right-handed) about the direction k (length 1). */
export function quat(k: Vec, angle: number): Quat {
  const s = Math.sin(angle / 2);
  return [k[0] * s, k[1] * s, k[2] * s, Math.cos(angle / 2)];
}

/** The turn by a vector: its direction the axis, its length the angle (radians). */
export function quatOf(w: Vec): Quat {
  const angle = Math.hypot(w[0], w[1], w[2]);
  return angle < 1e-15 ? NO_TURN : quat(scale(w, 1 / angle), angle);
}

/** First b, then a. */
export const compose = (a: Quat, b: Quat): Quat =>
  unitQuat([
    a[3] * b[0] + a[0] * b[3] + a[1] * b[2] - a[2] * b[1],
    a[3] * b[1] - a[0] * b[2] + a[1] * b[3] + a[2] * b[0],
    a[3] * b[2] + a[0] * b[1] - a[1] * b[0] + a[2] * b[3],
    a[3] * b[3] - a[0] * b[0] - a[1] * b[1] - a[2] * b[2],
  ]);

export function unitQuat(q: Quat): Quat {
  const l = Math.hypot(q[0], q[1], q[2], q[3]);
  return [q[0] / l, q[1] / l, q[2] / l, q[3] / l];
}

export function turned(q: Quat, v: Vec): Vec {
  const u: Vec = [q[0], q[1], q[2]];
  const t = scale(cross(u, v), 2);
  return add(add(v, scale(t, q[3])), cross(u, t));
}

/** Where a place of the seated bar is at a pose; `about` is the bar's A landing. */
export const placed = (pose: Pose, about: Vec, p: Vec): Vec =>
  add(add(turned(pose.turn, sub(p, about)), about), pose.at);

/** `placed` for many places at one pose: the turn as a matrix. */
export function placer(pose: Pose, about: Vec): (p: Vec) => Vec {
  const x = turned(pose.turn, [1, 0, 0]);
  const y = turned(pose.turn, [0, 1, 0]);
  const z = turned(pose.turn, [0, 0, 1]);
  const [ox, oy, oz] = sub(add(about, pose.at), turned(pose.turn, about));
  return (p) => [
    x[0] * p[0] + y[0] * p[1] + z[0] * p[2] + ox,
    x[1] * p[0] + y[1] * p[1] + z[1] * p[2] + oy,
    x[2] * p[0] + y[2] * p[1] + z[2] * p[2] + oz,
  ];
}

/** The angle between two turns (radians, 0 to π). */
export function turnAngle(a: Quat, b: Quat): number {
  const d = Math.abs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3]);
  const e = Math.hypot(
    ...([0, 1, 2, 3] as const).map(
      (i) => a[i] - Math.sign(a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3] || 1) * b[i],
    ),
  );
  return 2 * 2 * Math.atan2(e / 2, Math.sqrt(Math.max(0, (1 + d) / 2)));
}

/** Between two poses: the shift in a straight line, the turn the short way round at an even rate (slerp). */
export function interpolate(a: Pose, b: Pose, t: number): Pose {
  const at: Vec = [
    a.at[0] + (b.at[0] - a.at[0]) * t,
    a.at[1] + (b.at[1] - a.at[1]) * t,
    a.at[2] + (b.at[2] - a.at[2]) * t,
  ];
  return { at, turn: slerp(a.turn, b.turn, t) };
}

/** Even turning between two turns, the short way round (K. Shoemake, SIGGRAPH 1985). */
export function slerp(a: Quat, b: Quat, t: number): Quat {
  let d = a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3];
  const sign = d < 0 ? -1 : 1;
  d *= sign;
  const half = turnAngle(a, b) / 2;
  const s = Math.sin(half);
  const [p, q] = s < 1e-9 ? [1 - t, t] : [Math.sin((1 - t) * half) / s, Math.sin(t * half) / s];
  return unitQuat([
    p * a[0] + sign * q * b[0],
    p * a[1] + sign * q * b[1],
    p * a[2] + sign * q * b[2],
    p * a[3] + sign * q * b[3],
  ]);
}

/** The pose moved on by a small twist: turn by w (radians) about the place c of the car, then shift by v (mm). */
export function moved(pose: Pose, about: Vec, v: Vec, w: Vec, c: Vec): Pose {
  const q = quatOf(w);
  // The A landing goes from `about + at` to c + q(about + at − c) + v.
  const now = add(about, pose.at);
  const next = add(add(c, turned(q, sub(now, c))), v);
  return { at: sub(next, about), turn: compose(q, pose.turn) };
}
