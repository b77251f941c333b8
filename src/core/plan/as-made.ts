import type { Notch } from "../cope/index.ts";
import type { BentTo, CutTo, End, MadeTo, NotchedTo, SawnTo } from "../job/index.ts";
import { hasReached, type Progress, stands } from "../job/index.ts";
import { judgeMade, type MadeVerdict } from "../made/index.ts";
import { deg, isSameFigure, isSameTurn } from "../numeric/index.ts";
import { angleBetween, cross, dot, neg, rejection } from "../space/index.ts";
import { sameTube } from "../tube/index.ts";
import { cardOf } from "./cards.ts";
import { limitsOf, wantOf } from "./change.ts";
import { knownTo, madeOf } from "./made.ts";
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
  /** What becomes of it, where a figure is wanted otherwise now and it is not in its place in the car. */
  readonly verdict?: MadeVerdict;
  /**
   * Tube at each sawn end beyond the allowance that the plan has there (mm): what is figured from a sawn end that is
   * not notched yet is farther from it by so much.
   */
  readonly extra: Readonly<Record<End, number>>;
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
  const reached = (p: Progress): boolean => hasReached(progress, p);
  if (!to?.sawn) return undefined;
  const now = madeToOf(plan, was, "bent");
  const bent = reached("bent") ? to.bent : undefined;
  const steps = {
    sawn: { made: to.sawn, wanted: now.sawn ?? to.sawn },
    ...(bent ? { bent: { made: bent, wanted: bentNow(was, bent, now.bent) } } : {}),
    notched: Object.fromEntries(
      ENDS.flatMap((end) => notchSides(plan, was, end, to.notched?.[end])),
    ) as AsMade["notched"],
  };
  const made = stands(progress) || !differs(steps) ? undefined : madeOf(plan, id);
  const verdict = made && judgeMade(made, wantOf(plan, was), limitsOf(plan.job));
  return {
    ...steps,
    card: cardOf(plan, was).n,
    ...(verdict ? { verdict } : {}),
    extra: extraOf(was, steps, verdict),
  };
}

type Steps = Pick<AsMade, "sawn" | "bent" | "notched">;

/** Whether any figure of what is done is wanted otherwise now. */
function differs({ sawn, bent, notched }: Steps): boolean {
  const isSame =
    isSameFigure(sawn.made.length, sawn.wanted.length) &&
    sameTube(sawn.made.tube, sawn.wanted.tube) &&
    (!bent || alikeBends(bent.made, bent.wanted)) &&
    ENDS.every((end) => !notched[end] || alikeNotches(notched[end].made, notched[end].wanted));
  return !isSame;
}

const alikeBends = (a: BentTo, b: BentTo): boolean =>
  a.bends.length === b.bends.length &&
  isSameFigure(a.die.clr, b.die.clr) &&
  a.bends.every((c, i) => {
    const d = b.bends[i];
    return (
      d &&
      isSameFigure(c.mark, d.mark) &&
      isSameFigure(c.angle, d.angle) &&
      isSameFigure(c.set ?? 0, d.set ?? 0) &&
      isSameTurn(c.turn, d.turn)
    );
  });

const alikeNotches = (a: NotchFigures, b: NotchFigures): boolean =>
  a.by === b.by &&
  a.cuts.length === b.cuts.length &&
  isSameFigure(a.finished, b.finished) &&
  isSameFigure(a.tilt ?? 0, b.tilt ?? 0) &&
  a.cuts.every((c, i) => {
    const d = b.cuts[i];
    return (
      d &&
      isSameFigure(c.angle, d.angle) &&
      isSameTurn(c.clock, d.clock) &&
      isSameFigure(c.diameter, d.diameter) &&
      isSameFigure(c.offset, d.offset) &&
      isSameFigure(c.fromSawn, d.fromSawn)
    );
  });

/**
 * What the tube has beyond the plan's allowance where it can still be used, as it was judged to lie; of a straight bar
 * with one end notched, the other end has it all. None at an end that is notched.
 */
function extraOf(
  { bend }: BarPlan,
  { sawn, notched }: Steps,
  verdict: MadeVerdict | undefined,
): AsMade["extra"] {
  const { A, B } = verdict?.ends ?? { A: -1, B: -1 };
  if (!verdict || verdict.verdict === "make again" || A < 0 || B < 0) return { A: 0, B: 0 };
  const beyond = { A: A - bend.trim.A, B: B - bend.trim.B };
  if (!notched.A && !notched.B) return beyond;
  const left = bend.bends.length > 0 ? beyond : { A: 1, B: 1 };
  const all = bend.bends.length > 0 ? 1 : sawn.made.length - sawn.wanted.length;
  return { A: notched.A ? 0 : left.A * all, B: notched.B ? 0 : left.B * all };
}

/**
 * A bar's figures on the tube that there is: allowance, and marks where it is still to be bent, from its sawn ends, which
 * have `extra` beyond what the plan has there (mm).
 */
export function onTube<P extends Pick<BarPlan, "bar" | "bend">>(planned: P, made: AsMade): P {
  if (!isOnTube(made)) return planned;
  const { extra } = made;
  const { bar, bend } = planned;
  return {
    ...planned,
    bar: { ...bar, trim: { A: bar.trim.A + extra.A, B: bar.trim.B + extra.B } },
    bend: {
      ...bend,
      trim: { A: bend.trim.A + extra.A, B: bend.trim.B + extra.B },
      bends: made.bent
        ? bend.bends
        : bend.bends.map((b) => ({ ...b, mark: b.mark + extra.A, markB: b.markB + extra.B })),
    },
  };
}

/** Whether what is still to be done is figured from a tube that has another allowance than the plan. */
export const isOnTube = ({ extra }: Pick<AsMade, "extra">): boolean => extra.A !== 0 || extra.B !== 0;

/** A notch with its holes counted from a sawn end that is `extra` farther out than the plan has it (mm). */
export function notchFrom<N extends Notch | undefined>(notch: N, extra: number): N {
  if (!notch || extra === 0) return notch;
  const moved = <H extends { readonly fromSawn: number }>(hole: H): H => ({
    ...hole,
    fromSawn: hole.fromSawn + extra,
  });
  return {
    ...notch,
    ...(notch.hole ? { hole: moved(notch.hole) } : {}),
    cuts: notch.cuts.map((c) => ({ ...c, hole: moved(c.hole) })),
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
