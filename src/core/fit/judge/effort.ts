import type { Effort } from "./judged.ts";

/**
 * How hard to look for a bar's way, unless told otherwise: so many poses for one way, and no more springing than a few
 * millimetres by hand. What runs against a clock gives its own `stop`.
 */
export const EFFORT: Effort = { seed: 1, nodes: 3000, most: 5, stop: () => false };
