import { placesOf } from "../bar/index.ts";
import { angleToSet } from "../bend/index.ts";
import type { SawCut } from "../cope/index.ts";
import type { BentTo, CutHost, CutTo, MadeTo, NotchedTo, SawnTo } from "../job/index.ts";
import { type Die, type End, hasReached, type Place, type Progress } from "../job/index.ts";
import type { ResolvedBar, Seat } from "../layout/index.ts";
import { deg } from "../numeric/index.ts";
import { extent, sizeOf } from "../tube/index.ts";
import { cardOf } from "./cards.ts";
import { hostsOf } from "./hosts.ts";
import { type BarPlan, notchAt, type Plan } from "./plan.ts";

/** A step marked done: of the whole bar, or the notch of one end. */
export type Mark = Exclude<Progress, "laid out"> | { readonly notched: End };

/** How an end was notched, where that is not what its card says. */
export type NotchMethod = "hole saw" | "wrap";

/** What marking a step done sets: how far the bar has come, and what it was made to. */
export interface Marked {
  readonly progress: Progress;
  readonly to: MadeTo;
}

const ENDS = ["A", "B"] as const;

/**
 * A step marked done: what that step, and each before it that is not kept yet, was made to by the plan as it is now.
 * What is kept already stays as it is. A bar is notched when both its ends are. `by` says how an end was notched.
 * Lengths in mm, angles in degrees, as the job keeps them. Undefined for a bar without geometry.
 */
export function marked(plan: Plan, id: string, mark: Mark, by?: NotchMethod): Marked | undefined {
  const was = plan.byId.get(id);
  if (!was) return undefined;
  const { to: kept = {} } = plan.job.made?.[id] ?? {};
  const before = plan.job.bars[id]?.progress ?? "laid out";
  if (typeof mark === "string")
    return {
      progress: hasReached(before, mark) ? before : mark,
      to: { ...madeToOf(plan, was, mark, ENDS, by), ...kept, ...bothEnds(plan, was, kept, mark, by) },
    };
  const to = madeToOf(plan, was, "notched", [mark.notched], by);
  const notched = { ...to.notched, ...kept.notched };
  const reached = notched.A && notched.B ? "notched" : was.bend.bends.length > 0 ? "bent" : "sawn";
  return {
    progress: hasReached(before, reached) ? before : reached,
    to: { ...to, ...kept, notched },
  };
}

/** An end that was notched by itself keeps its figures when the whole bar is marked. */
function bothEnds(
  plan: Plan,
  was: BarPlan,
  kept: MadeTo,
  step: Progress,
  by: NotchMethod | undefined,
): Pick<MadeTo, "notched"> {
  if (!hasReached(step, "notched") || !kept.notched) return {};
  const missing = ENDS.filter((end) => !kept.notched?.[end]);
  return { notched: { ...madeToOf(plan, was, "notched", missing, by).notched, ...kept.notched } };
}

/** What a bar that has come so far was made to, by the plan alone. */
export function madeToOf(
  plan: Plan,
  was: BarPlan,
  step: Progress,
  ends: readonly End[] = ENDS,
  by?: NotchMethod,
): MadeTo {
  const { bar, bend } = was;
  // a card that was issued with other figures is not the one that it was made to
  const issued = plan.job.cards?.[was.id] && cardOf(plan, was);
  const card = issued?.on === undefined ? {} : { card: issued.n };
  const reached = (s: Progress): boolean => hasReached(step, s);
  const path = placesOf(bar.centreline).map(tidied);
  return {
    ...(reached("sawn") ? { sawn: { ...sawnTo(was), ...card } } : {}),
    ...(reached("bent") && bend.bends.length > 0 ? { bent: { ...bentTo(was), ...card } } : {}),
    ...(reached("notched")
      ? { notched: Object.fromEntries(ends.map((e) => [e, { ...notchedTo(plan, was, e, by), ...card }])) }
      : {}),
    ...(reached("fitted") ? { fitted: { path, ...card } } : {}),
    ...(reached("tacked") ? { tacked: { path, ...card } } : {}),
  };
}

/** Kept to a millionth of a millimetre, and of a degree. */
const tidy = (x: number): number => Math.round(x * 1e6) / 1e6 + 0;
const tidied = ([x, y, z]: Place): Place => [tidy(x), tidy(y), tidy(z)];
/** Directions: at the far end of a bar a millionth of one would be a thousandth of a millimetre. */
const exact = ([x, y, z]: Place): Place => [x + 0, y + 0, z + 0];

function sawnTo({ bar: { tube }, bend: { blank, trim } }: BarPlan): SawnTo {
  const { od, wall } = sizeOf(tube);
  const { material } = tube;
  return {
    tube: { od, wall, ...(material === undefined ? {} : { material }) },
    length: tidy(blank + trim.A + trim.B),
  };
}

