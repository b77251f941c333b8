import { count, degrees, type Finding, list, mm, phrase, type Quantity, text } from "../findings/index.ts";
import type { Die, End, Job } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg, NO_BEND, rad, SAME_PLACE } from "../numeric/index.ts";
import { neg } from "../space/index.ts";
import { type Feed, feedOf, lowest, partBent } from "./feed.ts";
import { angleToSet } from "./springback.ts";
import { ASIDE, swings } from "./swing.ts";
import type { Hand } from "./turns.ts";

/**
 * What is in the way of bending a bar on its die and bender, each with its numbers: warnings, and as dangers a bent part
 * that swings into the floor or through where the operator works.
 *
 * Convention: in order of bending from `fromEnd`; straights count trim and back, as the tube lies in the die.
 * Units: mm and degrees in the findings.
 * Range: a limit that the die does not state is not judged, and is named among what the die's card lacks. Without a
 * height of the bender the floor is not judged. The floor is judged while a bend is made (the bent part then swings
 * level), not while the tube is turned in the die, when it may be lifted or turned the other way.
 */
export function bendLimits(
  bar: ResolvedBar,
  leastBack: Readonly<Record<End, number>>,
  bender: Job["bender"],
): readonly Finding[] {
  const { die } = bar;
  const feed = feedOf(bar, leastBack);
  if (feed.bends.length === 0 || !die) return [];
  return [
    ...dieOf(bar, die),
    ...straights(bar, feed, die),
    ...angles(bar, feed, die),
    ...floor(bar, feed, leastBack, bender),
    ...operator(bar, feed, leastBack, bender),
  ];
}

const finding = (
  bar: ResolvedBar,
  code: Finding["code"],
  values: Readonly<Record<string, Quantity>>,
  place = `bars.${bar.id}`,
): Finding => ({ code, place, bar: bar.id, values });

/** The die itself: of this tube's size, wide enough, and measured. */
function dieOf(bar: ResolvedBar, die: Die): Finding[] {
  const { od } = bar.tube;
  const findings: Finding[] = [];
  const place = `dies.${bar.dieId ?? ""}`;
  if (Math.abs(die.od - od) > SAME_PLACE) {
    findings.push(finding(bar, "die-other-tube", { die: mm(die.od), tube: mm(od) }, `bars.${bar.id}.die`));
  }
  if (die.clr < 3 * od - SAME_PLACE) {
    findings.push(finding(bar, "bend-tight", { clr: mm(die.clr), least: mm(3 * od) }, `bars.${bar.id}.die`));
  }
  const lacks = [
    ...(die.springback || die.tests.length > 0 ? [] : (["springback"] as const)),
    ...(["clamp", "between", "tail", "maxAngle"] as const).filter((key) => die[key] === undefined),
  ];
  if (lacks.length > 0) {
    const names = list(lacks.map((key) => phrase(`lacks-${key}`)));
    findings.push(finding(bar, "die-uncalibrated", { lacks: names }, place));
  }
  return findings;
}

/** Clamp before the first bend, straight between bends, tail behind the last. */
function straights(bar: ResolvedBar, feed: Feed, die: Die): Finding[] {
  const findings: Finding[] = [];
  const short = (has: number, needs: number): boolean => has < needs - SAME_PLACE;
  feed.bends.forEach((bend, i) => {
    const before = feed.bends[i - 1];
    if (!before) {
      const needs = die.clamp ?? 0;
      if (short(bend.straight, needs)) {
        const values = {
          bend: count(bend.n),
          end: text(feed.lead),
          has: mm(bend.straight),
          needs: mm(needs),
        };
        findings.push(finding(bar, "clamp-short", values));
      }
    } else if (die.between !== undefined && short(bend.straight, die.between)) {
      const [first, second] = before.n < bend.n ? [before.n, bend.n] : [bend.n, before.n];
      const values = {
        first: count(first),
        second: count(second),
        has: mm(bend.straight),
        needs: mm(die.between),
      };
      findings.push(finding(bar, "bends-close", values));
    }
  });
  const last = feed.bends.at(-1);
  const needs = die.tail ?? 0;
  if (last && short(last.rest, needs)) {
    const values = { bend: count(last.n), end: text(feed.tail), has: mm(last.rest), needs: mm(needs) };
    findings.push(finding(bar, "tail-short", values));
  }
  return findings;
}

