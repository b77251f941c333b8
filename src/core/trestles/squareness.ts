/**
 * How far the mouth of a U opens when both its bends are short by `off` (radians): 2·leg·sin(off), leg from the corner
 * (mm). Geometry; trade-checks C5.
 */
export const mouthOpens = (leg: number, off: number): number => 2 * leg * Math.sin(off);

/** The chord between marks a and b (mm) from the corner of two legs that stand at `angle` to each other (radians): the cosine rule. */
export const chordOf = (a: number, b: number, angle: number): number =>
  Math.sqrt(a * a + b * b - 2 * a * b * Math.cos(angle));

/** How far 1 mm more of that chord opens the angle (radians): its derivative, chord / (a·b·sin). */
export const perChord = (a: number, b: number, angle: number): number =>
  chordOf(a, b, angle) / (a * b * Math.sin(angle));

/** By how much a rectangle of width `width` is racked, from its cross tapes (mm): (D₁² − D₂²)/(4W). */
export const racked = (cross: readonly [number, number], width: number): number =>
  (cross[0] ** 2 - cross[1] ** 2) / (4 * width);

/**
 * What an angle finder shows, seen square from the side, of a tube that climbs at `slope` and runs off at `plan` from
 * that view: tan(apparent) = tan(true)/cos(plan) (radians, |slope| and |plan| below a quarter turn).
 */
export const apparentSlope = (slope: number, plan: number): number =>
  Math.atan(Math.tan(slope) / Math.cos(plan));

/** The true slope behind what the finder shows from the side (radians): the inverse of `apparentSlope`. */
export const trueSlope = (apparent: number, plan: number): number =>
  Math.atan(Math.tan(apparent) * Math.cos(plan));

/** How far a point `reach` up a seat's back goes back and down when the back is laid from one slope to another (mm, radians from level). */
export const laidBack = (
  reach: number,
  from: number,
  to: number,
): { readonly back: number; readonly down: number } => ({
  back: reach * (Math.cos(to) - Math.cos(from)),
  down: reach * (Math.sin(from) - Math.sin(to)),
});
