import type { Plate } from "../../core/job/index.ts";
import { platesUnder } from "../../core/layout/index.ts";
import type { Plan } from "../../core/plan/index.ts";

/** A plate of the picture; `unsized`: the radius of what is taken for one that has bars on it and no size (mm). */
export type DrawnPlate = Plate & { readonly unsized?: number };

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
}): Readonly<Record<string, DrawnPlate>> {
  const under = platesUnder(
    job.plates,
    bars.map((b) => b.bar),
  ).map(({ id, plate, outline, isSized }): [string, DrawnPlate] => [
    id,
    isSized || outline.kind !== "disc" ? plate : { ...plate, unsized: outline.radius },
  ]);
  return { ...job.plates, ...Object.fromEntries(under) };
}
