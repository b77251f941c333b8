import { gapSide, type Notch, RULE_HOLDS, type Step, type StepPlan } from "../core/cope/index.ts";
import { deg } from "../core/numeric/index.ts";
import { paragraph, table, text } from "../draw/index.ts";
import { STEPS_OF_CUT as SAYS } from "../words/index.ts";
import type { Block } from "./flow.ts";
import type { Subject } from "./subject.ts";

/** From the sawn end to a hole's centre, which may lie off the tube. */
export const fromSawn = (s: Subject, mm: number): string =>
  mm >= 0 ? s.write.length(mm) : SAYS.offTube(s.write.length(-mm));

const beyond = (s: Subject, mm: number): string =>
  mm > -0.005 ? s.write.length(Math.max(0, mm)) : SAYS.shortOf(s.write.length(-mm));

/** Widths of the columns, as shares of the table's. */
const WIDTHS = [0.08, 0.1, 0.14, 0.14, 0.14, 0.4];

/** From a first, shallower cut to the final one: where each hole is and what the joint then shows. */
export function stepTable(s: Subject, notch: Notch, plan: StepPlan, width: number): Block {
  const { steps, leave, range, fromShallower, fromSteeper, ruleHolds } = plan;
  const { hole } = notch;
  if (!hole) throw new Error("steps toward a cut have its hole");
  const columns = SAYS.columns.map((title, i) => ({
    title,
    width: width * (WIDTHS[i] ?? 0),
    ...(i > 0 && i < 5 ? { anchor: "end" as const } : {}),
  }));
  const rows = steps.map((step, i) => {
    const isLast = i === steps.length - 1;
    return [
      SAYS.cut(i + 1, isLast),
      s.write.angle(deg(step.notch)),
      fromSawn(s, hole.fromSawn - step.outboard),
      beyond(s, hole.beyondLong + step.outboard),
      isLast ? SAYS.finalHole : s.write.length(step.outboard),
      isLast ? showsLast(s, notch) : shows(s, step),
    ];
  });
  const title = text([0, 2.8], SAYS.title, 2.5, { bold: true });
  const placed = table([0, 4.5], columns, rows, 2.2);
  const rule = ruleHolds
    ? SAYS.holds(s.fine(fromSteeper), s.fine(fromShallower))
    : SAYS.fails(s.fine(fromShallower), s.fine(fromSteeper), RULE_HOLDS);
  const [low, high] = range;
  const over =
    high - low < 1e-9 ? "" : SAYS.range(s.write.angle(deg(low)), s.write.angle(deg(high)), s.fine(leave));
  const below = paragraph([0, 5.5 + placed.height], width, rule + over, { size: 2.3 });
  return { marks: [title, ...placed.marks, ...below.marks], height: 5.5 + placed.height + below.height };
}

function showsLast(s: Subject, notch: Notch): string {
  if (notch.exact) return SAYS.seated;
  if (notch.flush) return SAYS.flush;
  if (!notch.saw) throw new Error("steps lead to a saw's cut");
  return SAYS.gapAbove(s.fine(notch.saw.gap), s.write.angle(notch.saw.gapAt));
}

/** The gap is square to the host, as a feeler reads it. */
const shows = (s: Subject, { shows: misfit }: Step): string =>
  SAYS.shows(gapSide(misfit), s.fine(misfit.standsOff), s.fine(misfit.gap));
