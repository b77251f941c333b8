import type { CutKind } from "../core/cope/index.ts";
import type { End } from "../core/job/index.ts";
import {
  CHECK_RULE,
  CHECK_SQUARE,
  checkRule,
  checkSquare,
  type Drawing,
  group,
  landscape,
  type Mark,
  type Paper,
  type Point,
  paragraph,
  type Sheet,
  tile,
  tileCount,
} from "../draw/index.ts";
import { cautionOn, TRUE_SIZE } from "../words/index.ts";
import { type Card, titled } from "./flow.ts";
import { leftOut, MOST_SHEETS, type Part } from "./sheet-limit.ts";
import { barLine, type Subject, shortFields } from "./subject.ts";
import { wrapDrawing, wrapSize } from "./wrap.ts";
import { PAPER_THICKNESS, wrapKinds } from "./wrap-curve.ts";

const AIR = 4;

const noteOf = (): string =>
  `${TRUE_SIZE} Cut the paper out, lay line 0° on the zero line, printed face out, close it 360 on 0. ${cautionOn("wrap")}`;

/** A sheet that does not yet know its number. */
type Page = (sheet: number, of: number) => Sheet;

/**
 * The wraps of one end on paper, 1 : 1, each sheet with something to check the printer by both ways. What takes more
 * than `room` sheets (a cut along a host that the bar all but follows) is not printed.
 */
export function wrapPart(
  s: Subject,
  end: End,
  paper: Paper,
  thickness = PAPER_THICKNESS,
  room = MOST_SHEETS,
): Part {
  const card: Card = {
    title: `Wrap — ${s.label}, end ${end}`,
    fields: shortFields(s),
    note: noteOf(),
  };
  const kinds = wrapKinds(s, end);
  if (kinds.length === 0) return { sheets: [] };
  const tiling = (kind: CutKind) => ({
    name: `${card.title}, ${kindName(kind)}`,
    foot: barLine(s, end),
    note: card.note,
  });
  const most = kinds.reduce(
    (sum, kind) => sum + tileCount(wrapSize(s, end, kind, thickness), paper, tiling(kind)),
    0,
  );
  if (most > room) {
    const instead = "print its SVG or DXF file on a roll of paper, or land the bar less shallow";
    return leftOut(s, paper, card, { part: `wrap of end ${end}`, sheets: most, instead });
  }
  const drawings = kinds.map((kind) => ({ kind, drawing: wrapDrawing(s, end, kind, thickness) }));
  const together = withSquare(
    drawings.map((d) => d.drawing),
    paper,
    card,
  );
  const pages = together
    ? [together]
    : drawings.flatMap(({ kind, drawing }): Page[] => {
        const page =
          withSquare([drawing], paper, card) ??
          withRules(drawing, paper, card) ??
          withRules(drawing, landscape(paper), card);
        return page ? [page] : tile(drawing, paper, tiling(kind)).map((sheet) => () => sheet);
      });
  return { sheets: pages.map((page, i) => page(i + 1, pages.length)) };
}

const kindName = (kind: CutKind): string => (kind === "outside" ? "along the host" : "square to the wall");

/** All on one sheet above the check square, if there is room. */
function withSquare(drawings: readonly Drawing[], paper: Paper, card: Card): Page | undefined {
  const { inside } = titled(paper, card, 9, 9);
  const high = drawings.reduce((sum, d) => sum + d.height + AIR, 0);
  if (high + CHECK_SQUARE > inside.height || drawings.some((d) => d.width > inside.width)) return undefined;
  let y = inside.y;
  const placed = drawings.map((d) => {
    const here = group("wrap", d.marks, { at: [inside.x, y] });
    y += d.height + AIR;
    return here;
  });
  return page(paper, card, [...placed, ...checkSquare([inside.x, inside.y + inside.height - CHECK_SQUARE])]);
}

/** One on a sheet with check rules down its left and along its foot. */
function withRules(drawing: Drawing, paper: Paper, card: Card): Page | undefined {
  const { inside } = titled(paper, card, 9, 9);
  const side = CHECK_RULE + 2;
  if (drawing.width > inside.width - side || drawing.height > inside.height - side) return undefined;
  const at = [inside.x + side, inside.y] as const;
  return page(paper, card, [
    group("wrap", drawing.marks, { at }),
    ...checkRule([inside.x, inside.y], "down"),
    ...checkRule([at[0], inside.y + inside.height - CHECK_RULE], "across"),
  ]);
}

const page =
  (paper: Paper, card: Card, marks: readonly Mark[]): Page =>
  (sheet, of) => ({
    name: of === 1 ? card.title : `${card.title}, sheet ${sheet} of ${of}`,
    width: paper.width,
    height: paper.height,
    marks: [...titled(paper, card, sheet, of).marks, ...marks],
  });

/** Room for words beside the check square; with less they go below it (mm). */
const BESIDE = 70;

/**
 * The wrap as a file by itself, for a browser, a plotter or a machine that follows lines: what else a sheet says, and
 * the check square, are below it.
 */
export function wrapFile(s: Subject, end: End, kind: CutKind, thickness = PAPER_THICKNESS): Drawing {
  const wrap = wrapDrawing(s, end, kind, thickness);
  const top = wrap.height + AIR;
  const width = Math.max(wrap.width, CHECK_SQUARE);
  const beside = width - CHECK_SQUARE - AIR;
  const isBeside = beside >= BESIDE;
  const at: Point = isBeside ? [CHECK_SQUARE + AIR, top] : [0, top + CHECK_SQUARE];
  const said = paragraph(at, isBeside ? beside : width, noteOf(), { size: 2.2 });
  return {
    width,
    height: top + (isBeside ? Math.max(CHECK_SQUARE, said.height) : CHECK_SQUARE + said.height),
    marks: [group("wrap", wrap.marks), ...checkSquare([0, top]), group("note", said.marks)],
  };
}
