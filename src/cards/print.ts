import type { Finding } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import { type BarPlan, type Plan, surveyOf, wholeOrder } from "../core/plan/index.ts";
import { girth } from "../core/tube/index.ts";
import { A4, type Document, LETTER, type Paper, tileCount } from "../draw/index.ts";
import { benderSheets } from "./bender-card.ts";
import { type Laid, printOf } from "./laid.ts";
import { needsStrip, stripLeast, stripPart } from "./mark-strip.ts";
import { measuringSheets } from "./measuring-plan.ts";
import { notcherSheets } from "./notcher-card.ts";
import { type OrderFound, orderSheets } from "./order-sheet.ts";
import { overviewSheets } from "./overview.ts";
import { readingListSheets } from "./reading-list.ts";
import { MOST_SHEETS, type Part } from "./sheet-limit.ts";
import { type BarSheet, type JobSheet, TO_MAKE } from "./sheets.ts";
import { type Subject, subjectFor } from "./subject.ts";
import { PAPER_THICKNESS } from "./wrap-curve.ts";
import { wrapPart } from "./wrap-sheets.ts";

/** What is printed, in one document. */
export interface PrintAsk {
  readonly paper: "A4" | "Letter";
  /** Of the wraps' paper, mm (0.1). */
  readonly paperThickness?: number;
  readonly job: readonly JobSheet[];
  /** IDs, in the order of printing. */
  readonly bars: readonly string[];
  readonly sheets: readonly BarSheet[];
  /** The job as it was typed, for the reading list. */
  readonly document?: unknown;
  /** What was found of the order of fitting; without it the order sheet says that no bar was checked. */
  readonly found?: OrderFound;
}

/** A bar of which nothing is printed: it has no geometry, or none of the sheets that were asked for. */
export interface Unprinted {
  readonly bar: string;
  readonly why: "no-geometry" | "no-sheet";
}

export interface Print {
  /** Without pages where there is nothing to print. */
  readonly document: Document;
  readonly without: readonly Unprinted[];
  /** What is left out, since it would take too many sheets. */
  readonly findings: readonly Finding[];
}

export const paperOf = (name: "A4" | "Letter"): Paper => (name === "A4" ? A4 : LETTER);

/** Everything asked for as one print, with one count of pages and one check square. */
export function printJob(plan: Plan, ask: PrintAsk): Print {
  const steps = printing(plan, ask);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in steps, one a bar, so that it can be left off between two of them. */
export function* printing(plan: Plan, ask: PrintAsk): Generator<undefined, Print> {
  const paper = paperOf(ask.paper);
  const pages: Laid[] = ask.job.flatMap((sheet) => jobPages(plan, sheet, ask, paper));
  const without: Unprinted[] = [];
  const findings: Finding[] = [];
  for (const id of ask.bars) {
    yield undefined;
    const bar = plan.byId.get(id);
    const part = bar && barPages(subjectFor(plan, bar), ask.sheets, paper, ask.paperThickness);
    if (!part) without.push({ bar: id, why: "no-geometry" });
    else if (part.sheets.length === 0) without.push({ bar: id, why: "no-sheet" });
    else {
      pages.push(...part.sheets);
      findings.push(...part.findings);
    }
  }
  return { document: printOf(plan.job.name, paper, pages), without, findings };
}

function jobPages(plan: Plan, sheet: JobSheet, ask: PrintAsk, paper: Paper): Laid[] {
  if (sheet === "overview") return overviewSheets(plan, paper);
  if (sheet === "order") return orderSheets(plan, ask.found ?? unchecked(plan), paper);
  if (sheet === "measuring") return measuringSheets(plan, surveyOf(plan), paper);
  return readingListSheets(plan, ask.document, surveyOf(plan), paper);
}

/** The job's own order, nothing found of it. */
const unchecked = (plan: Plan): OrderFound => ({
  order: wholeOrder(plan, plan.job.order ?? []),
  judged: [],
  reach: [],
});

/** One bar's sheets, and what of them takes more than a bar may have. */
export function barPages(
  s: Subject,
  asked: readonly BarSheet[],
  paper: Paper,
  thickness = PAPER_THICKNESS,
): Part {
  const has = (sheet: BarSheet): boolean => asked.includes(sheet);
  const sheets: Laid[] = [
    ...(has("bender") ? benderSheets(s, paper) : []),
    ...(has("notcher") ? notcherSheets(s, paper) : []),
  ];
  const findings: Finding[] = [];
  const add = (make: (room: number) => Part): void => {
    const part = make(MOST_SHEETS - sheets.length);
    sheets.push(...part.sheets);
    findings.push(...part.findings);
  };
  const cuts = [
    ...(has("saw wraps") ? ["outside" as const] : []),
    ...(has("torch wraps") ? ["square" as const] : []),
  ];
  add((room) => wrapPart(s, paper, thickness, room, { cuts }));
  if (has("strip") && needsStrip(s)) add((room) => stripPart(s, paper, room));
  if (has("trestles") && s.bar.bend.bends.length > 0)
    sheets.push(...measuringSheets(s.plan, undefined, paper, s.id));
  return { sheets, findings };
}

/**
 * What a job's cards leave out, since it would take too many sheets. Only bars that come near are drawn for it: those
 * whose wraps and strip by their sizes alone take half of what one bar may have.
 */
export function leftOutOf(plan: Plan, bars: readonly string[], paper: Paper, thickness?: number): Finding[] {
  return bars.flatMap((id) => {
    const bar = plan.byId.get(id);
    if (!bar || roughly(bar, paper) < MOST_SHEETS / 2) return [];
    return barPages(subjectFor(plan, bar), TO_MAKE, paper, thickness).findings;
  });
}

/** Sheets that a bar's two wraps an end and its strip take, by area and never too few. */
function roughly({ bar, bend, copes }: BarPlan, paper: Paper): number {
  const wraps = (end: End): number => {
    const { cope } = copes[end];
    if (cope.kind === "square") return 0;
    const known = [...cope.outer, ...cope.bore].filter((b) => !Number.isNaN(b));
    const reach = known.reduce((most, b) => Math.max(most, b), cope.least) - cope.least;
    const size = { width: girth(bar.tube, 1) + 20, height: reach + 120 };
    return 2 * tileCount(size, paper, { name: "" });
  };
  return wraps("A") + wraps("B") + 2 * stripLeast(bend.blank, paper);
}
