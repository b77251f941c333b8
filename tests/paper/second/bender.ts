import type { Die, End, JobOf } from "./job.ts";
import type { Laid } from "./layout.ts";
import { backward, type Line, lineThrough, placeOn } from "./line.ts";
import { across, apart, go, inner, minus, outer, size, spun, times, toOne, type V } from "./vec.ts";

const DEG = 180 / Math.PI;

/** The bar as the bender meets it, from the end that is fed first. Bends keep their number from A. */
export interface Feeding {
  lead: End;
  tail: End;
  line: Line;
  numbers: number[];
  over: Record<End, number>;
  grows: number[];
}

export interface CheckOf {
  kind: string;
  value: number;
}

export interface TurnOf {
  bend: number;
  last: number;
  amount: number;
  way: "clockwise" | "counter-clockwise" | "";
  round: number;
  /** Degrees above level, negative below. */
  above: number;
  side: "left" | "right" | "";
}

export function feeding(laid: Laid, least: Record<End, number>, lead = laid.fromEnd): Feeding {
  const tail: End = lead === "A" ? "B" : "A";
  const line = lead === "A" ? laid.line : backward(laid.line);
  const total = line.bends.length;
  const factor = laid.die?.arcFactor ?? 1;
  return {
    lead,
    tail,
    line,
    numbers: line.bends.map((b) => (lead === "A" ? b.n : total + 1 - b.n)),
    over: { A: laid.trim.A - least.A, B: laid.trim.B - least.B },
    grows: line.bends.map((b) => (factor - 1) * b.part.length),
  };
}

const total = (list: number[]): number => list.reduce((a, b) => a + b, 0);

/** Net length: long point to long point, with what the bends use beyond R·θ. */
export const netLength = (laid: Laid, least: Record<End, number>): number =>
  laid.line.length - least.A - least.B + total(feeding(laid, least).grows);

/** Mark of every bend, by its number, from one sawn end when that end is fed first. */
export function marksFrom(laid: Laid, least: Record<End, number>, lead: End): Map<number, number> {
  const feed = feeding(laid, least, lead);
  const marks = new Map<number, number>();
  feed.line.bends.forEach((b, i) => {
    const used = total(feed.grows.slice(0, i));
    marks.set(feed.numbers[i]!, feed.over[lead] + b.start + used + (laid.die?.mark ?? 0));
  });
  return marks;
}

/** Springback of a die: got = k·set + c (degrees), from what it states or from its test bends. */
export function springOf(
  die: Die,
): { k: number; c: number; basis: string; sd?: (set: number) => number } | undefined {
  if (die.springback) return { ...die.springback, basis: "stated" };
  const n = die.tests.length;
  if (n === 0) return undefined;
  const error = 0.5;
  const x = die.tests.map((t) => t.set);
  const y = die.tests.map((t) => t.got);
  const [mx, my] = [total(x) / n, total(y) / n];
  const sxx = total(x.map((v) => (v - mx) ** 2));
  const chi = (off: number[], unknowns: number): number => {
    const spare = off.length - unknowns;
    return spare > 0 ? Math.max(1, Math.sqrt(total(off.map((r) => (r / error) ** 2)) / spare)) : 1;
  };
  // two settings nearer than about 14° tell no slope: springback in proportion to the angle
  if (n >= 2 && sxx >= 100) {
    const k = total(x.map((v, i) => (v - mx) * (y[i]! - my))) / sxx;
    const c = my - k * mx;
    const s =
      error *
      chi(
        x.map((v, i) => y[i]! - k * v - c),
        2,
      );
    return { k, c, basis: "line", sd: (set) => (s * Math.sqrt(1 / n + (set - mx) ** 2 / sxx)) / k };
  }
  const q = total(x.map((v) => v * v));
  const k = total(x.map((v, i) => v * y[i]!)) / q;
  const s =
    error *
    chi(
      x.map((v, i) => y[i]! - k * v),
      1,
    );
  return { k, c: 0, basis: "ratio", sd: (set) => (s * set) / Math.sqrt(q) / k };
}

