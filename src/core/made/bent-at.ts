import type { End } from "../job/types.ts";
import type { BarShape } from "../trestles/index.ts";

/** What a bar was bent by: its marks from the end fed first (mm), and what came of the angles set (radians). */
interface Bent {
  /** From A on, whichever end was fed. */
  readonly marks: readonly number[];
  readonly angles: readonly number[];
  readonly turns: readonly number[];
  readonly numbers: readonly number[];
}

/** What is known of the die that it was bent on (mm). */
interface TrueDie {
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
