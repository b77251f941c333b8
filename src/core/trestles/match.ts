import { rad, wrapPi } from "../numeric/index.ts";
import type { Freedom, Wanted } from "./place.ts";
import { type BarShape, shapeOf } from "./shape.ts";
import { type Verdict, verdictOn } from "./verdict.ts";

/** Another bar of the job that a bent one could still become. */
export interface Match {
  readonly id: string;
  /** Its end A would be this bar's end B. */
  readonly reversed: boolean;
  /** Good, or good if landed elsewhere; nothing else counts as a match. */
  readonly verdict: Extract<Verdict, { kind: "good" | "moved" }>;
}

/** A bar farther off than this in a bend, a turn or a straight between bends is not looked at: no place would hold it. */
const ALIKE = { angle: rad(4), turn: rad(6), straight: 25 };

/**
 * Which other bars of the job could be made from a bent one: the lists of bends, turns and straights between them
 * alike, forward or reversed, then verified by laying it on the other bar's own hosts and cutting its ends there.
 *
 * `others` are the bars to look at, of the same tube and die and not yet made: the caller says which. Best first:
 * by how far the bar would stand from where that one was wanted, and a tenth of the tube that would be cut off. Units: mm, radians.
 */
export function couldBecome(
  shape: BarShape,
  others: readonly Wanted[],
  freedom: Freedom,
  gap: number,
): readonly Match[] {
  const found = others.flatMap((other) => {
    const wanted = shapeOf(other.bar.centreline);
    return (wanted.angles.length > 0 ? [false, true] : [false]).flatMap((reversed): Match[] => {
      const held = reversed ? reversedShape(shape) : shape;
      if (!alike(held, wanted)) return [];
      const verdict = verdictOn(held, other, freedom, gap, { ease: false });
      return verdict.kind === "good" || verdict.kind === "moved"
        ? [{ id: other.bar.id, reversed, verdict }]
        : [];
    });
  });
  const waste = ({ verdict: { placed } }: Match): number =>
    placed.worst.off + (placed.landings.A.spare + placed.landings.B.spare) / 10;
  return found.sort((a, b) => waste(a) - waste(b));
}

/** The same bar read from its other end: angles and turns keep their signs, their order turns round. */
export function reversedShape({ straights, angles, turns, radii, numbers }: BarShape): BarShape {
  const ends = (numbers[0] ?? 0) + (numbers.at(-1) ?? 0);
  return {
    straights: [...straights].reverse(),
    angles: [...angles].reverse(),
    turns: turns.length > 0 ? [0, ...turns.slice(1).reverse()] : [],
    radii: [...radii].reverse(),
    numbers: [...numbers].reverse().map((n) => ends - n),
  };
}

/** Whether two lists of bends, turns and straights between them are near enough that a place may hold one for the other. */
export function alike(held: BarShape, wanted: BarShape): boolean {
  const n = wanted.angles.length;
  const near = (a: readonly number[], b: readonly number[], limit: number): boolean =>
    a.every((v, i) => Math.abs(v - (b[i] ?? Infinity)) <= limit);
  return (
    held.angles.length === n &&
    near(held.radii, wanted.radii, 1e-6) &&
    near(held.angles, wanted.angles, ALIKE.angle) &&
    held.turns.every((t, i) => Math.abs(wrapPi(t - (wanted.turns[i] ?? Infinity))) <= ALIKE.turn) &&
    near(held.straights.slice(1, n), wanted.straights.slice(1, n), ALIKE.straight)
  );
}
