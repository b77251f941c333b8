// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the bars of this fitting, and indices were found in the order.
import { gapFor, isIn, type Judged, lengthHere, shortenFor } from "../judge/index.ts";
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
        why: `${judged.why}; it would go in ${lengthHere(shorten.by)} shorter at end ${shorten.end} (the least found)`,
      }
    : { ...judged, why: `${judged.why}; nor did less length at one end let it in` };
}

/** More than this at one place is beyond hands and a strap (N): common practice, no source. */
export const BY_HAND = 1000;

/** Whether it is a gap that lets it in: to spring it would take more than hands give. */
export const isByGap = (j: Judged): j is Judged & { readonly gap: number; readonly force: number } =>
  j.goesIn === "spring" && j.gap !== undefined && (j.force ?? 0) > BY_HAND;

/** The sentence with force and gap; what a shop can do comes first. */
function whySprung(j: Judged, { bar }: FitBar): string {
  const ends = (["A", "B"] as const).filter((end) => bar.seat[end].kind === "on").join(" and ");
  const force =
    j.force === undefined
      ? ""
      : `about ${forceText(j.force)} at a host by a linear model of the frame so far`;
  if (isByGap(j))
    return `goes in with ${lengthHere(j.gap)} of gap at ${ends}; springing it would take ${j.force > 10 * BY_HAND ? "far " : ""}more than hands give (${force}); ${j.why}`;
  const beyond = (j.force ?? 0) > BY_HAND ? ", more than hands give" : "";
  const instead =
    j.gap === undefined ? "" : `; or with a gap of ${lengthHere(j.gap)} at each joint, nothing sprung`;
  return `${j.why}${force === "" ? "" : `; ${force}`}${beyond}${instead}`;
}

/** To two digits: the model knows no more. */
function forceText(force: number): string {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, force))) - 1);
  return `${Math.round(force / unit) * unit} N`;
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
