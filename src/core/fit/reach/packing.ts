import type { End } from "../../job/types.ts";
import { len } from "../../space/index.ts";
import { extent, halfExtent } from "../../tube/index.ts";
import type { FitBar } from "../scene/index.ts";

/** What to lay an edge on so that the bar in hand can be sat against it, and what goes under. */
export interface Packing {
  /** The tubes under the edge, at A and at B. */
  readonly on: Readonly<Record<End, string>>;
  /** Between a flat edge on those tubes and the bar (mm); negative: under the edge at that tube instead. */
  readonly flat: Readonly<Record<End, number>>;
  /** The same for a 90° angle laid over them like a roof. */
  readonly angle: Readonly<Record<End, number>>;
  /** Under the edge at the smaller of the two tubes so that it lies parallel to their centrelines (mm). */
  readonly shim: number;
  readonly shimUnder?: string;
}

/**
 * Straight-edge and packing for a bar whose both ends land on tubes' centrelines: the edge lies on both tubes beside
 * the landings, and the bar's top is below it by the difference of the radii R − r.
 * A 90° angle laid over a tube of radius R has its corner R·√2 from the axis, so that there it is √2 (R − r).
 * (Common practice, no source; plane geometry.) Undefined for an end that lands off a centreline, on a plate or free.
 */
export function packingOf({ bar, hosts }: Pick<FitBar, "bar" | "hosts">): Packing | undefined {
  const a = hosts.A[0];
  const b = hosts.B[0];
  if (!a || !b) return undefined;
  for (const end of ["A", "B"] as const) {
    const seat = bar.seat[end];
    if (seat.kind !== "on" || len(seat.off) > 1e-6) return undefined;
  }
  const r = halfExtent(bar.tube);
  const flat = { A: halfExtent(a.tube) - r, B: halfExtent(b.tube) - r };
  const shim = Math.abs(extent(a.tube) - extent(b.tube)) / 2;
  return {
    on: { A: a.id, B: b.id },
    flat,
    angle: { A: flat.A * Math.SQRT2, B: flat.B * Math.SQRT2 },
    shim,
    ...(shim > 0 ? { shimUnder: extent(a.tube) < extent(b.tube) ? a.id : b.id } : {}),
  };
}
