/**
 * The one home of computing tolerances. Lengths in mm, angles in radians; none is ever applied to a squared
 * quantity. Shop tolerances (the gap accepted at a joint, trim) are job values and do not live here.
 */

/** Two places closer than this are one place, a corner or station within it of a limit is on the limit (mm). */
export const SAME_PLACE = 0.001;

/** A wall line that passes a host by less than this touches it at its closest approach: it grazes (mm). */
export const GRAZE = 0.001;

/** A corner that turns less than this is no bend (0.001 degree, in radians). */
export const NO_BEND = (0.001 * Math.PI) / 180;

/** A corner that turns less than this is too small to make, whatever the shop (½ degree, in radians). */
export const LEAST_BEND = (0.5 * Math.PI) / 180;

/** A root along a wall line is refined until it moves less than this (mm): a ten-thousandth of what a shop can see. */
export const ROOT = 1e-9;

/** Below this length a vector has no direction (mm). */
export const NO_LENGTH = 1e-9;
