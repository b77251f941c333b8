import type { JointOf } from "./joint.ts";
import type { Laid } from "./layout.ts";
import type { Line } from "./line.ts";
import type { Solid } from "./solids.ts";

/**
 * The joint: the unbroken stretch of rings that meet the solid, that which holds or lies nearest b = 0; lines start
 * half way through the clear stretch beyond it, one OD farther in at most.
 */
export function stretchOf(laid: Laid, at: JointOf["at"], solid: Solid, until: number, rho: number) {
  const { length } = laid.line;
  const step = 1;
  const meets = (b: number): boolean => {
    if (solid(at(b, 0, 0)) > rho + 0.001) return false;
    for (const r of [rho, rho - laid.tube.wall])
      for (let phi = 0; phi < 360; phi += 4) if (solid(at(b, r, phi)) <= 0.001) return true;
    return false;
  };
  const runs: [number, number][] = [];
  for (let b = until; b <= length; b += step) {
    const clear = solid(at(b, 0, 0)) - rho - 0.001;
    if (clear > 3 * step) {
      b += Math.floor(clear / step - 1) * step;
      continue;
    }
    if (!meets(b)) continue;
    const last = runs[runs.length - 1];
    if (last && b - last[1] < 1.5 * step) last[1] = b;
    else runs.push([b, b]);
  }
  const miss = ([a, b]: [number, number]): number => Math.max(0, a, -b);
  const own = runs.reduce<[number, number] | undefined>(
    (p, q) => (!p || miss(q) < miss(p) ? q : p),
    undefined,
  );
  if (!own) return { low: 0, high: 0, from: Math.min(2 * rho, length) };
  const next = runs.find((r) => r[0] > own[1]);
  const clear = (next?.[0] ?? length) - own[1];
  return { low: own[0], high: own[1], from: own[1] + Math.min(clear / 2, 2 * rho) };
}

export function marcher(
  line: Line,
  at: JointOf["at"],
  solid: Solid,
  from: number,
  until: number,
): JointOf["back"] {
  return (rho, phi) => {
    const clear = (b: number): number => solid(at(b, rho, phi));
    const speed = line.bends.length > 0 ? 1 + rho / line.clr : 1;
    let b = from;
    while (b > until) {
      const d = clear(b);
      if (d > 0.02) {
        b -= d / speed;
        continue;
      }
      // close: either it goes in from here, or it comes closest and leaves again
      let [p, q] = [b, b];
      let dq = d;
      let h = 0.005;
      while (dq > 0) {
        const next = clear(q - h);
        if (next >= dq) break;
        p = q;
        q -= h;
        dq = next;
        h = Math.min(h * 1.4, 0.3);
      }
      if (dq <= 0) return rootOf(clear, p, q);
      const closest = leastOf(clear, q - h, p);
      const least = clear(closest);
      if (least <= 0) return rootOf(clear, p, closest);
      if (least < 0.001) return closest;
      b = Math.min(q - h, closest) - 0.01;
    }
    return Number.NaN;
  };
}

const GOLD = (Math.sqrt(5) - 1) / 2;

/** Where a function with one dip between a and b is least (golden section), to `width`. */
export function leastOf(f: (x: number) => number, a: number, b: number, width = 1e-7): number {
  let [lo, hi] = [a, b];
  let [m, n] = [hi - GOLD * (hi - lo), lo + GOLD * (hi - lo)];
  let [fm, fn] = [f(m), f(n)];
  while (hi - lo > width) {
    if (fm < fn) {
      [hi, n, fn] = [n, m, fm];
      m = hi - GOLD * (hi - lo);
      fm = f(m);
    } else {
      [lo, m, fm] = [m, n, fn];
      n = lo + GOLD * (hi - lo);
      fn = f(n);
    }
  }
  return (lo + hi) / 2;
}

/** The root between a place outside and one inside (false position, the stale end halved). */
function rootOf(f: (x: number) => number, outside: number, inside: number): number {
  let [a, b] = [outside, inside];
  let [fa, fb] = [f(a), f(b)];
  for (let i = 0; i < 60 && Math.abs(b - a) > 1e-9; i++) {
    const m = fa === fb ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    const fm = f(m);
    if (Math.abs(fm) < 1e-10) return m;
    if (fm > 0) {
      [a, fa] = [m, fm];
      fb /= 2;
    } else {
      [b, fb] = [m, fm];
      fa /= 2;
    }
  }
  return (a + b) / 2;
}
