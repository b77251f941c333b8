import type { Plate } from "../../core/job/index.ts";
import type { Plan } from "../../core/plan/index.ts";

/**
 * The plates that a plan's bars stand on and those that nothing stands on yet, each once. A mirrored bar stands on the
 * mirror image of its original's plate whether or not the job lists one there, so it is drawn from the bar.
 */
export function platesOf({
  job,
  bars,
}: {
  readonly job: Plan["job"];
  readonly bars: readonly Pick<Plan["bars"][number], "bar">[];
}): Readonly<Record<string, Plate>> {
  const out: Record<string, Plate> = { ...job.plates };
  const places = new Set(Object.values(out).map(keyOf));
  for (const { bar } of bars) {
    for (const end of ["A", "B"] as const) {
      const seat = bar.seat[end];
      const listed = seat.kind === "plate" ? job.plates[seat.plate] : undefined;
      if (seat.kind !== "plate" || !listed) continue;
      const { kind: _, plate: __, ...plate } = seat;
      if (places.has(keyOf(plate))) continue;
      places.add(keyOf(plate));
      out[`${bar.id} ${end}`] = plate;
    }
  }
  return out;
}

const keyOf = ({ at }: Plate): string => at.map((v) => v.toFixed(2)).join();
