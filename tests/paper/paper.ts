import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { readBar } from "./bar.ts";
import { overviewDrawn } from "./drawn/index.ts";
import type { Around } from "./quantities/index.ts";
import type { Word } from "./read-pdf.ts";
import { PAPER, type Report } from "./report.ts";
import type { Place } from "./scan.ts";
import type { Second } from "./second/index.ts";
import { number, sheetsOf, take } from "./sheets.ts";
import { readTable } from "./table.ts";
import { readWraps } from "./wraps.ts";

const TABLES = ["bars.csv", "bends.csv", "copes.csv"];
/** Read back by tests/cli/readings.test.ts; and the list of the set's own files. */
const ELSEWHERE = ["readings.pdf", "measuring-plan.pdf", "files-made.list"];

/** Reads every file that a person gets back and compares it with the second computation. */
export function readBack(second: Second, out: string): Report {
  const around: Around = { second, seen: new Map(), paper: PAPER };
  const report: Report = { readings: [], unread: [], faults: [], printed: 0 };
  readTable(around, out, "copes.csv", report, true);
  for (const name of TABLES) readTable(around, out, name, report, false);
  const files = readdirSync(out, { recursive: true, encoding: "utf8" }).map((f) => f.replaceAll("\\", "/"));
  for (const id of second.ids) {
    readBar(around, join(out, "bars", `${id}.pdf`), id, report);
    readWraps(around, out, id, files, report);
  }
  readOverview(around, join(out, "overview.pdf"), report);
  const read = new RegExp(
    `^(${[...TABLES, ...ELSEWHERE, "bars/.*\\.pdf", "wraps/.*", "overview.pdf"].join("|")})$`,
  );
  for (const file of files)
    if (/\.\w+$/.test(file) && !read.test(file)) report.faults.push(`${file}: nobody reads it back`);
  return report;
}

function readOverview(around: Around, path: string, report: Report): void {
  if (!existsSync(path)) {
    report.faults.push("overview.pdf is missing");
    return;
  }
  const sheets = sheetsOf(path);
  const place: Place = { overview: true, pages: sheets.length };
  const rows = new Set<string>();
  sheets.forEach((sheet, i) => {
    Object.assign(place, number(sheets, i), { page: i + 1 });
    const held = new Set<Word>();
    if (sheet.text.startsWith("Overview")) {
      const drawn = overviewDrawn(sheet.page, around.second);
      report.faults.push(...drawn.faults);
      place["scale.overview"] = drawn.scale;
      for (const w of drawn.held) held.add(w);
    }
    const before = report.readings.length;
    take(around, report, sheet, place, "overview.pdf", held);
    for (const r of report.readings.slice(before))
      if (r.quantity.startsWith("sawn ")) rows.add(r.quantity.slice(5));
  });
  for (const id of around.second.ids)
    if (![...rows].some((r) => r.startsWith(id))) report.faults.push(`overview.pdf: no row for ${id}`);
}
