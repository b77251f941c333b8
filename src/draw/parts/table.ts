import { line, rectangle, text } from "../build.ts";
import type { Anchor, Mark, Placed, Point } from "../types.ts";
import { FIRST, PITCH, wrap } from "./paragraph.ts";

export interface Column {
  readonly title: string;
  /** mm */
  readonly width: number;
  /** start for words, end for figures (start). */
  readonly anchor?: Anchor;
}

/** Between a rule and the words, mm. */
const PAD = 1.5;

/** A ruled table, cells wrapped to their columns; `at` its top left corner; size: height of the capitals, mm. */
export function table(
  at: Point,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  size = 2.5,
): Placed {
  const marks: Mark[] = [];
  const width = columns.reduce((sum, column) => sum + column.width, 0);
  let y = at[1];
  const all = [columns.map((column) => column.title), ...rows];
  all.forEach((cells, i) => {
    const bold = i === 0;
    const wrapped = columns.map((column, k) => ({
      column,
      lines: wrap(cells[k] ?? "", column.width - 2 * PAD, { size, bold }),
    }));
    let x = at[0];
    for (const { column, lines } of wrapped) {
      const anchor = column.anchor ?? "start";
      const place = anchor === "start" ? PAD : anchor === "end" ? column.width - PAD : column.width / 2;
      lines.forEach((run, n) => {
        marks.push(text([x + place, y + PAD / 2 + (FIRST + n * PITCH) * size], run, size, { anchor, bold }));
      });
      x += column.width;
    }
    y += PAD + PITCH * size * Math.max(1, ...wrapped.map(({ lines }) => lines.length));
    if (i < all.length - 1) marks.push(line([at[0], y], [at[0] + width, y], i === 0 ? "visible" : "narrow"));
  });
  let x = at[0];
  for (const column of columns.slice(0, -1)) {
    x += column.width;
    marks.push(line([x, at[1]], [x, y], "narrow"));
  }
  const height = y - at[1];
  marks.push(rectangle({ x: at[0], y: at[1], width, height }, "visible"));
  return { marks, height };
}
