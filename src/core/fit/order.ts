import { type Effort, type FitBar, type Judged, judge } from "./judge.ts";
import type { Obstacle } from "./scene.ts";

/** All that an order of fitting is sought for. */
export interface Fitting {
  /** In the job's order. */
  readonly bars: readonly FitBar[];
  /** Each bar of a pair to its twin. */
  readonly twins: ReadonlyMap<string, string>;
  /** What stands besides bars, with the roof on or off. */
  readonly parts: (roofOff: boolean) => readonly Obstacle[];
  readonly effort: Effort;
  /** Told after every bar that was judged, for a line of progress. */
  readonly told?: (judged: Judged) => void;
}

export interface Ordered {
  readonly order: readonly string[];
  /** In the order's order. */
  readonly bars: readonly Judged[];
  /** For each bar that does not go in: bars that must stay untacked till it is in, if leaving them lets it in. */
  readonly untacked: readonly { readonly bar: string; readonly leave: readonly string[] }[];
}

/** Share of the nodes that a first, quick look may make. */
const QUICK = 0.12;

/** A judge that remembers, by bar and what is tacked before it. */
function judgeOf(fitting: Fitting): (id: string, before: readonly string[], quick: boolean) => Judged {
  const byId = new Map(fitting.bars.map((b) => [b.bar.id, b]));
  const known = new Map<string, Judged>();
  return (id, before, quick) => {
    const key = `${id}|${[...before].sort().join("|")}`;
    const kept = known.get(key) ?? (quick ? known.get(`quick ${key}`) : undefined);
    if (kept) return kept;
    const own = byId.get(id)!;
    const tacked = before.map((b) => byId.get(b)!);
    // Once a bar that needs the roof off is in, the roof is off.
    const roofOff = own.needs === "roof off" || tacked.some((t) => t.needs === "roof off");
    const { effort } = fitting;
    const late = own.needs === "body on" && roofOff;
    const nodes = quick ? Math.ceil(effort.nodes * QUICK) : effort.nodes;
    const got = judge(own, tacked, fitting.parts(roofOff), { ...effort, nodes });
    const judged: Judged = late
      ? {
          ...got,
          goesIn: "no",
          way: [],
          proved: true,
          why: "it is set by the body with its roof on, and the roof is off by then",
        }
      : got;
    known.set(judged.goesIn === "no" && quick ? `quick ${key}` : key, judged);
    return judged;
  };
}

/** An order judged step by step: each bar against those before it. IDs that the order leaves out are not judged. */
export function judgeOrder(fitting: Fitting, order: readonly string[]): readonly Judged[] {
  const ask = judgeOf(fitting);
  return order.map((id, i) => {
    const judged = ask(id, order.slice(0, i), false);
    fitting.told?.(judged);
    return judged;
  });
}

/** One bar of an order judged against those before it, the others left alone. */
export const judgeAt = (fitting: Fitting, order: readonly string[], id: string): Judged =>
  judgeOf(fitting)(id, order.slice(0, order.indexOf(id)), false);

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
  const ask = judgeOf(fitting);
  let lo = Math.max(0, ...hosts.map((h) => h + 1));
  let hi = order.indexOf(id);
  if (hosts.some((h) => h < 0 || h > hi)) return undefined;
  let best: Judged | undefined;
  const first = ask(id, order.slice(0, lo), false);
  if (first.goesIn === "no") return undefined;
  best = first;
  while (hi - lo > 1) {
    const m = (lo + hi) >> 1;
    const judged = ask(id, order.slice(0, m), false);
    if (judged.goesIn === "no") hi = m;
    else {
      lo = m;
      best = judged;
    }
  }
  return { before: order[lo]!, judged: best };
}

/**
 * An order of all bars in which each goes in, found backwards: the whole cage is taken apart bar by bar (assembly by
 * disassembly; L. S. Homem de Mello and A. C. Sanderson, IEEE Transactions on Robotics and Automation 7, 1991,
 * 228-240). A bar may come out when none that is left lands on it and its way out is clear; what comes out among
 * many comes out among fewer, so taking any that can is never a wrong turn, but for searches that gave up too soon.
 * Preferred last in: what needs the roof off, then what stands last in the job; a bar's twin follows it.
 * Where nothing left comes out, the one that lacks least is taken out by force and said to be "no"; then it is tried
 * which one other bar (or two, of those that stood in its way) left untacked would let it in: not all sets are tried.
 */
