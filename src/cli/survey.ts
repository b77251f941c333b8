import type { Writer } from "../core/findings/index.ts";
import type { Job } from "../core/job/index.ts";
import { adviceWords, readingWords, type Survey, surveyJob, surveyJson } from "../core/survey/index.ts";
import { type Command, findingJson, openPlan, printJson, report, words } from "./call.ts";

export const survey: Command = {
  about: "where the car's points are, from the readings: places, errors, and what does not fit",
  usage: "tubewright survey JOB [--json]",
  run: (args, platform) => {
    const { values, positionals } = words(args, { json: { type: "boolean" } });
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const found = surveyJob(job, plan.layout.byId);
    if (values.json) {
      const findings = found.findings.map((f) => findingJson(f, writer));
      printJson({ ...surveyJson(found), findings }, platform);
    } else platform.out(text(job, found, writer));
    return report(found.findings, writer, platform);
  },
};

function text(job: Job, found: Survey, { length, angle }: Writer): string {
  if (job.readings.length === 0) return "no readings in this job\n";
  if (!found.converged) return "no places\n";
  const lines: string[] = [];
  const rows = [...found.points.values()].map(({ id, at, sd }) => [
    id,
    ...at.map((v) => length(v)),
    ...sd.map((v) => `± ${length(v)}`),
  ]);
  const wide = rows.reduce<number[]>((w, r) => r.map((c, i) => Math.max(w[i] ?? 0, c.length)), []);
  for (const row of rows) {
    const cells = row.map((c, i) => (i === 0 ? c.padEnd(wide[i]!) : c.padStart(wide[i]!)));
    lines.push(`  ${cells.join("  ")}`);
  }
  const agree =
    found.sigma0 === null
      ? "nothing left to check by"
      : `${found.sigma0.toFixed(2)} times their stated errors`;
  lines.push(`  readings disagree by ${agree} (${found.freedom} beyond those needed)`);
  for (const r of found.readings) {
    const size = r.unit === "deg" ? angle : length;
    const off =
      r.normalized === null ? "checked by no other" : `${Math.abs(r.normalized).toFixed(1)} of its own ±`;
    const mark = found.suspects.some((s) => s.index === r.index) ? "  <- does not fit" : "";
    const signed = `${r.residual > 0 ? "+" : ""}${size(r.residual)}`;
    lines.push(
      `  ${r.index}: ${readingWords(job.readings[r.index]!)} reads ${size(r.read)}, computed less read ${signed} (${off})${mark}`,
    );
  }
  if (found.next) {
    const { reading, point, before, after } = found.next;
    lines.push(
      `  read next: ${adviceWords(reading)}; ${point} goes from ± ${length(before)} to ± ${length(after)}`,
    );
  }
  return `${lines.join("\n")}\n`;
}
