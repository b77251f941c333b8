// biome-ignore-all lint/style/noNonNullAssertion: a line of the affine form has nine numbers, as fill makes it.
import { dot, sub, type Vec } from "../space/index.ts";
import { type Bow, type Cylinder, clearance, type HostPiece, type Slab } from "./host.ts";
import type { WallLine } from "./path.ts";

/**
 * A place on a line by its length s, and what a piece is like seen from there, outward along it: clearance, how fast it
 * changes, the safe step. One record is used for a whole march: a number handed from call to call is made anew each time.
 */
export interface Seen {
  s: number;
  clear: number;
  slope: number;
  step: number;
}

/**
 * Looks at a piece from a place on the line, outward.
 *
 * The clearance f changes no faster than the line is long, and it is concave by no more than c = κ + 2/q: κ the line's
 * own curvature, 2/q that of the distance to a bend's circle (q from the bend's axis, held above half of itself within
 * the step), 0 for a straight and for a block, which are convex. So f(s + h) ≥ f + f'h − ch²/2, and the root of the
 * right side, the safe step, closes in quadratically on a root that is no graze.
 */
export type Look = (seen: Seen) => void;

export function lookAt(piece: HostPiece, line: WallLine): Look {
  if (piece.kind === "bow") return lookAtBow(piece, line);
  return piece.kind === "cylinder" ? lookAtCylinder(piece, line) : lookAtSlab(piece, line);
}

/** The first h > 0 at which f + f'h − ch²/2 is 0; infinite where there is none. */
const reaches = (f: number, slope: number, c: number): number =>
  (2 * f) / Math.max(0, Math.sqrt(slope * slope + 2 * c * f) - slope);

/**
 * One coordinate of a line by the two functions of s that its place is made of: level + a·A(s) + b·B(s), with
 * A = cos(s/r) and B = sin(s/r) on an arc, A = 0 and B = s on a straight. Figured once, so that along the line only one
 * rounding is left in each: a graze turns a rounding of f into its root.
 */
function coordinates(line: WallLine, origin: Vec, [e, f, g]: readonly [Vec, Vec, Vec]): Coordinates {
  const { at, dir, centre, out, radius } = line;
  const round = radius !== Infinity;
  const level = sub(round ? centre : at, origin);
  const a = round ? radius : 0;
  const b = round ? radius : 1;
  return [
    dot(level, e),
    a * dot(out, e),
    b * dot(dir, e),
    dot(level, f),
    a * dot(out, f),
    b * dot(dir, f),
    dot(level, g),
    a * dot(out, g),
    b * dot(dir, g),
  ];
}

type Coordinates = readonly [number, number, number, number, number, number, number, number, number];

const CAR: readonly [Vec, Vec, Vec] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

function lookAtCylinder(piece: Cylinder, line: WallLine): Look {
  const [x0, xa, xb, y0, ya, yb, z0, za, zb] = coordinates(line, piece.at, CAR);
  const { radius } = line;
  const [dx, dy, dz] = piece.dir;
  const { t0, t1, h } = piece;
  const round = radius !== Infinity;
  const bends = 1 / radius;
  return (seen) => {
    const { s } = seen;
    const A = round ? Math.cos(s / radius) : 0;
    const B = round ? Math.sin(s / radius) : s;
    let x = x0 + xa * A + xb * B;
    let y = y0 + ya * A + yb * B;
    let z = z0 + za * A + zb * B;
    const t = Math.min(t1, Math.max(t0, x * dx + y * dy + z * dz));
    x -= t * dx;
    y -= t * dy;
    z -= t * dz;
    const far = Math.sqrt(x * x + y * y + z * z);
    // Outward is against s.
    const p = round ? B / radius : 0;
    const q = round ? -A / radius : -1;
    seen.clear = far - h;
    seen.slope = (x * (xa * p + xb * q) + y * (ya * p + yb * q) + z * (za * p + zb * q)) / far;
    seen.step = Math.max(seen.clear, reaches(seen.clear, seen.slope, bends));
  };
}

