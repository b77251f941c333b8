import type { Reading, TapeEnd } from "../job/reading-types.ts";
import type { Advice } from "./types.ts";

function endWords(end: TapeEnd): string {
  if (end.kind === "point") return end.point;
  return end.kind === "corner" ? `bend ${end.bend} of ${end.bar}` : end.bar;
}

/** A reading in a person's words: "the tape from floor-1 to post". */
export function readingWords(reading: Reading): string {
  switch (reading.kind) {
    case "tape":
      return `the tape from ${endWords(reading.ends[0])} to ${endWords(reading.ends[1])}`;
    case "height":
      return `the height of ${reading.point}`;
    case "out":
      return `the measure out to ${reading.point}`;
    case "fore":
      return `the measure forward to ${reading.point}`;
    case "level":
      return `the level from ${reading.points[0]} to ${reading.points[1]}`;
    case "plumb":
      return `the plumb from ${reading.points[0]} to ${reading.points[1]}`;
    case "slope":
      return `the slope from ${reading.points[0]} to ${reading.points[1]}`;
    case "lean":
      return `the shell's lean ${reading.way}`;
  }
}

/** A reading to take, in a person's words: "a tape from floor-1 to post". */
export function adviceWords(advice: Advice): string {
  switch (advice.kind) {
    case "tape":
      return `a tape from ${advice.points[0]} to ${advice.points[1]}`;
    case "height":
      return `the height of ${advice.point}`;
    case "out":
      return `how far out ${advice.point} stands`;
    case "fore":
      return `how far forward ${advice.point} stands`;
  }
}
