import { type Finding, say, severityOf } from "../core/findings/index.ts";
import { paragraph, text } from "../draw/index.ts";
import { type Block, heading, words } from "./flow.ts";
import { figuredFrom } from "./readings.ts";
import type { Subject } from "./subject.ts";

/** Findings in the order of their weight. */
export function findingBlocks(findings: readonly Finding[], s: Subject, width: number): Block[] {
  if (findings.length === 0) return [];
  const order = ["danger", "error", "warning", "note"];
  const sorted = [...findings].sort((a, b) => order.indexOf(severityOf(a)) - order.indexOf(severityOf(b)));
  const [first, ...rest] = sorted.map((finding) => {
    const said = paragraph([22, 0], width - 22, say(finding, s.write), { size: 2.5 });
    const kind = text([0, 3.25], severityOf(finding).toUpperCase(), 2.2, { bold: true });
    return { marks: [kind, ...said.marks], height: said.height };
  });
  return [heading("To look at before cutting", width), first!, ...rest];
}

export function fromBlocks(s: Subject, width: number): Block[] {
  return [heading("Figured from", width), words(figuredFrom(s).join("\n"), width, { size: 2.2 })];
}
