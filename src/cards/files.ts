import type { CutKind } from "../core/cope/index.ts";
import type { Finding } from "../core/findings/index.ts";
import { fnv1a, type Plan, surveyOf } from "../core/plan/index.ts";
import { type Document, type Fonts, type Paper, toDxf, toPdf, toSvg } from "../draw/index.ts";
import {
  BENDER,
  DIE_CARD,
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
import { dieSheets } from "./die-card.ts";
import { fileNames } from "./file-name.ts";
import { type Laid, printOf } from "./laid.ts";
import { needsStrip, stripPart } from "./mark-strip.ts";
import { measuringSheets } from "./measuring-plan.ts";
import { notcherSheets } from "./notcher-card.ts";
import { type OrderFound, orderSheets } from "./order-sheet.ts";
import { overviewSheets } from "./overview.ts";
import { barPages, leftOutOf, paperOf } from "./print.ts";
import { readingListSheets } from "./reading-list.ts";
import { MOST_SHEETS } from "./sheet-limit.ts";
import { TO_MAKE } from "./sheets.ts";
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
    pdf("overview.pdf", ofAll, () => overview(plan, options.paper)),
    ...subjects.map((s) =>
      pdf(`bars/${nameOf(s)}.pdf`, ofBar(s), () =>
        printOf(`${s.label}, ${sayCard(s.card)}`, paper, barPages(s, TO_MAKE, paper, thickness).sheets),
      ),
    ),
    ...subjects.flatMap((s) => wrapFiles(s, nameOf(s), thickness)),
  ];
  if (options.document !== undefined && surveyOf(plan)) {
    const { document } = options;
    const measured = { revision: digest(document) };
    files.push(
      pdf("readings.pdf", measured, () => readingList(plan, document, options.paper)),
      pdf("measuring-plan.pdf", measured, () => measuringPlan(plan, options.paper)),
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

const pdf = (name: string, of: Of, made: () => Document): CardFile => ({
  name,
  kind: "pdf",
  ...of,
  make: (fonts) => toPdf(made(), fonts),
});

/** What the cards of a job leave out, since it would take too many sheets. */
export const cardFindings = (plan: Plan, options: CardOptions): readonly Finding[] =>
  leftOutOf(plan, options.bars ?? plan.bars.map((b) => b.id), paperOf(options.paper), options.paperThickness);

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
  single(plan, id, paper, benderSheets, BENDER.document);

export const notcherCard = (plan: Plan, id: string, paper: "A4" | "Letter" = "A4"): Document | undefined =>
  single(plan, id, paper, notcherSheets, NOTCHER_CARD.document);

/** The wraps of one end; undefined for a bar without geometry, and for a square end, which needs none. */
export function wrapCard(
  plan: Plan,
  id: string,
  end: "A" | "B",
  paper: "A4" | "Letter" = "A4",
  thickness: number = PAPER_THICKNESS,
): Document | undefined {
  const wraps = (s: Subject, on: Paper) => wrapPart(s, on, thickness, MOST_SHEETS, { ends: [end] }).sheets;
  const card = single(plan, id, paper, wraps, WRAP.document(end));
  return card && card.sheets.length > 0 ? card : undefined;
}

/** The strip of marks at true size; undefined for a bar without bends, or so short that a tape marks it. */
export function markStrip(plan: Plan, id: string, paper: "A4" | "Letter" = "A4"): Document | undefined {
  const strip = (s: Subject, on: Paper) => (needsStrip(s) ? stripPart(s, on).sheets : []);
  const card = single(plan, id, paper, strip, STRIP.document);
  return card && card.sheets.length > 0 ? card : undefined;
}

export const overview = (plan: Plan, paper: "A4" | "Letter" = "A4"): Document =>
  ofJob(plan.job.name, paper, (on) => overviewSheets(plan, on));

/** All readings as read, and the points that they give. `document` is the job as it was typed. */
export const readingList = (plan: Plan, document: unknown, paper: "A4" | "Letter" = "A4"): Document =>
  ofJob(READING_SHEET.title, paper, (on) => readingListSheets(plan, document, surveyOf(plan), on));

/** The readings to take, to be filled in by hand: in the car, or of one bar on the trestles. */
export const measuringPlan = (plan: Plan, paper: "A4" | "Letter" = "A4", bar?: string): Document =>
  ofJob(MEASURING.title, paper, (on) => measuringSheets(plan, surveyOf(plan), on, bar));

/** The order of fitting, with what was found of each bar. */
export const orderSheet = (plan: Plan, found: OrderFound, paper: "A4" | "Letter" = "A4"): Document =>
  ofJob(ORDER.document(plan.job.name), paper, (on) => orderSheets(plan, found, on));

/** What a die does, by its test bends; undefined for a die that the job does not have. */
export const dieCard = (plan: Plan, id: string, paper: "A4" | "Letter" = "A4"): Document | undefined =>
  Object.hasOwn(plan.job.dies, id)
    ? ofJob(DIE_CARD.title(id), paper, (on) => dieSheets(plan, id, on))
    : undefined;

const ofJob = (title: string, paper: "A4" | "Letter", pages: (on: Paper) => readonly Laid[]): Document =>
  printOf(title, paperOf(paper), pages(paperOf(paper)));

function single(
  plan: Plan,
  id: string,
  paper: "A4" | "Letter",
  make: (s: Subject, on: Paper) => readonly Laid[],
  what: string,
): Document | undefined {
  const s = subjectOf(plan, id);
  const on = paperOf(paper);
  return s && printOf(`${what} — ${s.label}, ${sayCard(s.card)}`, on, make(s, on));
}
