import { isError } from "../core/findings/index.ts";
import { changeOf } from "../core/plan/index.ts";
import { shopWriterFor } from "../core/units/index.ts";
import { CHANGE_CALL, isEased, isForOthers, MADE_CHANGED, sayMade, WHO_DECIDES } from "../words/index.ts";
import {
  ADVICE,
  barsAsked,
  type Command,
  findingLine,
  openJob,
  openPlan,
  printJson,
  WrongCall,
  words,
} from "./call.ts";
import { verdictJson } from "./made-json.ts";

export const change: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, { loose: { type: "string" }, json: { type: "boolean" } });
    const [before, after, extra] = positionals;
    if (before === undefined || after === undefined) throw new WrongCall(CHANGE_CALL.twoJobs);
    if (extra !== undefined) throw new WrongCall(CHANGE_CALL.oneTooMany(extra));
    const was = openPlan([before], platform);
    const now = was && openJob([after], platform);
    if (!was || !now) return 2;
    const loose = new Set((values.loose ?? "").split(",").filter((id) => id !== ""));
    for (const id of loose) barsAsked(was.job, id, "loose");
    const found = changeOf(was.plan, now.job, loose);
    const { mutual, findings, byId } = found.plan;
    if (mutual.length > 0) {
      platform.err(mutual.map((f) => `${findingLine(f, now.writer)}\n`).join(""));
      return 2;
    }
    const write = shopWriterFor(now.job.show);
    if (values.json) {
      const bars = found.bars.map((v) => ({
        bar: v.bar,
        step: v.step,
        ...verdictJson(v),
        why: sayMade(v, write),
      }));
      const gone = found.gone.length > 0 ? { gone: found.gone } : {};
      const lost = found.lost.length > 0 ? { lost: found.lost } : {};
      printJson({ bars, ...gone, ...lost, ...(found.bars.some(isEased) ? ADVICE : {}) }, platform);
    } else {
      const label = (id: string): string => now.job.bars[id]?.label ?? id;
      for (const id of found.lost) platform.out(`${label(id)} (${id}): ${MADE_CHANGED.lost}\n`);
      for (const v of found.bars)
        platform.out(`${label(v.bar)} (${v.bar}), ${v.step}: ${sayMade(v, write)}\n`);
      for (const id of found.gone)
        platform.out(`${was.job.bars[id]?.label ?? id} (${id}): ${MADE_CHANGED.gone}\n`);
      if (found.bars.length + found.gone.length + found.lost.length === 0)
        platform.out(`${MADE_CHANGED.none}\n`);
      if (found.bars.some(isEased)) platform.out(`${WHO_DECIDES}\n`);
    }
    const errors = findings.filter(isError);
    for (const f of errors) platform.err(`error: ${findingLine(f, now.writer)}\n`);
    if (isForOthers(errors)) platform.err(`${WHO_DECIDES}\n`);
    return Object.keys(now.job.bars).some((id) => !byId.has(id)) ? 1 : 0;
  },
};
