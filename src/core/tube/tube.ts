import type { Tube } from "../job/types.ts";
import { isSameFigure } from "../numeric/index.ts";

/**
 * A tube's size as all other rooms ask for it. Only this room, and those that shape the tube itself (cope, mesh, bend),
 * know that a section is round; for all of these a round tube is the same all round.
 */
type Outside = Pick<Tube, "od">;
export type Walls = Pick<Tube, "od" | "wall">;

/** From outside to outside, square across (mm). */
export const extent = (tube: Outside): number => tube.od;

/** From the centreline to the outside (mm). */
export const halfExtent = (tube: Outside): number => tube.od / 2;

/**
 * Once round the outside (mm), or round a sheet of `thickness` (mm) laid about it: its middle layer lies half a
 * thickness farther out, so π(OD + t).
 */
export const girth = (tube: Outside, thickness = 0): number => Math.PI * (tube.od + thickness);

/** Round the outside by an angle about the centreline (radians), as a length (mm). */
export const arcRound = (tube: Outside, angle: number): number => (angle * tube.od) / 2;

/** A tube's size as it is printed and told from others by: outside diameter and wall (mm). */
interface Size {
  readonly od: number;
  readonly wall: number;
}

export const sizeOf = ({ od, wall }: Walls): Size => ({ od, wall });

/** Whether one tube serves for the other: the same size on a card, and of the same material. */
export const sameTube = (a: Walls & Pick<Tube, "material">, b: Walls & Pick<Tube, "material">): boolean =>
  isSameFigure(a.od, b.od) && isSameFigure(a.wall, b.wall) && (a.material ?? "") === (b.material ?? "");
