import { severityOf } from "../core/findings/index.ts";
import type { Job, TackSize, TackSpot } from "../core/job/index.ts";
import type { Plan } from "../core/plan/index.ts";
import type { Survey } from "../core/survey/index.ts";
import { writerFor } from "../core/units/index.ts";
import { line, type Mark, type Paper, paragraph, table, text, textWidth } from "../draw/index.ts";
import {
  agreeWords,
  asRead,
  cautionOn,
  FIELD,
  fitsOf,
  HELD,
  labelsIn,
  leanWords,
  NINETY_FIVE,
  pointWords,
  READING_SHEET as SAYS,
  say,
  sayAdvice,
  sayBent,
  sayGapRead,
  sayHeld,
  sayMark,
  worstWay,
} from "../words/index.ts";
import { type Block, flow, heading, words } from "./flow.ts";
import type { Laid } from "./laid.ts";
import { sayOne } from "./say-reading.ts";

/** A row of the list: one reading as read, struck through where it does not count, and what to say of it. */
interface Row {
  readonly n: string;
  readonly words: string;
  readonly size: string;
  readonly says: string;
  readonly struck: boolean;
  readonly off?: boolean;
}

/**
 * All readings of a job as they were read, with their units, the struck ones struck, each with how it fits; then the
 * points with their ±. `document` is the job as it was typed. `survey` absent: the job has no readings of the car.
 */
export function readingListSheets(
  plan: Plan,
  document: unknown,
  survey: Survey | undefined,
  paper: Paper,
): Laid[] {
  const { job } = plan;
  const write = writerFor(job.show);
  const made = Object.entries(job.made ?? {}).filter(
    ([, m]) => m.bent.length + m.tacked.length > 0 || m.gaps.A || m.gaps.B,
  );
  const fields: [string, string][] = [
    [FIELD.job, job.name],
    [FIELD.readings, `${job.readings.length}`],
    [FIELD.points, `${Object.keys(job.points).length}`],
  ];
  return flow(paper, { title: SAYS.title, fields, note: cautionOn("reading list") }, ({ width }) => [
    ...(survey && (!survey.converged || survey.readings.length > 0)
      ? [
          words(agreeWords(survey).says, width, { size: 3, bold: true }),
          ...leanWords(survey.cleaned, write).map((said) => words(said, width)),
        ]
      : []),
    heading(SAYS.car, width),
    ...(job.readings.length === 0
      ? [words(SAYS.none, width)]
      : carRows(job, document, survey, write).map((row) => rowBlock(row, width))),
    ...(survey ? pointBlocks(job, survey, width) : []),
    ...(survey ? findingRows(survey, job, width) : []),
    ...made.flatMap(([id, m]) => [
      heading(SAYS.made(job.bars[id]?.label ?? id), width),
      ...madeRows(id, m, document, job).map((row) => rowBlock(row, width)),
    ]),
  ]);
}

