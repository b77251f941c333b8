import { join } from "node:path";
import { type CardFile, type CardOptions, cardFiles, cardFindings } from "../cards/index.ts";
import { isDanger } from "../core/findings/index.ts";
import { dangersOf } from "../core/plan/index.ts";
import { parseLength } from "../core/units/index.ts";
import { CALL, WORK } from "../words/index.ts";
import { barsAsked, type Command, openPlan, printJson, report, WrongCall, words } from "./call.ts";
import { type Entry, FolderTrouble, type Left } from "./folder/index.ts";
import { readFonts } from "./fonts.ts";
import type { Platform } from "./platform.ts";
import { type Progress, progressOf } from "./progress.ts";

export const cards: Command = {
  run: async (args, platform) => {
    const { values, positionals } = words(args, {
      out: { type: "string" },
      bar: { type: "string" },
      paper: { type: "string", default: "A4" },
      "paper-thickness": { type: "string" },
      csv: { type: "boolean" },
      json: { type: "boolean" },
    });
    const { out, paper } = values;
    if (out === undefined) throw new WrongCall(CALL.out);
    if (paper !== "A4" && paper !== "Letter") throw new WrongCall(CALL.paper(paper));
    const thickness = thicknessOf(values["paper-thickness"]);
    const progress = progressOf(platform);
    const opened = openPlan(positionals, platform, progress);
    if (!opened) return 2;
    const { job, document, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    const options: CardOptions = {
      paper,
      bars: asked,
      ...(values.bar === undefined ? { document } : {}),
      csv: values.csv === true,
      ...(thickness === undefined ? {} : { paperThickness: thickness }),
    };
    const files = cardFiles(plan, options);
    const isNow = (): ReadonlyMap<string, string> => {
      const all = cardFiles(plan, { paper, document, csv: true });
      return new Map(all.map((f) => [f.name, f.revision]));
    };
    try {
      const part = values.bar === undefined ? undefined : { bar: values.bar, isNow };
      const made = await makeFiles(files, out, part, platform, progress);
      if (values.json) printJson({ folder: out, files: files.map((f) => f.name), ...made }, platform);
      else sayMade(files.length, out, values.csv === true, made, platform);
      sayLeft(made, platform);
    } catch (error) {
      if (!(error instanceof FolderTrouble)) throw error;
      platform.err(`${out}: ${error.message}\n`);
      return 2;
    } finally {
      progress.end();
    }
    const ofAsked = new Set(asked);
    const dangers = values.bar === undefined ? dangersOf(plan) : dangersOf(plan, values.bar);
    const own = plan.findings.filter((f) => f.bar !== undefined && ofAsked.has(f.bar) && !isDanger(f));
    return report([...dangers, ...own, ...cardFindings(plan, options)], writer, platform);
  },
};

interface Made {
  /** Of other bars, as a former run made them. */
  readonly stays: readonly string[];
  /** Those of them that the job has changed since. */
  readonly old: readonly string[];
  /** What was in the folder and no run made so. */
  readonly left: readonly Left[];
  /** What a former run made and this one does not. */
  readonly gone: readonly string[];
}

/** Where one bar alone is asked for: it, and the revision that each file of the job would have now. */
interface Part {
  readonly bar: string;
  readonly isNow: () => ReadonlyMap<string, string>;
}

/** Draws the files into a set beside the folder, which then takes the folder's place. */
async function makeFiles(
  files: readonly CardFile[],
  out: string,
  part: Part | undefined,
  platform: Platform,
  progress: Progress,
): Promise<Made> {
  const fonts = readFonts();
  const encoder = new TextEncoder();
  const set = platform.folder(out);
  const goOn = platform.onStop(() => WORK.stopped(out, set.abandon()));
  const told = progress.stage(WORK.drawn);
  try {
    for (const [i, file] of files.entries()) {
      told(i, files.length);
      const content = await file.make(fonts);
      const { bar, revision } = file;
      const bytes = typeof content === "string" ? encoder.encode(content) : content;
      set.put(file.name, bytes, { revision, ...(bar === undefined ? {} : { bar }) });
      await platform.breathe();
    }
    const stays = part ? set.carry((_, entry) => entry.bar !== part.bar) : new Map<string, Entry>();
    const now = part && stays.size > 0 ? part.isNow() : undefined;
    const old = [...stays]
      .filter(([name, { revision }]) => now?.get(name) !== revision)
      .map(([name]) => name);
    return { stays: [...stays.keys()], old, ...set.commit() };
  } catch (error) {
    if (!(error instanceof FolderTrouble)) set.abandon();
    throw error;
  } finally {
    goOn();
  }
}

function sayMade(count: number, out: string, csv: boolean, made: Made, platform: Platform): void {
  platform.out(`${WORK.made(count, join(out), csv)}\n`);
  if (made.stays.length > 0) platform.out(`${WORK.others(made.stays.length)}\n`);
  if (made.gone.length > 0) platform.out(`${WORK.gone(made.gone)}\n`);
}

function sayLeft({ old, left }: Made, platform: Platform): void {
  if (old.length > 0) platform.err(`${WORK.old(old)}\n`);
  for (const { name, as, changed } of left) platform.err(`${WORK.kept(name, as, changed)}\n`);
}

/** The thickness of the wraps' paper as the call has it (mm). */
export function thicknessOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const read = parseLength(text);
  if (!read.ok) throw new WrongCall(CALL.length("paper-thickness", text, read.why));
  if (read.mm < 0 || read.mm > 1) throw new WrongCall(CALL.thickness(text));
  return read.mm;
}
