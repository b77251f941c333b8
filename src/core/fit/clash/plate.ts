import { lerp, type Vec } from "../../space/index.ts";
import { MERE_TOUCH, type Obstacle, rodFromSlab } from "../stuff/index.ts";
import type { Clash } from "./clash.ts";
import type { Metal } from "./metal.ts";

/** Where a bar is in the solid of a plate by more than a touch: the deepest place. An end that is cut to it touches it. */
export function plateClash({ solid }: Metal, o: Obstacle & { readonly kind: "plate" }): readonly Clash[] {
  let best: Clash = { by: MERE_TOUCH, at: o.slab.at };
  const look = (rods: Float64Array, r: number): void => {
    for (let i = 0; i < rods.length; i += 6) {
      const got = rodFromSlab(o.slab, rods, i, r - best.by);
      if (!got) continue;
      const a: Vec = [rods[i]!, rods[i + 1]!, rods[i + 2]!];
      best = { by: r - got.far, at: lerp(a, [rods[i + 3]!, rods[i + 4]!, rods[i + 5]!], got.t) };
    }
  };
  look(solid.core.rods, solid.radius);
  for (const end of solid.ends) look(end.walls, 0);
  return best.by > MERE_TOUCH ? [best] : [];
}
