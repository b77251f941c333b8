import * as z from "zod";
import { allowance, diameter, examples, size, strict } from "./fields.ts";

/** The shop: its bender, its notcher, what it accepts and gets wrong. */

export const bender = strict({
  height: size().optional().describe("Height of the tube over the floor in the bender."),
  turnSide: z
    .enum(["left", "right"])
    .optional()
    .describe(
      "Side to which the die bends, seen from the tail along the tube toward the die. Without it left.",
    ),
});

const deviation = () => z.number().min(0).max(180).optional();

export const shop = strict({
  gap: allowance().optional().describe("Widest gap at a joint that the welder accepts. Without it 1 mm."),
  trim: allowance()
    .optional()
    .describe("Allowance at each end of a bar that gives none of its own. Without it 0."),
  example: examples("trim"),
  kerf: allowance().optional().describe("Width of the cut of the saw. Without it 3 mm."),
  torch: strict({
    od: diameter().describe("Greatest diameter of the part of the torch that must get to the joint."),
    length: size().describe("Length of that part, from the tip of the nozzle."),
  })
    .optional()
    .describe("The torch that must get to every joint."),
  errors: strict({
    mark: allowance().optional().describe("Error of a mark on the tube. Without it 1 mm."),
    angle: deviation().describe("Error of a bend's angle (degrees). Without it 0.5°."),
    turn: deviation().describe("Error of a turn between bends (degrees). Without it 1°."),
    tape: allowance().optional().describe("Error of a length by tape. Without it 1 mm."),
    slope: deviation().describe("Error of a slope by angle finder (degrees). Without it 0.2°."),
    height: allowance()
      .optional()
      .describe("Error of a height, or of a measure out from the centre or forward. Without it 1 mm."),
    level: allowance().optional().describe("Error of two points called level. Without it 1 mm."),
    plumb: allowance().optional().describe("Error of two points called plumb. Without it 1 mm."),
  })
    .optional()
    .describe("What this shop's work and readings may be off by, each as one standard deviation."),
});

export const notcher = strict({
  saws: z.array(diameter()).optional().describe("Diameters of the hole saws in the shop."),
  steepest: z
    .number()
    .gt(0)
    .lt(90)
    .optional()
    .describe("Steepest angle that the notcher cuts (degrees off square)."),
  wrapBeyond: allowance()
    .optional()
    .describe("Gap beyond which the card says to use the wrap. Without it the gap that the shop accepts."),
});
