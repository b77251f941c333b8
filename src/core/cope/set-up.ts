// biome-ignore-all lint/style/noNonNullAssertion: φ runs below LINES, the length of every curve and of the lines; the outside wall is the first of two.
import { deg, GRAZE, goldenLeast, rad, sinCosDeg, wrapPi } from "../numeric/index.ts";
import { LINES } from "./round.ts";
import { cutLines, FEATHER, ROUND, type SawCut, type SawFit, type Settled } from "./saw.ts";

/** The radii of a tube's two walls (mm): outside, bore. */
export type Radii = readonly [number, number];

/** A joint as cuts are tried in it, in the end's axes (mm). */
export interface TrueSeat {
  readonly radii: Radii;
  /** Back at which a wall line at radius ρ, φ (cos, sin) meets what the bar lands on; NaN where it misses. */
  readonly back: (rho: number, cos: number, sin: number) => number;
  /** Distance from a place to the outside of what the bar lands on; negative inside it. */
  readonly clear: (x: number, y: number, z: number) => number;
  /** Whether metal up to a feather, square to the host, is in nobody's way: so where the final cut is not exact. */
  readonly feathers: boolean;
}

/** How a cut sits in a joint (mm, φ in degrees from the heel). */
export interface Misfit {
  /** How far the bar stands off its place, along its axis. */
  readonly standsOff: number;
  /** Greatest gap at the outside, square to the host as a feeler reads it, and where. */
  readonly gap: number;
  readonly gapAt: number;
}

/** On which side of a notch the greatest gap is. */
export const gapSide = ({ gapAt }: Misfit): "heel" | "toe" | "flank" => {
  const off = Math.abs(deg(wrapPi(rad(gapAt))));
  return off < 45 ? "heel" : off > 135 ? "toe" : "flank";
};

/** Lines reckoned from the heel, so that heel and toe are among them. */
export const FROM_HEEL = Array.from({ length: LINES }, (_, i) => sinCosDeg(i));

/** Step along a wall line for how squarely it meets the host (mm). */
const STEP = 1e-4;

/**
 * Sine of the angle at which the wall line at (x, y) meets the host at `back`: how fast the clearance falls along it. A
 * line that only grazes is met at its closest approach, where it is still clear by a little: that is no slope.
 */
export const squareness = (clear: TrueSeat["clear"], x: number, y: number, back: number): number =>
  Number.isNaN(back)
    ? Number.NaN
    : Math.min(1, Math.max(1e-9, (clear(x, y, -back - STEP) - clear(x, y, -back)) / STEP));

/**
 * How cuts with the heel at `clock` sit when the bar is pushed home along its own axis until it touches: at the line
 * of either wall where most metal stands in front of the host.
 *
 * Stands off = greatest over φ and both walls of b(joint) − b(cut); so a cut whose hole stands outboard by o stands
 * off by what it would with the hole in its place, plus o. The gap is then the distance from the cut edge of the
 * outside to the host's surface (geometry.md: square to the host, like every other gap). Lines that miss the host count
 * for nothing: the joint is open there whatever the cut. Accuracy: standing off 1e-6 mm, the gap 0.001 (a line a degree).
 */
export function setUpIn(seat: TrueSeat, clock: number): (cut: SawCut) => Misfit {
  const stops = (rho: number, x: number, y: number): number => {
    const back = seat.back(rho, x, y);
    return seat.feathers ? back - FEATHER / squareness(seat.clear, rho * x, rho * y, back) : back;
  };
  const turned = (phi: number): readonly [number, number] => [Math.cos(clock + phi), Math.sin(clock + phi)];
  const lines = FROM_HEEL.map((_, phi) => turned(rad(phi)));
  const walls = seat.radii.map((rho) => ({ rho, stops: lines.map(([x, y]) => stops(rho, x, y)) }));
  return (cut) => {
    const cutAt = cutLines(cut, seat.feathers ? FEATHER : GRAZE);
    const edgesOf = (rho: number): number[] => lines.map(([x, y]) => cutAt(rho, x, y));
    const standsOff = Math.max(
      ...walls.map((wall) => {
        const edges = edgesOf(wall.rho);
        const stand = wall.stops.map((back, i) => back - edges[i]!);
        return greatestRound(stand, (phi) => {
          const [x, y] = turned(phi);
          return stops(wall.rho, x, y) - cutAt(wall.rho, x, y);
        });
      }),
    );
    const [outer] = walls;
    let [gap, gapAt] = [0, 0];
    edgesOf(outer!.rho).forEach((edge, phi) => {
      if (Number.isNaN(edge + outer!.stops[phi]!)) return;
      const [x, y] = lines[phi]!;
      const open = seat.clear(outer!.rho * x, outer!.rho * y, -(edge + standsOff));
      if (open > gap + NO_GAP) [gap, gapAt] = [open, phi];
    });
    return { standsOff, gap, gapAt };
  };
}

/**
 * The greatest of a function round the tube (φ radians), of which the values at the 360 lines are given; NaN where it
 * has none. Each line that its neighbours do not exceed is searched on both sides: beside a line that misses, a curve
 * changes ever more steeply, so that the greatest may stand at the very edge.
 */
export function greatestRound(at: readonly number[], f: (phi: number) => number): number {
  const low = (value: number): number => (Number.isNaN(value) ? Infinity : -value);
  let least = Infinity;
  for (let i = 0; i < LINES; i++) {
    const here = low(at[i]!);
    const [before, after] = [low(at[(i + LINES - 1) % LINES]!), low(at[(i + 1) % LINES]!)];
    if (here === Infinity || here > before || here > after) continue;
    const phi = goldenLeast((degrees) => low(f(rad(degrees))), i - 1, i + 1, 1e-6);
    least = Math.min(least, here, low(f(rad(phi))));
  }
  return -least;
}

/** Distances this small are rounding, no gap (mm). */
const NO_GAP = 1e-9;

/** The gaps that a settled cut leaves round the outside when the bar is pushed home unfiled; none where it is exact. */
export function withGaps(fit: Settled, seat: TrueSeat, outer: Float64Array): SawFit {
  const cutAt = cutLines(fit.cut, FEATHER);
  const exact = fit.most === 0 && fit.standsOff === 0;
  let [gap, gapAt] = [0, 0];
  const gaps = outer.map((back, phi) => {
    const [c, s] = ROUND[phi]!;
    const rho = seat.radii[0];
    const edge = cutAt(rho, c, s);
    if (Number.isNaN(back) || Number.isNaN(edge)) return Number.NaN;
    const open = exact ? 0 : Math.max(0, seat.clear(rho * c, rho * s, -(edge + fit.standsOff)));
    if (open > gap) [gap, gapAt] = [open, phi];
    return open;
  });
  return { ...fit, gaps, gap, gapAt };
}

/** What a settled cut shows, as a step of a plan does: φ from its heel. */
export const showsOf = ({ cut, standsOff, gap, gapAt }: SawFit): Misfit => ({
  standsOff,
  gap,
  gapAt: gap === 0 ? 0 : (((gapAt - deg(wrapPi(cut.clock))) % 360) + 360) % 360,
});
