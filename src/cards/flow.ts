import {
  group,
  landscape,
  line,
  type Mark,
  type Paper,
  type Placed,
  paragraph,
  type Rect,
  sheetFrame,
  text,
  textWidth,
} from "../draw/index.ts";
import { FIELD, PRINTED, sayOf, saySheet, TRUE_SIZE } from "../words/index.ts";
import type { InPrint, Laid } from "./laid.ts";

/** A piece of a card, drawn from [0, 0] downward. */
export interface Block extends Placed {
  /** Stays with the block that follows it. */
  readonly keep?: boolean;
  /** mm of air below it, where that is not the usual. */
  readonly air?: number;
}

export interface Card {
  readonly title: string;
  readonly fields: readonly (readonly [string, string])[];
  readonly note: string;
  /** Something on it is used at true size: its note says how to print it, and where the print's check square is. */
  readonly isTrueSize?: boolean;
  readonly lie?: "portrait" | "landscape";
}

/** Between blocks, mm. */
const AIR = 3;

/** The widest numbers that a page keeps room for. */
const WORST: InPrint = { page: 888, pages: 888, square: 888 };

/** A card's blocks, one below the other, on as many framed pages as they need. */
export function flow(paper: Paper, card: Card, make: (inside: Rect) => readonly Block[]): Laid[] {
  const lying = card.lie === "landscape" ? landscape(paper) : paper;
  const inside = roomOn(paper, card);
  const blocks = make(inside);
  let page: { marks: Mark[]; y: number } = { marks: [], y: 0 };
  const pages = [page];
  for (let i = 0; i < blocks.length; ) {
    const run = together(blocks, i, inside.height);
    const height = total(run);
    if (page.y > 0 && page.y + height > inside.height + 1e-6) {
      page = { marks: [], y: 0 };
      pages.push(page);
    }
    for (const b of run) {
      page.marks.push(group("block", b.marks, { at: [inside.x, inside.y + page.y] }));
      page.y += b.height + airBelow(b);
    }
    i += run.length;
  }
  return pages.map(({ marks, y }, i) => ({
    name: saySheet(card.title, i + 1, pages.length),
    width: lying.width,
    height: lying.height,
    isTrueSize: card.isTrueSize === true,
    fields: card.fields,
    free: { x: inside.x, y: inside.y + y, width: inside.width, height: inside.height - y },
    marks: (at) => [...titled(lying, card, i + 1, pages.length, at).marks, ...marks],
  }));
}

const airBelow = (b: Block): number => b.air ?? AIR;

/** With the air between them. */
const total = (run: readonly Block[]): number =>
  run.reduce((sum, b, i) => sum + b.height + (i < run.length - 1 ? airBelow(b) : 0), 0);

/** The blocks from `i` on that keep together, as many as fit on one sheet. */
function together(blocks: readonly Block[], i: number, room: number): readonly Block[] {
  const fits = (last: number): boolean => last < blocks.length && total(blocks.slice(i, last + 1)) <= room;
  const last = blocks.findIndex((block, k) => k >= i && !(block.keep && fits(k + 1)));
  return blocks.slice(i, last + 1);
}

/** The room inside the frame of such a card's sheets. */
export const roomOn = (paper: Paper, card: Card): Rect =>
  titled(card.lie === "landscape" ? landscape(paper) : paper, card, 9, 9, WORST).inside;

/** Frame and title block of one sheet. In a print of one card its sheets are the pages: they are counted once. */
function titled(paper: Paper, card: Card, sheet: number, of: number, at: InPrint) {
  const isCounted = at.pages === of && at.page === sheet && !(card.isTrueSize && of > 1);
  return sheetFrame(paper, {
    title: card.title,
    fields: [[FIELD.sheet, sayOf(sheet, of)], ...card.fields],
    note: card.isTrueSize ? [TRUE_SIZE, saySquare(at), card.note].filter(Boolean).join(" ") : card.note,
    ...(isCounted ? {} : { page: PRINTED.page(at.page, at.pages) }),
  });
}

const saySquare = ({ page, square }: InPrint): string =>
  square === undefined ? "" : square === page ? PRINTED.squareHere : PRINTED.squareOn(square);

/** A head over what follows, with a rule. */
export const heading = (words: string, width: number): Block => ({
  marks: [text([0, 4], words, 3.5, { bold: true }), line([0, 5.6], [width, 5.6], "visible")],
  height: 6,
  keep: true,
});

export const words = (
  said: string,
  width: number,
  options: { readonly size?: number; readonly bold?: boolean } = {},
): Block => paragraph([0, 0], width, said, { size: 2.5, ...options });

/** Lettering at most so wide: made smaller where it must. */
export function fitted(
  at: readonly [number, number],
  said: string,
  size: number,
  width: number,
  options: { readonly bold?: boolean; readonly anchor?: "start" | "middle" | "end" } = {},
): Mark {
  const wide = textWidth(said, size, options.bold);
  return text(at, said, wide > width ? (size * width) / wide : size, options);
}

/** A figure that must be read first: small label, large value, small words below. Returns its height too. */
export function figure(
  at: readonly [number, number],
  width: number,
  label: string,
  value: string,
  below: string,
  size = 6,
): Placed {
  const under = at[1] + 5.2 + size + (/[gjpqy]/.test(value) ? 0.2 * size : 0);
  const small = paragraph([at[0], under], width, below, { size: 2.2 });
  return {
    marks: [
      text([at[0], at[1] + 2.2], label, 2.2),
      fitted([at[0], at[1] + 4.2 + size], value, size, width, { bold: true }),
      ...small.marks,
    ],
    height: under - at[1] + small.height,
  };
}
