import { PRINTED } from "../words/index.ts";
import { circle, group, line, text } from "./build.ts";
import { contains, corners, type Leaf, middle } from "./clip.ts";
import { landscape, type Paper, printable } from "./paper.ts";
import { CHECK_RULE, checkRule } from "./parts/check.ts";
import { paragraph } from "./parts/paragraph.ts";
import { record } from "./sinks/record.ts";
import type { Drawing, Mark, Placed, Point, Rect, Sheet } from "./types.ts";

export interface TileOptions {
  readonly name: string;
  /** One line that every sheet carries: bar, hand, revision. */
  readonly foot?: string;
  /** Below the drawing on every sheet: how to print it, and cautions. */
  readonly note?: string;
  /** mm that two neighbours share (15). */
  readonly overlap?: number;
  /** Left out: whichever way takes fewer sheets. */
  readonly lie?: "portrait" | "landscape";
}

/** Length of a check rule with a little air, mm. */
const RULE = 104;
/** Room for "page 888 of 888" at the right end of the caption, mm. */
const PAGE_ROOM = 30;
/** Sizes that differ by less are one: a drawing as wide as its window needs no second sheet. */
const SAME = 1e-6;

export interface Tile extends Sheet {
  readonly isTrueSize: true;
  /** Where the sheet's number in a print ends, in lettering of 2.2. */
  readonly pageAt: Point;
}

interface Plan {
  readonly paper: Paper;
  /** The part of the paper that carries the drawing. */
  readonly window: Rect;
  readonly columns: number;
  readonly rows: number;
  /** From one sheet's window to the next, mm of the drawing. */
  readonly stepX: number;
  readonly stepY: number;
  readonly overlap: number;
}

/**
 * The drawing at true size over as many sheets as it needs, row by row. Neighbours share a strip of `overlap` mm;
 * in its middle runs a join line with a letter at its marks: cut one sheet on its line, lay it on the other's line,
 * marks on marks. Every sheet carries a check rule both ways and says which sheet it is and what joins where.
 */
export function tile(drawing: Drawing, paper: Paper, options: TileOptions): Tile[] {
  const chosen = planned(drawing, paper, options);
  return Array.from({ length: count(chosen) }, (_, i) => sheet(drawing, chosen, options, i));
}

/** How many sheets `tile` would make of a drawing of that size. */
export const tileCount = (size: Size, paper: Paper, options: TileOptions): number =>
  count(planned(size, paper, options));

type Size = Pick<Drawing, "width" | "height">;

const count = (p: Plan): number => p.columns * p.rows;

function planned(size: Size, paper: Paper, options: TileOptions): Plan {
  const upright = plan(size, paper, options);
  const lying = plan(size, landscape(paper), options);
  const { lie = count(lying) < count(upright) ? "landscape" : "portrait" } = options;
  return lie === "landscape" ? lying : upright;
}

function plan(drawing: Size, paper: Paper, options: TileOptions): Plan {
  const overlap = options.overlap ?? 15;
  const edge = printable(paper);
  const beside = caption(edge, 0, options, "sheet 99 of 99", WORST);
  const foot = Math.max(CHECK_RULE, beside.height) + noteAt(edge, 0, options).height + 2;
  const side = CHECK_RULE + 2;
  const window: Rect = { x: edge.x + side, y: edge.y, width: edge.width - side, height: edge.height - foot };
  const across = split(drawing.width, window.width, overlap);
  const down = split(drawing.height, window.height, overlap);
  return {
    paper,
    window,
    columns: across.count,
    rows: down.count,
    stepX: across.step,
    stepY: down.step,
    overlap,
  };
}

/** As few pieces as the room allows, all of one length. */
function split(length: number, room: number, overlap: number): { count: number; step: number } {
  if (!(overlap >= 0 && overlap < room))
    throw new Error(`an overlap of ${overlap} mm leaves no room on the sheet`);
  if (length <= room + SAME) return { count: 1, step: length };
  const count = Math.ceil((length - overlap - SAME) / (room - overlap));
  return { count, step: (length - overlap) / count };
}

interface Join {
  readonly letter: string;
  readonly side: "left" | "right" | "top" | "foot";
}

const WORST: readonly Join[] = (["left", "right", "top", "foot"] as const).map((side) => ({
  letter: "MM",
  side,
}));

