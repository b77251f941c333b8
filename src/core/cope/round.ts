import { sinCosDeg } from "../numeric/index.ts";

/** Lines round an end, one a degree. */
export const LINES = 360;

/** Sine and cosine of each. */
export const ROUND: readonly (readonly [number, number])[] = Array.from({ length: LINES }, (_, i) =>
  sinCosDeg(i),
);
