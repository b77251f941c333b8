import { type Check, type ChecksAfter, checksAfter, type Feed, feedOf } from "../bend/index.ts";
import type { Job } from "../job/types.ts";
import { type BentReading, type Blank, expectedBent } from "../trestles/index.ts";
import { type UnitSlip, unitSlip } from "../units/index.ts";
import { habitsOf } from "./bent.ts";
import type { BarPlan } from "./plan.ts";

/** One size to read after a bend: by tape, or by angle finder on both legs of the bend. */
export interface CheckSize {
  readonly what: Check["what"] | "angle";
  /** On the bar as planned, bent so far (mm; an angle in radians). */
  readonly value: number;
  /** Between what the tape is laid; absent for the angle. */
  readonly across?: Check["across"];
  /** What a reading scatters by where the shop works as it does: one standard deviation (as `value`). */
  readonly sd?: number;
  /** The same size as a reading of the finished bar. */
  readonly reading?: BentReading;
  /**
   * Why it is none: the next bend changes it; where a bend begins and ends is judged by eye, so that it has no ± either;
   * the trestles read that distance at this other bend; or the end from the other side of the plane.
   */
  readonly not?: "next-bend" | "by-eye" | "other-side" | { readonly at: number };
}

/**
 * What to read after a bend, in order: the angle, then the check sizes (`checksAfter`), each with its ±.
 *
 * The ± is `expectedBent`'s on the bar as it is then: the bends made so far in the order of the feed, the tube behind
 * them straight, the end fed first as A. A size is kept as a reading of the finished bar where it is the same distance
 * there. Units: mm, radians. Range: any bend of the bar by its number; none of another.
 */
export function checkSizes(
  { bar, leastBack }: Pick<BarPlan, "bar" | "leastBack">,
  job: Pick<Job, "shop">,
  bend: number,
  checks: readonly ChecksAfter[] = checksAfter(bar, leastBack),
): readonly CheckSize[] {
  const feed = feedOf(bar, leastBack);
  const i = feed.bends.findIndex((b) => b.n === bend);
  const made = feed.bends[i];
  if (!made) return [];
  const blank = partBlank(feed, i, bar.die?.arcFactor ?? 1);
  const { habits, sds } = habitsOf(job);
  const sizes = [
    { what: "angle" as const, value: made.angle },
    ...(checks.find((c) => c.bend === bend)?.checks ?? []),
  ];
  return sizes.map((size): CheckSize => {
    const bare = {
      what: size.what,
      value: size.value,
      ...("across" in size ? { across: size.across } : {}),
    };
    const now = readNow(size, feed, bend);
    const [expected] = now ? expectedBent(blank, [now], habits, sds) : [];
    if (!expected) return { ...bare, not: "by-eye" };
    if (Math.abs(expected.at - size.value) > SAME_SIZE) return { ...bare, not: "other-side" };
    return { ...bare, sd: expected.sd, ...kept(size, feed, i) };
  });
}

/** A check size and the reading that stands for it are one where they differ by less (mm, radians). */
const SAME_SIZE = 1e-3;

type Size = Pick<Check, "value" | "legs"> & { readonly what: CheckSize["what"] };

/** The bar with bends 0 … i of the feed made, counted from the end fed first as if that were A. */
function partBlank(feed: Feed, i: number, arcFactor: number): Blank {
  const made = feed.bends.slice(0, i + 1);
  return {
    shape: {
      straights: [...made.map((b) => b.straight), ...made.slice(-1).map((b) => b.rest)],
      angles: made.map((b) => b.angle),
      turns: made.map((b) => b.rotation),
      radii: made.map((b) => b.clr),
      numbers: made.map((b) => b.n),
    },
    od: feed.od,
    fromEnd: "A",
    arcFactor,
  };
}

/** A check size as a reading of the bar as far as it is bent; none of what no reading of the trestles is. */
function readNow({ what, value, legs }: Size, feed: Feed, bend: number): BentReading | undefined {
  const first = feed.bends[0]?.n ?? bend;
  const count = feed.bends.length + 1;
  switch (what) {
    case "angle":
      return { what, bend, value };
    case "end-to-end":
      return { what, value };
    case "leg-A":
    case "leg-B":
      return { what: "leg", end: what === `leg-${feed.lead}` ? "A" : "B", value };
    case "off-table":
      return { what: "off-flat", bend: first, end: "B", value };
    case "parallel-legs": {
      if (!legs) return undefined;
      const [j, k] = legs;
      return { what: "across", legs: feed.lead === "A" ? [j, k] : [count + 1 - k, count + 1 - j], value };
    }
    case "round-outside":
      return undefined;
  }
}

/** As which reading of the finished bar a size after bend i of the feed is kept, or why as none. */
function kept({ what, value, legs }: Size, feed: Feed, i: number): Pick<CheckSize, "reading" | "not"> {
  const bend = feed.bends[i]?.n ?? 0;
  const isLast = i === feed.bends.length - 1;
  if (what === "angle") return { reading: { what, bend, value } };
  if (what === "parallel-legs" && legs) {
    // The trestles read where the leg nearer to B begins, seen from A.
    const at = legs[1] - 1;
    const there = feed.bends[feed.lead === "A" ? at - 1 : feed.bends.length - at]?.n ?? bend;
    return there === bend ? { reading: { what: "across", legs, value } } : { not: { at: there } };
  }
  if (what === `leg-${feed.lead}`) return { reading: { what: "leg", end: feed.lead, value } };
  if (!isLast) return { not: "next-bend" };
  if (what === "end-to-end") return { reading: { what, value } };
  if (what === "off-table")
    return { reading: { what: "off-flat", bend: feed.bends[0]?.n ?? bend, end: feed.tail, value } };
  return { reading: { what: "leg", end: feed.tail, value } };
}

/** How a reading of a check size compares with the plan: by how much it is off, and in how many of its ±. */
export interface CheckJudged {
  readonly off: number;
  readonly times: number;
  /** A slip of unit that explains it. */
  readonly slip?: UnitSlip;
}

/** What was read against a check size (mm; an angle in radians); undefined for a size without a ±. */
export function judgeCheck({ what, value, sd }: CheckSize, read: number): CheckJudged | undefined {
  if (sd === undefined) return undefined;
  const off = read - value;
  const slip = what === "angle" ? undefined : unitSlip(read, value, sd);
  return { off, times: Math.abs(off) / sd, ...(slip ? { slip } : {}) };
}
