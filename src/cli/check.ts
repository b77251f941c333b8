import { cardFindings } from "../cards/index.ts";
import { isError, severityOf } from "../core/findings/index.ts";
import { allFindings } from "../core/plan/index.ts";
import {
  barsAsked,
  type Command,
  findingJson,
  findingLine,
  openPlan,
  printJson,
  SEVERITIES,
  words,
} from "./call.ts";
import { progressOf } from "./progress.ts";

export const check: Command = {
  about: "list every finding, gravest first",
  usage: "tubewright check JOB [--bar ID] [--json]",
  run: (args, platform) => {
    const { values, positionals } = words(args, { bar: { type: "string" }, json: { type: "boolean" } });
    const progress = progressOf(platform);
    const opened = openPlan(positionals, platform, progress);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = new Set(barsAsked(job, values.bar));
    const all = [
      ...allFindings(plan, progress.stage("bars checked")),
      ...cardFindings(plan, { paper: "A4", bars: [...asked] }),
    ];
    const found = all.filter((f) => (f.bar === undefined ? values.bar === undefined : asked.has(f.bar)));
    progress.end();
    const sorted = SEVERITIES.flatMap((s) => found.filter((f) => severityOf(f) === s));
    if (values.json) printJson({ findings: sorted.map((f) => findingJson(f, writer)) }, platform);
    else if (sorted.length === 0) platform.out("nothing found\n");
    else {
      for (const severity of SEVERITIES) {
        const here = sorted.filter((f) => severityOf(f) === severity);
        if (here.length > 0) platform.out(`${severity} (${here.length})\n`);
        for (const f of here) platform.out(`  ${findingLine(f, writer)}\n`);
      }
      platform.out(`${ADVICE}\n`);
    }
    return sorted.some(isError) ? 1 : 0;
  },
};

export const ADVICE =
  "Findings advise. The rule book in force, local codes, the inspector and a licensed engineer decide;\n" +
  "welds are made and inspected by qualified people.";