export const setFor = (die: Die | undefined, wanted: number): { set: number; sd?: number } | undefined => {
  const spring = die && springOf(die);
  if (!spring) return undefined;
  const set = (wanted - spring.c) / spring.k;
  return { set, ...(spring.sd ? { sd: spring.sd(set) } : {}) };
};

/** The bar once bends 0 … last of the feed are made, the rest straight. */
export function partBent(feed: Feeding, last: number): Line {
  const { bends, parts, clr, start } = feed.line;
  const bend = bends[last]!;
  const ahead = parts[2 * last + 2]!.dir;
  const tangent = clr * Math.tan(bend.angle / 2);
  const rest = feed.line.length - bend.end + feed.over[feed.tail] + total(feed.grows.slice(last + 1));
  const nodes: V[] = [
    go(start, parts[0]!.dir, -feed.over[feed.lead]),
    ...bends.slice(0, last + 1).map((b) => b.corner),
    go(bend.corner, ahead, tangent + rest),
  ];
  return lineThrough(nodes, clr);
}

/** Lowest outside point over the plane through `origin` square to `up`, by small steps along the line. */
function lowestOf(line: Line, r: number, origin: V, up: V, to = line.length): number {
  let least = Infinity;
  const steps = Math.max(2, Math.ceil(to / 0.2));
  for (let i = 0; i <= steps; i++) {
    const { at, dir } = placeOn(line, (to * i) / steps);
    const h = inner(minus(at, origin), up) - r * Math.sqrt(Math.max(0, 1 - inner(dir, up) ** 2));
    if (h < least) least = h;
  }
  return least;
}

/** What tape and angle finder must read after each bend, in order of bending. */
export function checksOf(laid: Laid, least: Record<End, number>): Map<number, CheckOf[]> {
  const feed = feeding(laid, least);
  const r = laid.tube.od / 2;
  const out = new Map<number, CheckOf[]>();
  feed.line.bends.forEach((bend, i) => {
    const shape = partBent(feed, i);
    const n = feed.numbers[i]!;
    const checks: CheckOf[] = [];
    const corner = r * Math.tan(bend.angle / 2);
    if (bend.angle <= (120 * Math.PI) / 180 + 1e-12) {
      if (i === 0) checks.push({ kind: `leg ${feed.lead}`, value: apart(shape.start, bend.corner) + corner });
      checks.push({ kind: `leg ${feed.tail}`, value: apart(shape.finish, bend.corner) + corner });
    }
    checks.push({ kind: "round", value: (bend.part.r + r) * bend.angle });
    const legs = shape.parts.filter((p) => p.kind === "straight");
    const tail = legs[legs.length - 1]!;
    legs.slice(0, -1).forEach((leg, j) => {
      if (leg.length < 0.001 || size(outer(leg.dir, tail.dir)) > Math.sin((0.1 * Math.PI) / 180)) return;
      const wide = size(across(minus(tail.from, leg.from), leg.dir));
      const name = (k: number): string =>
        k === 0 ? `end ${feed.lead}` : k === i + 1 ? "tail" : `${feed.numbers[k - 1]}-${feed.numbers[k]}`;
      if (wide > 0.001) checks.push({ kind: `parallel ${name(j)}`, value: wide + 2 * r });
    });
    checks.push({ kind: "across", value: apart(shape.start, shape.finish) });
    const table = offTable(shape, r);
    if (table !== undefined) checks.push({ kind: "table", value: table });
    out.set(n, checks);
  });
  return out;
}

