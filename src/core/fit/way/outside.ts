import { add, scale, type Vec } from "../../space/index.ts";
import {
  apart,
  type Box,
  boxOf,
  obstacleBox,
  type Pose,
  type Scene,
  SEAT,
  type Solid,
  solidBox,
  union,
} from "../scene/index.ts";

/** Where a bar must get to: its own length away from everything that stands. */
export interface Outside {
  readonly boxes: readonly Box[];
  readonly away: number;
  readonly room: Box;
}

/** Farther than asked by so much (mm), so that however a box is drawn round a bent or mitred bar, it is outside. */
const MARGIN = 60;

/** What counts as outside: from every tacked bar, panel and line the bar's own length; else from its own seat. */
export function outsideOf(solid: Solid, scene: Scene): Outside {
  const found = scene.obstacles.flatMap((o) => (o.kind === "plate" ? [] : (obstacleBox(o) ?? [])));
  const boxes = found.length > 0 ? found : [solidBox(solid, SEAT)];
  const all = union([...boxes, solidBox(solid, SEAT)]);
  const away = solid.length + MARGIN + 4 * solid.radius;
  const margin = away * 0.6 + 300;
  return { boxes, away, room: boxOf([all.lo, all.hi], margin) };
}

export const isOutside = (solid: Solid, outside: Outside, pose: Pose): boolean => {
  const own = solidBox(solid, pose);
  return outside.boxes.every((b) => apart(own, b) >= outside.away);
};

/** How far to go in a direction to be outside (mm): the greatest distance that any box may ask for. */
export function farIn(solid: Solid, outside: Outside, pose: Pose, d: Vec): number {
  let lo = 0;
  let hi = 100;
  const at = (t: number): Pose => ({ at: add(pose.at, scale(d, t)), turn: pose.turn });
  while (!isOutside(solid, outside, at(hi)) && hi < 1e5) hi *= 1.5;
  for (let i = 0; i < 20; i++) {
    const m = (lo + hi) / 2;
    if (isOutside(solid, outside, at(m))) hi = m;
    else lo = m;
  }
  return hi + 1;
}
