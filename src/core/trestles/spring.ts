import { type Centreline, type Piece, placeAt } from "../bar/index.ts";
import { NO_LENGTH, rad } from "../numeric/index.ts";
import { cross, dist, dot, len, rejection, sub, unit } from "../space/index.ts";
import { STEEL, sectionOf } from "../tube/index.ts";
import { bestChange, type Freedom, type Placed, placeBar, type Wanted } from "./place.ts";
import { type BarShape, lineOf, shapeOf, startOf } from "./shape.ts";

/** Gauss's three points and weights on [0, 1]: exact to the fifth power. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/** A bend is taken in parts no longer than this (radians). */
const PART = Math.PI / 16;

/**
 * The force with which a steel bar must be pulled apart (or pressed together) at its ends, along the line through both,
 * to come `by` mm wider (N; never less than 0).
 *
 * Formula: unit load method (any text on strength of materials, e.g. S. Timoshenko, Strength of Materials, part I):
 * by/F = ∫ (M²/EI + T²/GI_t) ds, M and T the bending and twisting moments of a force of 1 N at the ends. For a U of two
 * legs l and a base b with sharp corners that is (2l³/3 + l²b)/EI. Stretch and shear of the tube are left out, and so is
 * what a thin bend gives by going oval, which makes it softer.
 * Units: mm, N. Range: small openings of a bent bar; Infinity for a straight one, which does not spring lengthwise.
 */
export function springForce(
  line: Centreline,
  tube: { readonly od: number; readonly wall: number },
  by: number,
): number {
  const { inertia, torsion } = sectionOf(tube);
  const pull = sub(line.finish, line.start);
  if (!(len(pull) > 0)) return 0;
  const along = unit(pull);
  const stiff = { bend: STEEL.young * inertia, twist: STEEL.shear * torsion };
  const softness = line.pieces.reduce((sum, piece) => {
    // On a straight piece the moments are linear along it: Gauss's rule is exact. A bend is taken in parts.
    const parts = piece.kind === "arc" ? Math.ceil(piece.angle / PART) : 1;
    return sum + integral(piece.length, parts, stretch(piece, along, line, stiff));
  }, 0);
  return softness > 1e-9 / stiff.bend ? Math.abs(by) / softness : Number.POSITIVE_INFINITY;
}

function stretch(
  piece: Piece,
  along: Parameters<typeof dot>[0],
  line: Centreline,
  stiff: { readonly bend: number; readonly twist: number },
) {
  return (s: number): number => {
    const { at, dir } = placeAt(line, piece.s0 + s);
    const moment = cross(sub(at, line.start), along);
    const twisting = dot(moment, dir);
    const bending = dot(moment, moment) - twisting ** 2;
    return bending / stiff.bend + twisting ** 2 / stiff.twist;
  };
}

function integral(length: number, parts: number, f: (s: number) => number): number {
  const h = length / parts;
  let sum = 0;
  for (let i = 0; i < parts; i++) for (const [x, weight] of GAUSS) sum += weight * h * f((i + x) * h);
  return sum;
}

/** A bar sprung into its place by hand. */
export interface Sprung {
  /** How much farther apart its ends are then; negative: pressed together (mm). */
  readonly by: number;
  /** With what force (N). */
  readonly force: number;
  /** Where it lies while it is held so. */
  readonly placed: Placed;
}

/** A few millimetres by hand, no more, and no spring that nobody would see (mm; common practice, no source). */
const BY_HAND = { least: 0.3, most: 8 };
/**
 * What two hands pull and hold while a bar is tacked (N; common practice, no source). Less than `HANDS_AND_STRAP` of
 * the fitting, where the bar is forced past a place and a strap may help.
 */
const TWO_HANDS = 600;

/**
 * How far a bent bar would have to be sprung at its ends to lie best in its place; undefined where that is no matter of
 * a hand's force, or of nothing.
 *
 * A spring opens bends as their moments have it: each by its corner's distance from the line through both ends, all in
 * the same measure, which is found together with the place (`bestChange`). What the straights bow by themselves is
 * left out of the shape, not of the force.
 */
export function springInto(shape: BarShape, wanted: Wanted, freedom: Freedom): Sprung | undefined {
  const arms = armsOf(lineOf(shape, startOf(wanted.bar.centreline)));
  const longest = Math.max(0, ...arms);
  if (!(longest > 0)) return undefined;
  const sprung = ([by = 0]: readonly number[]): BarShape => ({
    ...shape,
    // biome-ignore lint/style/noNonNullAssertion: the line laid has an arm for each bend of the shape
    angles: shape.angles.map((a, i) => a + (rad(by) * arms[i]!) / longest),
  });
  const found = bestChange(sprung, 1, wanted, freedom);
  if (!found) return undefined;
  const placed = placeBar(sprung(found), wanted, freedom);
  if (!placed) return undefined;
  const { centreline, ...bar } = placed.bar;
  const free = lineOf({ ...shapeOf(centreline), angles: shape.angles }, startOf(centreline));
  const by = dist(centreline.start, centreline.finish) - dist(free.start, free.finish);
  const force = springForce(centreline, bar.tube, by);
  const { least, most } = BY_HAND;
  const isByHand = Math.abs(by) >= least && Math.abs(by) <= most && force <= TWO_HANDS;
  return isByHand ? { by, force, placed } : undefined;
}

/** How far each bend's corner lies from the line through both ends. */
function armsOf(line: Centreline): readonly number[] {
  const pull = sub(line.finish, line.start);
  if (!(len(pull) > NO_LENGTH)) return line.bends.map(() => 1);
  const along = unit(pull);
  return line.bends.map((b) => len(rejection(sub(b.corner, line.start), along)));
}
