import type { CutKind } from "../core/cope/index.ts";
import type { Finding } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import { type BarPlan, fnv1a, type Plan } from "../core/plan/index.ts";
import { surveyJob } from "../core/survey/index.ts";
import { girth } from "../core/tube/index.ts";
import {
  A4,
  type Document,
  type Fonts,
  LETTER,
  type Paper,
  type Sheet,
  tileCount,
  toDxf,
  toPdf,
  toSvg,
} from "../draw/index.ts";
import {
  BENDER,
  MEASURING,
  NOTCHER_CARD,
  ORDER,
  READING_SHEET,
  STRIP,
  sayCard,
  WRAP,
} from "../words/index.ts";
import { benderSheets } from "./bender-card.ts";
import { barsCsv, bendsCsv, copesCsv } from "./csv.ts";
import { fileNames } from "./file-name.ts";
import { needsStrip, stripLeast, stripPart } from "./mark-strip.ts";
import { measuringSheets } from "./measuring-plan.ts";
import { notcherSheets } from "./notcher-card.ts";
import { type OrderFound, orderSheets } from "./order-sheet.ts";
import { overviewSheets } from "./overview.ts";
import { readingListSheets } from "./reading-list.ts";
import { MOST_SHEETS, type Part } from "./sheet-limit.ts";
import { type Subject, subjectFor, subjectOf } from "./subject.ts";
import { PAPER_THICKNESS, wrapFor, wrapKinds } from "./wrap-curve.ts";
import { wrapFile, wrapPart } from "./wrap-sheets.ts";

export interface CardOptions {
  readonly paper: "A4" | "Letter";
  /** Of the wraps' paper, mm (0.1). */
  readonly paperThickness?: number;
  /** Only these bars (all); an ID without geometry is passed over. */
  readonly bars?: readonly string[];
  /** The job as it was typed: with it, where it has points or readings, the reading list and the measuring plan. */
  readonly document?: unknown;
  /** Tables beside the cards. */
  readonly csv?: boolean;
}

export interface CardFile {
  /** Path below the output folder, parts joined by "/"; safe on every system and unique even where case does not count. */
  readonly name: string;
  readonly kind: "pdf" | "svg" | "dxf" | "csv";
  /** The bar that it is of; absent: the whole job. */
  readonly bar?: string;
  /** Changes with what it is figured from. */
  readonly revision: string;
  readonly make: (fonts: Fonts) => Promise<Uint8Array> | string;
}

const ENDS = ["A", "B"] as const;

/**
 * All files that a job's cards make, in order; nothing is drawn before a file's `make` is called.
 * `overview.pdf`; `bars/ID.pdf` (bender or saw card, notcher card, wraps, mark strip); `wraps/ID-END.svg` and `.dxf`
 * for the cut along the host, `wraps/ID-END-square.*` for the one square to the wall, where the two differ; with
 * `csv`: `bars.csv`, `bends.csv`, `copes.csv`. Names are made from all of the job's bars, so that a file keeps its
 * name when only some are asked for.
 */
export function cardFiles(plan: Plan, options: CardOptions): CardFile[] {
  const paper = paperOf(options.paper);
  const thickness = options.paperThickness ?? PAPER_THICKNESS;
  const names = fileNames(Object.keys(plan.job.bars));
  const asked = options.bars === undefined ? undefined : new Set(options.bars);
  const subjects = plan.bars.flatMap((bar) => (!asked || asked.has(bar.id) ? [subjectFor(plan, bar)] : []));
  const nameOf = ({ id }: Subject): string => {
    const name = names.get(id);
    if (name === undefined) throw new Error(`no file name for bar ${id}`);
    return name;
  };
  const ids = subjects.map((s) => s.id);
  const ofAll = { revision: digest(subjects.map((s) => [s.id, s.card])) };
  const files: CardFile[] = [
    pdf("overview.pdf", plan.job.name, ofAll, () => overviewSheets(plan, paper)),
    ...subjects.map((s) =>
      pdf(
        `bars/${nameOf(s)}.pdf`,
        `${s.label}, ${sayCard(s.card)}`,
        ofBar(s),
        () => barPrint(s, paper, thickness).sheets,
      ),
    ),
    ...subjects.flatMap((s) => wrapFiles(s, nameOf(s), thickness)),
  ];
  if (options.document !== undefined && surveyOf(plan)) {
    const { document } = options;
    const measured = { revision: digest(document) };
    files.push(
      pdf("readings.pdf", plan.job.name, measured, () => readingList(plan, document, options.paper).sheets),
      pdf("measuring-plan.pdf", plan.job.name, measured, () => measuringPlan(plan, options.paper).sheets),
    );
  }
  if (options.csv) {
    files.push(
      { name: "bars.csv", kind: "csv", ...ofAll, make: () => barsCsv(plan, ids) },
      { name: "bends.csv", kind: "csv", ...ofAll, make: () => bendsCsv(plan, ids) },
      { name: "copes.csv", kind: "csv", ...ofAll, make: () => copesCsv(plan, ids) },
    );
  }
  return files;
}

type Of = Pick<CardFile, "bar" | "revision">;

const digest = (of: unknown): string => fnv1a(JSON.stringify(of)).toString(16).padStart(8, "0");

const ofBar = ({ id, card }: Subject): Of => ({ bar: id, revision: card.code });

export const paperOf = (name: "A4" | "Letter"): Paper => (name === "A4" ? A4 : LETTER);

