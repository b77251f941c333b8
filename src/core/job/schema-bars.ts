import * as z from "zod";
import { allowance, byId, direction, label, length, must, strict } from "./fields.ts";
import { node } from "./kinds/index.ts";
import { NEEDS, PROGRESS } from "./types.ts";

const follow = strict({
  bar: z.string().describe("ID of the bar that is followed."),
  gap: allowance().describe("Gap between both bars, face to face."),
  side: z
    .union([z.enum(["inside", "outside"]), direction], must("side-is"))
    .describe("Side of the other bar: inside or outside of its bends, or a direction."),
  from: length()
    .optional()
    .describe("Where the run begins, along the other bar from its end A. Negative: from its end B."),
  to: length()
    .optional()
    .describe("Where the run ends, along the other bar from its end A. Negative: from its end B."),
});

const notchAngle = z.number().min(0).lt(90);

const believed = z.union(
  [notchAngle, z.tuple([notchAngle, notchAngle], must("from-to"))],
  must("notch-angle-is"),
);

const either = {
  label: label().optional().describe("What people call the bar. Without it the ID."),
  trim: strict({
    A: allowance().optional().describe("Allowance at end A."),
    B: allowance().optional().describe("Allowance at end B."),
  })
    .optional()
    .describe("Tube left on an end before notching. Without it what the shop leaves."),
  fromEnd: z.enum(["A", "B"]).optional().describe("End that the bender feeds from. Without it A."),
  believed: strict({
    A: believed
      .optional()
      .describe("Notch angle believed at end A: one angle, or [from, to] (degrees off square)."),
    B: believed
      .optional()
      .describe("Notch angle believed at end B: one angle, or [from, to] (degrees off square)."),
  })
    .optional()
    .describe("Notch angles to begin with, where the car does not give them yet."),
  progress: z.enum(PROGRESS).optional().describe("Last step that is done on the bar. Without it laid out."),
  needs: z.enum(NEEDS).optional().describe("What must hold while the bar goes in."),
};

const mirrorBar = strict(
  { mirrorOf: z.string().describe("ID of the bar on the other side of the car."), ...either },
  "mirror-keys",
);

const pathBar = strict({
  ...either,
  tube: z.string().describe("ID of the tube."),
  die: z.string().optional().describe("ID of the die. A bar with bends needs one."),
  path: z.array(node).min(2).describe("End A, the corners, end B."),
  follow: follow.optional().describe("The bar that this one runs beside. It gives the corners."),
});

export const bars = byId(z.union([mirrorBar, pathBar], must("bar-is")));

export type FileBar = z.output<typeof bars>[string];
