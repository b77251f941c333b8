// biome-ignore-all lint/style/noNonNullAssertion: spines have four numbers a place and spreads three, and places are read whole.

import type { TubeMesh } from "../../core/mesh/index.ts";
import { sub, type Vec } from "../../core/space/index.ts";
import type { ViewBar } from "./types.ts";

/** The place of a spine (car axes) whose numbers begin at `i`. */
export const spineAt = ({ spine, origin: o }: Pick<TubeMesh, "spine" | "origin">, i: number): Vec => [
  spine[i]! + o[0],
  spine[i + 1]! + o[1],
  spine[i + 2]! + o[2],
];

/** Places along all of these bars (x, y, z, less the view's origin): how deep the picture is. */
export function spreadOf(bars: readonly ViewBar[], origin: Vec): Float32Array {
  const count = bars.reduce((sum, { mesh }) => sum + mesh.spine.length / 4, 0);
  const out = new Float32Array(3 * count);
  let n = 0;
  for (const { mesh } of bars) {
    const by = sub(mesh.origin, origin);
    for (let i = 0; i < mesh.spine.length; i += 4) {
      for (let k = 0; k < 3; k++) out[n++] = mesh.spine[i + k]! + by[k]!;
    }
  }
  return out;
}

/** How far along a direction (of length 1) the nearest and the farthest of places are. */
export function rangeOf(spread: Float32Array, [x, y, z]: Vec): readonly [number, number] {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < spread.length; i += 3) {
    const d = x * spread[i]! + y * spread[i + 1]! + z * spread[i + 2]!;
    if (d < least) least = d;
    if (d > most) most = d;
  }
  return [least, most];
}