const pdf = (name: string, title: string, of: Of, sheets: () => readonly Sheet[]): CardFile => ({
  name,
  kind: "pdf",
  ...of,
  make: (fonts) => toPdf({ title, sheets: sheets() }, fonts),
});

/** One bar's cards, and what of them takes more sheets than a bar may have. */
function barPrint(s: Subject, paper: Paper, thickness: number) {
  const sheets = [...benderSheets(s, paper), ...notcherSheets(s, paper)];
  const findings: Finding[] = [];
  const add = (make: (room: number) => Part): void => {
    const part = make(MOST_SHEETS - sheets.length);
    sheets.push(...part.sheets);
    if (part.finding) findings.push(part.finding);
  };
  for (const end of ENDS) add((room) => wrapPart(s, end, paper, thickness, room));
  if (needsStrip(s)) add((room) => stripPart(s, paper, room));
  return { sheets, findings };
}

/**
 * What a job's cards leave out, since it would take too many sheets. Only bars that come near are drawn for it: those
 * whose wraps and strip by their sizes alone take half of what one bar may have.
 */
export function cardFindings(plan: Plan, options: CardOptions): readonly Finding[] {
  const paper = paperOf(options.paper);
  const thickness = options.paperThickness ?? PAPER_THICKNESS;
  const asked = options.bars ?? plan.bars.map((b) => b.id);
  return asked.flatMap((id) => {
    const bar = plan.byId.get(id);
    if (!bar || roughly(bar, paper) < MOST_SHEETS / 2) return [];
    return barPrint(subjectFor(plan, bar), paper, thickness).findings;
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

function wrapFiles(s: Subject, name: string, thickness: number): CardFile[] {
  return ENDS.flatMap((end) =>
    wrapKinds(s, end).flatMap((kind): CardFile[] => {
      const file = `wraps/${name}-${end}${kind === "square" ? "-square" : ""}`;
      const drawing = (k: CutKind = kind) => wrapFile(s, end, k, thickness);
      const title = `${WRAP.title(wrapFor(s, end, kind), s.label, end)}, ${sayCard(s.card)}`;
      return [
        { name: `${file}.svg`, kind: "svg", ...ofBar(s), make: () => toSvg({ ...drawing(), name: title }) },
        { name: `${file}.dxf`, kind: "dxf", ...ofBar(s), make: () => toDxf(drawing()) },
      ];
    }),
  );
}

/** One bar's bender card (a saw card for a straight bar). Undefined for a bar without geometry. */
export const benderCard = (plan: Plan, id: string, paper: "A4" | "Letter" = "A4"): Document | undefined =>
  single(plan, id, (s) => benderSheets(s, paperOf(paper)), BENDER.document);

export const notcherCard = (plan: Plan, id: string, paper: "A4" | "Letter" = "A4"): Document | undefined =>
  single(plan, id, (s) => notcherSheets(s, paperOf(paper)), NOTCHER_CARD.document);

/** The wraps of one end; undefined for a bar without geometry, and for a square end, which needs none. */
export function wrapCard(
  plan: Plan,
  id: string,
  end: "A" | "B",
  paper: "A4" | "Letter" = "A4",
  thickness: number = PAPER_THICKNESS,
): Document | undefined {
  const card = single(
    plan,
    id,
    (s) => wrapPart(s, end, paperOf(paper), thickness).sheets,
    WRAP.document(end),
  );
  return card && card.sheets.length > 0 ? card : undefined;
}

/** The strip of marks at true size; undefined for a bar without bends, or so short that a tape marks it. */
export function markStrip(plan: Plan, id: string, paper: "A4" | "Letter" = "A4"): Document | undefined {
  const card = single(
    plan,
    id,
    (s) => (needsStrip(s) ? stripPart(s, paperOf(paper)).sheets : []),
    STRIP.document,
  );
  return card && card.sheets.length > 0 ? card : undefined;
}

export const overview = (plan: Plan, paper: "A4" | "Letter" = "A4"): Document => ({
  title: plan.job.name,
  sheets: overviewSheets(plan, paperOf(paper)),
});

/** All readings as read, and the points that they give. `document` is the job as it was typed. */
export const readingList = (plan: Plan, document: unknown, paper: "A4" | "Letter" = "A4"): Document => ({
  title: READING_SHEET.title,
  sheets: readingListSheets(plan, document, surveyOf(plan), paperOf(paper)),
});

/** The readings to take, to be filled in by hand: in the car, or of one bar on the trestles. */
export const measuringPlan = (plan: Plan, paper: "A4" | "Letter" = "A4", bar?: string): Document => ({
  title: MEASURING.title,
  sheets: measuringSheets(plan, surveyOf(plan), paperOf(paper), bar),
});

/** Undefined where the job has neither readings nor points. */
const surveyOf = ({ job, places, layout }: Plan) =>
  places.survey ?? (Object.keys(job.points).length > 0 ? surveyJob(job, layout.byId) : undefined);

/** The order of fitting, with what was found of each bar. */
export const orderSheet = (plan: Plan, found: OrderFound, paper: "A4" | "Letter" = "A4"): Document => ({
  title: ORDER.document(plan.job.name),
  sheets: orderSheets(plan, found, paperOf(paper)),
});

function single(
  plan: Plan,
  id: string,
  make: (s: Subject) => readonly Sheet[],
  what: string,
): Document | undefined {
  const s = subjectOf(plan, id);
  return s && { title: `${what} — ${s.label}, ${sayCard(s.card)}`, sheets: make(s) };
}
