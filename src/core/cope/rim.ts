// biome-ignore-all lint/style/noNonNullAssertion: indices are taken modulo the number of lines, or run below it; the arcs of joinedArcs are looked at where there is more than one.
import { goldenLeast, rad } from "../numeric/index.ts";
import type { Joint } from "./joint.ts";

/**
 * Least back over both walls and all φ: the least of the lines computed (one a degree), then a golden-section search
 * on either side of every line that is a local least and could still hold it. Where a wall begins to miss, its curve
 * falls ever more steeply to the line that grazes the host, so the edge itself is sought too. 0 where every line
 * misses.
 */
export function longPoint(
  joint: Joint,
  outerR: number,
  boreR: number,
  outer: Float64Array,
  bore: Float64Array,
): { back: number; phi: number } {
  const lines = outer.length;
  let best = { back: Infinity, phi: 0 };
  const see = (back: number, phi: number): void => {
    if (back < best.back) best = { back, phi: (phi + 360) % 360 };
  };
  for (let i = 0; i < lines; i++) {
    see(outer[i]!, i);
    see(bore[i]!, i);
  }
  if (best.back === Infinity) return { back: 0, phi: 0 };
  const floor = best.back;
  for (const [curve, rho] of [
    [outer, outerR],
    [bore, boreR],
  ] as const) {
    const line = (i: number): number => orMissing(curve[(i + lines) % lines]!);
    const at = (phi: number): number => orMissing(joint.back(rho, Math.cos(rad(phi)), Math.sin(rad(phi))));
    for (let i = 0; i < lines; i++) {
      const b = line(i);
      if (b === Infinity) continue;
      for (const beside of [i - 1, i + 1]) {
        if (line(beside) < Infinity) continue;
        const grazes = lastNot(i, beside, (phi) => at(phi) === Infinity);
        see(at(grazes), grazes);
      }
      const before = line(i - 1);
      const after = line(i + 1);
      // Between two lines the curve can dip below them by no more than it falls from its neighbours.
      if (!(b <= before && b <= after) || b - floor > Math.max(before, after) - b) continue;
      const phi = goldenLeast(at, i - 1, i + 1, 1e-5);
      see(at(phi), phi);
    }
  }
  return best;
}

const orMissing = (back: number): number => (Number.isNaN(back) ? Infinity : back);

/**
 * φ (degrees, to 1e-4) of the last line for which something does not hold, between one for which it does not and one
 * for which it does. Lines that pass within GRAZE are no miss, an arc of more than 1e-4 degrees, so that it is one of
 * them.
 */
function lastNot(not: number, does: number, holds: (phi: number) => boolean): number {
  let a = not;
  let b = does;
  while (Math.abs(b - a) > 1e-4) {
    const m = (a + b) / 2;
    if (holds(m)) b = m;
    else a = m;
  }
  return a;
}

/** Arcs round an end (degrees, ascending, none across 0) in which `holds` holds; `lines` says so at each whole degree. */
export function arcsOf(
  lines: readonly boolean[],
  holds: (phi: number) => boolean,
): (readonly [number, number])[] {
  const n = lines.length;
  const edge = (not: number, does: number): number => lastNot(not, does, holds);
  const arcs: (readonly [number, number])[] = [];
  let from: number | undefined;
  for (let i = 0; i <= n; i++) {
    const now = i < n && lines[i]!;
    if (now && from === undefined)
      from = i === 0 ? (lines[n - 1] ? 0 : Math.max(0, edge(-1, 0))) : edge(i - 1, i);
    if (!now && from !== undefined) {
      arcs.push([from, i === n ? (lines[0] ? 360 : Math.min(360, edge(360, 359))) : edge(i, i - 1)]);
      from = undefined;
    }
  }
  return arcs;
}

/** Arcs (degrees) as a person counts them: the two that meet at 0 are one, from before 0 to after it. */
export function joinedArcs(
  arcs: readonly (readonly [number, number])[],
): readonly (readonly [number, number])[] {
  const [first, ...others] = arcs;
  const last = others.at(-1);
  if (!first || !last || first[0] !== 0 || last[1] !== 360) return arcs;
  return [[last[0], first[1]], ...others.slice(0, -1)];
}
