import { type ParseArgsConfig, parseArgs } from "node:util";
import {
  byGravity,
  type Finding,
  isError,
  type Quantity,
  severityOf,
  type Writer,
} from "../core/findings/index.ts";
import { type Job, readAnyVersion, Suggester } from "../core/job/index.ts";
import { type BarPlan, type Plan, planJob } from "../core/plan/index.ts";
import { writerFor } from "../core/units/index.ts";
import {
  CALL,
  IDS,
  isForOthers,
  problemLine,
  readOnly,
  say,
  WHO_DECIDES,
  WORK,
  written,
} from "../words/index.ts";
import type { Platform } from "./platform.ts";
import type { Progress } from "./progress.ts";

/** 0 answered · 1 a bar has no geometry · 2 the call or the file is wrong. */
export type ExitCode = 0 | 1 | 2;

/** What it is for and how it is called is in words (COMMANDS). */
export interface Command {
  readonly run: (args: readonly string[], platform: Platform) => ExitCode | Promise<ExitCode>;
}

/** The call is wrong: one line and how it goes. */
export class WrongCall extends Error {}

type Options = NonNullable<ParseArgsConfig["options"]>;

/** Parses a command's words; what does not belong there is a WrongCall in plain words. */
export function words<T extends Options>(args: readonly string[], options: T) {
  try {
    return parseArgs({ args: joinNegatives(args), options, allowPositionals: true, strict: true });
  } catch (error) {
    const said = (error as Error).message.split(/[.\n]/)[0] ?? "";
    throw new WrongCall(said.replace("Unknown option", CALL.noOption));
  }
}

/** `--along -40`: a negative number after an option is its value. */
const joinNegatives = (args: readonly string[]): string[] => {
  const out: string[] = [];
  for (const arg of args) {
    const last = out[out.length - 1];
    if (/^-[.\d]/.test(arg) && last?.startsWith("--") && !last.includes("="))
      out[out.length - 1] = `${last}=${arg}`;
    else out.push(arg);
  }
  return out;
};

/** One word of the call as a number between bounds. */
export function numberOf(name: string, value: string, low: number, high: number): number {
  const n = value.trim() === "" ? Number.NaN : Number(value);
  if (!(n >= low && n <= high)) throw new WrongCall(CALL.number(name, value, low, high));
  return n;
}

export interface Opened {
  readonly job: Job;
  /** The same as it was typed, units and all. */
  readonly document: unknown;
  readonly writer: Writer;
}

/** Reads the one job file that a command was given; undefined (and the lines printed) where it does not pass. */
export function openJob(positionals: readonly string[], platform: Platform): Opened | undefined {
  const [path, extra] = positionals;
  if (path === undefined) throw new WrongCall(CALL.noJob);
  if (extra !== undefined) throw new WrongCall(CALL.oneJob(extra));
  const read = platform.read(path);
  if (!read.ok) {
    platform.err(`${path}: ${read.why}\n`);
    return undefined;
  }
  const result = readAnyVersion(read.text);
  if (!result.ok) {
    platform.err(result.problems.map((p) => `${problemLine(p)}\n`).join(""));
    return undefined;
  }
  if (result.newer) platform.err(`${readOnly(result.newer.version)}\n`);
  return { job: result.job, document: result.document, writer: writerFor(result.job.show) };
}

/** Opens and computes a job; undefined where it does not pass or its ends are coped to each other. */
export function openPlan(
  positionals: readonly string[],
  platform: Platform,
  progress?: Progress,
): (Opened & { readonly plan: Plan }) | undefined {
  const opened = openJob(positionals, platform);
  if (!opened) return undefined;
  const plan = planJob(opened.job, undefined, progress?.stage(WORK.figured));
  if (plan.mutual.length > 0) {
    platform.err(plan.mutual.map((f) => `${findingLine(f, opened.writer)}\n`).join(""));
    return undefined;
  }
  return { ...opened, plan };
}