function bentTo({ bar, bend, copes }: BarPlan): BentTo {
  const { die, dieId, fromEnd: fed } = bar;
  return {
    die: {
      ...(dieId === undefined ? {} : { id: dieId }),
      od: die?.od ?? extent(bar.tube),
      clr: die?.clr ?? 0,
      mark: die?.mark ?? 0,
      arcFactor: die?.arcFactor ?? 1,
      ...(die && bend.bends.some((b) => b.set) ? { springback: springbackOf(die) } : {}),
    },
    fed,
    zero: copes[fed].cope.zeroLine,
    bends: bend.bends.map((b) => ({
      n: b.n,
      mark: tidy(fed === "A" ? b.mark : b.markB),
      angle: tidy(deg(b.angle)),
      ...(b.set ? { set: tidy(deg(b.set.set)) } : {}),
      turn: tidy(deg(b.rotation)),
    })),
  };
}

/** The straight line by which a die's settings are figured (degrees). */
function springbackOf(die: Die): NonNullable<BentTo["die"]["springback"]> {
  const [none, one] = [angleToSet(die, 0).set, angleToSet(die, 1).set];
  const k = 1 / (one - none);
  return { k: tidy(k), c: tidy(deg(-k * none)) };
}

function notchedTo(plan: Plan, was: BarPlan, end: End, by: NotchMethod | undefined): NotchedTo {
  const { bar, bend, leastBack } = was;
  const { landing, out, zero } = was.copes[end].cope;
  return {
    ...cutBy(plan, was, end, by),
    landing: tidied(landing),
    out: exact(out),
    zero: exact(zero),
    over: tidy(bar.trim[end] - leastBack[end]),
    finished: tidy(bend.blank),
  };
}

type CutBy =
  | Pick<Extract<NotchedTo, { by: "hole saw" }>, "by" | "cuts">
  | Pick<Extract<NotchedTo, { by: "wrap" }>, "by" | "on" | "bars">
  | Pick<Extract<NotchedTo, { by: "saw" }>, "by" | "plate">;

/**
 * How an end was cut: as said, else as its card says. A bar that is bent within its joint keeps the curve, whichever
 * way: the saw that makes it is set on the host, and no straight line along the tube describes what it leaves.
 */
function cutBy(plan: Plan, was: BarPlan, end: End, by: NotchMethod | undefined): CutBy {
  const seat = was.bar.seat[end];
  if (seat.kind === "square") return { by: "saw" };
  if (seat.kind === "plate") return { by: "saw", plate: plateOf(seat) };
  const notch = notchAt(plan, was.id, end);
  const isSaw = by === undefined ? notch !== undefined && !notch.useWrap : by === "hole saw";
  if (isSaw && notch?.saw && !was.copes[end].cope.bentInJoint)
    return { by: "hole saw", cuts: [cutTo(notch.saw.cut)] };
  if (notch && notch.cuts.length > 0 && by !== "wrap")
    return { by: "hole saw", cuts: notch.cuts.map(({ cut }) => cutTo(cut)) };
  return { by: "wrap", ...wrapOf(plan, was, end) };
}

const plateOf = ({ at, normal, size, along }: Extract<Seat, { kind: "plate" }>) => ({
  at: tidied(at),
  normal: exact(normal),
  ...(size ? { size } : {}),
  ...(along ? { along: exact(along) } : {}),
});

const cutTo = ({ radius, notch, clock, centre, offset }: SawCut): CutTo => ({
  diameter: tidy(2 * radius),
  angle: tidy(deg(notch)),
  clock: tidy(deg(Math.atan2(Math.sin(clock), Math.cos(clock)))),
  centre: tidy(centre),
  offset: tidy(offset),
});

/** The bars that a curve comes from: what the end is coped to, then what those of `also` are cut by at their own ends. */
function wrapOf(plan: Plan, { bar }: BarPlan, end: End): { readonly on: number; readonly bars: CutHost[] } {
  const hosts = hostsOf(bar, end, plan.layout) ?? [];
  const all = [...hosts];
  for (const host of hosts.slice(1))
    for (const e of ENDS) {
      const seat = host.seat[e];
      for (const id of seat.kind === "on" ? seat.hosts : []) {
        const beside = plan.layout.byId.get(id);
        if (beside && !all.includes(beside)) all.push(beside);
      }
    }
  const endOf = (seat: Seat): CutHost["A"] => {
    if (seat.kind === "plate") return { plate: plateOf(seat) };
    const on = (seat.kind === "on" ? seat.hosts : []).map((id) => all.findIndex((h) => h.id === id));
    return on.length > 0 && on.every((i) => i >= 0) ? { on } : undefined;
  };
  const kept = (host: ResolvedBar, i: number): CutHost => {
    const clr = host.centreline.bends[0]?.clr;
    const isAlso = i > 0 && i < hosts.length;
    const [a, b] = isAlso ? [endOf(host.seat.A), endOf(host.seat.B)] : [];
    return {
      od: extent(host.tube),
      ...(clr === undefined ? {} : { clr }),
      path: placesOf(host.centreline).map(tidied),
      ...(a ? { A: a } : {}),
      ...(b ? { B: b } : {}),
    };
  };
  return { on: hosts.length, bars: all.map(kept) };
}
