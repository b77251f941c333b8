// biome-ignore-all lint/style/noNonNullAssertion: i, j and k run below the length of their list, the loop before fills some to three, and p is a point of the network
import { add, cross, dist, dot, len, ORIGIN, scale, sub, unit, type Vec } from "../space/index.ts";
import type { Equation, Network } from "./equation.ts";
import { meet, type Surface } from "./surface.ts";

/** A place where a point may stand, and how badly that goes with what is known of it. */
export interface Candidate {
  readonly at: Vec;
  readonly cost: number;
}

/** So many surfaces are tried, every three of them: enough to find three good ones among several bad. */
const MOST_SURFACES = 7;

/** So many of the likeliest meeting places are looked at closely. */
const CLOSELY = 5;

/** Costs that differ by less say nothing. */
export const ALIKE = 0.5;

/**
 * The places where point p can stand as far as `equations` know (all their other points being placed), likeliest first.
 *
 * Every three surfaces meet in up to two places; where the readings give fewer than three, planes by chance stand in.
 * The likeliest are moved to where they suit all equations best. Gross slips count little: the cost is
 * Σ ln(1 + (residual/sd)²) (Cauchy's), with errors widened by a thousandth of what was read, because the other
 * points are not quite right yet. Of places that suit alike the higher comes first, then the more forward, then the
 * more to the left.
 */
export function candidates(
  p: number,
  equations: readonly Equation[],
  network: Network,
  extent: number,
  random: () => number,
): readonly Candidate[] {
  const judge = judgeOf(p, equations, network);
  const surfaces = equations.flatMap((e) => e.surfaces(p, network));
  let places: readonly Vec[] = threes(surfaces, random).flatMap(meet);
  for (let tries = 0; places.length === 0 && tries < 12; tries++) {
    // Two surfaces and a plane by chance; if those do not meet, one and two; if not, none and three.
    const some = shuffled(surfaces, random).slice(0, 2 - (tries % 3));
    const middle = middleOf(surfaces, network, extent, random);
    while (some.length < 3) some.push(planeThrough(middle, random));
    places = meet([some[0]!, some[1]!, some[2]!]);
  }
  const likely = places
    .filter((at) => at.every(Number.isFinite))
    .map((at) => ({ at, cost: judge.cost(at) }))
    .sort((a, b) => a.cost - b.cost);
  const found: Candidate[] = [];
  const near = (at: Vec): boolean => found.some((c) => dist(c.at, at) < 1e-3 * extent);
  for (const { at } of likely) {
    if (found.length >= CLOSELY) break;
    if (near(at)) continue;
    const settled = judge.settle(at);
    if (!near(settled.at)) found.push(settled);
  }
  const least = Math.min(...found.map((c) => c.cost));
  const alike = (c: Candidate): boolean => c.cost < least + ALIKE;
  return found.sort((a, b) => {
    if (alike(a) && alike(b)) return b.at[2] - a.at[2] || b.at[0] - a.at[0] || b.at[1] - a.at[1];
    return a.cost - b.cost;
  });
}

function threes(surfaces: readonly Surface[], random: () => number) {
  const all: (readonly [Surface, Surface, Surface])[] = [];
  const few = surfaces.length > MOST_SURFACES ? shuffled(surfaces, random).slice(0, MOST_SURFACES) : surfaces;
  for (let i = 0; i < few.length; i++)
    for (let j = i + 1; j < few.length; j++)
      for (let k = j + 1; k < few.length; k++) all.push([few[i]!, few[j]!, few[k]!]);
  return all;
}

function shuffled<T>(list: readonly T[], random: () => number): T[] {
  const out = [...list];
  for (let i = out.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [out[i], out[j]] = [out[j]!, out[i]!];
  }
  return out;
}

const byChance = (random: () => number): Vec => [random() - 0.5, random() - 0.5, random() - 0.5];

function planeThrough(at: Vec, random: () => number): Surface {
  const normal = unit(add(byChance(random), [1e-3, 2e-3, 3e-3]));
  return { kind: "plane", normal, offset: dot(normal, at) };
}

function middleOf(surfaces: readonly Surface[], network: Network, extent: number, random: () => number): Vec {
  const centres = surfaces.flatMap((s) => (s.kind === "sphere" ? [s.centre] : []));
  const around = centres.length > 0 ? centres : network.at.filter((at) => at.every(Number.isFinite));
  const sum = around.reduce<Vec>((s, c) => add(s, scale(c, 1 / around.length)), ORIGIN);
  return add(sum, scale(byChance(random), extent / 4));
}

/** Residuals are counted in these: twice the error, and a thousandth of what was read (a hundredth radian). */
const slack = (e: Equation): number => 2 * e.sd + (e.isAngle ? 0.01 : 1e-3 * Math.abs(e.read));

/** Says how badly a place goes with the equations (no unit), and moves a place to where it goes best. */
export function judgeOf(p: number, equations: readonly Equation[], network: Network) {
  const places = network.at.slice();
  const moved = { ...network, at: places };
  const cost = (at: Vec): number => {
    places[p] = at;
    return equations.reduce((sum, e) => {
      const r = (e.observe(moved).value - e.read) / slack(e);
      return sum + Math.log1p(r * r);
    }, 0);
  };
  const settle = (start: Vec): Candidate => {
    let best: Candidate = { at: start, cost: cost(start) };
    for (let turns = 0; turns < 6; turns++) {
      places[p] = best.at;
      const step = newton(p, equations, moved);
      if (!step) break;
      const at = sub(best.at, step);
      const next = { at, cost: cost(at) };
      if (!(next.cost < best.cost - 1e-9)) break;
      best = next;
    }
    return best;
  };
  return { cost, settle };
}

/** One step of Gauss and Newton with weights 1/(1 + r²). */
function newton(p: number, equations: readonly Equation[], network: Network): Vec | undefined {
  const rows: [Vec, Vec, Vec] = [ORIGIN, ORIGIN, ORIGIN];
  let right: Vec = ORIGIN;
  for (const e of equations) {
    const { value, by } = e.observe(network);
    const d = by.reduce<Vec>((sum, [q, v]) => (q === p ? add(sum, v) : sum), ORIGIN);
    const s = slack(e);
    const r = (value - e.read) / s;
    const weight = 1 / (1 + r * r) / s;
    for (const i of [0, 1, 2] as const) rows[i] = add(rows[i], scale(d, (d[i] * weight) / s));
    right = add(right, scale(d, r * weight));
  }
  return solveThree(rows, right);
}

/** x of rows · x = right (Cramer); undefined where the three planes have no one place in common. */
function solveThree([a, b, c]: readonly [Vec, Vec, Vec], right: Vec): Vec | undefined {
  const bc = cross(b, c);
  const volume = dot(a, bc);
  if (!(Math.abs(volume) > 1e-12 * len(a) * len(b) * len(c))) return undefined;
  const sum = add(add(scale(bc, right[0]), scale(cross(c, a), right[1])), scale(cross(a, b), right[2]));
  return scale(sum, 1 / volume);
}

/** The network with point p somewhere else. */
export function withPlace(network: Network, p: number, at: Vec): Network {
  const places = network.at.slice();
  places[p] = at;
  return { ...network, at: places };
}