/** Underside of the tail end over the table on which the plane of the first bend lies; nothing for a flat bar. */
function offTable(shape: Line, r: number): number | undefined {
  const { normal, part } = shape.bends[0]!;
  const flat = shape.parts.every((p) => Math.abs(inner(p.dir, normal)) < 0.001 * (Math.PI / 180));
  const turnedFlat = shape.bends.every((b) => size(outer(b.normal, normal)) < 0.001 * (Math.PI / 180));
  if (flat && turnedFlat) return undefined;
  const tail = shape.parts[shape.parts.length - 1]!;
  const ways = [normal, times(normal, -1)].map((up) => {
    const h = inner(minus(shape.finish, part.centre), up);
    const under = h + r - r * Math.sqrt(Math.max(0, 1 - inner(tail.dir, up) ** 2));
    return { h, under, lies: r + lowestOf(shape, r, part.centre, up) >= -0.001 };
  });
  const lying = ways.filter((w) => w.lies);
  return (lying.length === 1 ? lying[0]! : ways[0]!.h >= ways[1]!.h ? ways[0]! : ways[1]!).under;
}

/** How the operator, looking along the tube toward the die, turns it between bends. */
export function turnsOf(laid: Laid, turnSide: "left" | "right"): TurnOf[] {
  const feed = feeding(laid, { A: 0, B: 0 });
  const { bends, parts } = feed.line;
  return bends.slice(1).map((_, k): TurnOf => {
    const leg = parts[2 * k + 2]!.dir;
    // the part already bent points here, as seen along the leg; the next bend goes that way
    const points = toOne(across(times(parts[2 * k]!.dir, -1), leg));
    const next = toOne(across(parts[2 * k + 4]!.dir, leg));
    const seen = seenBy(points, next, times(leg, -1), turnSide, laid.tube.od);
    return { ...seen, bend: feed.numbers[k + 1]!, last: feed.numbers[k]! };
  });
}

/** Where a direction is for the operator who looks along `f`, with `level` held level on the turn side. */
function seenBy(points: V, level: V, f: V, turnSide: "left" | "right", od: number) {
  const right = turnSide === "right" ? level : times(level, -1);
  const up = outer(right, f);
  const [x, y] = [inner(points, right), inner(points, up)];
  const from = turnSide === "right" ? 0 : 180;
  const at = Math.atan2(y, x) * DEG;
  // counter-clockwise as seen is positive here
  let turned = at - from;
  if (turned > 180) turned -= 360;
  if (turned <= -180) turned += 360;
  const none = Math.abs(turned) < 0.001;
  const half = 180 - Math.abs(turned) < 0.001;
  const amount = none ? 0 : half ? 180 : Math.abs(turned);
  const way =
    none || half ? ("" as const) : turned > 0 ? ("counter-clockwise" as const) : ("clockwise" as const);
  const plumb = Math.abs(Math.abs(at) - 90) < 0.001;
  const above = plumb ? Math.sign(at) * 90 : Math.atan2(y, Math.abs(x)) * DEG;
  return {
    amount,
    way,
    round: (amount / DEG) * (od / 2),
    above: Math.abs(above) < 0.001 ? 0 : above,
    side: plumb ? ("" as const) : x > 0 ? ("right" as const) : ("left" as const),
  };
}

/** Two bends, the tube turned round between them: where the bend made first points when the other end is fed. */
export function roundOf(laid: Laid, turnSide: "left" | "right"): TurnOf | undefined {
  const feed = feeding(laid, { A: 0, B: 0 });
  if (feed.line.bends.length !== 2) return undefined;
  const dirs = feed.line.parts.filter((p) => p.kind === "straight").map((p) => p.dir);
  const leg = dirs[1]!;
  const points = toOne(across(times(dirs[0]!, -1), leg));
  const next = toOne(across(dirs[2]!, leg));
  return {
    ...seenBy(points, next, leg, turnSide, laid.tube.od),
    bend: feed.numbers[1]!,
    last: feed.numbers[0]!,
  };
}

export interface LimitOf {
  code: string;
  figures: Record<string, number | string>;
}

