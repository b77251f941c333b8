import { cardFindings } from "../cards/index.ts";
import { byGravity, concerns, isDanger, isError, SEVERITIES, severityOf } from "../core/findings/index.ts";
import { allFindings } from "../core/plan/index.ts";
import { WHO_DECIDES, WORK } from "../words/index.ts";
import {
  ADVICE,
  barsAsked,
  type Command,
  findingJson,
  findingLine,
  openPlan,
  printJson,
  words,
} from "./call.ts";
import { progressOf } from "./progress.ts";

export const check: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, { bar: { type: "string" }, json: { type: "boolean" } });
    const progress = progressOf(platform);
    const opened = openPlan(positionals, platform, progress);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = new Set(barsAsked(job, values.bar));
    const all = [
      ...allFindings(plan, "with notches", progress.stage(WORK.checked)),
      ...cardFindings(plan, { paper: "A4", bars: [...asked] }),
    ];
    // a danger is listed for every bar that it concerns, not only for the one that it is noted at
    const found = all.filter((f) =>
      isDanger(f) && values.bar !== undefined
        ? concerns(f, values.bar)
        : f.bar === undefined
          ? values.bar === undefined
          : asked.has(f.bar),
    );
    progress.end();
    const sorted = byGravity(found);
    if (values.json) printJson({ findings: sorted.map((f) => findingJson(f, writer)), ...ADVICE }, platform);
    else if (sorted.length === 0) platform.out(`${WORK.nothingFound}\n`);
    else {
      for (const severity of SEVERITIES) {
        const here = sorted.filter((f) => severityOf(f) === severity);
        if (here.length === 0) continue;
        platform.out(`${WORK.severity(severity, here.length)}\n`);
        const mark = severity === "danger" ? "! " : "  ";
        for (const f of here) platform.out(`${mark}${findingLine(f, writer)}\n`);
      }
      platform.out(`${WHO_DECIDES}\n`);
    }
    return sorted.some(isError) ? 1 : 0;
  },
};
