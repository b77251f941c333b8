import type { ResolvedBar } from "../../layout/types.ts";
import { halfExtent } from "../../tube/index.ts";
import { capsulesOf } from "./capsules.ts";
import type { Obstacle } from "./scene.ts";

/** A tacked bar as it stands in the way. Its ends are taken on to where its centreline lands, inside its hosts. */
export const standing = (bar: ResolvedBar): Obstacle => ({
  id: bar.id,
  kind: "bar",
  capsules: capsulesOf(bar.centreline, 0, bar.centreline.length, halfExtent(bar.tube)),
});