function sheet(drawing: Drawing, p: Plan, options: TileOptions, index: number): Tile {
  const [column, row] = [index % p.columns, Math.floor(index / p.columns)];
  const [x0, y0] = [column * p.stepX, row * p.stepY];
  const piece: Rect = {
    x: x0,
    y: y0,
    width: p.columns === 1 ? drawing.width : p.stepX + p.overlap,
    height: p.rows === 1 ? drawing.height : p.stepY + p.overlap,
  };
  const joins = joinsOf(p, column, row);
  const own = ownOf(piece, joins, p.overlap);
  // words near a join stand on both sheets, unless they would run off one that is not theirs
  const belongs = (mark: Leaf): boolean =>
    mark.kind !== "text" ||
    contains(own, middle(mark)) ||
    corners(mark).every((corner) => contains(piece, corner));
  const total = p.columns * p.rows;
  const edge = printable(p.paper);
  const place: Point = [p.window.x - x0, p.window.y - y0];
  const label = `sheet ${index + 1} of ${total}`;
  const captionTop = p.window.y + p.window.height + 2;
  return {
    name: total === 1 ? options.name : `${options.name}, ${label}`,
    width: p.paper.width,
    height: p.paper.height,
    isTrueSize: true,
    pageAt: [edge.x + edge.width, captionTop + 1.3 * 2.2],
    marks: [
      group("piece", record(drawing).filter(belongs), { at: place, clip: piece }),
      group(
        "joins",
        joins.flatMap((join) => joinMarks(join, piece, p.overlap)),
        { at: place },
      ),
      ...checkRule([edge.x, edge.y], "down"),
      ...checkRule([edge.x, captionTop], "across"),
      ...caption(edge, captionTop, options, label, joins).marks,
      ...noteAt(edge, edge.y + edge.height - noteAt(edge, 0, options).height, options).marks,
    ],
  };
}

/** The piece between its join lines. */
function ownOf(piece: Rect, joins: readonly Join[], overlap: number): Rect {
  const cut = (side: Join["side"]): number => (joins.some((join) => join.side === side) ? overlap / 2 : 0);
  return {
    x: piece.x + cut("left"),
    y: piece.y + cut("top"),
    width: piece.width - cut("left") - cut("right"),
    height: piece.height - cut("top") - cut("foot"),
  };
}

/** Each pair of neighbours has a letter of its own: first the joins between columns, then those between rows. */
function joinsOf(p: Plan, column: number, row: number): Join[] {
  const beside = (c: number): string => letter(row * (p.columns - 1) + c);
  const below = (r: number): string => letter(p.rows * (p.columns - 1) + r * p.columns + column);
  return [
    ...(column > 0 ? [{ letter: beside(column - 1), side: "left" as const }] : []),
    ...(column < p.columns - 1 ? [{ letter: beside(column), side: "right" as const }] : []),
    ...(row > 0 ? [{ letter: below(row - 1), side: "top" as const }] : []),
    ...(row < p.rows - 1 ? [{ letter: below(row), side: "foot" as const }] : []),
  ];
}

/** A, B … Z, AA, AB … */
const letter = (n: number): string =>
  (n >= 26 ? letter(Math.floor(n / 26) - 1) : "") + String.fromCharCode(65 + (n % 26));

/** The join line along the middle of the shared strip, with a mark and the letter near both ends. */
function joinMarks({ letter: name, side }: Join, piece: Rect, overlap: number): Mark[] {
  const level = side === "top" || side === "foot";
  const near = side === "left" || side === "top";
  const start = level ? piece.y : piece.x;
  const end = start + (level ? piece.height : piece.width);
  const across = near ? start + overlap / 2 : end - overlap / 2;
  const [from, length] = level ? [piece.x, piece.width] : [piece.y, piece.height];
  const at = (along: number, off = 0): Point => (level ? [along, across + off] : [across + off, along]);
  const marks: Mark[] = [line(at(from), at(from + length), "join")];
  // clear of the corner, where another join may cross
  const inset = Math.min(overlap + 12, length / 4);
  for (const inward of [1, -1]) {
    const along = inward > 0 ? from + inset : from + length - inset;
    marks.push(line(at(along - 4), at(along + 4), "narrow"), line(at(along, -4), at(along, 4), "narrow"));
    marks.push(circle(at(along), 2, "narrow"));
    // beside the line on the sheet's own side, clear of the mark
    const [x, y] = at(along + 7 * inward, near ? 4 : -4);
    marks.push(text([x, y + 1.75], name, 3.5, { anchor: "middle", bold: true }));
  }
  return marks;
}

/** Along the whole foot of the sheet. */
const noteAt = (edge: Rect, top: number, { note }: TileOptions): Placed =>
  note === undefined ? { marks: [], height: 0 } : paragraph([edge.x, top], edge.width, note, { size: 2 });

/** What stands beside the check rule at the foot. */
function caption(edge: Rect, top: number, options: TileOptions, label: string, joins: readonly Join[]) {
  const said = joins.map((join) => `${join.letter}–${join.letter} ${join.side}`).join(", ");
  const words = [
    `${options.name} · ${label}${said ? ` · join ${said}` : ""}`,
    ...(options.foot ? [options.foot] : []),
    ...(said ? [PRINTED.join] : []),
  ].join("\n");
  return paragraph([edge.x + RULE, top], edge.width - RULE - PAGE_ROOM, words, { size: 2.2 });
}
