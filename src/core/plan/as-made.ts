import type { BentTo, CutTo, End, MadeTo, NotchedTo, SawnTo } from "../job/index.ts";
import { PROGRESS, type Progress } from "../job/index.ts";
import { stands } from "../layout/index.ts";
import { deg } from "../numeric/index.ts";
import { angleBetween, cross, dot, neg, rejection } from "../space/index.ts";
import { cardOf } from "./cards.ts";
import { knownTo } from "./made.ts";
import type { BarPlan, Plan } from "./plan.ts";
import { madeToOf } from "./record.ts";

/** A figure of a step that is done, and what the plan wants in its place now. */
export interface Sides<T> {
  readonly made: T;
  readonly wanted: T;
}

/** One cut of a hole saw as its card has it: `fromSawn` is from the sawn end to the hole's centre (mm). */
export interface CutFigures extends Omit<CutTo, "centre"> {
  readonly fromSawn: number;
}

/** How an end was cut, by its figures (mm, degrees). */
export interface NotchFigures {
  readonly by: NotchedTo["by"];
  readonly cuts: readonly CutFigures[];
  /** Of a flat cut: off square, and the clock of its long point where it leans. */
  readonly tilt?: number;
  readonly long?: number;
  /** Net length that both ends were to give. */
  readonly finished: number;
  readonly card?: number;
}

/** What is done of a bar, step by step, beside what the plan wants now. */
export interface AsMade {
  readonly sawn: Sides<SawnTo>;
  /** Marks of both sides are from the end that was fed first. */
  readonly bent?: Sides<BentTo>;
  readonly notched: Partial<Record<End, Sides<NotchFigures>>>;
  /** The number of its card as it would be printed now. */
  readonly card: number;
}

const ENDS = ["A", "B"] as const;
/** A plate leans less off square than this: no clock (degrees). */
const LEVEL = 0.01;

/** What was made of a bar that is sawn or further, by what its steps keep; undefined for one that is only laid out. */
export function asMade(plan: Plan, id: string): AsMade | undefined {
  const progress = plan.job.bars[id]?.progress ?? "laid out";
  const was = plan.byId.get(id);
  if (!was || progress === "laid out") return undefined;
  const { to } = knownTo(plan, id, progress);
  const reached = (p: Progress): boolean => PROGRESS.indexOf(progress) >= PROGRESS.indexOf(p);
  if (!to?.sawn) return undefined;
  const now = madeToOf(plan, was, "bent");
  const bent = reached("bent") ? to.bent : undefined;
  return {
    sawn: { made: to.sawn, wanted: now.sawn ?? to.sawn },
    ...(bent ? { bent: { made: bent, wanted: bentNow(was, bent, now.bent) } } : {}),
    notched: Object.fromEntries(ENDS.flatMap((end) => notchSides(plan, was, end, to.notched?.[end]))),
    card: cardOf(plan, was).n,
  };
}

/** What is wanted now, marked from the end that the bar was fed by. */
function bentNow({ bend }: BarPlan, { fed, die }: BentTo, now: BentTo | undefined): BentTo {
  if (!now) return { die, fed, zero: "", bends: [] };
  const bends = now.bends.map((b, i) => {
    const planned = bend.bends[i];
    return planned ? { ...b, mark: fed === "A" ? planned.mark : planned.markB } : b;
  });
  return { ...now, bends };
}

function notchSides(
  plan: Plan,
  was: BarPlan,
  end: End,
  made: NotchedTo | undefined,
): readonly (readonly [End, Sides<NotchFigures>])[] {
  if (!made) return [];
  const by = made.by === "saw" ? undefined : made.by;
  const wanted: MadeTo["notched"] = madeToOf(plan, was, "notched", [end], by).notched;
  return [[end, { made: figuresOf(made), wanted: figuresOf(wanted?.[end] ?? made) }]];
}

function figuresOf(to: NotchedTo): NotchFigures {
  const { by, finished, card } = to;
  const cuts =
    to.by === "hole saw" ? to.cuts.map(({ centre, ...cut }) => ({ ...cut, fromSawn: to.over + centre })) : [];
  return { by, cuts, ...flatOf(to), finished, ...(card === undefined ? {} : { card }) };
}

/** How a flat cut leans: its long point is on the side to which the plate's normal leans. */
function flatOf(to: NotchedTo): Pick<NotchFigures, "tilt" | "long"> {
  if (to.by !== "saw") return {};
  const { plate, out, zero } = to;
  const tilt = plate ? deg(angleBetween(out, neg(plate.normal))) : 0;
  if (!plate || tilt < LEVEL) return { tilt: 0 };
  const side = rejection(plate.normal, out);
  return { tilt, long: deg(Math.atan2(dot(side, cross(out, zero)), dot(side, zero))) };
}

/**
 * The number of the card that was issued for a bar where its figures are others now, and the number that the next one
 * has. Undefined where the paper holds, none was issued, or the bar is in its place in the car.
 */
export function oldPaper(plan: Plan, id: string): { readonly had: number; readonly now: number } | undefined {
  const was = plan.byId.get(id);
  const last = plan.job.cards?.[id];
  if (!was || !last || stands(plan.job.bars[id]?.progress)) return undefined;
  const { n } = cardOf(plan, was);
  return n === last.n ? undefined : { had: last.n, now: n };
}