/** The IDs that `--bar` narrows to, or all. */
export function barsAsked(job: Job, bar: string | undefined, option = "bar"): readonly string[] {
  const ids = Object.keys(job.bars);
  if (bar === undefined) return ids;
  if (!ids.includes(bar)) {
    throw new WrongCall(CALL.noBar(bar, new Suggester().closest(bar, ids), option));
  }
  return [bar];
}

/** The plan of the one bar that a command is about; undefined (and the line printed) where it has no geometry. */
export function plannedBar(
  { job, plan }: { readonly job: Job; readonly plan: Plan },
  id: string,
  platform: Platform,
): BarPlan | undefined {
  barsAsked(job, id);
  const planned = plan.byId.get(id);
  if (!planned) platform.err(`${CALL.noGeometry(id)}\n`);
  return planned;
}

export const findingLine = (finding: Finding, writer: Writer): string =>
  `${finding.place}: ${say(finding, writer, IDS)}`;

/** Who decides, beside every answer that judges a bar. */
export const ADVICE = { advice: WHO_DECIDES, adviceCode: "who-decides" } as const;

/** A finding as JSON, with its sentence. */
export const findingJson = (finding: Finding, writer: Writer): object => ({
  severity: severityOf(finding),
  code: finding.code,
  place: finding.place,
  ...(finding.bar === undefined ? {} : { bar: finding.bar }),
  says: say(finding, writer, IDS),
  values: Object.fromEntries(
    Object.entries(finding.values).map(([name, value]) => [name, valueJson(value, writer)]),
  ),
});

/** A number with its unit; whatever else with its text. */
const valueJson = (value: Quantity, writer: Writer): object =>
  "mm" in value || "deg" in value || "count" in value
    ? value
    : { text: written(value, writer, IDS), ...value };

/** Prints what a command found to standard error and gives the exit code that follows from it. */
export function report(findings: readonly Finding[], writer: Writer, platform: Platform): ExitCode {
  for (const finding of byGravity(findings)) {
    const severity = severityOf(finding);
    if (severity !== "note") platform.err(`${severity}: ${findingLine(finding, writer)}\n`);
  }
  if (isForOthers(findings)) platform.err(`${WHO_DECIDES}\n`);
  return findings.some(isError) ? 1 : 0;
}

/** An answer holds what is no answer: a fault of the program, not of the call. Nothing of it is printed. */
export class BrokenAnswer extends Error {}

/**
 * Keys that hold null where there is nothing to say: a wall line that misses every host (`back`), and what no other
 * reading checks (`normalized`, and with it the `sigma0` of a whole survey). All other keys are left out then.
 */
const NULLS = new Set(["back", "normalized", "sigma0", "cleanedSigma0"]);

/** Where an answer holds no finite number, or nothing where something must be; undefined where all is well. */
function broken(value: unknown, place: string, key: string): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : CALL.notFinite(place);
  if (value === null) return NULLS.has(key) ? undefined : CALL.nothing(place);
  if (Array.isArray(value)) {
    for (const [i, entry] of value.entries()) {
      const at = `${place}[${i}]`;
      const found = entry === undefined ? CALL.nothing(at) : broken(entry, at, key);
      if (found !== undefined) return found;
    }
  } else if (typeof value === "object") {
    for (const [name, entry] of Object.entries(value)) {
      if (entry === undefined) continue;
      const found = broken(entry, place === "" ? name : `${place}.${name}`, name);
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

/**
 * One JSON object to standard output: numbers to `parts` of one (a millionth unless said), never −0. It is walked
 * first: JSON.stringify writes null for NaN and infinity without a word, and whoever reads it takes it for a miss.
 */
export function printJson(value: unknown, platform: Platform, parts = 1e6): void {
  const fault = broken(value, "", "");
  if (fault !== undefined) throw new BrokenAnswer(CALL.broken(fault));
  const tidy = (_: string, v: unknown): unknown => {
    if (typeof v !== "number") return v;
    const r = Math.round(v * parts) / parts;
    return r === 0 ? 0 : r;
  };
  platform.out(`${JSON.stringify(value, tidy)}\n`);
}
