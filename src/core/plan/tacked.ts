// biome-ignore-all lint/style/noNonNullAssertion: paths has every bar that was judged, and id is one.
import { placesOf } from "../bar/index.ts";
import type { JobPoint, Place, TackSize, TackSpot } from "../job/index.ts";
import { rad } from "../numeric/index.ts";
import {
  expectedTacks,
  type Slipped,
  type Spot,
  slipsAmong,
  type Tacked,
  type TackedBar,
  type TackReading,
  type TackScatter,
  tackedBars,
} from "../trestles/index.ts";
import { extent } from "../tube/index.ts";
import { type Restated, restate } from "./aftertack.ts";
import { type Plan, planJob } from "./plan.ts";

/** How tacked bars stand by what was read of them, and what that does to the cards. */
export interface TackedAnswer {
  readonly found: Tacked;
  /** Of the first bar, for `asBuilt`. */
  readonly path: readonly Place[];
  /** Of every bar that was judged, by ID, for `asBuilt`. */
  readonly paths: Readonly<Record<string, { readonly path: readonly Place[] }>>;
  readonly after: Omit<Restated, "plan">;
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
    const { mark: held = 0 } = size;
    return from && to && { what: "tape", from, to, over: size.over, value: size.size - held, held };
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
 * How tacked bars stand, and which cards of the plan as it is that changes.
 *
 * Where a tape runs to another bar, that is taken as tacked too and both shapes are found together. The bar `id` is
 * judged from how it was wanted (its readings are kept, and all of them given again) or `from` how it stands in the plan,
 * the others from how they stand. Undefined where no bars near those give such readings, or one has no geometry.
 * Units: mm, radians. `set`: how far a foot may be set wrong and a bar lean.
 */
export function judgeTacked(
  plan: Plan,
  id: string,
  readings: readonly TackReading[],
  options: TackOptions = {},
): TackedAnswer | undefined {
  const judged = barsJudged(plan, id, readings, options);
  if (!judged) return undefined;
  const found = tackedBars(judged.bars, readings, judged.scatter, plan.job.shop.errors.tape);
  if (!found) return undefined;
  const paths = Object.fromEntries(found.bars.map((b) => [b.id, { path: placesOf(b.line) }]));
  const { plan: _, ...after } = restate(plan, paths);
  return { found, path: paths[id]!.path, paths, after };
}

/**
 * Readings on tacked bars that a slip of unit explains, with what each should have shown; they are to be left out, and
 * that said. None where a bar has no geometry.
 */
export function tackSlips(
  plan: Plan,
  id: string,
  readings: readonly TackReading[],
  options: TackOptions = {},
): readonly Slipped[] {
  const judged = barsJudged(plan, id, readings, options);
  if (!judged) return [];
  const expected = expectedTacks(judged.bars, readings, judged.scatter, plan.job.shop.errors.tape);
  // a slip of unit is in what the tape showed, its mark included
  const held = readings.map((r) => (r.what === "tape" ? (r.held ?? 0) : 0));
  return slipsAmong(
    readings.map((r, i) => ({ value: r.value + held[i]! })),
    expected.map((e, i) => ({ ...e, at: e.at + held[i]! })),
  );
}

interface TackOptions {
  readonly from?: "wanted" | "plan";
  readonly set?: typeof SET;
}

/** The bars that readings are judged on, as they were to stand, and what they scatter by; undefined where one has no geometry. */
function barsJudged(
  plan: Plan,
  id: string,
  readings: readonly TackReading[],
  { from = "wanted", set = SET }: TackOptions,
): { readonly bars: readonly TackedBar[]; readonly scatter: TackScatter } | undefined {
  const others = new Set(readings.flatMap(barsIn));
  others.delete(id);
  const first = (from === "wanted" ? asWanted(plan, id) : plan).byId.get(id);
  const planned = [first, ...[...others].map((other) => plan.byId.get(other))];
  if (!planned.every((b) => b !== undefined)) return undefined;
  const { errors } = plan.job.shop;
  const scatter = { mark: errors.mark, angle: rad(errors.angle), turn: rad(errors.turn), ...set };
  const bars = planned.map(({ id, bar: { centreline: line, tube, seat } }) => ({
    id,
    line,
    od: extent(tube),
    heldB: seat.B.kind !== "square",
  }));
  return { bars, scatter };
}

/** Bars that a reading names. */
export const barsIn = (r: TackReading): readonly string[] =>
  (r.what === "tape" ? [r.from, r.to] : [r.of]).flatMap((spot) => ("bar" in spot ? [spot.bar] : []));
