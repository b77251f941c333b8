// biome-ignore-all lint/style/noNonNullAssertion: indices run over inner nodes only, whose neighbours are there; a node's n is its place in the path that it was taken from.
import { NO_BEND } from "../numeric/index.ts";
import { along, angleBetween, cross, dist, dot, sub, unit, type Vec } from "../space/index.ts";
import { rotation } from "./rotation.ts";
import { placeAt } from "./station.ts";
import type { Centreline, SmallCorner } from "./types.ts";

/** A node of a path: its ends 0 and one more than the corners, its corners counted from 1. */
export interface Corner {
  readonly n: number;
  readonly at: Vec;
}

/** A corner left out, with the leg of the bar (0 first) that runs past it. */
export type LeftOut = Omit<SmallCorner, "along"> & { readonly leg: number };

/** Leaving a corner out may move no place of the bar by more than this (mm). */
const MOST_OFF = 1;

/** Rounding of the places; and angles nearer to each other than this many radians are alike, the one nearer A first. */
const NOISE = 1e-9;

/**
 * The nodes of a bar without the corners that are too small to make, and those corners.
 *
 * Rule (geometry.md, "Bends too small to make"): of the corners that turn less than `least`, the smallest first and all
 * angles figured again each time, a corner is left out and its neighbours are joined straight, unless that moves a
 * place of the bar by more than 1 mm: then it stays. A place is moved by its distance from the line that replaces it; all
 * corners left out before on that leg count, and so does the middle of a bend beside it, whose leg now runs elsewhere
 * (where that bend had room beside the corner; without room there was no such bar).
 * Units: mm, radians; `clr` 0 for a bar without a die. Range: any path; a corner under 0.001° is always left out.
 * `off` is counted from the bar as it is figured at last.
 */
export function leaveOutSmall(
  path: readonly Vec[],
  clr: number,
  least: number,
): { readonly kept: readonly Corner[]; readonly left: readonly LeftOut[] } {
  let kept: Corner[] = path.map((at, n) => ({ n, at }));
  const stays = new Set<number>();
  for (;;) {
    const i = smallest(kept, stays, least);
    if (i === undefined) break;
    const trial = kept.filter((_, k) => k !== i);
    const flat = turnAt(kept, i) < NO_BEND;
    if (flat || mostMoved(path, trial, i - 1, clr) <= MOST_OFF + NOISE) kept = trial;
    else stays.add(kept[i]!.n);
  }
  const left = kept.slice(1).flatMap((after, leg): LeftOut[] => {
    const before = kept[leg]!;
    return path.slice(before.n + 1, after.n).flatMap((corner, k): LeftOut[] => {
      const n = before.n + 1 + k;
      const [d1, d2] = [unit(sub(corner, path[n - 1]!)), unit(sub(path[n + 1]!, corner))];
      const angle = angleBetween(d1, d2);
      if (angle < NO_BEND) return [];
      const off = fromLine(corner, before.at, after.at);
      return [{ n, corner, angle, normal: unit(cross(d1, d2)), off, leg }];
    });
  });
  return { kept, left };
}

/** The turn (radians) at a left-out corner from the bend before it, as a bend's `rotation`; 0 where there is none. */
export function smallTurn(line: Centreline, { n, normal, along: s }: SmallCorner): number {
  const last = line.bends.filter((b) => b.n < n).at(-1);
  return last ? rotation(placeAt(line, Math.max(s, last.end)).dir, last.arc.n, normal) : 0;
}

const turnAt = (nodes: readonly Corner[], i: number): number =>
  angleBetween(sub(nodes[i]!.at, nodes[i - 1]!.at), sub(nodes[i + 1]!.at, nodes[i]!.at));

/** Index of the corner that turns least of those under `least` which may still be left out. */
function smallest(nodes: readonly Corner[], stays: ReadonlySet<number>, least: number): number | undefined {
  let best: number | undefined;
  let angle = least - NOISE;
  for (let i = 1; i + 1 < nodes.length; i++) {
    if (stays.has(nodes[i]!.n)) continue;
    const here = turnAt(nodes, i);
    if (here >= angle - (best === undefined ? 0 : NOISE)) continue;
    best = i;
    angle = here;
  }
  return best;
}

/** How far a place of the path is from the bar through `nodes` whose leg `leg` is new (mm, the greatest). */
function mostMoved(path: readonly Vec[], nodes: readonly Corner[], leg: number, clr: number): number {
  const [before, after] = [nodes[leg]!, nodes[leg + 1]!];
  let most = 0;
  for (let n = before.n + 1; n < after.n; n++) most = Math.max(most, fromLine(path[n]!, before.at, after.at));
  for (const i of [leg, leg + 1]) {
    if (i === 0 || i + 1 === nodes.length) continue;
    most = Math.max(most, bendMoved(path, nodes[i]!, nodes[i - 1]!.at, nodes[i + 1]!.at, clr));
  }
  return most;
}

/** How far the middle of the bend at a corner moves (mm) when its legs run to other places than the path's own. */
function bendMoved(path: readonly Vec[], { n, at }: Corner, from: Vec, to: Vec, clr: number): number {
  const [own, next] = [path[n - 1]!, path[n + 1]!];
  const angle = angleBetween(sub(at, own), sub(next, at));
  const tangent = clr * Math.tan(angle / 2);
  if (Math.min(dist(own, at), dist(at, next)) < tangent) return 0;
  return dist(middle(own, at, next, clr), middle(from, at, to, clr));
}

/** The middle of the bend of radius `clr` at a corner: R(1/cos(θ/2) − 1) from it toward the inside. */
function middle(from: Vec, at: Vec, to: Vec, clr: number): Vec {
  const [d1, d2] = [unit(sub(at, from)), unit(sub(to, at))];
  const angle = angleBetween(d1, d2);
  if (angle < NO_BEND || Math.PI - angle < NO_BEND) return at;
  return along(at, unit(sub(d2, d1)), clr * (1 / Math.cos(angle / 2) - 1));
}

/** Distance (mm) of a place from the straight between two others. */
function fromLine(p: Vec, a: Vec, b: Vec): number {
  const d = sub(b, a);
  const l2 = dot(d, d);
  const t = l2 > 0 ? Math.min(1, Math.max(0, dot(sub(p, a), d) / l2)) : 0;
  return dist(p, along(a, d, t));
}