/** Angles that the die cannot reach, as bent or as set with overbend. */
function angles(bar: ResolvedBar, feed: Feed, die: Die): Finding[] {
  if (die.maxAngle === undefined) return [];
  const most = rad(die.maxAngle) + NO_BEND;
  const max = degrees(die.maxAngle);
  return feed.bends.flatMap((bend): Finding[] => {
    const angle = degrees(deg(bend.angle));
    if (bend.angle > most)
      return [finding(bar, "angle-beyond-die", { bend: count(bend.n), angle, most: max })];
    const { set } = angleToSet(die, bend.angle);
    if (set <= most) return [];
    return [
      finding(bar, "set-beyond-die", {
        bend: count(bend.n),
        angle,
        set: degrees(deg(set)),
        most: max,
      }),
    ];
  });
}

/**
 * The part that is already bent, at each later bend, against the floor.
 *
 * In the setting of `turnsOf` the next bend's inside lies level toward the turn side. With d from the end fed first to
 * the tail and the operator looking along −d, up is −d × m for the left and d × m for the right, m = n × d the
 * inside of the next bend: so −n or n. Heights do not change while the bent part swings about an upright axis.
 */
function floor(
  bar: ResolvedBar,
  feed: Feed,
  back: Readonly<Record<End, number>>,
  bender: Job["bender"],
): Finding[] {
  const { height, turnSide } = bender;
  if (height === undefined) return [];
  const reaches = hangs(feed, turnSide).filter(({ below }) => below > height);
  if (reaches.length === 0) return [];
  const other = hangs(otherWay(bar, feed, back), turnSide);
  const otherBelow = Math.max(...other.map(({ below }) => below));
  const first = otherBelow > height ? phrase("raise") : phrase("raise-or-feed", { end: text(feed.tail) });
  return reaches.map(({ bend, below }) =>
    finding(bar, "bend-into-floor", {
      first,
      bend: count(bend),
      below: mm(below),
      height: mm(height),
      otherEnd: text(feed.tail),
      otherBelow: mm(otherBelow),
    }),
  );
}

const otherWay = (bar: ResolvedBar, feed: Feed, back: Readonly<Record<End, number>>): Feed =>
  feedOf({ ...bar, fromEnd: feed.tail }, back);

/** The part ahead of the die, at each bend, against who works behind it. */
function operator(
  bar: ResolvedBar,
  feed: Feed,
  back: Readonly<Record<End, number>>,
  bender: Job["bender"],
): Finding[] {
  const reaches = swings(bar, feed, bender).filter(({ reach }) => reach > 0);
  if (reaches.length === 0) return [];
  const other = swings(bar, otherWay(bar, feed, back), bender);
  const otherReach = Math.max(...other.map(({ reach }) => reach));
  return reaches.map(({ bend, reach, side }) =>
    finding(bar, "bend-into-operator", {
      bend: count(bend),
      reach: mm(reach),
      side: text(side),
      aside: mm(ASIDE),
      otherEnd: text(feed.tail),
      otherReach: mm(otherReach),
    }),
  );
}

/** How far the part already bent hangs under the plane of the die at each bend after the first (mm, at least OD/2). */
function hangs(feed: Feed, turnSide: Hand): { readonly bend: number; readonly below: number }[] {
  return feed.bends.slice(1).map((bend, i) => {
    const lead = partBent(feed, i).pieces.slice(0, -1);
    const up = turnSide === "left" ? neg(bend.arc.n) : bend.arc.n;
    return { bend: bend.n, below: -lowest(lead, feed.od / 2, bend.arc.centre, up) };
  });
}
