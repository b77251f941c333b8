import type { Writer } from "../core/findings/index.ts";
import type { Job, Over, Reading, TapeEnd } from "../core/job/index.ts";
import { asRead, HELD, isPlain, pointWords, type ReadingKind, sayHeld, sayMark } from "../words/index.ts";
import type { Lies } from "./how-it-lies.ts";

/** One reading as a list has it: what was held on what, how it lay, and its size as it was typed. */
export interface SaidReading {
  readonly kind: ReadingKind;
  readonly words: string;
  /** Empty where nothing is typed: level and plumb. */
  readonly size: string;
  readonly lies: Lies;
}

const kindOf = (r: Reading): ReadingKind => (r.kind === "lean" ? `lean ${r.way}` : r.kind);

function endsOf(r: Reading): readonly TapeEnd[] {
  if (r.kind === "tape") return r.ends;
  if (r.kind === "lean") return [];
  const points = "points" in r ? r.points : [r.point];
  return points.map((point) => ({ kind: "point", point }));
}

/** The key under which a file keeps the size of each kind. */
const SIZE: Readonly<Record<ReadingKind, string>> = {
  tape: "length",
  height: "z",
  out: "y",
  fore: "x",
  level: "",
  plumb: "",
  slope: "angle",
  "lean along": "angle",
  "lean across": "angle",
};

/** Words of a reading of the job; `typed` is the same reading as the file has it. */
export function sayOne(reading: Reading, typed: unknown, job: Job, write: Writer): SaidReading {
  const kind = kindOf(reading);
  const ends = endsOf(reading);
  const [p = "", q = ""] = ends.map((e) => endWords(e, job, write));
  const over = ends.find((e) => e.kind === "tube")?.over;
  const size = isPlain(kind)
    ? ""
    : asRead((typed as Record<string, unknown> | undefined)?.[SIZE[kind]], kind);
  const mark = kind === "tape" ? sayMark((typed as Record<string, unknown> | undefined)?.mark) : "";
  return { kind, words: `${sayHeld(kind, [p, q], over)}${mark}`, size, lies: liesOf(kind, ends, over) };
}

function endWords(end: TapeEnd, job: Job, write: Writer): string {
  if (end.kind === "point") return pointWords(end.point);
  const bar = job.bars[end.bar]?.label ?? end.bar;
  if (end.kind === "corner") return HELD.corner(end.bend, bar);
  return HELD.tube(bar, write.length(Math.abs(end.along)), end.along < 0 ? "B" : "A");
}

function liesOf(kind: ReadingKind, ends: readonly TapeEnd[], over: Over | undefined): Lies {
  const on = (e: TapeEnd | undefined) =>
    e?.kind === "tube" ? (over ?? e.over) : e?.kind === "corner" ? "corner" : "point";
  if (kind === "tape") {
    const bead = ends.some((e) => e.kind === "tube" && e.bead > 0);
    return { kind, ends: [on(ends[0]), on(ends[1])], bead };
  }
  return kind === "height" || kind === "out" || kind === "fore" ? { kind, at: "point" } : { kind };
}
