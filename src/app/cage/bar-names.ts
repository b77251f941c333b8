import type { TubeMesh } from "../../core/mesh/index.ts";
import { dist, lerp, type Vec } from "../../core/space/index.ts";
import type { Named } from "./names.ts";
import { spineAt } from "./spread.ts";
import type { ViewBar } from "./types.ts";

/** Longest step along a bar where its name may be (mm). */
const STEP = 150;

/** What bars are called in the picture, and the corners of the bar in hand by their numbers. */
export class BarNames {
  /** Of each mesh: an edit leaves most of them as they are. */
  private readonly paths = new WeakMap<TubeMesh, readonly Vec[]>();

  of(bars: readonly ViewBar[], inHand: string | null, hosts: ReadonlySet<string>): Named[] {
    return bars.flatMap((bar): Named[] => {
      const { id, label: says, mesh } = bar;
      const isInHand = id === inHand;
      const named = {
        kind: "bar",
        id,
        says,
        path: this.pathOf(mesh),
        radius: mesh.radius,
        isInHand,
      } as const;
      return [{ ...named, ...(hosts.has(id) ? { isHost: true } : {}) }, ...(isInHand ? cornersOf(bar) : [])];
    });
  }

  private pathOf(mesh: TubeMesh): readonly Vec[] {
    const kept = this.paths.get(mesh) ?? stepped(mesh);
    this.paths.set(mesh, kept);
    return kept;
  }
}

const cornersOf = ({ id, corners }: ViewBar): Named[] =>
  corners.map(({ n, corner }) => ({
    kind: "corner",
    id: `${id} ${n}`,
    says: `${n}`,
    path: [corner],
    radius: 0,
    isInHand: true,
    of: id,
  }));

/** Places along a bar (car axes) in steps short enough that near the eye little of it is lost with one behind it. */
function stepped(mesh: TubeMesh): readonly Vec[] {
  const at = (i: number): Vec => spineAt(mesh, i);
  const out = [at(0)];
  for (let i = 4; i < mesh.spine.length; i += 4) {
    const [from, to] = [at(i - 4), at(i)];
    const parts = Math.max(1, Math.ceil(dist(from, to) / STEP));
    for (let k = 1; k <= parts; k++) out.push(lerp(from, to, k / parts));
  }
  return out;
}
