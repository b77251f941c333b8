// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the bars of this fitting, and indices were found in the order.
import { count, list, mm, phrase, text } from "../../findings/index.ts";
import { gapFor, isIn, type Judged, shortenFor } from "../judge/index.ts";
import type { FitBar } from "../scene/index.ts";
import { type Ask, askOf, type Fitting, roofOff, settingOf } from "./fitting.ts";

/**
 * One bar of an order judged against those before it, the others left alone, with the very result that
 * judging the whole order in one go gives (of a pair, the one before is judged too, as its way in the mirror is tried
 * first). For one thread of many.
 */
export function judgeAt(fitting: Fitting, order: readonly string[], id: string): Judged {
  const ask = askOf(fitting);
  const at = order.indexOf(id);
  const twin = order.indexOf(fitting.twins.get(id) ?? "");
  if (twin >= 0 && twin < at) ask(order[twin]!, order.slice(0, twin), false);
  return finished(fitting, ask(id, order.slice(0, at), false));
}

/** An answer with what only a final one is asked for: the force of springing, or the gap instead; what would let it in. */
export function finished(fitting: Fitting, judged: Judged): Judged {
  if (judged.stopped || (judged.goesIn !== "spring" && judged.goesIn !== "no")) return judged;
  const own = fitting.bars.find((b) => b.bar.id === judged.bar)!;
  const setting = settingOf(fitting, own, judged.after);
  if (judged.goesIn === "spring") {
    const force = fitting.force?.(judged.pushes, judged.after);
    const gap = gapFor(own, setting, judged);
    const said = {
      ...judged,
      ...(force === undefined ? {} : { force }),
      ...(gap === undefined ? {} : { gap }),
    };
    return { ...said, why: whySprung(said, own) };
  }
  if (!mayBeShortened(fitting, own, judged)) return judged;
  // No remedy larger than its cause, where that was measured.
  const shorten = shortenFor(own, { ...setting, joint: judged.joint }, judged.met?.by);
  return shorten
    ? {
        ...judged,
        shorten,
        why: [...judged.why, phrase("fit-shorter", { by: mm(shorten.by), end: text(shorten.end) })],
      }
    : { ...judged, why: [...judged.why, phrase("fit-no-shorter")] };
}

/**
 * The most that two hands and a strap put on one place of a frame in the car (N): common practice, no source. More
 * than two hands alone pull a loose bar by (`TWO_HANDS` of the trestles), since a strap holds what it has pulled.
 */
export const HANDS_AND_STRAP = 1000;

/** Whether it is a gap that lets it in: to spring it would take more than two hands. */
export const isByGap = (j: Judged): j is Judged & { readonly gap: number; readonly force: number } =>
  j.goesIn === "spring" && j.gap !== undefined && (j.force ?? 0) > HANDS_AND_STRAP;

/** With force and gap; what a shop can do comes first. */
function whySprung(j: Judged, { bar }: FitBar): Judged["why"] {
  const ends = list((["A", "B"] as const).filter((end) => bar.seat[end].kind === "on").map(text));
  const code = (j.force ?? 0) > HANDS_AND_STRAP ? "fit-beyond-hands" : "fit-force";
  const force = j.force === undefined ? [] : [phrase(code, { force: count(inTwoDigits(j.force)) })];
  if (isByGap(j)) return [phrase("fit-by-gap", { gap: mm(j.gap), ends }), ...force, ...j.why];
  return [...j.why, ...force, ...(j.gap === undefined ? [] : [phrase("fit-or-gap", { gap: mm(j.gap) })])];
}

/** To two digits: the model knows no more. */
function inTwoDigits(force: number): number {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, force))) - 1);
  return Math.round(force / unit) * unit;
}

/** Not where it is out of turn (a host is missing, the roof is off) or runs into something at its very seat. */
function mayBeShortened(fitting: Fitting, own: FitBar, judged: Judged): boolean {
  const tacked = fitting.bars.filter((b) => judged.after.includes(b.bar.id));
  if (own.needs === "body on" && roofOff(own, tacked)) return false;
  if (judged.fouls.some((f) => f.by > fitting.effort.most)) return false;
  return [...own.hosts.A, ...own.hosts.B].every((h) => judged.after.includes(h.id));
}

/**
 * The smallest change of a given order that lets a bar in: how far up it must move, by one name. A bar that goes in
 * among some bars goes in among fewer, so the latest place is found by halving. Undefined where no place before it
 * (its hosts in first) lets it in.
 */
export function cureOf(
  fitting: Fitting,
  order: readonly string[],
  id: string,
): { readonly before: string; readonly judged: Judged } | undefined {
  const own = fitting.bars.find((b) => b.bar.id === id)!;
  const hosts = [...own.hosts.A, ...own.hosts.B].map((h) => order.indexOf(h.id));
  const ask: Ask = askOf(fitting);
  let lo = Math.max(0, ...hosts.map((h) => h + 1));
  let hi = order.indexOf(id);
  if (hosts.some((h) => h < 0 || h > hi)) return undefined;
  let best = ask(id, order.slice(0, lo), false);
  if (!isIn(best)) return undefined;
  while (hi - lo > 1) {
    const m = (lo + hi) >> 1;
    const judged = ask(id, order.slice(0, m), false);
    if (!isIn(judged)) hi = m;
    else {
      lo = m;
      best = judged;
    }
  }
  return { before: order[lo]!, judged: best };
}
