import {
  CHECK_SQUARE,
  checkSquare,
  type Document,
  type Drawing,
  type Mark,
  type Paper,
  type Rect,
  type Sheet,
} from "../draw/index.ts";
import { PRINTED } from "../words/index.ts";
import { type Card, flow } from "./flow.ts";

/** Where a page is in its print; `square`: the page with the check square. All count from 1. */
export interface InPrint {
  readonly page: number;
  readonly pages: number;
  readonly square?: number;
}

/** A page laid out before it is known where in a print it comes. */
export interface Laid extends Pick<Drawing, "width" | "height"> {
  readonly name: string;
  /** Something on it is used at true size. */
  readonly isTrueSize: boolean;
  /** Inside the frame, what is left below all that is drawn; absent on a sheet that has check rules of its own. */
  readonly free?: Rect;
  /** Of its title block. */
  readonly fields?: Card["fields"];
  readonly marks: (at: InPrint) => readonly Mark[];
}

/**
 * Pages as one print. What is printed at true size is checked by one square: on the first page that needs it, or where
 * that is full on the nearest page before it with room, else on a later one at true size, else on a page of its own.
 */
export function printOf(title: string, paper: Paper, laid: readonly Laid[]): Document {
  const { pages, square } = squared(laid, paper);
  const sheets = pages.map((page, i): Sheet => {
    const at = {
      page: i + 1,
      pages: pages.length,
      ...(square === undefined ? {} : { square: square + 1 }),
    };
    const { name, width, height, free } = page;
    const check = i === square && free ? checkSquare([free.x, free.y + free.height - CHECK_SQUARE]) : [];
    return {
      name,
      width,
      height,
      ...(page.isTrueSize || i === square ? { isTrueSize: true } : {}),
      marks: [...page.marks(at), ...check],
    };
  });
  return { title, sheets };
}

function squared(laid: readonly Laid[], paper: Paper): { pages: readonly Laid[]; square?: number } {
  const first = laid.findIndex((p) => p.isTrueSize && p.free);
  if (first < 0) return { pages: laid };
  const before = laid.slice(0, first + 1).findLastIndex(hasRoom);
  if (before >= 0) return { pages: laid, square: before };
  const later = laid.findIndex((p) => p.isTrueSize && hasRoom(p));
  if (later >= 0) return { pages: laid, square: later };
  // with what every sheet of its bar says in its title block: a danger is on all of them
  const fields = laid[first]?.fields ?? [];
  const alone = flow(paper, { title: PRINTED.alone, fields, note: "", isTrueSize: true }, () => []);
  return { pages: [...laid.slice(0, first), ...alone, ...laid.slice(first)], square: first };
}

const hasRoom = ({ free }: Laid): boolean =>
  free !== undefined && free.width >= CHECK_SQUARE && free.height >= CHECK_SQUARE;
