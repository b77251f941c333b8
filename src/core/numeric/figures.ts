import { deg, rad, wrapPi } from "./angle.ts";

/** Figures of a card that differ by less are the same: mm and degrees. The design's. */
const SAME_FIGURE = 0.05;

/** Whether a card would say the same of both: lengths in mm, or angles in degrees. */
export const isSameFigure = (a: number, b: number): boolean => Math.abs(a - b) < SAME_FIGURE;

/** The same of turns and clocks in degrees: 180 is -180. */
export const isSameTurn = (a: number, b: number): boolean => isSameFigure(deg(wrapPi(rad(a - b))), 0);
