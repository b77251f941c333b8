/** Readings: from the file to what the program computes with, the names in them, and what their shape cannot say. */

import { text } from "../findings/index.ts";
import { given } from "./given.ts";
import { has, isDict, lengthAt, listOf, own } from "./peek.ts";
import { type Fault, type Path, problem } from "./problem.ts";
import type { Over, Reading, TapeEnd } from "./reading-types.ts";
import type { FileReading, FileTapeEnd } from "./schema-readings.ts";

/** A tape on a tube goes round its far side where nothing else is said. */
const AS_HOOKED: Over = "outside";

function tapeEnd(file: FileTapeEnd, over: Over): TapeEnd {
  if (typeof file === "string") return { kind: "point", point: file };
  if ("bend" in file) return { kind: "corner", bar: file.bar, bend: file.bend };
  return { kind: "tube", bar: file.bar, along: file.along, over: file.over ?? over, bead: file.bead ?? 0 };
}

/** One reading with lengths in millimetres and what the file leaves out filled in. */
export function readingOf(file: FileReading): Reading {
  const any = given({ sd: file.sd, struck: file.struck, note: file.note });
  if ("tape" in file) {
    const over = file.over ?? AS_HOOKED;
    const [p, q] = file.tape;
    return {
      kind: "tape",
      ends: [tapeEnd(p, over), tapeEnd(q, over)],
      length: file.length,
      ...given({ mark: file.mark }),
      ...any,
    };
  }
  if ("height" in file) return { kind: "height", point: file.height, value: file.z, ...any };
  if ("out" in file) return { kind: "out", point: file.out, value: file.y, ...any };
  if ("fore" in file) return { kind: "fore", point: file.fore, value: file.x, ...any };
  if ("level" in file) return { kind: "level", points: file.level, ...any };
  if ("plumb" in file) return { kind: "plumb", points: file.plumb, ...any };
  if ("slope" in file) return { kind: "slope", points: file.slope, angle: file.angle, ...any };
  return { kind: "lean", way: file.lean, angle: file.angle, ...any };
}

const ONE_POINT = ["height", "out", "fore"] as const;
const TWO_POINTS = ["level", "plumb", "slope"] as const;

/** Every point and bar that the readings name, with its path; whatever has the wrong type is passed over. */
export function namesInReadings(
  document: unknown,
  found: (kind: "point" | "bar", name: unknown, path: Path) => void,
): void {
  listOf(own(document, "readings")).forEach((reading, i) => {
    const at: Path = ["readings", i];
    for (const key of ONE_POINT) found("point", own(reading, key), [...at, key]);
    for (const key of TWO_POINTS) {
      listOf(own(reading, key)).forEach((name, k) => {
        found("point", name, [...at, key, k]);
      });
    }
    listOf(own(reading, "tape")).forEach((end, k) => {
      found("point", end, [...at, "tape", k]);
      if (isDict(end)) found("bar", own(end, "bar"), [...at, "tape", k, "bar"]);
    });
  });
}

/** Readings of a point against itself, an `over` with nothing to lie over, a tape held beyond what it reads. */
export function readingProblems(document: unknown): readonly Fault[] {
  return listOf(own(document, "readings")).flatMap((reading, i) => {
    const at: Path = ["readings", i];
    const found: Fault[] = [];
    for (const key of ["tape", ...TWO_POINTS]) {
      const [p, q] = listOf(own(reading, key));
      if (typeof p === "string" && p === q) found.push(problem([...at, key, 1], "one-point"));
    }
    const ends = listOf(own(reading, "tape"));
    if (has(reading, "over") && ends.length > 0 && !ends.some((end) => has(end, "along")))
      found.push(problem([...at, "over"], "over-nothing"));
    return [...found, ...markProblem(at, reading, "length")];
  });
}

/** A tape that was held at a mark reads more than that mark. */
export function markProblem(at: Path, reading: unknown, key: "length" | "size"): readonly Fault[] {
  const [mark, read] = [lengthAt(own(reading, "mark")), lengthAt(own(reading, key))];
  if (mark === undefined || read === undefined || mark < read) return [];
  const values = { mark: text(String(mark)), read: text(String(read)) };
  return [problem([...at, "mark"], "mark-past-reading", values)];
}
