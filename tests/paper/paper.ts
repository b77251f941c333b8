import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import {
  checkMarks,
  finishedBar,
  markedTube,
  markStrip,
  overviewDrawn,
  wrapDrawn,
  wrapsOn,
} from "./drawn.ts";
import { agrees, printed, type Reading, sayWanted, type Wanted } from "./figure.ts";
import { COLUMNS, LABELS, TITLES } from "./labels.ts";
import { type Around, wanted } from "./quantities.ts";
import { readCsv } from "./read-csv.ts";
import { readDxf } from "./read-dxf.ts";
import { type Page, readPdf, type Word } from "./read-pdf.ts";
import { readSvg } from "./read-svg.ts";
import { type Oracle, type Place, scan } from "./scan.ts";
import type { End, Second } from "./second/index.ts";

export interface Report {
  readings: Reading[];
  /** Digits that nobody reads, with what is round them. */
  unread: string[];
  /** What is drawn elsewhere than it should be, and what is missing. */
  faults: string[];
  /** Runs of digits printed on all files. */
  printed: number;
}

/** Paper that the wraps are made for, mm, where the call says nothing. */
const PAPER = 0.1;
const ENDS = ["A", "B"] as const;

/** Reads every file that a person gets back and compares it with the second computation. */
export function readBack(second: Second, out: string): Report {
  const around: Around = { second, seen: new Map(), paper: PAPER };
  const report: Report = { readings: [], unread: [], faults: [], printed: 0 };
  readTable(around, out, "copes.csv", report, true);
  for (const name of ["bars.csv", "bends.csv", "copes.csv"]) readTable(around, out, name, report, false);
  const files = readdirSync(out, { recursive: true, encoding: "utf8" }).map((f) => f.replaceAll("\\", "/"));
  for (const id of second.ids) {
    readBar(around, join(out, "bars", `${id}.pdf`), id, report);
    readWraps(around, out, id, files, report);
  }
  readOverview(around, join(out, "overview.pdf"), report);
  return report;
}

function oracleOf(around: Around): Oracle {
  const { second } = around;
  const ask = (quantity: string, place: Place) => {
    if (quantity.startsWith("scale."))
      return { value: place[quantity] as number, slack: 0.004 * ((place[quantity] as number) || 0) };
    if (quantity === "die" && place.overview) return { accepts: () => true };
    if (quantity === "step") {
      const order = second.bar(place.bar!).order;
      const step = (place.step as number | undefined) ?? 0;
      place.step = step + 1;
      return { words: order[step] === place.bend ? "true" : "false" };
    }
    return wanted(around, quantity, place);
  };
  return {
    fraction: second.job.fraction,
    wanted: ask,
    choices: (quantity, place) => choices(around, quantity, place),
    pass: (name, words, place) => {
      if (name === "bend") place.bend = Number(words);
      if (name === "base") place.base = printed(words, second.job.fraction).value;
      if (name === "row") place.bar = second.ids[Number(words) - 1] ?? "";
      if (name === "findingBar") {
        place.bar = words;
        delete place.bend;
      }
    },
  };
}

/** All words that a quantity may be on a sheet: of one bar, or of all where a sheet is about all. */
function choices(around: Around, quantity: string, place: Place): string[] {
  const { second } = around;
  if (quantity === "findingBar") return second.ids;
  if (quantity === "die" && place.overview) return Object.keys(second.job.dies);
  if (quantity === "step.open") return ["heel", "toe", "flank"];
  const bars = place.overview ? second.ids : place.bar === undefined ? [] : [place.bar];
  const found = new Set<string>();
  const add = (at: Place): void => {
    const w = wanted(around, quantity, at) as Wanted | undefined;
    if (w?.words) found.add(w.words);
  };
  if (bars.length === 0) add(place);
  for (const bar of bars) {
    const { laid } = second.bar(bar);
    const path = second.job.bars[laid.own.mirrorOf ?? bar]!.path.length;
    if (quantity.startsWith("node."))
      for (let i = 0; i < path; i++) add({ bar, node: i === 0 ? "A" : i === path - 1 ? "B" : `corner ${i}` });
    else if (/^(turn|round)\./.test(quantity)) for (const b of laid.line.bends) add({ bar, bend: b.n });
    else if (quantity.startsWith("step."))
      for (const end of ENDS) for (const cut of ["1", "2", "3"]) add({ bar, end, cut });
    else if (quantity.startsWith("crowd."))
      for (const end of ENDS)
        for (const host of second.bar(bar).cope[end].joint.onto) add({ bar, end, host });
    else for (const end of ENDS) add({ bar, end });
  }
  return [...found];
}

