import { readFileSync } from "node:fs";
import { type Job, readJob } from "../src/core/job/index.ts";
import { notchAt, type Plan, planJob } from "../src/core/plan/index.ts";
import { inTurn, type Row } from "./measure.ts";

type Doc = { bars: Record<string, { mirrorOf?: string; path?: unknown[] }> } & Record<string, unknown>;
const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Doc;

function jobOf(doc: unknown): Job {
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
}

/** The demo car `times` over, each car's bars landing on its own, each a little apart so that no two are alike. */
export function manyCars(times: number): Job {
  const bars: Record<string, unknown> = {};
  for (let k = 0; k < times; k++) {
    const renamed = JSON.parse(JSON.stringify(demo.bars), (key, value: unknown) => {
      const names = key === "on" || key === "mirrorOf";
      if (names && typeof value === "string") return `${value}~${k}`;
      return key === "along" && typeof value === "number" ? value + 0.001 * k : value;
    }) as Record<string, unknown>;
    for (const [id, bar] of Object.entries(renamed)) bars[`${id}~${k}`] = bar;
  }
  return jobOf({ ...demo, bars });
}

const curves = (job: Job): number => planJob(job).bars.reduce((sum, b) => sum + b.bend.blank, 0);

function notches(plan: Plan): number {
  let sum = 0;
  for (const b of plan.bars) {
    for (const end of ["A", "B"] as const) sum += notchAt(plan, b.id, end)?.steps?.leave ?? 0;
  }
  return sum;
}

/** The whole job: curves, bends, marks and blanks; saw settings and steps on top; and how both grow with the bars. */
export function jobRows(): Row[] {
  const one = manyCars(1);
  const ten = manyCars(10);
  const thirty = manyCars(30);
  const [base] = inTurn([() => curves(one)], 30, 15);
  const both = inTurn([() => curves(one), () => notches(planJob(one))], 20, 5);
  const [a, b, c] = inTurn([() => curves(one), () => curves(ten), () => curves(thirty)], 7, 3);
  return [
    {
      what: "demo, 36 bars, 360 lines an end, both walls: curves, bends, marks, blanks",
      value: base!,
      unit: "ms",
      promise: { atMost: 50 },
    },
    {
      what: "saw settings and steps of its ends, on top",
      value: both[1]! - both[0]!,
      unit: "ms",
      promise: { atMost: 150 },
    },
    { what: "ten times the bars", value: b! / a!, unit: "×", promise: { atMost: 12 } },
    { what: "thirty times the bars", value: c! / a!, unit: "×", promise: { atMost: 36 } },
  ];
}

/** One landing moved: the bar and what stands on it, against the whole. */
export function editRows(): Row[] {
  const before = planJob(jobOf(demo));
  const move = (by: number): Job => {
    const doc = JSON.parse(JSON.stringify(demo)) as Doc;
    (doc.bars["header-bar"]!.path![0] as { along: number }).along += by;
    return jobOf(doc);
  };
  const jobs = Array.from({ length: 8 }, (_, i) => move(0.5 + i));
  let k = 0;
  const next = (): Job => jobs[k++ % jobs.length]!;
  const [edit, whole] = inTurn(
    [() => planJob(next(), before).bars.length, () => planJob(next()).bars.length],
    20,
    5,
  );
  return [
    {
      what: "header bar moved: it and what lands on it figured anew",
      value: edit!,
      unit: "ms",
      promise: { atMost: 8 },
    },
    { what: "the whole job against that edit", value: whole! / edit!, unit: "×" },
  ];
}
