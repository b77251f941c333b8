import type { CutKind } from "../core/cope/index.ts";
import type { Finding } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import {
  CHECK_SQUARE,
  checkSquare,
  type Drawing,
  group,
  type Paper,
  type Point,
  paragraph,
  text,
  tile,
  tileCount,
} from "../draw/index.ts";
import { cautionOn, PRINTED, TOO_MANY_SHEETS, TRUE_SIZE, WRAP, type WrapFor } from "../words/index.ts";
import { type Block, type Card, flow, roomOn } from "./flow.ts";
import type { Laid } from "./laid.ts";
import { leftOut, MOST_SHEETS, type Part } from "./sheet-limit.ts";
import { barLine, type Subject, sayOnto, shortFields } from "./subject.ts";
import { wrapDrawing, wrapSize } from "./wrap.ts";
import { PAPER_THICKNESS, wrapFor, wrapKinds } from "./wrap-curve.ts";

const AIR = 4;
/** From the top of a wrap's caption to the wrap, mm. */
const CAPTION = 6;
const ENDS = ["A", "B"] as const;

const noteOf = (): string => `${WRAP.use} ${cautionOn("wrap")}`;

interface Wanted {
  readonly end: End;
  readonly kind: CutKind;
  readonly for: WrapFor;
  readonly size: { readonly width: number; readonly height: number };
}

/** What is asked of the wraps: ends, and the cuts where only some are wanted. */
export interface WrapAsk {
  readonly ends?: readonly End[];
  readonly cuts?: readonly CutKind[];
}

/**
 * A bar's wraps on paper, 1 : 1: those for one cutter together, both ends on one page where they fit, so that a page
 * holds what is used at one place and no wrap of another cut or bar. A wrap larger than a page is laid over several,
 * with check rules of their own. An end whose wraps take more than `room` sheets (a cut along a host that the bar all
 * but follows) is not printed.
 */
export function wrapPart(
  s: Subject,
  paper: Paper,
  thickness = PAPER_THICKNESS,
  room = MOST_SHEETS,
  { ends = ENDS, cuts }: WrapAsk = {},
): Part {
  const sheets: Laid[] = [];
  const findings: Finding[] = [];
  const wanted: Wanted[] = [];
  let used = 0;
  for (const end of ends) {
    const wraps = wantedOf(s, end, thickness, cuts);
    const [first] = wraps;
    if (!first) continue;
    const count = wraps.reduce((sum, w) => sum + tileCount(w.size, paper, tiling(s, w)), 0);
    if (count <= room - used) {
      wanted.push(...wraps);
      used += count;
    } else {
      const out = leftOut(s, paper, cardOf(s, [first]), { ...TOO_MANY_SHEETS.wrap(end), sheets: count });
      sheets.push(...out.sheets);
      findings.push(...out.findings);
      used += out.sheets.length;
    }
  }
  const [along, square] = [
    wanted.filter((w) => w.kind === "outside"),
    wanted.filter((w) => w.kind === "square"),
  ];
  return {
    sheets: [...sheets, ...pages(s, along, paper, thickness), ...pages(s, square, paper, thickness)],
    findings,
  };
}

/** A wrap that serves both cuts is wanted for either. */
const wantedOf = (s: Subject, end: End, thickness: number, cuts?: readonly CutKind[]): Wanted[] =>
  wrapKinds(s, end)
    .map((kind) => ({ end, kind, for: wrapFor(s, end, kind), size: wrapSize(s, end, kind, thickness) }))
    .filter((w) => !cuts || (w.for === "both" ? cuts.length > 0 : cuts.includes(w.kind)));

const titleOf = (s: Subject, wraps: readonly Wanted[]): string => {
  const [one, two] = wraps;
  if (!one) return WRAP.titleBoth(undefined, s.label);
  if (!two) return WRAP.title(one.for, s.label, one.end);
  return WRAP.titleBoth(one.for === two.for ? one.for : undefined, s.label);
};

const cardOf = (s: Subject, wraps: readonly Wanted[], lie: "portrait" | "landscape" = "portrait"): Card => ({
  title: titleOf(s, wraps),
  fields: shortFields(s),
  note: noteOf(),
  isTrueSize: true,
  lie,
});

const tiling = (s: Subject, w: Wanted) => ({
  name: titleOf(s, [w]),
  foot: barLine(s, w.end),
  note: `${TRUE_SIZE} ${noteOf()}`,
});

/** The wraps for one cutter: together if all of them fit, else each by itself, upright, lying or over several sheets. */
function pages(s: Subject, wraps: readonly Wanted[], paper: Paper, thickness: number): Laid[] {
  if (wraps.length === 0) return [];
  const laid = (some: readonly Wanted[], lie: "portrait" | "landscape"): Laid[] | undefined => {
    const card = cardOf(s, some, lie);
    const room = roomOn(paper, card);
    const high = some.reduce((sum, w) => sum + CAPTION + w.size.height + AIR, -AIR);
    if (high > room.height || some.some((w) => w.size.width > room.width)) return undefined;
    const names = new Set(some.map((w) => w.for)).size > 1;
    return flow(paper, card, () => some.map((w) => block(s, w, thickness, names)));
  };
  return (
    laid(wraps, "portrait") ??
    wraps.flatMap((w) => laid([w], "portrait") ?? laid([w], "landscape") ?? tiled(s, w, paper, thickness))
  );
}

/** One wrap under its caption. Its paper's own edge keeps 10 mm from the next one's. */
function block(
  s: Subject,
  { end, kind, for: cutter, size }: Wanted,
  thickness: number,
  isNamed: boolean,
): Block {
  const caption = WRAP.caption(end, sayOnto(s, end), isNamed ? cutter : undefined);
  return {
    marks: [
      text([0, 4], caption, 3.5, { bold: true }),
      group("wrap", wrapDrawing(s, end, kind, thickness).marks, { at: [0, CAPTION] }),
    ],
    height: CAPTION + size.height,
    air: AIR,
  };
}

function tiled(s: Subject, w: Wanted, paper: Paper, thickness: number): Laid[] {
  return tile(wrapDrawing(s, w.end, w.kind, thickness), paper, tiling(s, w)).map(
    ({ marks, pageAt, ...sheet }) => ({
      ...sheet,
      marks: ({ page, pages: of }) =>
        of === 1 ? marks : [...marks, text(pageAt, PRINTED.page(page, of), 2.2, { anchor: "end" })],
    }),
  );
}

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
  const said = paragraph(at, isBeside ? beside : width, `${TRUE_SIZE} ${noteOf()}`, { size: 2.2 });
  return {
    width,
    height: top + (isBeside ? Math.max(CHECK_SQUARE, said.height) : CHECK_SQUARE + said.height),
    marks: [group("wrap", wrap.marks), ...checkSquare([0, top]), group("note", said.marks)],
  };
}
