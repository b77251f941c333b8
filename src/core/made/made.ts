import { type CopeResult, type EndFrame, endFrame, endPath, LINES, wallAt } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { rad } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import { type BarShape, lineOf, shapeOf, startOf } from "../trestles/index.ts";
import type { MadeBar, MadeStep, Rim } from "./types.ts";

/** What a bar was bent by: its marks from the end fed first (mm), and what came of the angles set (radians). */
export interface Bent {
  /** From A on, whichever end was fed. */
  readonly marks: readonly number[];
  readonly angles: readonly number[];
  readonly turns: readonly number[];
  readonly numbers: readonly number[];
}

/** What is known of the die that it was bent on (mm). */
export interface TrueDie {
  readonly clr: number;
  readonly mark: number;
  readonly arcFactor: number;
}

/**
 * The shape of a stick of `sawn` bent at its marks: a bend begins at its mark, on the side fed first, and uses
 * arcFactor·R·θ of tube; so on a die of another radius than was believed the same marks give other straights.
 * Units: mm, radians. Range: straights may come out below 0 where the marks are too close for the radius.
 */
export function bentAt(sawn: number, fed: End, bent: Bent, die: TrueDie): BarShape {
  const used = bent.angles.map((angle) => die.arcFactor * die.clr * angle);
  // Seen from the end fed first: where each bend begins, in the order of bending.
  const order = bent.marks.map((_, i) => (fed === "A" ? i : bent.marks.length - 1 - i));
  const straights: number[] = [];
  let end = 0;
  for (const i of order) {
    const start = (bent.marks[i] ?? 0) - die.mark;
    straights.push(start - end);
    end = start + (used[i] ?? 0);
  }
  straights.push(sawn - end);
  return {
    straights: fed === "A" ? straights : straights.reverse(),
    angles: bent.angles,
    turns: bent.turns,
    radii: bent.angles.map(() => die.clr),
    numbers: bent.numbers,
  };
}

/** What a bar was made to, as its plan had it. */
export interface Figures {
  readonly bar: ResolvedBar;
  readonly copes: Readonly<Record<End, CopeResult>>;
  readonly sawn: number;
  readonly over: Readonly<Record<End, number>>;
}

/**
 * A bar that was made to its figures. `shape`: what it is known to be, its ends as sawn, where that is not what it was
 * made to (a die that was found to be another, readings on the trestles). `notched`: the ends whose notch is cut.
 */
export function madeTo(
  { bar, copes, sawn, over }: Figures,
  step: MadeStep,
  notched: readonly End[],
  shape?: BarShape,
): MadeBar {
  const planned = shapeOf(bar.centreline);
  const known = shape ?? lengthened(planned, over.A, over.B);
  const line = shape ? lineOf(lengthened(shape, -over.A, -over.B), startOf(bar.centreline)) : bar.centreline;
  const frames = { A: frameOf(line, bar, "A"), B: frameOf(line, bar, "B") };
  const rims = Object.fromEntries(notched.map((end) => [end, rimOf(bar, end, copes[end])]));
  return { id: bar.id, step, tube: bar.tube, sawn, shape: known, over, line, frames, rims };
}

/** A straight bar has no bend to carry its zero line: it keeps the one it was made with. */
const frameOf = (line: MadeBar["line"], bar: ResolvedBar, end: End): EndFrame =>
  endFrame(line.bends.length > 0 ? line : bar.centreline, end);

/** The same shape with so much more tube at its ends (mm). */
export function lengthened(shape: BarShape, a: number, b: number): BarShape {
  const last = shape.straights.length - 1;
  return {
    ...shape,
    straights: shape.straights.map((s, i) => s + (i === 0 ? a : 0) + (i === last ? b : 0)),
  };
}

/** The edge of an end as its curve has it, in the end's frame; a plain end's is flat. */
function rimOf(bar: ResolvedBar, end: End, { cope }: CopeResult): Rim {
  const path = endPath(bar.centreline, end, endFrame(bar.centreline, end));
  const places = (curve: Float64Array, rho: number): (Vec | undefined)[] =>
    Array.from({ length: LINES }, (_, i) => {
      const back = curve[i] ?? Number.NaN;
      if (Number.isNaN(back)) return undefined;
      return wallAt(path, rho * Math.cos(rad(i)), rho * Math.sin(rad(i)), back);
    });
  return { outer: places(cope.outer, cope.outerRadius), bore: places(cope.bore, cope.boreRadius) };
}
