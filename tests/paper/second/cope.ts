import type { JointOf } from "./joint.ts";
import { leastOf } from "./march.ts";

export interface CopeOf {
  joint: JointOf;
  /** At every half degree. */
  outside: Float64Array;
  boreLine: Float64Array;
  /** Through the wall, the deepest of 9 radii, at line i of the half degrees. */
  square: (i: number) => number;
  least: number;
  leastAt: number;
  greatest: number;
  /** Arcs in degrees. */
  misses: [number, number][];
  bentInJoint: boolean;
}

export const HALF_DEGREES = 720;

export function copeOf(joint: JointOf): CopeOf {
  const outside = new Float64Array(HALF_DEGREES);
  const boreLine = new Float64Array(HALF_DEGREES);
  if (joint.kind === "square")
    return {
      joint,
      outside,
      boreLine,
      square: () => 0,
      least: 0,
      leastAt: 0,
      greatest: 0,
      misses: [],
      bentInJoint: false,
    };
  const { rho, bore, back } = joint;
  const radii = Array.from({ length: 9 }, (_, k) => rho + ((bore - rho) * k) / 8);
  for (let i = 0; i < HALF_DEGREES; i++) {
    outside[i] = back(rho, i / 2);
    boreLine[i] = back(bore, i / 2);
  }
  const square = (i: number): number => {
    let most = Number.NaN;
    for (const r of radii) {
      const b = back(r, i / 2);
      if (!(b <= most) && !Number.isNaN(b)) most = b;
    }
    return most;
  };
  const missing = (phi: number): boolean => Number.isNaN(back(rho, phi)) || Number.isNaN(back(bore, phi));
  let least = Infinity;
  let leastAt = 0;
  let greatest = -Infinity;
  const see = (b: number, phi: number): void => {
    if (b < least) [least, leastAt] = [b, phi];
    if (b > greatest) greatest = b;
  };
  for (const [r, curve] of [
    [rho, outside],
    [bore, boreLine],
  ] as const) {
    const at = (i: number): number => curve[(i + HALF_DEGREES) % HALF_DEGREES]!;
    for (let i = 0; i < HALF_DEGREES; i++) {
      const b = at(i);
      if (Number.isNaN(b)) continue;
      see(b, i / 2);
      for (const side of [-1, 1]) {
        if (!Number.isNaN(at(i + side))) continue;
        // the last line that meets, and the curve's steep fall to it
        let [meets, past] = [i / 2, (i + side) / 2];
        for (let k = 0; k < 26; k++) {
          const m = (meets + past) / 2;
          if (Number.isNaN(back(r, m))) past = m;
          else meets = m;
        }
        see(back(r, meets), meets);
      }
      const f = (phi: number): number => back(r, phi);
      if (b <= at(i - 1) && b <= at(i + 1)) see(f(leastOf(f, i / 2 - 0.5, i / 2 + 0.5)), i / 2);
      if (b >= at(i - 1) && b >= at(i + 1)) see(f(leastOf((x) => -f(x), i / 2 - 0.5, i / 2 + 0.5)), i / 2);
    }
  }
  if (least === Infinity) [least, greatest] = [0, 0];
  return {
    joint,
    outside,
    boreLine,
    square,
    least,
    leastAt: (leastAt + 360) % 360,
    greatest,
    misses: arcsOf((i) => Number.isNaN(outside[i]!) || Number.isNaN(boreLine[i]!), missing),
    bentInJoint: greatest > joint.straight,
  };
}

function arcsOf(misses: (i: number) => boolean, missing: (phi: number) => boolean): [number, number][] {
  const edge = (meets: number, past: number): number => {
    let [a, b] = [meets, past];
    for (let k = 0; k < 26; k++) {
      const m = (a + b) / 2;
      if (missing(m)) b = m;
      else a = m;
    }
    return a;
  };
  const arcs: [number, number][] = [];
  const first = Array.from({ length: HALF_DEGREES }, (_, i) => i).find((i) => !misses(i));
  if (first === undefined) return [[0, 360]];
  let from: number | undefined;
  for (let k = 1; k <= HALF_DEGREES; k++) {
    const i = first + k;
    const now = misses(i % HALF_DEGREES);
    if (now && from === undefined) from = edge((i - 1) / 2, i / 2);
    if (!now && from !== undefined) {
      arcs.push([from % 360, edge(i / 2, (i - 1) / 2) % 360]);
      from = undefined;
    }
  }
  // ascending, one across the zero line first
  return arcs.sort((a, b) => (a[0] > a[1] ? -1 : a[0]) - (b[0] > b[1] ? -1 : b[0]));
}