function readTable(around: Around, out: string, name: string, report: Report, chooseOnly: boolean): void {
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
    if (name === "bars.csv" && /^[0-9a-f]{4}$/.test(text)) around.seen.set(`rev ${place.bar}`, text);
    return say("four hexadecimal figures", around.seen.get(`rev ${place.bar}`) === text);
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

const kindOf = (text: string): string | undefined => TITLES.find(([pattern]) => pattern.test(text))?.[1];

interface Sheet {
  page: Page;
  text: string;
  kind: string;
  spans: Map<Word, [number, number]>;
}

function sheetsOf(path: string): Sheet[] {
  return readPdf(path).map((page) => {
    const spans = new Map<Word, [number, number]>();
    let text = "";
    for (const w of page.words) {
      spans.set(w, [text.length, text.length + w.text.length]);
      text += `${w.text.replaceAll("\u00a0", " ")} `;
    }
    return { page, text, kind: kindOf(text) ?? "wrap", spans };
  });
}

function take(
  around: Around,
  report: Report,
  sheet: Sheet,
  place: Place,
  file: string,
  held: Iterable<Word> = [],
): Set<string> {
  const labels = LABELS.filter((l) => !l.on || l.on.includes(sheet.kind));
  const spans = [...held].map((w) => sheet.spans.get(w)!);
  const read = scan(sheet.text, labels, oracleOf(around), place, file, spans);
  report.readings.push(...read.readings);
  report.unread.push(...read.unread.map((u) => `${file}: ${u}`));
  report.printed += read.runs;
  return read.labels;
}

/** Sheets are numbered by title, from 1. */
function number(sheets: Sheet[], i: number): { sheet: number; sheets: number } {
  const title = (s: Sheet): string => s.text.slice(0, s.text.indexOf(" Sheet "));
  const same = sheets.filter((s) => title(s) === title(sheets[i]!));
  return { sheet: same.indexOf(sheets[i]!) + 1, sheets: same.length };
}

function readBar(around: Around, path: string, id: string, report: Report): void {
  const file = `bars/${id}.pdf`;
  if (!existsSync(path)) {
    report.faults.push(`${file} is missing`);
    return;
  }
  const facts = around.second.bar(id);
  const sheets = sheetsOf(path);
  const place: Place = { bar: id };
  const before = report.readings.length;
  const complain = (faults: string[]): void => void report.faults.push(...faults.map((f) => `${file}: ${f}`));
  const strips = sheets.filter((s) => s.kind === "strip");
  const strip =
    strips.length > 0
      ? markStrip(
          strips.map((s) => s.page),
          facts,
        )
      : undefined;
  if (strip) complain(strip.faults);
  let piece = 0;
  let tube = false;
  let kind = "";
  sheets.forEach((sheet, i) => {
    if (sheet.kind !== kind) {
      kind = sheet.kind;
      delete place.bend;
      delete place.node;
      place.step = 0;
    }
    Object.assign(place, number(sheets, i));
    const held = new Set<Word>(strip ? [...strip.held].filter((w) => sheet.spans.has(w)) : []);
    if (sheet.kind === "bender") {
      const drawn = markedTube(sheet.page, facts);
      if (drawn.scale !== undefined && !tube) {
        tube = true;
        place["scale.tube"] = drawn.scale;
        complain(drawn.faults);
      }
      place["scale.finished"] = facts.order.length > 0 ? finishedBar(sheet.page, facts) : undefined;
    }
    if (sheet.kind === "wrap") {
      complain(checkMarks(sheet.page));
      place.end = /end ([AB])/.exec(sheet.text)?.[1] as End;
      // the words on each wrap follow its own base line
      const girth = Math.PI * (facts.laid.tube.od + PAPER);
      for (const { drawn, base } of wrapsOn(sheet.page, girth)) {
        const text = drawn.texts.map((t) => t.text).join(" ");
        const square = /CUT SQUARE TO THE WALL/.test(text);
        if (base === undefined) complain(["a wrap without its base line"]);
        else
          complain(
            wrapDrawn(
              drawn,
              printed(base, around.second.job.fraction).value,
              facts,
              place.end!,
              square,
              PAPER,
            ).map((f) => `wrap ${place.end}${square ? " square" : ""}: ${f}`),
          );
      }
    }
    if (sheet.kind === "strip") {
      // pieces are counted as they come
      const first = piece;
      const count = (sheet.text.match(/strip, piece/g) ?? []).length;
      piece += count;
      place.pieces = strip!.pieces;
      place.pieceFrom = first;
    }
    takePieces(around, report, sheet, place, file, held);
  });
  complain(missing(around, id, report.readings.slice(before), sheets));
}

/** A strip's sheet is read piece by piece, so that each knows its number. */
function takePieces(
  around: Around,
  report: Report,
  sheet: Sheet,
  place: Place,
  file: string,
  held: Set<Word>,
): void {
  if (sheet.kind !== "strip") {
    take(around, report, sheet, place, file, held);
    return;
  }
  const oracle = oracleOf(around);
  let n = place.pieceFrom as number;
  const labels = LABELS.filter((l) => !l.on || l.on.includes(sheet.kind));
  const spans = [...held].map((w) => sheet.spans.get(w)!);
  const read = scan(
    sheet.text,
    labels,
    { ...oracle, wanted: (q, p) => (q === "piece" ? { value: ++n } : oracle.wanted(q, p)) },
    place,
    file,
    spans,
  );
  report.readings.push(...read.readings);
  report.unread.push(...read.unread.map((u) => `${file}: ${u}`));
  report.printed += read.runs;
}

/** What a bar's papers must carry: a figure left out is as bad as a wrong one. */
function missing(around: Around, id: string, readings: Reading[], sheets: Sheet[]): string[] {
  const f = around.second.bar(id);
  const got = new Set(readings.map((r) => r.quantity));
  const counted = new Map<string, number>();
  for (const r of readings) counted.set(r.quantity, (counted.get(r.quantity) ?? 0) + 1);
  const faults: string[] = [];
  const some = (quantity: string): boolean =>
    [...got].some((g) => g === quantity || g.startsWith(`${quantity} `));
  const need = (quantity: string): void => {
    if (!some(quantity)) faults.push(`${quantity} is not printed`);
  };
  for (const q of ["sawn", "net", "trim.A", "trim.B", "od", "wall", "scale.tube"]) need(q);
  for (const n of f.order) {
    for (const q of ["mark", "angle"])
      if (![...got].some((g) => g.startsWith(`${q} ${id}`) && g.endsWith(` ${n}`)))
        faults.push(`${q} of bend ${n} is not printed`);
    const checks = f.checks.get(n)!;
    for (const { kind } of checks) {
      const q = kind.startsWith("parallel") ? "check." : `check.${kind}`;
      if (![...got].some((g) => g.startsWith(q) && g.endsWith(` ${n}`)))
        faults.push(`check "${kind}" after bend ${n} is not printed`);
    }
  }
  for (const end of ENDS) {
    const ofEnd = (q: string): boolean => [...got].some((g) => g.startsWith(`${q} ${id} ${end}`));
    const notch = f.notch(end);
    if (notch?.cut)
      for (const q of [
        "cut.saw",
        "cut.notch",
        "cut.clockAbs",
        "hole.beyondAbs",
        "hole.sawnAbs",
        ...(notch.hole?.fromBend === undefined ? [] : ["hole.bend"]),
      ])
        if (!ofEnd(q)) faults.push(`${q} of end ${end} is not printed`);
    if (f.cope[end].joint.kind === "plate" && f.cope[end].joint.tilt >= 0.01)
      for (const q of ["tilt", "long.abs"]) if (!ofEnd(q)) faults.push(`${q} of end ${end} is not printed`);
  }
  if (f.order.length > 0 && f.sawn > 300 && !sheets.some((s) => s.kind === "strip"))
    faults.push("no mark strip");
  return faults;
}

function readWraps(around: Around, out: string, id: string, files: string[], report: Report): void {
  const facts = around.second.bar(id);
  const fraction = around.second.job.fraction;
  for (const end of ENDS) {
    const { joint } = facts.cope[end];
    const flat = joint.kind === "square" || (joint.kind === "plate" && joint.tilt < 0.01);
    for (const square of [false, true]) {
      const name = `wraps/${id}-${end}${square ? "-square" : ""}`;
      const has = files.includes(`${name}.svg`);
      if (!square && has === flat) report.faults.push(`${name}.svg ${has ? "is not wanted" : "is missing"}`);
      if (!has) continue;
      for (const type of ["svg", "dxf"] as const) {
        const file = `${name}.${type}`;
        if (!files.includes(file)) {
          report.faults.push(`${file} is missing`);
          continue;
        }
        const raw = readFileSync(join(out, file), "utf8");
        const drawn = type === "svg" ? readSvg(raw) : readDxf(raw);
        const text = `${[drawn.title, ...drawn.texts.map((t) => t.text)].join(" ")} `;
        const place: Place = { bar: id, end };
        const sheet = {
          page: { width: 0, height: 0, words: [], strokes: [] },
          text,
          kind: "wrap",
          spans: new Map(),
        };
        take(around, report, sheet, place, file);
        const base = /Base line (.*?) in from/.exec(text)?.[1];
        if (base === undefined) report.faults.push(`${file}: no base line`);
        else
          report.faults.push(
            ...wrapDrawn(drawn, printed(base, fraction).value, facts, end, square, PAPER).map(
              (f) => `${file}: ${f}`,
            ),
          );
      }
    }
  }
}

function readOverview(around: Around, path: string, report: Report): void {
  if (!existsSync(path)) {
    report.faults.push("overview.pdf is missing");
    return;
  }
  const sheets = sheetsOf(path);
  const place: Place = { overview: true };
  const rows = new Set<string>();
  sheets.forEach((sheet, i) => {
    Object.assign(place, number(sheets, i));
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
