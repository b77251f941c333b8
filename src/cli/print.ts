import { basename, dirname } from "node:path";
import { BAR_SHEETS, JOB_SHEETS, printing, TO_MAKE, type Unprinted } from "../cards/index.ts";
import { concerns, isDanger } from "../core/findings/index.ts";
import { Suggester } from "../core/job/index.ts";
import { dangersOf } from "../core/plan/index.ts";
import { toPdf } from "../draw/index.ts";
import { CALL, PRINT_ANSWER, WORK } from "../words/index.ts";
import { barsAsked, type Command, openPlan, printJson, report, WrongCall, words } from "./call.ts";
import { thicknessOf } from "./cards.ts";
import { readFonts } from "./fonts.ts";
import { progressOf } from "./progress.ts";

/** Bars and sheets as one PDF, with one count of pages: what the app's print page makes. */
export const print: Command = {
  run: async (args, platform) => {
    const { values, positionals } = words(args, {
      out: { type: "string" },
      bars: { type: "string" },
      sheets: { type: "string" },
      paper: { type: "string", default: "A4" },
      "paper-thickness": { type: "string" },
      json: { type: "boolean" },
    });
    const { out, paper } = values;
    if (out === undefined) throw new WrongCall(CALL.outFile);
    if (paper !== "A4" && paper !== "Letter") throw new WrongCall(CALL.paper(paper));
    const thickness = thicknessOf(values["paper-thickness"]);
    const sheets = sheetsAsked(values.sheets);
    const progress = progressOf(platform);
    const opened = openPlan(positionals, platform, progress);
    if (!opened) return 2;
    const { job, document, plan, writer } = opened;
    const asked =
      values.bars === undefined
        ? barsAsked(job, undefined)
        : listed(values.bars).flatMap((id) => barsAsked(job, id, "bars"));
    const bars = sheets.bar.length === 0 ? [] : [...new Set(asked)];
    const steps = printing(plan, {
      paper,
      job: sheets.job,
      bars,
      sheets: sheets.bar,
      document,
      ...(thickness === undefined ? {} : { paperThickness: thickness }),
    });
    const told = progress.stage(WORK.barsDrawn);
    let step = steps.next();
    for (let i = 0; !step.done; step = steps.next(), i++) told(i, bars.length);
    progress.end();
    const made = step.value;
    for (const one of made.without) platform.err(`${sayUnprinted(one)}\n`);
    const pages = made.document.sheets;
    if (pages.length === 0) {
      platform.err(`${PRINT_ANSWER.nothing(out)}\n`);
      return 1;
    }
    const bytes = await toPdf(made.document, readFonts());
    const wrote = platform.write(dirname(out), [{ name: basename(out), bytes }]);
    if (!wrote.ok) {
      platform.err(`${WORK.unwritten(out, wrote.why)}\n`);
      return 2;
    }
    const trueSize = pages.flatMap((page, i) => (page.isTrueSize ? [i + 1] : []));
    if (values.json) {
      printJson(
        {
          file: out,
          pages: pages.map(({ name, isTrueSize = false }) => ({ name, trueSize: isTrueSize })),
          without: made.without.map((one) => ({
            bar: one.bar,
            code: one.why,
            says: sayUnprinted(one),
          })),
        },
        platform,
      );
    } else platform.out(`${PRINT_ANSWER.made(out, pages.length, trueSize)}\n`);
    const ofBars = new Set(bars);
    const own = plan.findings.filter((f) => f.bar !== undefined && ofBars.has(f.bar) && !isDanger(f));
    // a sheet of the job is of all its bars
    const isOfAll = values.bars === undefined || sheets.job.length > 0;
    const dangers = dangersOf(plan).filter((f) => isOfAll || bars.some((bar) => concerns(f, bar)));
    return report([...dangers, ...own, ...made.findings], writer, platform);
  },
};

const sayUnprinted = ({ bar, why }: Unprinted): string =>
  why === "no-geometry" ? CALL.noGeometry(bar) : PRINT_ANSWER.noSheet(bar);

const listed = (text: string): readonly string[] => text.split(",").map((part) => part.trim());

/** A name of the call, without a space. */
const called = (sheet: string): string => sheet.replaceAll(" ", "-");

/** The sheets that `--sheets` names, or all that a bar is made from. */
function sheetsAsked(text: string | undefined) {
  if (text === undefined) return { bar: TO_MAKE, job: [] };
  const known = [...BAR_SHEETS, ...JOB_SHEETS].map(called);
  const names = listed(text);
  for (const name of names)
    if (!known.includes(name))
      throw new WrongCall(CALL.noSheet(name, new Suggester().closest(name, known), known));
  return {
    bar: BAR_SHEETS.filter((sheet) => names.includes(called(sheet))),
    job: JOB_SHEETS.filter((sheet) => names.includes(called(sheet))),
  };
}
