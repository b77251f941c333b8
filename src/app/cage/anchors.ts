// biome-ignore-all lint/style/noNonNullAssertion: a path has a place at least; steps are those between its places, walked by their own indices.
import { dist, lerp, type Vec } from "../../core/space/index.ts";
import { type Cover, type Lying, mixed } from "./cover.ts";
import type { Named } from "./names.ts";
import type { Seen } from "./project.ts";
import type { Anchor } from "./thin.ts";

/** A name may point at what it names every so often (CSS pixels), and at so many places of it. */
const EVERY = 26;
const PLACES = 9;
/** Of a line that runs far out of the picture no more places are looked at than these. */
const LOOKED = 400;

/** Where the places of what has a name are seen. */
export const lyingOf = (of: Named, seen: (p: Vec) => Seen | undefined): readonly (Lying | undefined)[] =>
  of.path.map((p) => {
    const at = seen(p);
    return at && { x: at.x, y: at.y, depth: at.depth, reach: of.radius / at.pixel };
  });

/**
 * Places that a name may point at: where it did `before`, then from the middle on outward; in the picture, and of a bar
 * only where it is in front, unless it is in hand.
 */
export function anchorsOf(
  of: Named,
  lying: readonly (Lying | undefined)[],
  [width, height]: readonly [number, number],
  cover: Cover,
  own: number,
  before: number | undefined,
): readonly Anchor[] {
  const reachOf = { bar: 1, plate: 0.5, point: 0, body: 0, corner: 0 }[of.kind];
  const steps = stepsOf(of.path);
  const found = (share: number): Anchor[] => {
    const l = between(lying, steps, share);
    if (!l || l.x < 0 || l.y < 0 || l.x > width || l.y > height) return [];
    if (of.kind === "bar" && !of.isInHand && cover.at(l.x, l.y) !== own) return [];
    return [{ x: l.x, y: l.y, share, reach: reachOf * l.reach }];
  };
  const out = before === undefined ? [] : found(before);
  for (const share of shares(lying)) {
    if (out.length >= PLACES) break;
    out.push(...found(share));
  }
  return out;
}

/** The place a share of the way along a row of places. */
export function alongPath(path: readonly Vec[], share: number): Vec {
  if (path.length === 1) return path[0]!;
  const [i, t] = partOf(stepsOf(path), share);
  return lerp(path[i]!, path[i + 1]!, t);
}

/** Shares of the way, evenly spread by how long it is in the picture; the middle first. */
function shares(lying: readonly (Lying | undefined)[]): number[] {
  if (lying.length === 1) return [0];
  let long = 0;
  for (let i = 0; i + 1 < lying.length; i++) {
    const [a, b] = [lying[i], lying[i + 1]];
    if (a && b) long += Math.hypot(b.x - a.x, b.y - a.y);
  }
  // An even number of parts, so that the middle is among them.
  const parts = 2 * Math.min(LOOKED / 2, Math.max(1, Math.ceil(long / EVERY / 2)));
  const all = Array.from({ length: parts - 1 }, (_, k) => (k + 1) / parts);
  return all.sort((p, q) => Math.abs(p - 0.5) - Math.abs(q - 0.5));
}

function between(
  lying: readonly (Lying | undefined)[],
  steps: readonly number[],
  share: number,
): Lying | undefined {
  if (lying.length === 1) return lying[0];
  const [i, t] = partOf(steps, share);
  const [a, b] = [lying[i], lying[i + 1]];
  if (!a || !b) return undefined;
  return mixed(a, b, t);
}

const stepsOf = (path: readonly Vec[]): readonly number[] => path.slice(1).map((p, i) => dist(path[i]!, p));

/** Which step a share of the way is in, and how far along that step (0 to 1). */
function partOf(steps: readonly number[], share: number): readonly [number, number] {
  let left = share * steps.reduce((sum, step) => sum + step, 0);
  for (const [i, step] of steps.entries()) {
    if (left <= step && step > 0) return [i, left / step];
    left -= step;
  }
  return [steps.length - 1, 1];
}
