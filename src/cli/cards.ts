import { join } from "node:path";
import { cardFiles } from "../cards/index.ts";
import { isDanger } from "../core/findings/index.ts";
import { dangersOf } from "../core/plan/index.ts";
import { parseLength } from "../core/units/index.ts";
import { barsAsked, type Command, openPlan, printJson, report, WrongCall, words } from "./call.ts";
import { readFonts } from "./fonts.ts";
import type { NamedBytes } from "./platform.ts";

export const cards: Command = {
  about:
    "bender and notcher cards, wraps at true size, mark strips, an overview, reading list and measuring plan",
  usage:
    "tubewright cards JOB --out DIR [--bar ID] [--paper A4|Letter] [--paper-thickness LENGTH] [--csv] [--json]",
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
    if (out === undefined) throw new WrongCall("say where to with --out DIR");
    if (paper !== "A4" && paper !== "Letter") throw new WrongCall(`--paper ${paper}: A4 or Letter`);
    const thickness = thicknessOf(values["paper-thickness"]);
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, document, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    const files = cardFiles(plan, {
      paper,
      bars: asked,
      ...(values.bar === undefined ? { document } : {}),
      csv: values.csv === true,
      ...(thickness === undefined ? {} : { paperThickness: thickness }),
    });
    const made: NamedBytes[] = [];
    const fonts = readFonts();
    const encoder = new TextEncoder();
    for (const file of files) {
      const content = await file.make(fonts);
      made.push({ name: file.name, bytes: typeof content === "string" ? encoder.encode(content) : content });
    }
    const wrote = platform.write(out, made);
    if (!wrote.ok) {
      platform.err(`${out}: ${wrote.why}; nothing was written\n`);
      return 2;
    }
    if (values.json) printJson({ folder: out, files: made.map((f) => f.name) }, platform);
    else
      platform.out(
        `${made.length} files in ${join(out)}: overview.pdf, bars/, wraps/${values.csv ? ", tables" : ""}\n`,
      );
    const dangers = values.bar === undefined ? dangersOf(plan) : dangersOf(plan, values.bar);
    const own = plan.findings.filter((f) => f.bar !== undefined && asked.includes(f.bar));
    const found = [...dangers, ...own.filter((f) => !isDanger(f))];
    return report(found, writer, platform);
  },
};

function thicknessOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const read = parseLength(text);
  if (!read.ok) throw new WrongCall(`--paper-thickness ${text}: ${read.why}`);
  if (read.mm < 0 || read.mm > 1) throw new WrongCall(`--paper-thickness ${text}: paper is 0 to 1 mm thick`);
  return read.mm;
}
