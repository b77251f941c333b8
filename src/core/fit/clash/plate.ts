// biome-ignore-all lint/style/noNonNullAssertion: segments have six numbers each, and loops step by six below their length.
import { lerp, type Vec } from "../../space/index.ts";
import { MERE_TOUCH, type Obstacle, segmentFromSlab } from "../scene/index.ts";
import type { Clash } from "./clash.ts";
import type { Metal } from "./metal.ts";

/** Where a bar is in the solid of a plate by more than a touch: the deepest place. An end that is cut to it touches it. */
export function plateClash({ solid }: Metal, o: Obstacle & { readonly kind: "plate" }): readonly Clash[] {
  let best: Clash = { by: MERE_TOUCH, at: o.slab.at };
  const look = (segments: Float64Array, r: number): void => {
    for (let i = 0; i < segments.length; i += 6) {
      const got = segmentFromSlab(o.slab, segments, i, r - best.by);
      if (!got) continue;
      const a: Vec = [segments[i]!, segments[i + 1]!, segments[i + 2]!];
      best = { by: r - got.far, at: lerp(a, [segments[i + 3]!, segments[i + 4]!, segments[i + 5]!], got.t) };
    }
  };
  look(solid.core.segments, solid.radius);
  for (const end of solid.ends) look(end.walls, 0);
  return best.by > MERE_TOUCH ? [best] : [];
}