function lookAtSlab(piece: Slab, line: WallLine): Look {
  const [x0, xa, xb, y0, ya, yb, z0, za, zb] = coordinates(line, [0, 0, 0], CAR);
  const { radius } = line;
  const round = radius !== Infinity;
  const back = 1e-5;
  return (seen) => {
    const { s } = seen;
    const A = round ? Math.cos(s / radius) : 0;
    const B = round ? Math.sin(s / radius) : s;
    const [p, q] = round ? [B / radius, -A / radius] : [0, -1];
    const from = (d: number): number =>
      clearance(
        piece,
        x0 + xa * (A - d * p) + xb * (B - d * q),
        y0 + ya * (A - d * p) + yb * (B - d * q),
        z0 + za * (A - d * p) + zb * (B - d * q),
      );
    // Of a convex function the slope looking back is a bound from below, at edges and corners too.
    seen.clear = from(0);
    seen.slope = (seen.clear - from(back)) / back;
    seen.step = Math.max(seen.clear, reaches(seen.clear, seen.slope, 1 / radius));
  };
}

function lookAtBow(bow: Bow, line: WallLine): Look {
  return lookIn(bow, line.radius, Float64Array.of(...coordinates(line, bow.centre, [bow.x, bow.y, bow.n])));
}

/**
 * Looks at a bend along lines that run straight out of the end (x, y, z), z the same for all of them: `to` turns to
 * another line. So there is nothing to be set up line by line.
 */
export function lookOutAtBow(bow: Bow): {
  readonly look: Look;
  readonly to: (ray: { readonly x: number; readonly y: number }) => void;
} {
  const { centre, x: ex, y: ey, n } = bow;
  const at: WallLine = {
    at: [0, 0, 0],
    dir: INWARD,
    centre: INWARD,
    out: INWARD,
    radius: Infinity,
    speed: 1,
  };
  const line = Float64Array.of(...coordinates(at, centre, [ex, ey, n]));
  const to = (ray: { readonly x: number; readonly y: number }): void => {
    const u = ray.x - centre[0];
    const v = ray.y - centre[1];
    const w = -centre[2];
    line[0] = u * ex[0] + v * ex[1] + w * ex[2];
    line[3] = u * ey[0] + v * ey[1] + w * ey[2];
    line[6] = u * n[0] + v * n[1] + w * n[2];
  };
  return { look: lookIn(bow, Infinity, line), to };
}

const INWARD: Vec = [0, 0, -1];

/** A look at a bend along the line whose coordinates in the bend's own axes stand in `line`. */
function lookIn(bow: Bow, radius: number, line: Float64Array): Look {
  const { radius: R, h, sin, cos } = bow;
  const [endA, endB] = [R * cos, R * sin];
  const round = radius !== Infinity;
  const bends = 1 / radius;
  return (seen) => {
    const { s } = seen;
    const A = round ? Math.cos(s / radius) : 0;
    const B = round ? Math.sin(s / radius) : s;
    const aa = line[1]!;
    const ab = line[2]!;
    const ba = line[4]!;
    const bb = line[5]!;
    const wa = line[7]!;
    const wb = line[8]!;
    const a = line[0]! + aa * A + ab * B;
    const b = line[3]! + ba * A + bb * B;
    const w = line[6]! + wa * A + wb * B;
    const p = round ? B / radius : 0;
    const o = round ? -A / radius : -1;
    const a1 = aa * p + ab * o;
    const b1 = ba * p + bb * o;
    const w1 = wa * p + wb * o;
    const q = Math.sqrt(a * a + b * b);
    const hold = bends + 2 / q;
    let step: number;
    if (b >= 0 && a * sin - b * cos >= 0) {
      const off = q - R;
      const d = Math.sqrt(off * off + w * w);
      seen.clear = d - h;
      seen.slope = (off * ((a * a1 + b * b1) / q) + w * w1) / d;
      step = reaches(seen.clear, seen.slope, hold);
    } else {
      // Beyond the bend's sector the nearer of its two ends is the closest point; neither may be stepped over.
      const u = a - R;
      const v = a - endA;
      const dA = Math.sqrt(u * u + b * b + w * w);
      const dB = Math.sqrt(v * v + (b - endB) * (b - endB) + w * w);
      const slopeA = (u * a1 + b * b1 + w * w1) / dA;
      const slopeB = (v * a1 + (b - endB) * b1 + w * w1) / dB;
      seen.clear = Math.min(dA, dB) - h;
      seen.slope = dA < dB ? slopeA : slopeB;
      step = Math.min(reaches(dA - h, slopeA, hold), reaches(dB - h, slopeB, hold));
    }
    seen.step = Math.max(seen.clear, Math.min(q / 2, step));
  };
}