/** What stands in the way at the bender, with its figures. */
export function limitsOf(laid: Laid, least: Record<End, number>, job: JobOf): LimitOf[] {
  const { die } = laid;
  const feed = feeding(laid, least);
  const { bends } = feed.line;
  if (!die || bends.length === 0) return [];
  const out: LimitOf[] = [];
  const add = (code: string, figures: LimitOf["figures"]): number => out.push({ code, figures });
  if (Math.abs(die.od - laid.tube.od) > 0.001) add("other tube", { die: die.od, tube: laid.tube.od });
  if (die.clr < 3 * laid.tube.od - 0.001) add("tight", { clr: die.clr, least: 3 * laid.tube.od });
  const lead = bends[0]!.straightBefore + feed.over[feed.lead];
  if (die.clamp !== undefined && lead < die.clamp - 0.001)
    add("clamp", { bend: feed.numbers[0]!, has: lead, needs: die.clamp });
  bends.slice(1).forEach((b, i) => {
    const [p, q] = [feed.numbers[i]!, feed.numbers[i + 1]!].sort((x, y) => x - y) as [number, number];
    if (die.between !== undefined && b.straightBefore < die.between - 0.001)
      add("between", { first: p, second: q, has: b.straightBefore, needs: die.between });
  });
  const rest = feed.line.lastStraight + feed.over[feed.tail];
  if (die.tail !== undefined && rest < die.tail - 0.001)
    add("tail", { bend: feed.numbers[bends.length - 1]!, has: rest, needs: die.tail });
  bends.forEach((b, i) => {
    const angle = b.angle * DEG;
    const set = setFor(die, angle)?.set ?? angle;
    const most = die.maxAngle ?? Infinity;
    if (angle > most + 0.001) add("angle", { bend: feed.numbers[i]!, angle, most });
    else if (set > most + 0.001) add("set", { bend: feed.numbers[i]!, angle, set, most });
  });
  if (job.height !== undefined) {
    const mine = hangs(feed, laid.tube.od / 2, job.turnSide);
    const other = hangs(feeding(laid, least, feed.tail), laid.tube.od / 2, job.turnSide);
    for (const { bend, below } of mine)
      if (below > job.height)
        add("floor", {
          bend,
          below,
          height: job.height,
          other: Math.max(...other.map((h) => h.below)),
        });
  }
  return out;
}

/** How far the bent part hangs under the die's plane while each later bend is made. */
function hangs(feed: Feeding, r: number, turnSide: "left" | "right"): { bend: number; below: number }[] {
  const { bends, parts } = feed.line;
  return bends.slice(1).map((bend, k) => {
    const shape = partBent(feed, k);
    const leg = parts[2 * k + 2]!.dir;
    const inside = toOne(across(parts[2 * k + 4]!.dir, leg));
    const right = turnSide === "right" ? inside : times(inside, -1);
    const up = outer(right, times(leg, -1));
    const made = shape.length - shape.lastStraight;
    return { bend: feed.numbers[k + 1]!, below: -lowestOf(shape, r, bend.part.centre, up, made) };
  });
}

/** Over the plane of the bend made first, the centre of the tail end (the bar as designed, landing to landing). */
export function risesOver(laid: Laid): { height: number; first: number; tail: End } {
  const feed = feeding(laid, { A: 0, B: 0 });
  const first = feed.line.bends[0]!;
  const height = Math.abs(inner(minus(feed.line.finish, first.part.centre), first.normal));
  return { height, first: feed.numbers[0]!, tail: feed.tail };
}

/** The turn (degrees) from a side at end A to a side at end B, carried along; positive clockwise from A toward B. */
export function endsTurn(line: Line, atA: V, atB: V): number {
  const w = line.bends.reduce((v, b) => spun(v, b.normal, b.angle), atA);
  const d = line.parts[line.parts.length - 1]!.dir;
  return Math.atan2(inner(d, outer(w, atB)), inner(w, atB)) * DEG;
}
