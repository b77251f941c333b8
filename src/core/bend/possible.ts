import { count, degrees, die, type Finding, mm, phrase, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg, SAME_PLACE } from "../numeric/index.ts";
import { checksAfter } from "./checks.ts";
import { feedOf } from "./feed.ts";
import { type BendPlan, onTube, sawn } from "./marks.ts";

/** A bender is set up to half a turn; further only where the die says so (degrees). */
const HALF_TURN = 180;

/**
 * Figures of a bar that nobody can saw, mark, set or measure, each an error: such a bar has no card.
 *
 * What is looked for (geometry.md, "A card is possible or it is not printed"): nothing left to saw; a bend that runs past
 * a sawn end; a mark off the tube, from the end that is fed first (`onTube` tells it of the other end's marks, which are
 * not given where they fall off it); a setting of 0 or less, or beyond half a turn and beyond the die; a check
 * size below 0. Units: mm and degrees in the findings. Less than 0.001 mm is rounding.
 */
export function impossible(
  bar: ResolvedBar,
  plan: BendPlan,
  leastBack: Readonly<Record<End, number>>,
): readonly Finding[] {
  const found = (code: Finding["code"], values: Finding["values"]): Finding => ({
    code,
    place: `bars.${bar.id}`,
    bar: bar.id,
    values,
  });
  const { length, blank, bends } = plan;
  if (blank <= SAME_PLACE) return [found("blank-nothing", { taken: mm(length - blank), length: mm(length) })];
  if (bends.length === 0) return [];
  const runsOff = offTheTube(bar, leastBack, found);
  if (runsOff.length > 0) return runsOff;
  const lead = bar.fromEnd;
  const markFrom = (end: End, bend: (typeof bends)[number]): number => (end === "A" ? bend.mark : bend.markB);
  const remedy = bends.every((b) => onTube(plan, markFrom(other(lead), b)) !== undefined)
    ? phrase("feed-other", { end: text(other(lead)) })
    : phrase("leave-more");
  const marks = bends.flatMap((b): Finding[] => {
    const mark = markFrom(lead, b);
    if (onTube(plan, mark) !== undefined) return [];
    const [by, end] = mark < 0 ? [-mark, lead] : [mark - sawn(plan), other(lead)];
    const values = { bend: count(b.n), by: mm(by), end: text(end), remedy };
    return [found("mark-off-tube", values)];
  });
  const most = Math.max(HALF_TURN, bar.die?.maxAngle ?? 0);
  const settings = bends.flatMap(({ n, angle, set }): Finding[] => {
    if (!set || (set.set > 0 && deg(set.set) <= most + 1e-9)) return [];
    const values = { angle: degrees(deg(angle)), set: degrees(deg(set.set)), most: degrees(most) };
    return [found("set-impossible", { die: die(bar.dieId ?? ""), bend: count(n), ...values })];
  });
  const sizes = checksAfter(bar, leastBack).flatMap(({ bend, checks }) =>
    checks
      .filter((c) => c.value < -SAME_PLACE)
      .map((c) => found("check-negative", { bend: count(bend), value: mm(c.value), what: c.across })),
  );
  return [...marks, ...settings, ...sizes];
}

const other = (end: End): End => (end === "A" ? "B" : "A");

/** The first bend made may begin before the tube does, the last one end beyond it: the cuts reach into them. */
function offTheTube(
  bar: ResolvedBar,
  leastBack: Readonly<Record<End, number>>,
  found: (code: Finding["code"], values: Finding["values"]) => Finding,
): readonly Finding[] {
  const feed = feedOf(bar, leastBack);
  const [first, last] = [feed.bends[0], feed.bends.at(-1)];
  if (!first || !last) return [];
  const ends = [
    { bend: first.n, end: feed.lead, has: first.straight },
    { bend: last.n, end: feed.tail, has: last.rest },
  ];
  return ends
    .filter(({ has }) => has < -SAME_PLACE)
    .map(({ bend, end, has }) => found("bend-off-tube", { bend: count(bend), by: mm(-has), end: text(end) }));
}
