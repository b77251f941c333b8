import { GRAZE, goldenLeast, ROOT } from "../numeric/index.ts";
import { type Bow, type Cylinder, clearance, type HostPiece, type Plane } from "./host.ts";

/**
 * z (mm) at which the straight line (x, y, z) of an end's frame, followed outward from z0 to z1, first meets a piece's
 * outside; NaN where it passes it by GRAZE or more. A line that comes within GRAZE touches the piece at its closest
 * approach. The line must be outside the piece at z0.
 */
export function firstMeeting(piece: HostPiece, x: number, y: number, z0: number, z1: number): number {
  if (piece.kind === "cylinder") return meetCylinder(piece, x, y, z0, z1);
  return piece.kind === "bow" ? meetBow(piece, x, y, z0, z1) : meetPlane(piece, x, y, z0, z1);
}

function meetPlane(plane: Plane, x: number, y: number, z0: number, z1: number): number {
  const { at, normal: n } = plane;
  const height = (x - at[0]) * n[0] + (y - at[1]) * n[1] - at[2] * n[2];
  const z = -height / n[2];
  return n[2] < 0 && z >= z0 && z <= z1 ? z : Number.NaN;
}

/**
 * The squared distance to the axis is a quadratic in z; its lesser root is where the line goes in. Only the part of the
 * axis from t0 to t1 counts: past it the host bends, and its next piece is asked.
 */
function meetCylinder(c: Cylinder, x: number, y: number, z0: number, z1: number): number {
  const d = c.dir;
  const wx = x - c.at[0];
  const wy = y - c.at[1];
  const across = wx * d[0] + wy * d[1];
  const A = d[0] * d[0] + d[1] * d[1];
  // Parallel to the host it never goes in.
  if (A < 1e-18) return Number.NaN;
  const B = -d[2] * across;
  const C = wx * wx + wy * wy - across * across;
  const closest = -B / A;
  const passes = Math.sqrt(Math.max(0, C - (B * B) / A));
  if (passes > c.h + GRAZE) return Number.NaN;
  const half = passes < c.h ? Math.sqrt((c.h * c.h - passes * passes) / A) : 0;
  const z = c.at[2] + closest - half;
  const t = across + (closest - half) * d[2];
  if (t < c.t0 || t > c.t1) return Number.NaN;
  return z >= z0 && z <= z1 ? z : Number.NaN;
}

/**
 * Marches outward by steps that cannot pass the surface: the clearance f falls no faster than the line is long, and,
 * since a circle's distance is concave by less than 2/q (q the distance from the bend's axis, held above half of
 * itself within the step), f(z + h) ≥ f + f'h − h²/q. The root of the right side closes in quadratically.
 */
function meetBow(bow: Bow, x: number, y: number, z0: number, z1: number): number {
  const { centre: c, x: ex, y: ey, n, radius: R, h, sin, cos } = bow;
  const vx = x - c[0];
  const vy = y - c[1];
  // Local coordinates of the line: a0 + a1·z along x, b0 + b1·z along y, w0 + w1·z along n.
  const a1 = ex[2];
  const b1 = ey[2];
  const w1 = n[2];
  const a0 = vx * ex[0] + vy * ex[1] - c[2] * a1;
  const b0 = vx * ey[0] + vy * ey[1] - c[2] * b1;
  const w0 = vx * n[0] + vy * n[1] - c[2] * w1;
  let z = z0;
  let before = z0;
  let fBefore = Infinity;
  let falling = false;
  for (let i = 0; i < 500; i++) {
    const a = a0 + a1 * z;
    const b = b0 + b1 * z;
    const w = w0 + w1 * z;
    const q = Math.sqrt(a * a + b * b);
    let f: number;
    let slope: number;
    let step: number;
    if (b >= 0 && a * sin - b * cos >= 0) {
      const off = q - R;
      const d = Math.sqrt(off * off + w * w);
      f = d - h;
      slope = (off * ((a * a1 + b * b1) / q) + w * w1) / d;
      step = safeStep(f, slope, q);
    } else {
      // Beyond the bend's sector the nearer of its two ends is the closest point; neither may be stepped over.
      const dA = Math.sqrt((a - R) * (a - R) + b * b + w * w);
      const dB = Math.sqrt((a - R * cos) * (a - R * cos) + (b - R * sin) * (b - R * sin) + w * w);
      const slopeA = ((a - R) * a1 + b * b1 + w * w1) / dA;
      const slopeB = ((a - R * cos) * a1 + (b - R * sin) * b1 + w * w1) / dB;
      f = Math.min(dA, dB) - h;
      slope = dA < dB ? slopeA : slopeB;
      step = Math.min(safeStep(dA - h, slopeA, q), safeStep(dB - h, slopeB, q));
    }
    if (f <= 0) return z;
    if (falling && slope > 0 && (fBefore + f - (z - before)) / 2 < GRAZE) {
      const touch = goldenLeast((at) => clearance(bow, x, y, at), before, z, ROOT, cannotTouch);
      if (clearance(bow, x, y, touch) < GRAZE) return touch;
    }
    if (step < ROOT) return z;
    falling = slope < 0;
    before = z;
    fBefore = f;
    z += step;
    if (z > z1) return before < z1 && clearance(bow, x, y, z1) <= 0 ? z1 : Number.NaN;
  }
  return Number.NaN;
}

/** The clearance changes no faster than the line is long. */
const cannotTouch = (least: number, width: number): boolean => least - width > GRAZE;

const safeStep = (f: number, slope: number, q: number): number =>
  Math.max(f, Math.min(q / 2, (2 * f) / (Math.sqrt(slope * slope + (4 * f) / q) - slope)));