const typedAt = (document: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>((at, step) => (at as Record<string | number, unknown> | undefined)?.[step], document);

function carRows(
  job: Job,
  document: unknown,
  survey: Survey | undefined,
  write: ReturnType<typeof writerFor>,
): Row[] {
  const fits = survey ? fitsOf(survey, write) : new Map();
  return job.readings.map((reading, i) => {
    const said = sayOne(reading, typedAt(document, ["readings", i]), job, write);
    const fit = fits.get(i);
    const struck = reading.struck === true;
    return {
      n: `${i + 1}`,
      words: said.words,
      size: said.size,
      struck,
      off: !struck && fit?.ok === false,
      says: struck ? SAYS.struck(reading.note) : (fit?.says ?? ""),
    };
  });
}

function sayTacked(size: TackSize, typed: unknown, job: Job): string {
  const write = writerFor(job.show);
  const spot = (s: TackSpot): string =>
    typeof s === "string"
      ? pointWords(s)
      : HELD.tube(job.bars[s.bar]?.label ?? s.bar, write.length(Math.abs(s.along)), s.along < 0 ? "B" : "A");
  return size.what === "tape"
    ? `${sayHeld("tape", [spot(size.from), spot(size.to)], size.over)}${sayMark(typed)}`
    : sayHeld(size.what, [spot(size.of), ""], size.over);
}

function madeRows(id: string, m: NonNullable<Job["made"]>[string], document: unknown, job: Job): Row[] {
  const row = (
    words: string,
    size: string,
    r: { readonly struck?: boolean; readonly note?: string },
  ): Omit<Row, "n"> => ({
    words,
    size,
    struck: r.struck === true,
    says: r.struck ? SAYS.struck(r.note) : "",
  });
  const typed = (...path: readonly (string | number)[]): unknown => typedAt(document, ["made", id, ...path]);
  const rows = [
    ...m.bent.map((r, i) =>
      row(sayBent(r), r.what === "angle" ? SAYS.angle(r.angle) : asRead(typed("bent", i, "size"), "tape"), r),
    ),
    ...m.tacked.map((r, i) =>
      row(sayTacked(r, typed("tacked", i, "mark"), job), asRead(typed("tacked", i, "size"), r.what), r),
    ),
    ...(["A", "B"] as const).flatMap((end) => {
      const felt = m.gaps[end];
      if (!felt) return [];
      return felt.read.map((r, i) =>
        row(sayGapRead(end, r.phi, felt.cut), asRead(typed("gaps", end, "read", i, "gap"), "tape"), r),
      );
    }),
  ];
  return rows.map((r, i) => ({ ...r, n: `${i + 1}` }));
}

const SIZE = 2.4;

function rowBlock(row: Row, width: number): Block {
  const columns = { words: 9, size: width * 0.5, says: width * 0.72 };
  const said = paragraph([columns.words, 0], columns.size - columns.words - 30, row.words, { size: SIZE });
  const note = paragraph([columns.says, 0], width - columns.says, row.off ? SAYS.off(row.says) : row.says, {
    size: 2.1,
    bold: row.off === true,
  });
  const size = text([columns.says - 4, 3.2], row.size, SIZE + 0.2, { anchor: "end", bold: true });
  const height = Math.max(said.height, note.height, 4.4);
  const marks: Mark[] = [text([6, 3.2], row.n, 2.1, { anchor: "end" }), ...said.marks, size, ...note.marks];
  const struck = row.struck ? [...said.marks, size].flatMap(strike) : [];
  return {
    marks: [...marks, ...struck, line([0, height + 1], [width, height + 1], "narrow")],
    height: height - 1,
  };
}

/** A line through a line of lettering: it stays legible. */
function strike(mark: Mark): Mark[] {
  if (mark.kind !== "text" || mark.text === "") return [];
  const w = textWidth(mark.text, mark.size, mark.bold);
  const x = mark.anchor === "end" ? mark.at[0] - w : mark.at[0];
  const y = mark.at[1] - mark.size * 0.42;
  return [line([x - 0.5, y], [x + w + 0.5, y], "visible")];
}

function pointBlocks(job: Job, survey: Survey, width: number): Block[] {
  const write = writerFor(job.show);
  const wide = (share: number): number => width * share;
  const columns = SAYS.columns.map((title, i) => ({
    title,
    width: wide(0.2),
    ...(i > 0 && i < 4 ? { anchor: "end" as const } : {}),
  }));
  const rows = Object.keys(job.points).flatMap((id): string[][] => {
    const found = survey.cleaned.points.get(id);
    if (!found) return [];
    const cell = (k: 0 | 1 | 2): string =>
      `${write.length(found.at[k])}${found.sd[k] > 0 ? ` ± ${write.length(found.sd[k])}` : ""}`;
    const exact = found.sd.every((s) => s === 0);
    const sure = exact
      ? SAYS.given
      : SAYS.within(write.length(NINETY_FIVE * found.ellipsoid.axes[0]), worstWay(found));
    return [[pointWords(id), cell(0), cell(1), cell(2), sure]];
  });
  const loose = survey.undetermined.map(({ id, fix }) => words(SAYS.loose(id, fix.map(sayAdvice)), width));
  const tables: Block[] = [];
  for (let i = 0; i < rows.length; i += 25) tables.push(table([0, 0], columns, rows.slice(i, i + 25), 2));
  return [heading(SAYS.points, width), ...tables, ...loose];
}

function findingRows(survey: Survey, job: Job, width: number): Block[] {
  const found = survey.findings.filter((f) => severityOf(f) !== "note");
  const write = writerFor(job.show);
  if (found.length === 0) return [];
  return [
    heading(SAYS.findings, width),
    ...found.map((f) => words(`${say(f, write, labelsIn(job.bars))}.`, width)),
  ];
}
