// biome-ignore-all lint/style/noNonNullAssertion: a spine has four numbers a place and two places at least.
import { BufferAttribute, BufferGeometry, Points } from "three";
import { hasReached, type Progress } from "../../core/job/index.ts";
import type { TubeMesh } from "../../core/mesh/index.ts";
import { dist, lerp, sub, type Vec } from "../../core/space/index.ts";
import type { Materials } from "./materials.ts";
import { spineAt } from "./spread.ts";
import type { ViewBar } from "./types.ts";

/** How a mark where a bar ends is filled. */
const FILLED = { ring: 0, half: 1, full: 2 } as const;

/** A mark lies this far back from the end, and is seen as if so far toward the eye, in radii: clear of the host's wall. */
const BACK = 0.7;
const LIFT = 1.4;

/** A ring while a bar is laid out, half filled from the saw on, full once it is tacked or welded. */
const markOf = (progress: Progress): keyof typeof FILLED =>
  progress === "laid out" ? "ring" : hasReached(progress, "tacked") ? "full" : "half";

/** The marks where bars end: all in one call, for a job of some hundred bars has twice as many. */
export class EndMarks {
  readonly object: Points;

  constructor(materials: Materials) {
    this.object = new Points(new BufferGeometry(), materials.ends());
    this.object.frustumCulled = false;
    this.object.renderOrder = 1;
  }

  set(bars: readonly ViewBar[], inHand: string | null, origin: Vec): void {
    const { geometry } = this.object;
    const count = 2 * bars.length;
    const position = new Float32Array(3 * count);
    const how = new Float32Array(count);
    const lift = new Float32Array(count);
    bars.forEach(({ id, mesh, progress }, i) => {
      const mark = FILLED[markOf(progress)] + (id === inHand ? 3 : 0);
      endsOf(mesh).forEach((place, end) => {
        const n = 2 * i + end;
        position.set(sub(place, origin), 3 * n);
        how[n] = mark;
        lift[n] = LIFT * mesh.radius;
      });
    });
    geometry.setAttribute("position", new BufferAttribute(position, 3));
    geometry.setAttribute("how", new BufferAttribute(how, 1));
    geometry.setAttribute("lift", new BufferAttribute(lift, 1));
    geometry.setDrawRange(0, count);
    this.object.visible = count > 0;
  }

  dispose(): void {
    this.object.geometry.dispose();
  }
}

/** Where a bar's marks are: on its centreline, a little way from its ends, at most half way to where it bends (car axes). */
export function endsOf(mesh: TubeMesh): readonly Vec[] {
  const { radius } = mesh;
  const last = mesh.spine.length - 4;
  const at = (i: number): Vec => spineAt(mesh, i);
  return [
    [at(0), at(4)],
    [at(last), at(last - 4)],
  ].map(([end, next]) =>
    lerp(end!, next!, Math.min(0.5, (BACK * radius) / Math.max(dist(end!, next!), 1e-6))),
  );
}
