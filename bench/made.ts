import { readFileSync } from "node:fs";
import { type Job, readJob } from "../src/core/job/index.ts";
import { changeOf, type Plan, planJob } from "../src/core/plan/index.ts";
import { inTurn, type Row } from "./measure.ts";

// biome-ignore lint/suspicious/noExplicitAny: a job is edited here as a person edits its file
type Doc = any;
const demo = (): Doc => JSON.parse(readFileSync("demo/sandling.json", "utf8"));

function jobOf(doc: Doc): Job {
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
}

/** The demo with its first twenty bars behind the hoop at some step each. */
function made(): Doc {
  const doc = demo();
  const steps = ["notched", "bent", "sawn"];
  const ids = Object.keys(doc.bars).filter((id) => id !== "main-hoop");
  for (const [i, id] of ids.slice(0, 20).entries()) doc.bars[id].progress = steps[i % 3];
  return doc;
}

/** The hoop with its feet so far back (mm): most of the cage lands on it. */
function hoopBack(doc: Doc, by: number): Doc {
  const moved = structuredClone(doc);
  moved.bars["main-hoop"].path = moved.bars["main-hoop"].path.map((n: Doc) =>
    Array.isArray(n) ? [n[0] - by, n[1], n[2]] : n,
  );
  for (const foot of ["main-hoop-foot-a", "main-hoop-foot-b"]) moved.plates[foot].at[0] -= by;
  return moved;
}

/** Twenty bars made and a new place for the hoop: the list of what becomes of them. */
export function madeRows(): Row[] {
  const doc = made();
  const before: Plan = planJob(jobOf(doc));
  const jobs = Array.from({ length: 8 }, (_, i) => jobOf(hoopBack(doc, 3 + 4 * i)));
  let k = 0;
  const [list] = inTurn([() => changeOf(before, jobs[k++ % jobs.length] as Job).bars.length], 8, 2);
  return [
    {
      what: "demo, 20 bars made, the hoop moved by 3 to 31: the list of what becomes of them",
      value: list as number,
      unit: "ms",
      promise: { atMost: 300 },
    },
  ];
}
