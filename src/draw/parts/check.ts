import { PRINTED } from "../../words/index.ts";
import { group, line, rectangle, text } from "../build.ts";
import type { Mark, Point } from "../types.ts";
import { paragraph } from "./paragraph.ts";

/** 4 in, exactly (the inch is 25.4 mm by definition, ISO 80000-3). */
const FOUR_INCHES = 101.6;
const SIDE = 100;

/** Room that the check square takes to the right of and below its `at`, mm. */
export const CHECK_SQUARE = 106;

/** Width of a check rule square to its length, mm. */
export const CHECK_RULE = 9;

/**
 * A square of 100 mm to check the printer by, and marks at 4 in from the same corner, along both sides;
 * `at` is its top left corner. Distances are between the middles of the lines.
 */
export function checkSquare(at: Point): Mark[] {
  const past = FOUR_INCHES + 1.5;
  return [
    group(
      "check square",
      [
        rectangle({ x: 0, y: 0, width: SIDE, height: SIDE }, "narrow"),
        line([SIDE, 0], [past, 0], "narrow"),
        line([0, SIDE], [0, past], "narrow"),
        line([FOUR_INCHES, 0], [FOUR_INCHES, 8], "narrow"),
        line([0, FOUR_INCHES], [8, FOUR_INCHES], "narrow"),
        text([2, 4.5], "0", 2.5, { bold: true }),
        text([SIDE - 2, 4.5], "100 mm →", 2.5, { anchor: "end" }),
        text([4.5, SIDE - 2], "← 100 mm", 2.5, { rotate: -90 }),
        text([FOUR_INCHES + 4, 1], "4 in", 2.5, { anchor: "end", rotate: -90 }),
        text([1, FOUR_INCHES + 3.8], "4 in", 2.5),
        ...paragraph([20, 40], 60, PRINTED.check, { size: 2.5 }).marks,
      ],
      { at },
    ),
  ];
}

/** 100 mm and 4 in along one line from `at`, to the right ("across") or downward ("down"); 9 mm wide. */
export function checkRule(at: Point, way: "across" | "down"): Mark[] {
  const middle = CHECK_RULE / 2;
  const marks: Mark[] = [
    line([0, middle], [FOUR_INCHES, middle], "narrow"),
    line([0, 0.5], [0, 8.5], "narrow"),
  ];
  for (let tick = 1; tick <= 10; tick++)
    marks.push(
      line([10 * tick, middle], [10 * tick, middle - (tick === 10 ? 4 : tick === 5 ? 2 : 1)], "narrow"),
    );
  for (let inch = 1; inch <= 4; inch++)
    marks.push(line([25.4 * inch, middle], [25.4 * inch, middle + (inch === 4 ? 4 : 1)], "narrow"));
  marks.push(text([98.5, middle - 1.6], "100 mm", 2, { anchor: "end" }));
  marks.push(text([99.5, middle + 3.6], "4 in", 2, { anchor: "end" }));
  // the upright rule starts at its foot, so that its words read from the right-hand side of the sheet
  const placed = way === "across" ? { at } : { at: [at[0], at[1] + FOUR_INCHES] as const, rotate: -90 };
  return [group("check rule", marks, placed)];
}
