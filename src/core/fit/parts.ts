import type { Job } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { type Body, bodyOf, driverObstacles, plateObstacle } from "./body.ts";
import { boxOf } from "./box.ts";
import type { Obstacle } from "./scene.ts";
import type { Gate } from "./through.ts";

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
  const lowest = Math.min(
    0,
    ...bars.map((b) => {
      const { lo } = boxOf([
        b.centreline.start,
        ...b.centreline.bends.map((k) => k.corner),
        b.centreline.finish,
      ]);
      return lo[2] - b.tube.od / 2;
    }),
  );
  const fixed: Obstacle[] = [...plates.values(), ...(job.driver ? driverObstacles(job.driver) : [])];
  if (lowest >= 0) fixed.push({ id: "floor", kind: "floor", z: 0 });
  const on = [...fixed, ...body.parts.map((p) => p.obstacle)];
  const off = [...fixed, ...body.parts.filter((p) => !p.roof).map((p) => p.obstacle)];
  return { parts: (roofOff) => (roofOff ? off : on), gates: body.gates, body };
}
