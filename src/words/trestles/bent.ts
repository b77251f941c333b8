import type { Writer } from "../../core/findings/index.ts";
import { deg } from "../../core/numeric/index.ts";
import type { AsBent, BarShape, BentProblem } from "../../core/trestles/index.ts";
import { inLine } from "../text.ts";

interface Departure {
  readonly off: number;
  readonly sd: number;
  readonly says: string;
}

/** What differs from the bar wanted by more than its own ±, the surest first: "bend 2 is 1.1° ± 0.2° over". */
export const sayDepartures = (bent: AsBent, wanted: BarShape, writer: Writer): readonly string[] =>
  [...angles(bent, wanted, writer), ...turns(bent, wanted, writer), ...straights(bent, wanted, writer)]
    .filter(({ off, sd }) => Math.abs(off) > sd)
    .sort((a, b) => Math.abs(b.off / b.sd) - Math.abs(a.off / a.sd))
    .map((f) => f.says);

const angles = ({ shape, sd }: AsBent, wanted: BarShape, { angle }: Writer): readonly Departure[] =>
  wanted.numbers.map((n, i) => {
    const off = (shape.angles[i] ?? 0) - (wanted.angles[i] ?? 0);
    const own = sd.angles[i] ?? 0;
    const size = `${angle(deg(Math.abs(off)))} ± ${angle(deg(own))}`;
    return { off, sd: own, says: `bend ${n} is ${size} ${off > 0 ? "over" : "under"}` };
  });

const turns = ({ shape, sd }: AsBent, wanted: BarShape, { angle }: Writer): readonly Departure[] =>
  wanted.numbers.slice(1).map((n, i) => {
    const off = (shape.turns[i + 1] ?? 0) - (wanted.turns[i + 1] ?? 0);
    const own = sd.turns[i + 1] ?? 0;
    const size = `${angle(deg(Math.abs(off)))} ± ${angle(deg(own))}`;
    const way = off > 0 ? "clockwise" : "counter-clockwise";
    return { off, sd: own, says: `the turn before bend ${n} is ${size} too far ${way}, seen from end A` };
  });

const straights = ({ shape, sd }: AsBent, wanted: BarShape, { length }: Writer): readonly Departure[] =>
  shape.straights.map((s, i) => {
    const off = s - (wanted.straights[i] ?? 0);
    const own = sd.straights[i] ?? 0;
    const size = `${length(Math.abs(off))} ± ${length(own)}`;
    return { off, sd: own, says: `${legName(wanted, i)} is ${size} ${off > 0 ? "long" : "short"}` };
  });

function legName({ numbers }: BarShape, i: number): string {
  const [before, after] = [numbers[i - 1], numbers[i]];
  if (before === undefined) return "the leg at end A";
  return after === undefined ? "the leg at end B" : `the straight between bends ${before} and ${after}`;
}

/** Why a bar cannot give a reading. */
export function sayBentProblem(problem: BentProblem): string {
  switch (problem.code) {
    case "straight-bar":
      return "a straight bar has no bend to read";
    case "no-bend":
      return `there is no bend ${problem.bend}; the bar has ${bends(problem.bends)}`;
    case "no-leg":
      return `there is no leg ${problem.leg}; the bar has ${problem.legs}`;
    case "legs-in-order":
      return "name the leg nearer to end A first";
    case "too-wide":
      return "the outer lines of a bend this wide meet too far away";
    case "no-size":
      return "that is no size of a bent bar";
  }
}

/** How many bends, or where corners between them are left out, which. */
const bends = (numbers: readonly number[]): string =>
  numbers.every((n, i) => n === i + 1) ? `${numbers.length}` : `bend ${inLine(numbers.map(String))}`;
