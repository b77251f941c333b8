import { existsSync } from "node:fs";
import { checkMarks, finishedBar, markedTube, markStrip, wrapDrawn, wrapsOn } from "./drawn/index.ts";
import { printed } from "./figure.ts";
import { LABELS } from "./labels.ts";
import { missing } from "./missing.ts";
import { oracleOf } from "./oracle.ts";
import type { Around } from "./quantities/index.ts";
import type { Word } from "./read-pdf.ts";
import { PAPER, type Report } from "./report.ts";
import { type Place, scan } from "./scan.ts";
import type { End } from "./second/index.ts";
import { number, type Sheet, sheetsOf, take } from "./sheets.ts";

export function readBar(around: Around, path: string, id: string, report: Report): void {
  const file = `bars/${id}.pdf`;
  if (!existsSync(path)) {
    report.faults.push(`${file} is missing`);
    return;
  }
  const sheets = sheetsOf(path);
  const square = squareIn(sheets, file, report);
  const pages = sheets.map((sheet, i) => ({ sheet, page: i + 1 }));
  readBarSheets(around, pages, { square, pages: sheets.length }, id, file, report);
}

/** On which page a print has its check square: on one, if anything of it is used at true size. */
export function squareIn(sheets: readonly Sheet[], file: string, report: Report): number | undefined {
  const found = sheets.flatMap(({ text }, i) =>
    text.includes("Measure from corner 0, both ways") ? [i + 1] : [],
  );
  const framed = sheets.filter((s) => /wrap|strip/.test(s.kind) && !/ join [A-Z]/.test(s.text));
  if (found.length !== (framed.length > 0 ? 1 : 0))
    report.faults.push(`${file}: check squares on pages ${found.join(", ") || "none"}`);
  const at = found[0];
  const on = at === undefined ? undefined : sheets[at - 1];
  if (on) report.faults.push(...checkMarks(on.page).map((f) => `${file}, page ${at}: ${f}`));
  return at;
}

/** One bar's sheets out of a print, each with the number of its page. */
export function readBarSheets(
  around: Around,
  all: readonly { readonly sheet: Sheet; readonly page: number }[],
  print: { readonly square: number | undefined; readonly pages: number },
  id: string,
  file: string,
  report: Report,
): void {
  const facts = around.second.bar(id);
  const sheets = all.map(({ sheet }) => sheet);
  const place: Place = { bar: id, square: print.square, pages: print.pages };
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
    Object.assign(place, number(sheets, i), { page: all[i]!.page });
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
      if (/ join [A-Z]/.test(sheet.text)) complain(checkMarks(sheet.page));
      else if (print.square !== all[i]!.page && !sheet.text.includes(`Check square: page ${print.square}.`))
        complain(["a wrap's page does not say where the check square is"]);
      place.end = /end ([AB])/.exec(sheet.text)?.[1] as End;
      // the words on each wrap follow its own base line
      const girth = Math.PI * (facts.laid.tube.od + PAPER);
      for (const { drawn, base } of wrapsOn(sheet.page, girth)) {
        const text = drawn.texts.map((t) => t.text).join(" ");
        const square = /CUT SQUARE TO THE WALL/.test(text);
        const end = (/· end ([AB]) ·/.exec(text)?.[1] ?? place.end) as End;
        if (base === undefined) complain(["a wrap without its base line"]);
        else
          complain(
            wrapDrawn(drawn, printed(base, around.second.job.fraction).value, facts, end, square, PAPER).map(
              (f) => `wrap ${end}${square ? " square" : ""}: ${f}`,
            ),
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
