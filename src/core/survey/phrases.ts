import { bar, count, mm, type Phrase, phrase, point, type Quantity, text } from "../findings/index.ts";
import type { Reading, TapeEnd } from "../job/reading-types.ts";
import type { Advice } from "./types.ts";

function tapeEnd(end: TapeEnd): Quantity {
  if (end.kind === "point") return point(end.point);
  return end.kind === "corner"
    ? phrase("bend-of", { bend: count(end.bend), bar: bar(end.bar) })
    : bar(end.bar);
}

/** What a reading is called in a sentence: "the tape from floor-1 to post". */
export function readingPhrase(reading: Reading): Phrase {
  switch (reading.kind) {
    case "tape": {
      const ends = { from: tapeEnd(reading.ends[0]), to: tapeEnd(reading.ends[1]) };
      return reading.mark
        ? phrase("the-tape-held", { ...ends, mark: mm(reading.mark) })
        : phrase("the-tape", ends);
    }
    case "height":
    case "out":
    case "fore":
      return phrase(`the-${reading.kind}`, { point: point(reading.point) });
    case "level":
    case "plumb":
    case "slope":
      return phrase(`the-${reading.kind}`, { from: point(reading.points[0]), to: point(reading.points[1]) });
    case "lean":
      return phrase("the-lean", { way: text(reading.way) });
  }
}

/** A reading to take: "a tape from floor-1 to post". */
export const advicePhrase = (advice: Advice): Phrase =>
  advice.kind === "tape"
    ? phrase("take-tape", { from: point(advice.points[0]), to: point(advice.points[1]) })
    : phrase(`take-${advice.kind}`, { point: point(advice.point) });
