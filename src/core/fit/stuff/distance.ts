import type { Vec } from "../../space/index.ts";
import { placeRod, rodRod } from "./chain.ts";
import { type Facet, height, type Obstacle, over } from "./scene.ts";
import { farFromSlab, slabRods } from "./slab.ts";

/** Least distance of rods of radius r to one obstacle, `bound` where it is no less (mm). */
export function rodsTo(o: Obstacle, rods: Float64Array, r: number, bound: number): number {
  let best = bound;
  if (o.kind === "floor") return Math.min(best, lowest(rods) - r - o.z);
  if (o.kind === "plate") return slabRods(o.slab, rods, r, best);
  if (o.kind === "panel") {
    for (const f of o.facets) best = Math.min(best, facetRods(f, rods, r, best));
    return best;
  }
  const { chain } = o;
  const radii = r + chain.radius;
  for (let i = 0; i < rods.length; i += 6) {
    for (const other of chain.runs) {
      const [x, y, z] = other.centre;
      if (other.first !== other.last && Math.sqrt(placeRod(x, y, z, rods, i)) - other.reach - radii >= best)
        continue;
      for (let j = other.first; j <= other.last; j++) {
        const d = Math.sqrt(rodRod(rods, i, chain.rods, 6 * j)) - radii;
        if (d < best) best = d;
      }
    }
  }
  return best;
}

/** Whether nothing of an obstacle is nearer than `best` to a sphere. */
export function tooFar(o: Obstacle, centre: Vec, reach: number, best: number): boolean {
  const [x, y, z] = centre;
  if (o.kind === "floor") return z - reach - o.z >= best;
  if (o.kind === "plate") return farFromSlab(o.slab, x, y, z) - reach >= best;
  if (o.kind === "panel") {
    return o.facets.every(
      (f) => Math.hypot(x - f.centre[0], y - f.centre[1], z - f.centre[2]) - reach - f.reach >= best,
    );
  }
  const { chain } = o;
  for (let j = 0; j < chain.rods.length; j += 6) {
    if (Math.sqrt(placeRod(x, y, z, chain.rods, j)) - reach - chain.radius < best) return false;
  }
  return true;
}

/** The least height of rods or places. */
export function lowest(rods: Float64Array): number {
  let z = Infinity;
  for (let i = 2; i < rods.length; i += 3) if (rods[i]! < z) z = rods[i]!;
  return z;
}

/** Least distance of rods of radius r to a facet; where a rod crosses it, minus r. */
export function facetRods(f: Facet, rods: Float64Array, r: number, bound: number): number {
  let best = bound;
  const [cx, cy, cz] = f.centre;
  for (let i = 0; i < rods.length; i += 6) {
    if (Math.sqrt(placeRod(cx, cy, cz, rods, i)) - f.reach - r >= best) continue;
    const h1 = height(f, rods[i]!, rods[i + 1]!, rods[i + 2]!);
    const h2 = height(f, rods[i + 3]!, rods[i + 4]!, rods[i + 5]!);
    if (h1 * h2 <= 0 && h1 !== h2) {
      const t = h1 / (h1 - h2);
      const x = rods[i]! + t * (rods[i + 3]! - rods[i]!);
      const y = rods[i + 1]! + t * (rods[i + 4]! - rods[i + 1]!);
      const z = rods[i + 2]! + t * (rods[i + 5]! - rods[i + 2]!);
      if (over(f, x, y, z)) return -r;
    }
    if (Math.abs(h1) - r < best && over(f, rods[i]!, rods[i + 1]!, rods[i + 2]!)) best = Math.abs(h1) - r;
    if (Math.abs(h2) - r < best && over(f, rods[i + 3]!, rods[i + 4]!, rods[i + 5]!)) best = Math.abs(h2) - r;
    for (let e = 0; e < f.edges.length; e += 6) {
      const d = Math.sqrt(rodRod(rods, i, f.edges, e)) - r;
      if (d < best) best = d;
    }
  }
  return best;
}
