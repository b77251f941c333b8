import { readFileSync } from "node:fs";
import { readJob } from "../src/core/job/index.ts";
import { tubeMesh } from "../src/core/mesh/index.ts";
import { type BarPlan, planJob } from "../src/core/plan/index.ts";

/**
 * What meshes cost (Node, one core): all bars of the demo, a job of 300 bars, and one bar with all that lands on it.
 * Inputs differ from run to run (the origin moves), results are summed so that no work is dropped.
 * Run: npx tsx bench/view.ts
 */
const read = readJob(readFileSync("demo/sandling.json", "utf8"));
if (!read.ok) throw new Error("the demo does not read");
const plan = planJob(read.job);
let seed = 0;
let used = 0;

function mesh({ bar, copes }: BarPlan): void {
  const origin = [seed++ % 97, 0, 0] as const;
  const built = tubeMesh(bar, { A: copes.A.cope, B: copes.B.cope }, { origin });
  used += built.indices.length / 3 + built.positions[0]!;
}

function measure(name: string, bars: readonly BarPlan[], runs: number): void {
  for (let i = 0; i < 3; i++) bars.forEach(mesh);
  const times = Array.from({ length: runs }, () => {
    const t = performance.now();
    bars.forEach(mesh);
    return performance.now() - t;
  }).sort((a, b) => a - b);
  const at = (share: number): string => times[Math.floor(share * (runs - 1))]!.toFixed(2);
  console.log(`${name}: ${bars.length} bars, least ${at(0)} ms, median ${at(0.5)} ms, 95 % ${at(0.95)} ms`);
}

const hoop = "main-hoop";
const onHoop = plan.bars.filter((b) => b.id === hoop || b.bar.dependsOn.includes(hoop));
const header = plan.bars.filter((b) => b.id === "header-bar" || b.bar.dependsOn.includes("header-bar"));
measure("demo", plan.bars, 40);
measure("hoop and what lands on it", onHoop, 80);
measure("header bar and what lands on it", header, 80);
measure(
  "300 bars",
  Array.from({ length: 300 }, (_, i) => plan.bars[i % plan.bars.length]!),
  15,
);
const built = plan.bars.map(({ bar, copes }) => tubeMesh(bar, { A: copes.A.cope, B: copes.B.cope }));
const near = built.reduce((sum, m) => sum + m.outerCount / 3, 0);
const far = built.reduce((sum, m) => sum + m.farOuterCount / 3, 0);
console.log(`outsides of the demo: ${near} triangles near, ${far} from afar (${used > 0 ? "ok" : ""})`);
