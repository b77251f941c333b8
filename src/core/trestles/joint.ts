import { type SawCut, sawBack } from "../cope/index.ts";
import { sinCosDeg } from "../numeric/index.ts";
import { along, sub, turn, UP, type Vec } from "../space/index.ts";

/**
 * A joint as it was figured, in its end's axes (x along the zero line, y a quarter turn on, z outward, origin at the
 * landing; mm).
 */
export interface FiguredJoint {
  /** The saw cut that the job asks for at this end. */
  readonly cut: SawCut;
  /** Distance (mm) from a place to the outside of what the bar lands on; negative inside it. */
  readonly clear: (p: Vec) => number;
  /** OD/2 and OD/2 − wall (mm). */
  readonly radii: readonly [number, number];
}

/** How a joint really is: the saw's axis would have to lie so to seat (radians, mm as in SawCut), and the bar stands off. */
export interface TrueJoint {
  readonly notch: number;
  readonly clock: number;
  readonly offset: number;
  /** How far the bar stands back from its place along its own axis (mm). */
  readonly standsOff: number;
}

/** cos and sin every degree round a tube. */
export const RIM: readonly (readonly [number, number])[] = Array.from({ length: 360 }, (_, i) => {
  const [sin, cos] = sinCosDeg(i);
  return [cos, sin] as const;
});

/** Where the edge that `made` cut at radius ρ lies in the end's axes while the bar stands off (mm); undefined where nothing was cut. */
export function edgeAt(
  made: SawCut,
  rho: number,
  cos: number,
  sin: number,
  standsOff: number,
): Vec | undefined {
  const back = sawBack(made, rho, cos, sin);
  return Number.isNaN(back) ? undefined : [rho * cos, rho * sin, -back - standsOff];
}

/**
 * The distance to what the bar lands on, once that is moved from where it was figured to where it really is.
 *
 * The host as a whole is moved as the saw's axis is from `cut` to the true one: leaned about the node square to bar
 * and host, turned about the bar, shifted aside. On a straight host that is every way in which it can differ; a bent
 * one may also be slid along itself, which is not looked for.
 */
export function trueClearance({ cut, clear }: FiguredJoint, real: TrueJoint): (p: Vec) => number {
  const node: Vec = [0, 0, -cut.centre];
  const aside: Vec = [-Math.sin(cut.clock), Math.cos(cut.clock), 0];
  const lean = real.notch - cut.notch;
  const roll = real.clock - cut.clock;
  const shift = real.offset - cut.offset;
  return (p) => {
    const unrolled = turn(sub(p, node), UP, -roll);
    const upright = turn(along(along(unrolled, aside, -shift), aside, -cut.offset), aside, -lean);
    return clear(along(along(upright, aside, cut.offset), [0, 0, 1], node[2]));
  };
}
