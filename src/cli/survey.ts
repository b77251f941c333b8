import type { Writer } from "../core/findings/index.ts";
import type { Job } from "../core/job/index.ts";
import { mapVec, type Vec } from "../core/space/index.ts";
import {
  advicePhrase,
  doorGapFindings,
  readingPhrase,
  type Survey,
  type SurveyPoint,
  surveyJob,
  surveyJson,
} from "../core/survey/index.ts";
import { IDS, SURVEY_ANSWER as SAYS, saySigned, saySlip, written } from "../words/index.ts";
import { type Command, findingJson, openPlan, printJson, report, words } from "./call.ts";

export const survey: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, { json: { type: "boolean" } });
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const found = plan.places.survey ?? surveyJob(job);
    const said = [...doorGapFindings(job), ...(plan.places.survey ? plan.places.findings : found.findings)];
    if (values.json) {
      const findings = said.map((f) => findingJson(f, writer));
      printJson(
        {
          ...surveyJson(found, { advice: (a) => written(advicePhrase(a), writer, IDS), slip: saySlip }),
          findings,
        },
        platform,
      );
    } else platform.out(text(job, found, writer));
    return report(said, writer, platform);
  },
};

function text(job: Job, found: Survey, writer: Writer): string {
  const { length, angle } = writer;
  if (job.readings.length === 0) return `${SAYS.none}\n`;
  if (!found.converged) return `${SAYS.noPlaces}\n`;
  const lines = placeLines([...found.points.values()], { length });
  lines.push(found.sigma0 === null ? SAYS.unchecked : SAYS.disagree(found.sigma0, found.freedom));
  for (const r of found.readings) {
    const reading = job.readings[r.index];
    if (!reading) throw new Error(`the job has no reading ${r.index}`);
    const size = r.unit === "deg" ? angle : length;
    const off = r.normalized === null ? SAYS.alone : SAYS.times(r.normalized);
    lines.push(
      SAYS.reading({
        index: r.index,
        what: written(readingPhrase(reading), writer, IDS),
        read: size(r.read),
        residual: saySigned(r.residual, size),
        off,
        suspect: found.suspects.some((s) => s.index === r.index),
      }),
    );
  }
  const elsewhere = [...found.cleaned.points.values()].filter(({ id, at, sd }) => {
    const all = found.points.get(id);
    return !all || differ(at, all.at) || differ(sd, all.sd);
  });
  if (found.suspects.length > 0 && elsewhere.length > 0) {
    const without = found.suspects.map((s) => s.index).sort((a, b) => a - b);
    lines.push(SAYS.without(without));
    lines.push(...placeLines(elsewhere, { length }).map((line) => `  ${line}`));
  }
  if (found.next) {
    const { reading, point, before, after } = found.next;
    lines.push(SAYS.next(written(advicePhrase(reading), writer, IDS), point, length(before), length(after)));
  }
  return `${lines.join("\n")}\n`;
}

const differ = (a: Vec, b: Vec): boolean => mapVec(a, (v, k) => Math.abs(v - b[k])).some((d) => d > 0.05);

/** One line a point: its place and its ± in x, y, z, in columns. */
function placeLines(points: readonly SurveyPoint[], { length }: Pick<Writer, "length">): string[] {
  const rows = points.map(({ id, at, sd }) => [
    id,
    ...at.map((v) => length(v)),
    ...(sd.some((v) => v > 0) ? sd.map((v) => SAYS.sd(length(v))) : [SAYS.exact]),
  ]);
  const wide = rows.reduce<number[]>(
    (w, r) => Array.from({ length: 7 }, (_, i) => Math.max(w[i] ?? 0, r[i]?.length ?? 0)),
    [],
  );
  return rows.map(
    (row) =>
      `  ${row.map((c, i) => (i === 0 ? c.padEnd(wide[i] ?? 0) : c.padStart(wide[i] ?? 0))).join("  ")}`,
  );
}
