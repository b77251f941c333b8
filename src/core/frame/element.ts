// biome-ignore-all lint/style/noNonNullAssertion: k, half and out are 12 by 12, i and j below 12, and axes three vectors of three, indexed by m, j − block and i − block below 3
import { anyPerpendicular, cross, dist, sub, unit, type Vec } from "../space/index.ts";
import type { Stiffness } from "./types.ts";

/**
 * Stiffness of one straight member by Euler and Bernoulli's beam: 12 by 12, row by row, in car axes; the unknowns are
 * shift and turn of its first end, then of its second (mm, radians; N, N mm). Slender members: no shear deformation,
 * which for a tube ten diameters long is below 1 %. (J. S. Przemieniecki, Theory of Matrix Structural Analysis, 1968,
 * section 5.6, from memory.)
 */
export function stiffnessOf(from: Vec, to: Vec, { axial, bending, torsion }: Stiffness): Float64Array {
  const l = dist(from, to);
  const x = unit(sub(to, from));
  const y = anyPerpendicular(x);
  const z = cross(x, y);
  const k = new Float64Array(144);
  const a = axial / l;
  const t = torsion / l;
  const [b12, b6, b4, b2] = [
    (12 * bending) / l ** 3,
    (6 * bending) / l ** 2,
    (4 * bending) / l,
    (2 * bending) / l,
  ];
  // Own axes first: x along, then y and z, shifts and turns.
  const set = (i: number, j: number, v: number): void => {
    k[12 * i + j] = v;
    k[12 * j + i] = v;
  };
  set(0, 0, a);
  set(6, 6, a);
  set(0, 6, -a);
  set(3, 3, t);
  set(9, 9, t);
  set(3, 9, -t);
  // Bending in the plane x–y turns about z; in the plane x–z about −y.
  for (const [v, w, sign] of [
    [1, 5, 1],
    [2, 4, -1],
  ] as const) {
    set(v, v, b12);
    set(v + 6, v + 6, b12);
    set(v, v + 6, -b12);
    set(v, w, sign * b6);
    set(v, w + 6, sign * b6);
    set(v + 6, w, -sign * b6);
    set(v + 6, w + 6, -sign * b6);
    set(w, w, b4);
    set(w + 6, w + 6, b4);
    set(w, w + 6, b2);
  }
  return inCarAxes(k, [x, y, z]);
}

/** TᵀkT with the member's axes as rows of each 3 by 3 block of T. */
function inCarAxes(k: Float64Array, axes: readonly [Vec, Vec, Vec]): Float64Array {
  const half = new Float64Array(144);
  const out = new Float64Array(144);
  for (let i = 0; i < 12; i++) {
    for (let j = 0; j < 12; j++) {
      const block = 3 * Math.floor(j / 3);
      let sum = 0;
      for (let m = 0; m < 3; m++) sum += k[12 * i + block + m]! * axes[m]![j - block]!;
      half[12 * i + j] = sum;
    }
  }
  for (let i = 0; i < 12; i++) {
    const block = 3 * Math.floor(i / 3);
    for (let j = 0; j < 12; j++) {
      let sum = 0;
      for (let m = 0; m < 3; m++) sum += axes[m]![i - block]! * half[12 * (block + m) + j]!;
      out[12 * i + j] = sum;
    }
  }
  return out;
}

/** A member so stiff that it stands for a solid block beside others of stiffness `of`. */
export const rigidBeside = ({ axial, bending, torsion }: Stiffness): Stiffness => ({
  axial: axial * 1e3,
  bending: bending * 1e3,
  torsion: torsion * 1e3,
});
