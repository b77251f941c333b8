import { count } from "../findings/index.ts";
import { directionOf, entriesOf, has, listOf, own } from "./peek.ts";
import { type Fault, type Path, problem } from "./problem.ts";
import { markProblem } from "./readings.ts";
import {
  boreProblem,
  directionProblem,
  isParallel,
  number,
  plateProblems,
  radiusProblem,
} from "./rules-shapes.ts";

/** Cosine of the angle between the ends of a straight bar above which they are not opposite: within 60 degrees they are. */
const OPPOSITE = -0.5;

/** What bars were made to: tube, die, and the ends as they were cut. */
export const madeRules = (document: unknown): readonly Fault[] =>
  entriesOf(document, "made").flatMap(([id, bar]) => {
    const at: Path = ["made", id, "to"];
    const to = own(bar, "to");
    return [
      ...tackMarks(["made", id, "tacked"], own(bar, "tacked")),
      ...listOf(own(bar, "past")).flatMap((thrown, i) =>
        tackMarks(["made", id, "past", i, "tacked"], own(thrown, "tacked")),
      ),
      ...boreProblem([...at, "sawn", "tube"], own(own(to, "sawn"), "tube")),
      ...radiusProblem([...at, "bent", "die"], own(own(to, "bent"), "die")),
      ...entriesOf(to, "notched").flatMap(([end, cut]) => endProblems([...at, "notched", end], cut)),
      ...(isMadeStraight(document, id, to) ? oppositeProblem([...at, "notched"], own(to, "notched")) : []),
    ];
  });

const tackMarks = (at: Path, readings: unknown): readonly Fault[] =>
  listOf(readings).flatMap((reading, i) => markProblem([...at, i], reading, "size"));

/** Directions of an end as it was made: a length of nothing points nowhere. */
function endProblems(at: Path, cut: unknown): readonly Fault[] {
  const [out, zero] = [own(cut, "out"), own(cut, "zero")];
  const ways = [...directionProblem([...at, "out"], out), ...directionProblem([...at, "zero"], zero)];
  return [
    ...ways,
    ...(ways.length === 0 && isParallel(out, zero) ? [problem([...at, "zero"], "zero-along-out")] : []),
    ...plateProblems([...at, "plate"], own(cut, "plate")),
    ...wrapProblems(at, cut),
  ];
}

/** The bars that a curve came from: those that an end, or one of them, was cut to are in the list, and are others. */
function wrapProblems(at: Path, cut: unknown): readonly Fault[] {
  const bars = listOf(own(cut, "bars"));
  const most = bars.length - 1;
  const on = own(cut, "on");
  const many =
    bars.length > 0 && typeof on === "number" && on > bars.length
      ? [problem([...at, "on"], "above-most", { limit: count(bars.length), found: number(on) })]
      : [];
  const ends = bars.flatMap((host, i) =>
    ["A", "B"].flatMap((end) => {
      const here: Path = [...at, "bars", i, end];
      const named = listOf(own(own(host, end), "on")).flatMap((k, j) => {
        if (k === i) return [problem([...here, "on", j], "coped-to-itself")];
        return typeof k === "number" && k > most
          ? [problem([...here, "on", j], "above-most", { limit: count(most), found: number(k) })]
          : [];
      });
      return [...named, ...plateProblems([...here, "plate"], own(own(host, end), "plate"))];
    }),
  );
  return [...many, ...ends];
}

/** Whether a bar was made without a bend: by its record, else by its path. */
function isMadeStraight(document: unknown, id: string, to: unknown): boolean {
  const bent = own(to, "bent");
  if (bent !== undefined) return listOf(own(bent, "bends")).length === 0;
  const all = own(document, "bars");
  const bar = own(all, id);
  const original = own(bar, "mirrorOf");
  const laid = typeof original === "string" ? own(all, original) : bar;
  return !has(laid, "follow") && listOf(own(laid, "path")).length === 2;
}

/**
 * The ends of a straight bar point away from each other. The plan may have turned between one notch and the other: that
 * they are opposite to the degree is not asked.
 */
function oppositeProblem(at: Path, notched: unknown): readonly Fault[] {
  const [a, b] = [directionOf(own(own(notched, "A"), "out")), directionOf(own(own(notched, "B"), "out"))];
  if (!a || !b) return [];
  const lengths = Math.hypot(...a) * Math.hypot(...b);
  const along = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  return along > OPPOSITE * lengths ? [problem([...at, "B", "out"], "out-not-opposite")] : [];
}
