import { type Finding, text } from "../core/findings/index.ts";
import type { Paper } from "../draw/index.ts";
import { say, sayNotPrinted } from "../words/index.ts";
import { type Card, flow, words } from "./flow.ts";
import type { Laid } from "./laid.ts";
import type { Subject } from "./subject.ts";

/** The most sheets that one bar's cards take: nobody joins more of them at true size. */
export const MOST_SHEETS = 40;

/** Sheets of a part of the cards, or one that says why they are left out, with the finding. */
export interface Part {
  readonly sheets: readonly Laid[];
  readonly findings: readonly Finding[];
}

/** The one sheet in place of a part that would take too many. */
export function leftOut(
  s: Subject,
  paper: Paper,
  card: Card,
  of: { readonly part: string; readonly sheets: number; readonly instead: string },
): Part {
  const finding: Finding = {
    code: "sheets-many",
    place: `bars.${s.id}`,
    bar: s.id,
    values: {
      part: text(of.part),
      sheets: { count: of.sheets },
      most: { count: MOST_SHEETS },
      instead: text(of.instead),
    },
  };
  const sentence = sayNotPrinted(say(finding, s.write, s.names));
  return {
    sheets: flow(paper, { ...card, note: "", isTrueSize: false }, ({ width }) => [words(sentence, width)]),
    findings: [finding],
  };
}
