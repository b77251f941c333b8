// biome-ignore-all lint/style/noNonNullAssertion: a bar has one segment at least, six numbers each; marks and counts have an entry each alike; poses are looked at below their number.
import { cross, dot, lerp, sub, type Vec } from "../../space/index.ts";
import { type Gate, interpolate, type Pose, placed, type Solid, type Triangle } from "../scene/index.ts";
import { travel } from "./advance.ts";

/** A bar's place is followed in steps of at most this (mm). */
const STEP = 20;

/**
 * The openings that a way leads through, in the order in which they are passed: those that the bar's middle, or one
 * of its ends, passes an odd number of times (once through and back again is not through).
 */
export function throughOf(solid: Solid, poses: readonly Pose[], gates: readonly Gate[]): readonly string[] {
  if (gates.length === 0) return [];
  const { segments } = solid.whole;
  const n = segments.length;
  const first: Vec = [segments[0]!, segments[1]!, segments[2]!];
  const last: Vec = [segments[n - 3]!, segments[n - 2]!, segments[n - 1]!];
  const marks = [lerp(first, last, 0.5), first, last];
  const crossed = new Map<string, number[]>();
  let at = marks.map((m) => placed(poses[0]!, solid.about, m));
  for (let i = 0; i + 1 < poses.length; i++) {
    const [a, b] = [poses[i]!, poses[i + 1]!];
    const steps = Math.max(1, Math.ceil(travel(a, b, solid.reach) / STEP));
    for (let k = 1; k <= steps; k++) {
      const pose = interpolate(a, b, k / steps);
      const next = marks.map((m) => placed(pose, solid.about, m));
      for (const { id, triangles } of gates) {
        next.forEach((q, mark) => {
          if (!triangles.some((t) => pierces(at[mark]!, q, t))) return;
          const counts = crossed.get(id) ?? [0, 0, 0];
          counts[mark]!++;
          crossed.set(id, counts);
        });
      }
      at = next;
    }
  }
  return [...crossed].filter(([, counts]) => counts.some((c) => c % 2 === 1)).map(([id]) => id);
}

/** Whether the segment p–q goes through a triangle (T. Möller and B. Trumbore, Journal of Graphics Tools 2, 1997). */
function pierces(p: Vec, q: Vec, [a, b, c]: Triangle): boolean {
  const d = sub(q, p);
  const e1 = sub(b, a);
  const e2 = sub(c, a);
  const h = cross(d, e2);
  const det = dot(e1, h);
  if (Math.abs(det) < 1e-12) return false;
  const s = sub(p, a);
  const u = dot(s, h) / det;
  const k = cross(s, e1);
  const v = dot(d, k) / det;
  const t = dot(e2, k) / det;
  // Half open along the segment, so that a step that ends on the sheet is counted once.
  return u >= 0 && v >= 0 && u + v <= 1 && t >= 0 && t < 1;
}
