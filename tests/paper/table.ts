import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { agrees, type Reading, sayWanted, type Wanted } from "./figure.ts";
import { COLUMNS } from "./labels.ts";
import { type Around, wanted } from "./quantities/index.ts";
import { readCsv } from "./read-csv.ts";
import type { Report } from "./report.ts";
import type { Place } from "./scan.ts";
import type { End, Second } from "./second/index.ts";
import { tableMade } from "./table-made.ts";

export function readTable(
  around: Around,
  out: string,
  name: string,
  report: Report,
  chooseOnly: boolean,
): void {
  const { second } = around;
  const unit = second.job.inch ? "in" : "mm";
  const path = join(out, name);
  if (!existsSync(path)) {
    report.faults.push(`${name} is missing`);
    return;
  }
  const [head, ...rows] = readCsv(readFileSync(path, "utf8"));
  const columns = new Map(Object.entries(COLUMNS[name]!).map(([h, q]) => [h.replace("{u}", unit), q]));
  const known = head!.map((h) => columns.get(h));
  if (!chooseOnly) {
    head!.forEach((h, i) => {
      if (known[i] === undefined) report.unread.push(`${name}: column »${h}«`);
    });
    for (const [h, q] of columns)
      if (!head!.includes(h) && !q.endsWith("?")) report.faults.push(`${name}: no column "${h}"`);
    const due =
      name === "bars.csv"
        ? second.ids.length
        : name === "copes.csv"
          ? 2 * second.ids.length
          : bendCount(second);
    if (rows.length !== due) report.faults.push(`${name} has ${rows.length} rows, should have ${due}`);
  }
  for (const row of rows) {
    const place: Place = {};
    known.forEach((q, i) => {
      if (q === "=bar") place.bar = row[i]!;
      if (q === "=end") place.end = row[i] as End;
      if (q === "=bend") place.bend = Number(row[i]);
    });
    if (place.bar === undefined || !second.laid.has(place.bar)) {
      report.faults.push(`${name}: no bar is called ${place.bar}`);
      continue;
    }
    const cell = (quantity: string): number | undefined => {
      const text = row[known.findIndex((q) => q?.endsWith(` ${quantity}`))];
      return text === undefined || text === ""
        ? undefined
        : Number(text) * (quantity.startsWith("cut.") && unit === "in" ? 25.4 : 1);
    };
    if (chooseOnly) {
      const saw = cell("cut.saw");
      const facts = second.bar(place.bar);
      facts.choose(
        place.end!,
        saw === undefined
          ? undefined
          : {
              radius: sawOf(second, saw) / 2,
              notch: cell("offSquare")!,
              clock: cell("side")!,
              offset: cell("cut.offset")!,
            },
      );
      continue;
    }
    const code = row[known.indexOf("rev rev")];
    if (name === "bars.csv" && code !== undefined && /^[0-9a-f]{4}$/.test(code))
      around.seen.set(`rev ${place.bar}`, code);
    known.forEach((q, i) => {
      if (q === undefined || q.startsWith("=")) return;
      const [kind, ...rest] = q.split(" ");
      report.readings.push(readCell(around, kind!, rest.join(" "), row[i]!, place, name, unit));
      report.printed += (row[i]!.match(/\d+/g) ?? []).length;
    });
  }
}

/** A saw told in ten-thousandths of an inch is the one of the shop's nearest to it. */
const sawOf = (second: Second, d: number): number =>
  [...second.job.saws, ...[...second.laid.values()].map((l) => l.tube.od)].find(
    (s) => Math.abs(s - d) < 0.003,
  ) ?? d;

const bendCount = (second: Second): number =>
  [...second.laid.values()].reduce((sum, l) => sum + l.line.bends.length, 0);

function readCell(
  around: Around,
  kind: string,
  quantity: string,
  text: string,
  place: Place,
  name: string,
  unit: string,
): Reading {
  const { second } = around;
  const where = `${place.bar} ${place.end ?? place.bend ?? ""}`;
  const say = (want: string, ok: boolean): Reading => ({
    file: name,
    where,
    quantity,
    text,
    wanted: want,
    ok,
  });
  if (kind === "rev") {
    return say("four hexadecimal figures", around.seen.get(`rev ${place.bar}`) === text);
  }
  if (kind === "card") {
    const last = second.job.cards[place.bar ?? ""];
    const isIssued = last !== undefined && last.code === around.seen.get(`rev ${place.bar}`);
    const want = isIssued ? `${last.n}` : `${(last?.n ?? 0) + 1}, not issued`;
    return say(want, text === want);
  }
  if (quantity.startsWith("made.") && quantity !== "made.sawn" && quantity !== "made.card") {
    const made = tableMade(second, second.bar(place.bar!), quantity, place);
    if (typeof made !== "number") return say(made ?? "nothing", text === (made ?? ""));
    const scale = kind === "length" && unit === "in" ? 25.4 : 1;
    return say(`${made}`, text !== "" && Math.abs(Number(text) * scale - made) < 2e-3);
  }
  if (kind === "arcs") {
    const list = (wanted(around, quantity.replace("?", ""), place) as Wanted[] | undefined) ?? [];
    const read = text.match(/\d+\.\d+°/g) ?? [];
    const right =
      read.length === list.length && read.every((t, i) => agrees(t, list[i]!, second.job.fraction));
    return say(list.map(sayWanted).join(" "), right && /^[\d.° toand]*$/.test(text));
  }
  let want = wanted(around, quantity.replace(".ids", ""), place) as Wanted | undefined;
  if (quantity.endsWith(".ids"))
    want = { words: second.bar(place.bar!).cope[quantity.includes(".A") ? "A" : "B"].joint.onto.join(" + ") };
  if (kind === "words") return say(want?.words ?? "", text === (want?.words ?? ""));
  if (want === undefined || (want.value === undefined && !want.accepts && want.words === undefined))
    return say("nothing", text === "");
  if (text === "") return say(sayWanted(want), false);
  if (want.words !== undefined) return say(want.words, false);
  const mark = kind === "length" ? ` ${unit}` : kind === "angle" ? "°" : "";
  // a table's figures end where their zeros begin: thousandths of a millimetre or degree, ten-thousandths of an inch
  const digits = kind === "count" ? 0 : kind === "length" && unit === "in" ? 4 : 3;
  return say(
    sayWanted(want),
    /^-?\d+(\.\d+)?$/.test(text) && agrees(Number(text).toFixed(digits) + mark, want, second.job.fraction),
  );
}
