import type { JobPoint, TackSize, TackSpot } from "../job/index.ts";
import { rad } from "../numeric/index.ts";
import { placesOf, type Spot, type Tacked, type TackReading, tackedBars } from "../trestles/index.ts";
import { type Restated, restate } from "./aftertack.ts";
import { type Plan, planJob } from "./plan.ts";

/** How a tacked bar stands by what was read of it, and what that does to the cards. */
export interface TackedAnswer {
  readonly found: Tacked;
  /** For `asBuilt`. */
  readonly path: readonly (readonly [number, number, number])[];
  readonly after: Pick<Restated, "stale" | "cut" | "lost">;
}

/** How far a foot may be set wrong (mm) and a bar lean (radians) before anyone reads: common practice, no source. */
const SET = { foot: 2, lean: rad(0.3) };

/** A reading of the job as the trestles room has it; undefined where its point has no place yet. */
export function tackReading(
  size: TackSize,
  points: Readonly<Record<string, Pick<JobPoint, "at">>>,
): TackReading | undefined {
  const spot = (said: TackSpot): Spot | undefined => {
    if (typeof said !== "string") return said;
    const at = points[said]?.at;
    return at && { at };
  };
  if (size.what === "tape") {
    const [from, to] = [spot(size.from), spot(size.to)];
    return from && to && { what: "tape", from, to, over: size.over, value: size.size };
  }
  const of = spot(size.of);
  return of && { what: size.what, of, over: size.over, value: size.size };
}

/** The job with one bar as wanted again: what its own readings are judged against. */
export function asWanted(plan: Plan, id: string): Plan {
  const { [id]: own, ...others } = plan.job.asBuilt ?? {};
  return own ? planJob({ ...plan.job, asBuilt: others }, plan) : plan;
}

/**
 * How a tacked bar stands, and which cards of the plan as it is that changes. Undefined where no bar near the wanted
 * one gives such readings, or where the bar has no geometry. Units: mm.
 */
export function judgeTacked(
  plan: Plan,
  id: string,
  readings: readonly TackReading[],
): TackedAnswer | undefined {
  const planned = asWanted(plan, id).byId.get(id);
  if (!planned) return undefined;
  const { errors } = plan.job.shop;
  const scatter = { mark: errors.mark, angle: rad(errors.angle), turn: rad(errors.turn), ...SET };
  const { centreline: line, tube, seat } = planned.bar;
  const bar = { id, line, od: tube.od, heldB: seat.B.kind !== "square" };
  const found = tackedBars([bar], readings, scatter, errors.tape);
  if (!found) return undefined;
  const path = placesOf(found.bars[0]!.line);
  const { stale, cut, lost } = restate(plan, { [id]: { path } });
  return { found, path, after: { stale, cut, lost } };
}
