import type { Group } from "three";
import { add, along, cross, scale, sub, type Vec } from "../../core/space/index.ts";

/** A bar away from its seat: turned (unit quaternion x, y, z, w) about `about`, then shifted by `at` (mm, car axes). */
export interface PosedBar {
  readonly id: string;
  readonly at: Vec;
  readonly turn: readonly [number, number, number, number];
  readonly about: Vec;
}

/** A moment of fitting: one bar on its way, and the bars that are not in yet, which are not drawn. */
export interface Staging {
  readonly posed?: PosedBar;
  readonly hidden: ReadonlySet<string>;
}

/** Where a place of the seated bar is on its way. */
export function posedAt({ at, turn, about }: PosedBar, place: Vec): Vec {
  const [x, y, z, w] = turn;
  const v = sub(place, about);
  // v turned by the unit quaternion (q, w) is v + w t + q × t with t = 2 q × v.
  const t = scale(cross([x, y, z], v), 2);
  const turned = add(along(v, t, w), cross([x, y, z], t));
  return add(add(turned, about), at);
}

/** Puts the group of a bar, whose mesh has this origin, where the bar is at this moment. */
export function stageGroup(
  group: Group,
  id: string,
  meshOrigin: Vec,
  viewOrigin: Vec,
  staging: Staging | null,
): void {
  const posed = staging?.posed?.id === id ? staging.posed : undefined;
  const at = sub(posed ? posedAt(posed, meshOrigin) : meshOrigin, viewOrigin);
  group.position.set(at[0], at[1], at[2]);
  group.quaternion.set(...(posed?.turn ?? [0, 0, 0, 1]));
  group.visible = !staging?.hidden.has(id);
}
