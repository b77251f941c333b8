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
import { cautionOn, TOO_MANY_SHEETS, TRUE_SIZE, WRAP } from "../words/index.ts";
import { type Card, titled } from "./flow.ts";
import { leftOut, MOST_SHEETS, type Part } from "./sheet-limit.ts";
import { barLine, type Subject, shortFields } from "./subject.ts";
import { wrapDrawing, wrapSize } from "./wrap.ts";
import { PAPER_THICKNESS, wrapFor, wrapKinds } from "./wrap-curve.ts";

const AIR = 4;

const noteOf = (): string => `${TRUE_SIZE} ${WRAP.use} ${cautionOn("wrap")}`;

/**
 * The wraps of one end on paper, 1 : 1, each with a title and a count of sheets of its own, each sheet with something
 * to check the printer by both ways. What takes more than `room` sheets (a cut along a host that the bar all but
 * follows) is not printed.
 */
export function wrapPart(
  s: Subject,
  end: End,
  paper: Paper,
  thickness = PAPER_THICKNESS,
  room = MOST_SHEETS,
): Part {
  const wraps = wrapKinds(s, end).map((kind) => {
    const title = WRAP.title(wrapFor(s, end, kind), s.label, end);
    const card: Card = { title, fields: shortFields(s), note: noteOf() };
    return { kind, card, tiling: { name: title, foot: barLine(s, end), note: card.note } };
  });
  const [first] = wraps;
  if (!first) return { sheets: [] };
  const most = wraps.reduce(
    (sum, { kind, tiling }) => sum + tileCount(wrapSize(s, end, kind, thickness), paper, tiling),
    0,
  );
  if (most > room) return leftOut(s, paper, first.card, { ...TOO_MANY_SHEETS.wrap(end), sheets: most });
  const sheets = wraps.flatMap(({ kind, card, tiling }) => {
    const drawing = wrapDrawing(s, end, kind, thickness);
    const one =
      withSquare(drawing, paper, card) ??
      withRules(drawing, paper, card) ??
      withRules(drawing, landscape(paper), card);
    return one ? [one] : tile(drawing, paper, tiling);
  });
  return { sheets };
}

/** On one sheet above the check square, if there is room. */
function withSquare(drawing: Drawing, paper: Paper, card: Card): Sheet | undefined {
  const { inside } = titled(paper, card, 1, 1);
  if (drawing.height + AIR + CHECK_SQUARE > inside.height || drawing.width > inside.width) return undefined;
  const wrap = group("wrap", drawing.marks, { at: [inside.x, inside.y] });
  return page(paper, card, [wrap, ...checkSquare([inside.x, inside.y + inside.height - CHECK_SQUARE])]);
}

/** One on a sheet with check rules down its left and along its foot. */
function withRules(drawing: Drawing, paper: Paper, card: Card): Sheet | undefined {
  const { inside } = titled(paper, card, 1, 1);
  const side = CHECK_RULE + 2;
  if (drawing.width > inside.width - side || drawing.height > inside.height - side) return undefined;
  const at = [inside.x + side, inside.y] as const;
  return page(paper, card, [
    group("wrap", drawing.marks, { at }),
    ...checkRule([inside.x, inside.y], "down"),
    ...checkRule([at[0], inside.y + inside.height - CHECK_RULE], "across"),
  ]);
}

const page = (paper: Paper, card: Card, marks: readonly Mark[]): Sheet => ({
  name: card.title,
  width: paper.width,
  height: paper.height,
  marks: [...titled(paper, card, 1, 1).marks, ...marks],
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
