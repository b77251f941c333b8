import * as z from "zod";
import { allowance, name, strict } from "./fields.ts";
import { SET_UP } from "./types.ts";

/** How the car was made ready before it was measured. */

const doorGap = strict({
  at: name().describe("Place of the gap on the car."),
  when: z
    .enum(["before", "after"])
    .describe("Before anything was taken out, or after: on its supports, stripped or tacked."),
  gap: allowance().describe("Width of the gap as read."),
  struck: z.boolean().optional().describe("Struck through: the reading is kept and does not count."),
  note: z.string().optional().describe("Note beside the reading."),
});

export const setUp = strict({
  done: z
    .array(z.enum(SET_UP))
    .optional()
    .describe(
      "What was ticked off before measuring: taken out, supported under its suspension points, levelled.",
    ),
  doorGaps: z
    .array(doorGap)
    .optional()
    .describe("Gaps round doors and lids, in the order in which they were read."),
});
