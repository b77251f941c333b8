import { LABELS, TITLES } from "./labels.ts";
import { oracleOf } from "./oracle.ts";
import type { Around } from "./quantities/index.ts";
import { type Page, readPdf, type Word } from "./read-pdf.ts";
import type { Report } from "./report.ts";
import { type Place, scan } from "./scan.ts";

const kindOf = (text: string): string | undefined => TITLES.find(([pattern]) => pattern.test(text))?.[1];

export interface Sheet {
  page: Page;
  text: string;
  kind: string;
  spans: Map<Word, [number, number]>;
}

export function sheetsOf(path: string): Sheet[] {
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

export function take(
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
export function number(sheets: Sheet[], i: number): { sheet: number; sheets: number } {
  const title = (s: Sheet): string => s.text.slice(0, s.text.indexOf(" Sheet "));
  const same = sheets.filter((s) => title(s) === title(sheets[i]!));
  return { sheet: same.indexOf(sheets[i]!) + 1, sheets: same.length };
}
