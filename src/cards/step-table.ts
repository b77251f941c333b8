import { gapSide, type Notch, RULE_HOLDS, type Step } from "../core/cope/index.ts";
import { deg } from "../core/numeric/index.ts";
import { paragraph, table, text } from "../draw/index.ts";
import type { Block } from "./flow.ts";
import type { Subject } from "./subject.ts";

/** From the sawn end to a hole's centre, which may stand off the tube. */
export const fromSawn = (s: Subject, mm: number): string =>
  mm >= 0 ? s.write.length(mm) : `${s.write.length(-mm)} off it`;

const beyond = (s: Subject, mm: number): string =>
  mm > -0.005 ? s.write.length(Math.max(0, mm)) : `${s.write.length(-mm)} short of it`;

/** From a first, shallower cut to the final one: where each hole stands and what the joint then shows. */
export function stepTable(s: Subject, notch: Notch, width: number): Block {
  const { steps, leave, range, fromShallower, fromSteeper, ruleHolds } = notch.steps!;
  const hole = notch.hole!;
  const columns = [
    { title: "Cut", width: width * 0.08 },
    { title: "Off square", width: width * 0.1, anchor: "end" as const },
    { title: "Hole centre from sawn end", width: width * 0.14, anchor: "end" as const },
    { title: "Beyond the long point", width: width * 0.14, anchor: "end" as const },
    { title: "Outboard of the final hole", width: width * 0.14, anchor: "end" as const },
    { title: "Pushed home after this cut", width: width * 0.4 },
  ];
  const rows = steps.map((step, i) => [
    i === steps.length - 1 ? `${i + 1} final` : `${i + 1}`,
    s.write.angle(deg(step.notch)),
    fromSawn(s, hole.fromSawn - step.outboard),
    beyond(s, hole.beyondLong + step.outboard),
    i === steps.length - 1 ? "final hole" : s.write.length(step.outboard),
    i === steps.length - 1 ? showsLast(s, notch) : shows(s, step),
  ]);
  const title = text(
    [0, 2.8],
    "Toward the final angle, same saw, same clock; no cut goes outside the final shape",
    2.5,
    { bold: true },
  );
  const placed = table([0, 4.5], columns, rows, 2.2);
  const rule = ruleHolds
    ? `Start shallow and deepen: it pays here. Coming back from 5° steeper costs ${s.fine(fromSteeper)} of length, deepening from 5° shallower ${s.fine(fromShallower)}.`
    : `Starting shallow does not pay here: 5° either way costs about as much (${s.fine(fromShallower)} from shallower, ${s.fine(fromSteeper)} from steeper; worth it from ${RULE_HOLDS} to 1).`;
  const over =
    range[1] - range[0] < 1e-9
      ? ""
      : ` If all that is known is ${s.write.angle(deg(range[0]))} to ${s.write.angle(deg(range[1]))}, leave ${s.fine(leave)} over at this end.`;
  const below = paragraph([0, 5.5 + placed.height], width, rule + over, { size: 2.3 });
  return { marks: [title, ...placed.marks, ...below.marks], height: 5.5 + placed.height + below.height };
}

function showsLast(s: Subject, notch: Notch): string {
  if (notch.exact) return "seated";
  if (notch.flush) return "seated where the rim meets the host; the rest stays open";
  return `the gap above: ${s.fine(notch.saw!.gap)} at ${s.write.angle(notch.saw!.gapAt)}`;
}

/** The gap is square to the host, as a feeler reads it. */
function shows(s: Subject, { shows: misfit }: Step): string {
  const open = gapSide(misfit);
  const touches = open === "heel" ? "touches at the toe, " : open === "toe" ? "touches at the heel, " : "";
  return `${touches}${s.fine(misfit.standsOff)} off its seat, gap ${s.fine(misfit.gap)} at the ${open}`;
}
