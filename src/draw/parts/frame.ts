import { line, rectangle, text } from "../build.ts";
import { textWidth } from "../lettering.ts";
import { type Paper, printable } from "../paper.ts";
import type { Mark, Rect } from "../types.ts";
import { paragraph, wrap } from "./paragraph.ts";

export interface TitleBlock {
  readonly title: string;
  /** Label and value, in the order in which they are read: ["Bar", "Harness"], ["Hand", "left"], ["Revision", "3"]… */
  readonly fields: readonly (readonly [label: string, value: string])[];
  /** Cautions or other small print, wrapped under the fields. */
  readonly note?: string;
  /** Which page of a print it is, at the right end of the title's last line; its room is kept free without it. */
  readonly page?: string;
}

const PAD = 1.5;
const TITLE = 5;
const LABEL = 2;
const VALUE = 3.5;
const NOTE = 2;
const PAGE = 2.2;
/** Room for "page 888 of 888", mm. */
const PAGE_ROOM = 30;
/** From one line of a value to the next, mm. */
const VALUE_PITCH = 1.7 * VALUE;
/** Between the frame and the drawing, mm. */
const MARGIN = 3;

interface Cell {
  readonly label: string;
  readonly lines: readonly string[];
  readonly width: number;
}

/** Frame at the edge of what printers reach and a title block along its foot; `inside`: the room left for drawing. */
export function sheetFrame(
  paper: Paper,
  block: TitleBlock,
): { readonly marks: readonly Mark[]; readonly inside: Rect } {
  const edge = printable(paper);
  const left = edge.x;
  const right = edge.x + edge.width;
  const title = paragraph([left + PAD, 0], titleRoom(block.title, edge.width - 2 * PAD), block.title, TITLED);
  const rows = pack(block.fields, edge.width);
  const note = block.note
    ? paragraph([left + PAD, 0], edge.width - 2 * PAD, block.note, { size: NOTE })
    : undefined;
  const height =
    title.height + rows.reduce((sum, row) => sum + rowHeight(row), 0) + (note ? note.height + PAD : 0);

  const marks: Mark[] = [rectangle(edge, "frame")];
  const top = edge.y + edge.height - height;
  const rule = (y: number, heavy = false): void => {
    marks.push(line([left, y], [right, y], heavy ? "visible" : "narrow"));
  };
  rule(top, true);
  marks.push({ kind: "group", name: "title", at: [0, top], marks: title.marks });
  let y = top + title.height;
  for (const row of rows) {
    rule(y);
    marks.push(...cells(row, left, y));
    y += rowHeight(row);
  }
  if (note) {
    rule(y);
    marks.push({ kind: "group", name: "note", at: [0, y + PAD / 2], marks: note.marks });
  }
  if (block.page)
    marks.push(text([right - PAD, top + title.height - 2.4], block.page, PAGE, { anchor: "end" }));
  const inside: Rect = {
    x: left + MARGIN,
    y: edge.y + MARGIN,
    width: edge.width - 2 * MARGIN,
    height: top - edge.y - 2 * MARGIN,
  };
  return { marks, inside };
}

const TITLED = { size: TITLE, bold: true } as const;

/** How wide the title may run, its last line no farther than the page's number. */
function titleRoom(title: string, width: number): number {
  const last = wrap(title, width, TITLED).at(-1) ?? "";
  return textWidth(last, TITLE, true) > width - PAGE_ROOM ? width - PAGE_ROOM : width;
}

/** Fields set side by side on as few rows as they need, and each row then stretched to the full width. */
function pack(fields: TitleBlock["fields"], width: number): Cell[][] {
  const all = fields.map(([label, value]): Cell => {
    const lines = wrap(value, width - 2 * PAD, { size: VALUE });
    const words = Math.max(textWidth(label, LABEL), ...lines.map((run) => textWidth(run, VALUE)));
    return { label, lines, width: Math.min(width, words + 4 * PAD) };
  });
  const widest = [...all].sort((a, b) => b.width - a.width);
  const [asRead, tight] = [filled(all, width), filled(widest, width)];
  // as they are read, unless another order saves a row; within a row, and by its first field, it stays as it is
  const place = (cell: Cell): number => all.indexOf(cell);
  const rows = (tight.length < asRead.length ? tight : asRead)
    .map((row) => [...row].sort((a, b) => place(a) - place(b)))
    .sort(([a], [b]) => (a && b ? place(a) - place(b) : 0));
  return rows.map((row) => {
    const spare = (width - row.reduce((sum, cell) => sum + cell.width, 0)) / row.length;
    return row.map((cell) => ({ ...cell, width: cell.width + spare }));
  });
}

/** Each cell in the first row that has room for it. */
function filled(cells: readonly Cell[], width: number): Cell[][] {
  const rows: Cell[][] = [];
  for (const cell of cells) {
    const fits = rows.find((row) => row.reduce((sum, c) => sum + c.width, cell.width) <= width);
    if (fits) fits.push(cell);
    else rows.push([cell]);
  }
  return rows;
}

const rowHeight = (row: readonly Cell[]): number =>
  2 * PAD + LABEL + VALUE_PITCH * Math.max(...row.map((cell) => cell.lines.length));

function cells(row: readonly Cell[], left: number, y: number): Mark[] {
  const marks: Mark[] = [];
  let x = left;
  row.forEach((cell, i) => {
    if (i > 0) marks.push(line([x, y], [x, y + rowHeight(row)], "narrow"));
    marks.push(text([x + PAD, y + PAD + LABEL], cell.label, LABEL));
    cell.lines.forEach((run, n) => {
      marks.push(text([x + PAD, y + PAD + LABEL + VALUE_PITCH * (n + 1) - 0.4], run, VALUE));
    });
    x += cell.width;
  });
  return marks;
}
