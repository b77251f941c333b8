import { byGravity, type Finding, isDanger, severityOf, type Writer } from "../core/findings/index.ts";
import { dangersOf, type Plan } from "../core/plan/index.ts";
import { paragraph, rectangle, text } from "../draw/index.ts";
import { DANGER, EXPLAIN_ERROR, LOOK_FIRST, labels, SOURCE, say, sayPlace } from "../words/index.ts";
import { type Block, heading, words } from "./flow.ts";
import { calledIn } from "./names.ts";
import { figuredFrom } from "./readings.ts";
import type { Subject } from "./subject.ts";

/** One danger: boxed twice, its word large, so that it is seen as one without colour. */
function dangerBlock(said: string, width: number): Block {
  const words = paragraph([33, 1.6], width - 35, said, { size: 2.8, bold: true });
  const height = Math.max(9, words.height + 3.2);
  return {
    marks: [
      rectangle({ x: 0, y: 0, width, height }, "visible"),
      rectangle({ x: 0.9, y: 0.9, width: width - 1.8, height: height - 1.8 }, "visible"),
      text([3, 6.4], DANGER, 4.2, { bold: true }),
      ...words.marks,
    ],
    height,
  };
}

/** What can hurt a person with this bar, before anything else on its card. */
export const dangerBlocks = (s: Subject, width: number): Block[] =>
  dangersOf(s.plan, s.id).map((f) =>
    dangerBlock(`${whose(s.plan, f, s.id)}${say(f, s.write, s.names)}`, width),
  );

/** The whole job's, each with the bar that it is of. */
export const allDangerBlocks = (plan: Plan, write: Writer, width: number): Block[] =>
  dangersOf(plan).map((f) => dangerBlock(`${whose(plan, f)}${say(f, write, labels(calledIn(plan)))}`, width));

const whose = (plan: Plan, finding: Finding, own?: string): string =>
  finding.bar !== undefined && finding.bar === own ? "" : `${sayPlace(finding, calledIn(plan))}: `;

/** Findings in the order of their weight; dangers are at the head of the card. */
export function findingBlocks(all: readonly Finding[], s: Subject, width: number): Block[] {
  const findings = byGravity(all.filter((f) => !isDanger(f)));
  if (findings.length === 0) return [];
  const entries = findings.map((finding) => {
    const said = paragraph([22, 0], width - 22, say(finding, s.write, s.names), { size: 2.5 });
    const kind = text([0, 3.25], severityOf(finding).toUpperCase(), 2.2, { bold: true });
    return { marks: [kind, ...said.marks], height: said.height };
  });
  return [heading(LOOK_FIRST, width), ...entries];
}

/** What the bar was figured from; `isUnsure` says that a ± is on the card already, to be explained with those here. */
export function fromBlocks(s: Subject, width: number, isUnsure = false): Block[] {
  const from = figuredFrom(s);
  const explained = isUnsure || from.some((line) => line.includes("±")) ? [EXPLAIN_ERROR] : [];
  return [heading(SOURCE, width), words([...from, ...explained].join("\n"), width, { size: 2.2 })];
}
