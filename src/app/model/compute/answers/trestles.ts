import { placesOf } from "../../../../core/bar/index.ts";
import {
  asWanted,
  type BentAnswer,
  bentReading,
  bentSlips,
  blankOf,
  judgeBent,
  type Plan,
  type Restated,
  restate,
  tellingOf,
} from "../../../../core/plan/index.ts";
import type { Vec } from "../../../../core/space/index.ts";
import {
  type BarShape,
  besidesSlips,
  readingProblem,
  type Slipped,
  type Telling,
} from "../../../../core/trestles/index.ts";
import { sayBentProblem } from "../../../../words/index.ts";

/** What a bent bar really is, from the readings that the job keeps of it. */
export interface TrestlesAsk {
  readonly bar: string;
}

export interface TrestlesAnswer {
  /** The bar as wanted, its ends sawn square: what the readings are held against. */
  readonly wanted: BarShape;
  /** Readings that count, by their index in the job's list, and those that this bar cannot give. */
  readonly counted: readonly number[];
  readonly wrong: readonly { readonly index: number; readonly why: string }[];
  /** Readings that a slip of unit explains, by their index in the job's list: they are left out. */
  readonly slipped: readonly Slipped[];
  /** Absent before the first reading; "none" where no bar near the wanted one gives such readings. */
  readonly judged?: (BentAnswer & { readonly placed?: Kept; readonly after?: After }) | "none";
  /** The readings that would tell most, the best first. */
  readonly telling: readonly Telling[];
}

/** Other cards that change when the plan goes by the bar as bent. */
type After = Omit<Restated, "plan">;

/** For `asBuilt`: where the bar stands as laid best, and the tube beyond each long point (mm). */
export interface Kept {
  readonly path: readonly Vec[];
  readonly over: { readonly A: number; readonly B: number };
}

/** How far a bar may be put from where it was wanted (mm): as the command line has it. */
const FREEDOM = { slide: 10, aside: 10 };

export function trestles(plan: Plan, { bar }: TrestlesAsk): TrestlesAnswer | undefined {
  const wanted = asWanted(plan, bar);
  const planned = wanted.byId.get(bar);
  if (!planned) return undefined;
  const blank = blankOf(planned);
  const sizes = plan.job.made?.[bar]?.bent ?? [];
  const read = sizes.map((size, index) => ({ index, size, reading: bentReading(size) }));
  const checked = read
    .filter(({ size }) => !size.struck)
    .map((r) => ({ ...r, why: readingProblem(r.reading, blank.shape) }));
  const possible = checked.filter((r) => r.why === undefined);
  const slips = bentSlips(
    wanted,
    planned,
    possible.map((r) => r.reading),
  );
  const good = besidesSlips(possible, slips).map((r) => r.reading);
  const readings = good.map((r) => r.reading);
  const found = readings.length > 0 ? judgeBent(wanted, planned, readings, FREEDOM) : undefined;
  const placed = found?.verdict.placed;
  return {
    wanted: blank.shape,
    counted: good.map((r) => r.index),
    wrong: checked.flatMap(({ index, why }) =>
      why === undefined ? [] : [{ index, why: sayBentProblem(why) }],
    ),
    slipped: slips.map((s) => ({ ...s, index: possible[s.index]?.index ?? s.index })),
    ...(readings.length === 0 ? {} : { judged: found ? { ...found, ...kept(plan, bar, placed) } : "none" }),
    telling: tellingOf(wanted, planned, readings),
  };
}

function kept(
  plan: Plan,
  bar: string,
  placed: BentAnswer["verdict"]["placed"],
): { readonly placed?: Kept; readonly after?: After } {
  if (!placed) return {};
  const over = { A: placed.landings.A.spare, B: placed.landings.B.spare };
  const path = placesOf(placed.bar.centreline);
  const { plan: _, ...after } = restate(plan, { [bar]: { path, over } });
  return { placed: { path, over }, after };
}
