import { placeAt } from "../../bar/index.ts";
import type { Job } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { type Body, bodyOf, driverObstacles, plateObstacle } from "./body.ts";
import type { Gate } from "./gate.ts";
import type { Obstacle } from "./scene.ts";

/**
 * What stands in a car besides its bars: the plates that bars stand on, the body (see bodyOf), the driver's room, and
 * the floor at z = 0 unless a bar itself reaches below it. With the roof off, what comes off with it is left out.
 */
export function partsOf(
  job: Job,
  bars: readonly ResolvedBar[],
): {
  readonly parts: (roofOff: boolean) => readonly Obstacle[];
  readonly gates: readonly Gate[];
  readonly body: Body;
} {
  const body = bodyOf(job.body);
  const plates = new Map<string, Obstacle>();
  for (const bar of bars) {
    for (const seat of [bar.seat.A, bar.seat.B]) {
      if (seat.kind !== "plate") continue;
      // A mirrored bar stands on its plate's mirror image.
      const id =
        seat.at[1] * (job.plates[seat.plate]?.at[1] ?? 0) < 0 ? `${seat.plate}, other side` : seat.plate;
      plates.set(id, plateObstacle(id, seat.at, seat.normal, job.plates[seat.plate]?.size));
    }
  }
  const lowest = Math.min(0, ...bars.map(lowestOf));
  const fixed: Obstacle[] = [...plates.values(), ...(job.driver ? driverObstacles(job.driver) : [])];
  if (lowest > -BELOW) fixed.push({ id: "floor", kind: "floor", z: 0 });
  const on = [...fixed, ...body.parts.map((p) => p.obstacle)];
  const off = [...fixed, ...body.parts.filter((p) => !p.roof).map((p) => p.obstacle)];
  return { parts: (roofOff) => (roofOff ? off : on), gates: body.gates, body };
}

/** A bar that reaches less far below 0 than this (mm) stands on the floor. */
const BELOW = 0.5;

/** The height of a bar's lowest point (mm), its ends cut square; on a plate, the plate's. */
function lowestOf({ centreline: c, tube, seat }: ResolvedBar): number {
  const r = tube.od / 2;
  const ends = (["A", "B"] as const).map((end) => {
    const at = seat[end];
    if (at.kind === "plate") return at.at[2];
    const { at: place, dir } = placeAt(c, end === "A" ? 0 : c.length);
    return place[2] - r * Math.sqrt(Math.max(0, 1 - dir[2] ** 2));
  });
  return Math.min(...ends, ...c.bends.map((b) => b.corner[2] - r));
}
