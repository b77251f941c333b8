import * as z from "zod";
import {
  allowance,
  diameter,
  direction,
  examples,
  length,
  must,
  name,
  place,
  size,
  strict,
} from "./fields.ts";

/** What bars are made of and with, and where they begin: tubes, dies, plates, points. */

export const tube = strict({
  od: diameter().describe("Outside diameter of the tube."),
  wall: size(500).describe("Wall thickness."),
  material: name().optional().describe("What the tube is made of, as the shop calls it."),
  stick: size().optional().describe("Length of a stick as bought."),
  example: examples("od", "wall"),
});

const dieTest = strict({
  set: z.number().gt(0).max(360).describe("Angle set on the bender (degrees)."),
  got: z.number().gt(0).max(360).describe("Angle measured on the bent tube (degrees)."),
  legs: z
    .tuple([size(), size()], must("lengths-AB"))
    .optional()
    .describe("Outside legs A and B: from the square end to where the outer lines of both legs meet."),
  stick: size().optional().describe("Length of the test piece before bending."),
});

export const die = strict({
  od: diameter().describe("Outside diameter of the tube that the die takes."),
  clr: size().describe("Centreline radius of the bend."),
  clamp: allowance().optional().describe("Straight tube that the clamp needs before the first bend."),
  between: allowance().optional().describe("Straight tube that is needed between two bends."),
  tail: allowance().optional().describe("Straight tube that is needed after the last bend."),
  maxAngle: z.number().gt(0).max(360).optional().describe("Greatest angle that the die bends (degrees)."),
  mark: length()
    .optional()
    .describe(
      "From the start of the bend to the mark. Positive: away from the end that is fed first. Without it 0.",
    ),
  arcFactor: z
    .number()
    .gt(0)
    .max(2)
    .optional()
    .describe("Tube that a bend takes, against the arc of its centreline. Without it 1."),
  springback: strict({
    k: z.number().gt(0).max(2).describe("Factor k in: angle got = k × angle set + c."),
    c: z.number().min(-90).max(90).describe("Constant c in: angle got = k × angle set + c (degrees)."),
  })
    .optional()
    .describe("Springback as known. Without it the test bends give it."),
  tests: z.array(dieTest).optional().describe("Test bends made with this die."),
  example: examples("od", "clr", "clamp", "between", "tail"),
});

export const plate = strict({
  at: place.describe("Place on the face that the bar stands on: forward, left, up."),
  normal: direction.describe("Direction square to the plate, toward the bar."),
  thickness: size().optional().describe("Thickness of the plate."),
  size: z
    .tuple([size(), size()], must("two-lengths"))
    .optional()
    .describe("Both sides of the plate. Without it the plate is as large as the bar on it needs."),
  along: direction
    .optional()
    .describe("Direction of the first of both sides. Without it the plate counts as a disc."),
  example: examples("at", "normal", "thickness"),
});

const threeAllowances = z.tuple([allowance(), allowance(), allowance()], must("three-errors"));

export const point = z.union(
  [
    place,
    strict({
      at: place
        .optional()
        .describe("Place of the point: forward, left, up. Without it the point is unknown."),
      sd: z
        .union([allowance(), threeAllowances], must("sd-is"))
        .optional()
        .describe("What the place may be off by, one standard deviation: one length, or one for each axis."),
    }),
  ],
  must("point-is"),
);
