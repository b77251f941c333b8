// biome-ignore-all lint/style/noNonNullAssertion: every bar of this fitting has its entry in each of the maps.
import { phrase } from "../../findings/index.ts";
import { isIn, type Judged } from "../judge/index.ts";
import { shutOf } from "../reach/index.ts";
import { type FitBar, inTurn, landsOnOf } from "../scene/index.ts";
import { type Ask, askOf, type Fitting, unanswered } from "./fitting.ts";
import { finished } from "./order.ts";
import { leaving } from "./untacked.ts";

export interface Ordered {
  readonly order: readonly string[];
  /** In the order's order. */
  readonly bars: readonly Judged[];
  /** For each bar that does not go in: bars that must stay untacked till it is in, if leaving them lets it in. */
  readonly untacked: readonly { readonly bar: string; readonly leave: readonly string[] }[];
}

/**
 * An order of all bars in which each goes in, found backwards: the whole cage is taken apart bar by bar (assembly by
 * disassembly; L. S. Homem de Mello and A. C. Sanderson, IEEE Transactions on Robotics and Automation 7, 1991,
 * 228-240). A bar may come out when none that is left lands on it and its way out is clear; what comes out among
 * many comes out among fewer, so taking any that can is never a wrong turn, but for searches that gave up too soon.
 * Preferred last in: what needs the roof off; then what finds least of its own joints shut by going in so late
 * (`shutOf`); then the twin of what came out before it; then what stands last in the job.
 * Where nothing left comes out, the one that lacks least is taken out by force and said to be "no"; then the least
 * set of bars is sought that, left untacked, lets it in (`leaving`). Once stopped, what is left stays as the job has it.
 */
export function findOrder(fitting: Fitting): Ordered {
  const ask = askOf(fitting);
  const landsOn = landsOnOf(fitting.bars);
  const shut = shutOf(fitting, landsOn);
  const rank = (b: FitBar): number => (b.needs === "roof off" ? 2 : b.needs === "body on" ? 0 : 1);
  const late = new Map(fitting.bars.map((b) => [b.bar.id, rank(b)]));
  let left = [...fitting.bars].sort((a, b) => rank(a) - rank(b)).map((b) => b.bar.id);
  const taken: Judged[] = [];
  const failed = new Map<string, Judged>();
  let next: string | undefined;
  while (left.length > 0 && !fitting.effort.stop()) {
    const carried = new Set(left.flatMap((id) => landsOn.get(id)!));
    const able = left.filter((id) => !carried.has(id)).reverse();
    if (next !== undefined && able.includes(next)) able.unshift(...able.splice(able.indexOf(next), 1));
    const closed = new Map(able.map((id) => [id, shut(id, left)]));
    able.sort((a, b) => late.get(b)! - late.get(a)! || closed.get(a)! - closed.get(b)!);
    const out = pick(able, left, { ask, failed, next, twins: fitting.twins });
    taken.push(out);
    fitting.onStep?.({ bar: out.bar, done: taken.length, of: fitting.bars.length, judged: out });
    left = left.filter((id) => id !== out.bar);
    const twin = fitting.twins.get(out.bar);
    next = twin !== undefined && left.includes(twin) ? twin : undefined;
  }
  const early = inTurn(left, landsOn).map(
    (id, i, all): Judged => ({
      ...unanswered(id, all.slice(0, i), [phrase("fit-not-looked-at")]),
      stopped: true,
    }),
  );
  const bars = [...early, ...taken.reverse().map((j) => finished(fitting, j))];
  const { stop } = fitting.effort;
  const stuck = bars.filter((j) => j.goesIn === "no");
  return {
    order: bars.map((j) => j.bar),
    bars,
    untacked: stuck.map((j) => ({ bar: j.bar, leave: leaving(j, ask, landsOn, stop) })),
  };
}

/** What taking apart goes by: what did not come out when last asked for, and the twin of what came out last. */
interface Taking {
  readonly ask: Ask;
  readonly failed: Map<string, Judged>;
  readonly next: string | undefined;
  readonly twins: ReadonlyMap<string, string>;
}

/**
 * The bar to take out: the first that comes out free, or with no more springing than it needs whatever else stands;
 * else the one that comes out with least springing; else, by force, the one with least in its way.
 *
 * A bar that did not come out waits: it is asked again only when something that stood in its way has gone, its twin has
 * just come out, or nothing else comes out; so does one that would have had to be sprung, as with less in the way it
 * might go free. A twin of one that waits is asked after the others, so that they come out together.
 */
function pick(
  able: readonly string[],
  left: readonly string[],
  { ask, failed, next, twins }: Taking,
): Judged {
  const among = (id: string): string[] => left.filter((other) => other !== id);
  const waits = (id: string | undefined): boolean => {
    const before = failed.get(id ?? "");
    if (!before || id === next) return false;
    if (before.goesIn === "spring") return true;
    return before.blockedBy.length > 0 && before.blockedBy.every((b) => left.includes(b));
  };
  const late = new Set(able.filter(waits));
  const turn = (id: string): number => (late.has(id) ? 2 : waits(twins.get(id)) ? 1 : 0);
  for (const quick of [true, false]) {
    const asked = new Set<string>();
    let sprung: Judged | undefined;
    for (const now of [0, 1, 2]) {
      for (const id of able) {
        if (asked.has(id) || turn(id) > now) continue;
        asked.add(id);
        const judged = ask(id, among(id), quick);
        if (isIn(judged) && (judged.goesIn !== "spring" || isItsOwn(judged))) return judged;
        failed.set(id, judged);
        if (judged.goesIn === "spring" && !(sprung && sprung.spring <= judged.spring)) sprung = judged;
      }
    }
    if (sprung) return sprung;
  }
  const all = able.map((id) => ask(id, among(id), false));
  return all.reduce((best, j) => (j.blockedBy.length < best.blockedBy.length ? j : best));
}

/** Whether the springing comes from its own joints or seat, so that no other order spares it. */
const isItsOwn = (j: Judged): boolean => j.proved || j.fouls.some((f) => f.by >= j.spring - 0.01);
