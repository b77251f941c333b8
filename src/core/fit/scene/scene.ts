// biome-ignore-all lint/style/noNonNullAssertion: a facet has three corners at least, and six numbers of edge and three of inward for each.
import { cross, dist, dot, len, scale, sub, type Vec } from "../../space/index.ts";
import { boundingSphere, type Capsules } from "./capsules.ts";
import type { Slab } from "./slab.ts";

/** A flat piece of something that blocks: a convex polygon without thickness. */
export interface Facet {
  readonly at: Vec;
  readonly normal: Vec;
  /** Its edges as segments, six numbers each, in order. */
  readonly edges: Float64Array;
  /** Square to each edge in the plane, toward the inside, three numbers each. */
  readonly inward: Float64Array;
  readonly centre: Vec;
  readonly reach: number;
}

/** Something that a bar must not run into. */
export type Obstacle = { readonly id: string } & (
  | { readonly kind: "bar" | "line" | "driver"; readonly capsules: Capsules }
  | { readonly kind: "panel"; readonly facets: readonly Facet[] }
  | { readonly kind: "plate"; readonly slab: Slab }
  /** The floor: nothing goes below this height. */
  | { readonly kind: "floor"; readonly z: number }
);

export interface Scene {
  readonly obstacles: readonly Obstacle[];
}

/** A convex polygon from its corners in order; undefined where they span no area. */
export function facet(corners: readonly Vec[]): Facet | undefined {
  const at = corners[0]!;
  let normal: Vec = [0, 0, 0];
  for (let i = 1; i + 1 < corners.length; i++) {
    const n = cross(sub(corners[i]!, at), sub(corners[i + 1]!, at));
    normal = [normal[0] + n[0], normal[1] + n[1], normal[2] + n[2]];
  }
  const size = len(normal);
  if (!(size > 1e-6)) return undefined;
  normal = scale(normal, 1 / size);
  const edges: number[] = [];
  const inward: number[] = [];
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length]!;
    if (dist(p, q) < 1e-9) return;
    edges.push(...p, ...q);
    inward.push(...cross(normal, sub(q, p)));
  });
  return {
    at,
    normal,
    edges: Float64Array.from(edges),
    inward: Float64Array.from(inward),
    ...boundingSphere(corners),
  };
}

/** Whether the foot of a place on the facet's plane lies on the facet. */
export function over(f: Facet, x: number, y: number, z: number): boolean {
  const { edges, inward } = f;
  for (let i = 0, k = 0; k < inward.length; i += 6, k += 3) {
    if (
      (x - edges[i]!) * inward[k]! +
        (y - edges[i + 1]!) * inward[k + 1]! +
        (z - edges[i + 2]!) * inward[k + 2]! <
      0
    )
      return false;
  }
  return true;
}

/** Height of a place over the facet's plane, on the side of its normal. */
export const height = (f: Facet, x: number, y: number, z: number): number =>
  dot([x - f.at[0], y - f.at[1], z - f.at[2]], f.normal);
