// biome-ignore-all lint/style/noNonNullAssertion: indices hold three vertices a triangle, and positions three numbers a vertex, as every mesh here is made.
import type { Vec } from "../space/index.ts";
import type { Mesh } from "./mesh.ts";

/**
 * Where a plane square to a car axis cuts a mesh: segments as in `edges`, less the mesh's origin (mm). `at` is in car
 * axes. A triangle that lies in the plane or only touches it with a corner gives none; its neighbours do.
 */
export function sectionOf(mesh: Mesh, axis: 0 | 1 | 2, at: number): Float32Array {
  const { positions: p, indices } = mesh;
  const level = at - mesh.origin[axis];
  const out: number[] = [];
  for (let t = 0; t < indices.length; t += 3) {
    const [i, j, k] = [indices[t]!, indices[t + 1]!, indices[t + 2]!];
    const [a, b, c] = [p[3 * i + axis]! - level, p[3 * j + axis]! - level, p[3 * k + axis]! - level];
    if (a >= 0 === b >= 0 && b >= 0 === c >= 0) continue;
    // Two of its edges cross the plane.
    if (a >= 0 !== b >= 0) out.push(...crossing(p, i, j, a / (a - b)));
    if (b >= 0 !== c >= 0) out.push(...crossing(p, j, k, b / (b - c)));
    if (c >= 0 !== a >= 0) out.push(...crossing(p, k, i, c / (c - a)));
  }
  return Float32Array.from(out);
}

const crossing = (p: Float32Array, i: number, j: number, t: number): Vec => [
  p[3 * i]! + t * (p[3 * j]! - p[3 * i]!),
  p[3 * i + 1]! + t * (p[3 * j + 1]! - p[3 * i + 1]!),
  p[3 * i + 2]! + t * (p[3 * j + 2]! - p[3 * i + 2]!),
];
