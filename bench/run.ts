import { appendFileSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { browserRows } from "./browser.ts";
import { errorRows } from "./errors.ts";
import { fitRows, orderRows } from "./fit.ts";
import { editRows, jobRows } from "./job.ts";
import { kernelRows } from "./kernels.ts";
import { madeRows } from "./made.ts";
import { kept, machine, print, type Row, sunk } from "./measure.ts";
import { resweepRows } from "./resweep.ts";
import { shopProcessesKilledRows, shopRows } from "./shop.ts";
import { shopKilledRows, shopStoreRows } from "./shop-store.ts";
import { surveyRows } from "./survey.ts";

const sections: Readonly<Record<string, () => Row[] | Promise<Row[]>>> = {
  job: jobRows,
  edit: editRows,
  fit: fitRows,
  order: orderRows,
  kernels: kernelRows,
  errors: errorRows,
  survey: surveyRows,
  made: madeRows,
  "shop-store": shopStoreRows,
  shop: shopRows,
  browser: browserRows,
};

/** Run only when asked for by name: they take minutes. */
const byHand: typeof sections = {
  resweep: resweepRows,
  "shop-killed": shopKilledRows,
  "shop-processes-killed": shopProcessesKilledRows,
};

const asked = process.argv.slice(2).filter((a) => !a.startsWith("--"));
console.log(machine());
const all: Row[] = [];
for (const [name, rows] of Object.entries({ ...sections, ...byHand })) {
  if (asked.length === 0 ? name in byHand : !asked.includes(name)) continue;
  console.log(`\n${name}`);
  const made = await rows();
  print(made);
  all.push(...made);
}
if (process.argv.includes("--keep")) keep(all);
const broken = all.filter((row) => !kept(row));
console.log(
  `\n${broken.length === 0 ? "every promise kept" : `${broken.length} promise(s) broken`} (${sunk().toFixed(0)})`,
);
process.exitCode = broken.length === 0 ? 0 : 1;

/** One row a release in results.csv. */
function keep(rows: readonly Row[]): void {
  const file = "bench/results.csv";
  const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
  if (!existsSync(file)) writeFileSync(file, "release,machine,what,value,unit\n");
  const quote = (s: string): string => `"${s.replaceAll('"', '""')}"`;
  for (const r of rows) {
    appendFileSync(file, `${version},${quote(machine())},${quote(r.what)},${r.value.toFixed(3)},${r.unit}\n`);
  }
}
