import type { Writer } from "../core/findings/index.ts";
import type { Job } from "../core/job/index.ts";
import {
  advicePhrase,
  readingPhrase,
  type Survey,
  type SurveyPoint,
  surveyJob,
  surveyJson,
} from "../core/survey/index.ts";
import { IDS, saySlip, written } from "../words/index.ts";
import { type Command, findingJson, openPlan, printJson, report, words } from "./call.ts";

export const survey: Command = {
  about: "where the car's points are, from the readings: places, errors, and what does not fit",
  usage: "tubewright survey JOB [--json]",
  run: (args, platform) => {
    const { values, positionals } = words(args, { json: { type: "boolean" } });
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const found = plan.places.survey ?? surveyJob(job);
    const said = plan.places.survey ? plan.places.findings : found.findings;
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
  if (job.readings.length === 0) return "no readings in this job\n";
  if (!found.converged) return "no places\n";
  const lines = placeLines([...found.points.values()], { length });
  lines.push(
    found.sigma0 === null
      ? "  no more readings than are needed: nothing checks them"
      : `  readings disagree by ${found.sigma0.toFixed(2)} times their stated errors (${found.freedom} beyond those needed)`,
  );
  for (const r of found.readings) {
    const size = r.unit === "deg" ? angle : length;
    const off =
      r.normalized === null ? "checked by no other" : `${Math.abs(r.normalized).toFixed(1)} of its own ±`;
    const mark = found.suspects.some((s) => s.index === r.index) ? "  <- does not fit" : "";
    const signed = `${r.residual > 0 ? "+" : ""}${size(r.residual)}`;
    lines.push(
      `  ${r.index}: ${written(readingPhrase(job.readings[r.index]!), writer, IDS)} reads ${size(r.read)}, computed less read ${signed} (${off})${mark}`,
    );
  }
  const elsewhere = [...found.cleaned.points.values()].filter(({ id, at, sd }) => {
    const all = found.points.get(id);
    return !all || [...at, ...sd].some((v, i) => Math.abs(v - [...all.at, ...all.sd][i]!) > 0.05);
  });
  if (found.suspects.length > 0 && elsewhere.length > 0) {
    const without = found.suspects.map((s) => s.index).sort((a, b) => a - b);
    lines.push(`  without ${without.join(", ")} these places become:`);
    lines.push(...placeLines(elsewhere, { length }).map((line) => `  ${line}`));
  }
  if (found.next) {
    const { reading, point, before, after } = found.next;
    lines.push(
      `  read next: ${written(advicePhrase(reading), writer, IDS)}; ${point} goes from ± ${length(before)} to ± ${length(after)}`,
    );
  }
  return `${lines.join("\n")}\n`;
}

/** One line a point: its place and its ± in x, y, z, in columns. */
function placeLines(points: readonly SurveyPoint[], { length }: Pick<Writer, "length">): string[] {
  const rows = points.map(({ id, at, sd }) => [
    id,
    ...at.map((v) => length(v)),
    ...(sd.some((v) => v > 0) ? sd.map((v) => `± ${length(v)}`) : ["exact"]),
  ]);
  const wide = rows.reduce<number[]>(
    (w, r) => Array.from({ length: 7 }, (_, i) => Math.max(w[i] ?? 0, r[i]?.length ?? 0)),
    [],
  );
  return rows.map(
    (row) => `  ${row.map((c, i) => (i === 0 ? c.padEnd(wide[i]!) : c.padStart(wide[i]!))).join("  ")}`,
  );
}
