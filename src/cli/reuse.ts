import { type Reuse, reuseOf } from "../core/plan/index.ts";
import { shopWriterFor } from "../core/units/index.ts";
import { CALL, isEased, REUSE, sayPiece, sayReuse, WHO_DECIDES } from "../words/index.ts";
import { ADVICE, barsAsked, type Command, openPlan, printJson, WrongCall, words } from "./call.ts";
import { verdictJson } from "./made-json.ts";

export const reuse: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, { bar: { type: "string" }, json: { type: "boolean" } });
    const { bar: id } = values;
    if (id === undefined) throw new WrongCall(CALL.nameBar);
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan } = opened;
    const write = shopWriterFor(job.show);
    barsAsked(job, id);
    const matches = reuseOf(plan, id);
    const label = job.bars[id]?.label ?? id;
    if ((job.bars[id]?.progress ?? "laid out") === "laid out") platform.err(`${REUSE.notMade(label)}\n`);
    const says = ({ of, verdict }: Reuse): string =>
      of.kind === "piece" ? sayPiece(of.left, write) : sayReuse(verdict, write);
    const advice = matches.some((m) => isEased(m.verdict));
    if (values.json) {
      const list = matches.map((m) => ({
        [m.of.kind]: m.of.id,
        reversed: m.reversed,
        ...verdictJson(m.verdict),
        gap: m.verdict.gap ?? {},
        ease: verdictJson(m.verdict).ease ?? [],
        ...(m.of.kind === "piece" ? { code: "piece" } : {}),
        says: says(m),
      }));
      printJson({ matches: list, ...(advice ? ADVICE : {}) }, platform);
    } else {
      platform.out(`${label} (${id}): ${matches.length > 0 ? REUSE.found(matches.length) : REUSE.none}\n`);
      for (const m of matches) {
        const name = m.of.kind === "bar" ? `${job.bars[m.of.id]?.label ?? m.of.id} (${m.of.id})` : m.of.id;
        platform.out(`  ${name}${m.reversed ? REUSE.reversed : ""}: ${says(m)}\n`);
      }
      if (advice) platform.out(`${WHO_DECIDES}\n`);
    }
    return 0;
  },
};
