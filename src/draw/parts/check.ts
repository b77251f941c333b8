import type { Mark, Point } from "../types.ts";

/** Room that the check square takes to the right of and below its `at`, mm. */
export const CHECK_SQUARE = 106;

/** 100 mm square to check the printer by, with marks at 4 in from the same corner, both ways; `at` its top left corner. */
export function checkSquare(_at: Point): Mark[] {
  throw new Error("being written");
}

/** 100 mm and 4 in along one line from `at`, to the right ("across") or downward ("down"); 6 mm wide. */
export function checkRule(_at: Point, _way: "across" | "down"): Mark[] {
  throw new Error("being written");
}
