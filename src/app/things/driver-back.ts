import { rad } from "../../core/numeric/index.ts";

type Place = readonly [number, number, number];

/**
 * A place along the driver's back.
 *
 * Units: mm, degrees. Convention: car axes; the back leans rearward, `angle` is from the floor up to its line (90:
 * upright), `along` from the hip on that line. Formula: hip + along·(−cos angle, 0, sin angle), to a tenth of a millimetre.
 */
export function alongBack(hip: Place, angle: number, along: number): Place {
  const tenth = (x: number): number => Math.round(x * 10) / 10 + 0;
  return [
    tenth(hip[0] - along * Math.cos(rad(angle))),
    tenth(hip[1]),
    tenth(hip[2] + along * Math.sin(rad(angle))),
  ];
}
