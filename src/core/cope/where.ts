// biome-ignore-all lint/style/noNonNullAssertion: met is looked into where it is not empty, and first is one of its numbers, each of which stands in a wall's curve of as many lines as round has.
import type { ResolvedBar } from "../layout/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { clearance, type Host, hostClearance, nearest } from "./host.ts";
import type { Met, On } from "./met.ts";
import type { EndPath } from "./path.ts";
import { clearFrom, overlap, type Rings, ringClearance, type Stretch, stretchOf } from "./stretch.ts";

/** How far back (mm) the wall lines at radius ρ first meet the hosts, one a degree. */
export interface WallCurve {
  readonly rho: number;
  readonly curve: Float64Array;
}

/** Where the joint of an end is. */
export interface Found {
  readonly joint: Stretch;
  /** Of each `also` host. */
  readonly joints: readonly (Stretch | undefined)[];
  readonly from: number;
}

/**
 * The joint of an end that is straight, with a host that is straight where it can be met, is known without looking for
 * rings: past the place where its axis is clear of the host by the tube's radius there is none of it, and both are
 * convex, so that there is no second one before. Undefined where the end is not straight so far in, or the host is bent
 * and nothing may be assumed.
 */
export function straightJoint(
  on: On,
  outside: number,
  straightTo: number,
  assumed: boolean,
): (Found & { readonly assumed: boolean }) | undefined {
  const reach = on.reach(outside);
  const known = Math.max(0, on.clearPast(outside));
  const near = known > straightTo ? undefined : within(on.host, known, reach, outside);
  const simple = near && (near.length === 0 || (near.length === 1 && near[0]!.piece.kind !== "bow"));
  const inner = simple ? known : assumed ? axisClear(on.host, outside, straightTo) : Infinity;
  if (inner > Math.min(straightTo - SAME_PLACE, on.longest - reach)) return undefined;
  return { joint: { outer: -reach, inner }, joints: [], from: inner, assumed: !simple };
}

/** The first back (mm) at which the axis of a straight end is clear of a host by ρ: it gains no faster than it is long. */
function axisClear(host: Host, rho: number, most: number): number {
  let b = 0;
  while (b <= most) {
    const lacks = rho + 2 * SAME_PLACE - hostClearance(host, 0, 0, -b);
    if (lacks <= 0) return b;
    b += Math.max(lacks, STEP);
  }
  return Infinity;
}

const STEP = 0.5;

/** The joint ring by ring, where wall lines start beyond it, and the joints with what else the end is said to meet. */
export function lookedFor(bar: ResolvedBar, path: EndPath, on: On, others: readonly Met[]): Found {
  const { centreline: line, tube } = bar;
  const outside = tube.od / 2;
  const reach = Math.max(...[on, ...others].map((m) => m.reach(outside)));
  const tightest = Math.min(...line.bends.map((b) => b.clr));
  const rings = (hosts: readonly Host[]): Rings => ({
    clear: (b) => ringClearance(hosts, path, [outside, outside - tube.wall], b),
    speed: line.bends.length > 0 ? 1 + outside / tightest : 1,
    outermost: -reach,
    innermost: line.length,
  });
  const joint = stretchOf(rings([on.host]), on.longest) ?? { outer: 0, inner: 0 };
  const joints = others.map((met) => stretchOf(rings([met.host]), met.longest));
  const counted = others.flatMap(({ host }, i) => {
    const s = joints[i];
    return s && overlap(s, joint) ? [{ host, inner: s.inner }] : [];
  });
  const inner = Math.max(joint.inner, ...counted.map((c) => c.inner));
  const from = clearFrom(rings([on.host, ...counted.map((c) => c.host)]), inner);
  return { joint, joints, from };
}

/**
 * Whether an assumed joint is one stretch of rings that holds the landing. The backs at which wall lines first meet the
 * host are places where a ring meets it: sorted, none may be farther than APART from the next, and from the least of
 * them on to the landing its own line must be in metal.
 */
export function isOneStretch(
  solids: readonly Host[],
  walls: readonly [WallCurve, WallCurve],
  round: readonly (readonly [number, number])[],
): boolean {
  const met = Float64Array.from(
    [...walls[0].curve, ...walls[1].curve].filter((b) => !Number.isNaN(b)),
  ).sort();
  if (met.length === 0 || met[met.length - 1]! < 0) return false;
  for (let i = 1; i < met.length; i++) if (met[i]! - met[i - 1]! > APART) return false;
  const first = met[0]!;
  if (first <= 0) return true;
  const wall = walls.find((w) => w.curve.includes(first))!;
  const [sin, cos] = round[wall.curve.indexOf(first)]!;
  for (let b = first; b > 0; ) {
    const depth = -nearest(solids, wall.rho * cos, wall.rho * sin, -b);
    if (depth < -SAME_PLACE) return false;
    b -= Math.max(SAME_PLACE, depth);
  }
  return true;
}

const APART = 1;

/** Parts of a host that come within ρ of the bar's straight axis between back `from` and −`reach`; none is missed. */
export function within(host: Host, from: number, reach: number, rho: number): Host {
  const steps = 12;
  const gap = (from + reach) / steps;
  return host.filter(({ piece }) => {
    if (piece.kind === "slab") return true;
    for (let i = 0; i <= steps; i++) {
      if (clearance(piece, 0, 0, -from + i * gap) <= rho + gap / 2 + SAME_PLACE) return true;
    }
    return false;
  });
}
