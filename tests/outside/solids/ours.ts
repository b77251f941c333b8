import { type Arc, closestTo, type Piece, placeAt } from "../../../src/core/bar/index.ts";
import { rad } from "../../../src/core/numeric/index.ts";
import { add, along, dot, scale, sub, turn, unit, type Vec } from "../../../src/core/space/index.ts";
import type { JointCase } from "./joints.ts";

/** What of a bar a stub reaches: the straight at its end, and the bend behind it, if that far. */
interface Behind {
  readonly straight: number;
  readonly bend?: Arc;
  /** Way in which a place turns about the bend's normal on its way into the bar. */
  readonly way: 1 | -1;
}

function behind({ bar, end, far }: JointCase): Behind {
  const pieces: readonly Piece[] = end === "A" ? bar.centreline.pieces : [...bar.centreline.pieces].reverse();
  const [first, bend, next] = pieces;
  const way = end === "A" ? 1 : -1;
  if (bend?.kind !== "arc" || far <= first!.length) return { straight: first!.length, way };
  if (far > first!.length + bend.length + next!.length) throw new Error("the stub reaches a second bend");
  return { straight: first!.length, bend, way };
}

/** ρ(cos φ e0 + sin φ e90), car axes. */
const offset = ({ cope, joint }: JointCase, rho: number, cos: number, sin: number): Vec =>
  add(scale(cope.zero, rho * cos), scale(joint.axes.quarter, rho * sin));

/** How far a place at the bend's near end is from its axis, from the place's offset. */
const fromAxis = (c: JointCase, bend: Arc, straight: number, off: Vec): number =>
  bend.radius + dot(off, unit(sub(along(c.cope.landing, c.cope.out, -straight), bend.centre)));

/**
 * The place (car axes, mm) at back b on a wall line. Up to the bend it lies straight behind the landing; in the bend
 * the whole section turns rigidly about the bend's axis, by (b − straight)/R, and every place in it with it; behind
 * the bend it runs straight again.
 */
export function wallPlace(c: JointCase, rho: number, phi: number, b: number): Vec {
  const { straight, bend, way } = behind(c);
  const off = offset(c, rho, Math.cos(rad(phi)), Math.sin(rad(phi)));
  const place = (back: number): Vec => add(along(c.cope.landing, c.cope.out, -back), off);
  if (!bend || b <= straight) return place(b);
  const inBend = Math.min(b - straight, bend.length);
  const angle = (way * inBend) / bend.radius;
  const turned = add(bend.centre, turn(sub(place(straight), bend.centre), bend.n, angle));
  return along(turned, turn(c.cope.out, bend.n, angle), -(b - straight - inBend));
}

/** A place in a bar's wall as we name it: radius (mm), cosine and sine of φ, back (mm). */
export interface InWall {
  readonly rho: number;
  readonly cos: number;
  readonly sin: number;
  readonly back: number;
}

/** The other way: which wall line a place (car axes) lies on, and at which back. */
export function inWall(c: JointCase, p: Vec): InWall {
  const { straight, bend, way } = behind(c);
  const { landing, out, zero } = c.cope;
  let place = p;
  let inBend = 0;
  if (bend) {
    const start = along(landing, out, -straight);
    const from = sub(p, bend.centre);
    const angle = Math.atan2(-dot(from, out), dot(from, unit(sub(start, bend.centre))));
    inBend = Math.min(bend.length, Math.max(0, angle * bend.radius));
    // Turned back by as much as it stands in the bend, it lies straight behind the landing.
    place = add(bend.centre, turn(from, bend.n, (-way * inBend) / bend.radius));
  }
  const v = sub(place, landing);
  const [x, y] = [dot(v, zero), dot(v, c.joint.axes.quarter)];
  const rho = Math.hypot(x, y);
  return { rho, cos: x / rho, sin: y / rho, back: inBend - dot(v, out) };
}

/**
 * The angle (radians, 0 to π/2) at which the wall line meets the nearest of its hosts at back b: between the line, by
 * central difference over 0.002 mm of centreline, and the plane that touches the host there.
 */
export function entryAngle(c: JointCase, rho: number, phi: number, b: number): number {
  const at = wallPlace(c, rho, phi, b);
  const tangent = unit(sub(wallPlace(c, rho, phi, b - 1e-3), wallPlace(c, rho, phi, b + 1e-3)));
  const seat = c.bar.seat[c.end];
  if (seat.kind === "plate") return Math.asin(Math.abs(dot(tangent, seat.normal)));
  const met = c.hosts
    .map((host) => {
      const { s, distance } = closestTo(host.centreline, at);
      return { host, s, clear: Math.abs(distance - host.tube.od / 2) };
    })
    .reduce((a, h) => (h.clear < a.clear ? h : a));
  const normal = unit(sub(at, placeAt(met.host.centreline, met.s).at));
  return Math.asin(Math.min(1, Math.abs(dot(tangent, normal))));
}

/** Nodes and weights of Gauss and Legendre on [-1, 1]: roots of P_n by Newton's method. */
function gaussLegendre(n: number): (readonly [number, number])[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let k = 0; k < 20; k++) {
      let [before, p] = [1, x];
      for (let j = 2; j <= n; j++) [before, p] = [p, ((2 * j - 1) * x * p - (j - 1) * before) / j];
      slope = (n * (x * p - before)) / (x * x - 1);
      x -= p / slope;
    }
    return [x, 2 / ((1 - x * x) * slope * slope)] as const;
  });
}

/** Area of the wall's section (mm²). */
export const wallArea = ({ cope }: JointCase): number =>
  Math.PI * (cope.outerRadius ** 2 - cope.boreRadius ** 2);

/**
 * Volume of the stub's metal over the area of its wall (mm): the mean length of the wall, cut to far end, as our
 * curves have it.
 *
 * V = ∫∫ ρ·(ℓ(far) − ℓ(max(near, back(ρ, φ)))) dρ dφ, ρ from bore to outside, φ all round; ℓ(b) is the length of the
 * wall line from the landing to back b. Where the bar is straight ℓ = b. In a bend the section turns rigidly about
 * the bend's axis: a place at distance r from the axis moves r/R for each millimetre of the centreline, square to the
 * section, so the element of volume is (r/R) ρ dρ dφ db and ℓ grows by r/R. ρ by Gauss and Legendre, φ by the
 * trapezoid rule, which is exact to rounding for smooth periodic curves and of order 1/n² where lines graze.
 */
export function meanLength(c: JointCase, radii: number, lines: number): number {
  const { outerRadius, boreRadius } = c.cope;
  const { straight, bend } = behind(c);
  const [middle, half] = [(outerRadius + boreRadius) / 2, (outerRadius - boreRadius) / 2];
  let sum = 0;
  for (const [x, weight] of gaussLegendre(radii)) {
    const rho = middle + half * x;
    for (let i = 0; i < lines; i++) {
      const [cos, sin] = [Math.cos((2 * Math.PI * i) / lines), Math.sin((2 * Math.PI * i) / lines)];
      const back = c.joint.back(rho, cos, sin);
      if (Number.isNaN(back)) throw new Error(`${c.name}: the line at ${(360 * i) / lines}° misses`);
      const grows = bend ? fromAxis(c, bend, straight, offset(c, rho, cos, sin)) / bend.radius : 1;
      const inBend = (b: number): number => Math.min(Math.max(0, b - straight), bend?.length ?? 0);
      const length = (b: number): number => b + inBend(b) * (grows - 1);
      sum += weight * half * rho * (length(c.far) - length(Math.max(c.near, back)));
    }
  }
  return ((2 * Math.PI) / lines) * (sum / wallArea(c));
}