export function findOrder(fitting: Fitting): Ordered {
  const ask = judgeOf(fitting);
  const landsOn = new Map(fitting.bars.map((b) => [b.bar.id, [...b.hosts.A, ...b.hosts.B].map((h) => h.id)]));
  const rank = (b: FitBar): number => (b.needs === "roof off" ? 2 : b.needs === "body on" ? 0 : 1);
  let left = [...fitting.bars].sort((a, b) => rank(a) - rank(b)).map((b) => b.bar.id);
  const taken: Judged[] = [];
  const failed = new Map<string, Judged>();
  let next: string | undefined;
  while (left.length > 0 && !fitting.effort.stop()) {
    const carried = new Set(left.flatMap((id) => landsOn.get(id)!));
    const able = left.filter((id) => !carried.has(id)).reverse();
    if (next !== undefined && able.includes(next)) able.unshift(...able.splice(able.indexOf(next), 1));
    const out = pick(able, left, ask, failed);
    taken.push(out);
    fitting.told?.(out);
    left = left.filter((id) => id !== out.bar);
    const twin = fitting.twins.get(out.bar);
    next = twin !== undefined && left.includes(twin) ? twin : undefined;
  }
  const bars = taken.reverse();
  const order = bars.map((j) => j.bar);
  const stuck = bars.filter((j) => j.goesIn === "no" && !fitting.effort.stop());
  return { order, bars, untacked: stuck.map((j) => ({ bar: j.bar, leave: leaving(j, ask, landsOn) })) };
}

type Ask = ReturnType<typeof judgeOf>;

/**
 * The bar to take out: the first that comes out free, or with no more springing than it needs whatever else stands;
 * else the one that comes out with least springing; else, by force, the one with least in its way. A bar that did not
 * come out is asked again only when something that stood in its way has gone, or when nothing else comes out.
 */
function pick(
  able: readonly string[],
  left: readonly string[],
  ask: Ask,
  failed: Map<string, Judged>,
): Judged {
  const among = (id: string): string[] => left.filter((other) => other !== id);
  const waits = (id: string): boolean => {
    const before = failed.get(id);
    return (
      before !== undefined && before.blockedBy.length > 0 && before.blockedBy.every((b) => left.includes(b))
    );
  };
  let sprung: Judged | undefined;
  for (const [quick, again] of [
    [true, false],
    [true, true],
    [false, true],
  ] as const) {
    for (const id of able) {
      if (waits(id) !== again && quick) continue;
      const judged = ask(id, among(id), quick);
      if (judged.goesIn === "free" || (judged.goesIn === "spring" && isItsOwn(judged))) return judged;
      failed.set(id, judged);
      if (judged.goesIn === "spring" && !(sprung && sprung.spring <= judged.spring)) sprung = judged;
    }
    if (sprung) return sprung;
  }
  const all = able.map((id) => ask(id, among(id), false));
  return all.reduce((best, j) => (j.blockedBy.length < best.blockedBy.length ? j : best));
}

/** Whether the springing comes from its own joints or seat, so that no other order spares it. */
const isItsOwn = (j: Judged): boolean => j.proved || j.fouls.some((f) => f.by >= j.spring - 0.01);

/** The least set found that, left untacked, lets a bar in; its hosts and what carries the set's landers stay. */
function leaving(
  stuck: Judged,
  ask: Ask,
  landsOn: ReadonlyMap<string, readonly string[]>,
): readonly string[] {
  const hosts = new Set(landsOn.get(stuck.bar)!);
  const free = stuck.after.filter((id) => !hosts.has(id));
  const without = (gone: readonly string[]): boolean => {
    const all = withLanders(gone, stuck.after, landsOn);
    return (
      !all.some((id) => hosts.has(id)) &&
      ask(
        stuck.bar,
        stuck.after.filter((id) => !all.includes(id)),
        false,
      ).goesIn !== "no"
    );
  };
  const likely = [
    ...stuck.blockedBy.filter((id) => free.includes(id)),
    ...free.filter((id) => !stuck.blockedBy.includes(id)),
  ];
  const one = likely.slice(0, 8).find((id) => without([id]));
  if (one !== undefined) return withLanders([one], stuck.after, landsOn);
  const few = likely.slice(0, 4);
  for (const [i, a] of few.entries()) {
    for (const b of few.slice(i + 1)) if (without([a, b])) return withLanders([a, b], stuck.after, landsOn);
  }
  return [];
}

/** A set of bars with all that lands on them: a bar cannot be tacked to one that is not. */
function withLanders(
  gone: readonly string[],
  among: readonly string[],
  landsOn: ReadonlyMap<string, readonly string[]>,
): readonly string[] {
  const out = new Set(gone);
  for (let grown = true; grown; ) {
    grown = false;
    for (const id of among) {
      if (!out.has(id) && landsOn.get(id)!.some((h) => out.has(h))) {
        out.add(id);
        grown = true;
      }
    }
  }
  return [...out];
}
