import * as z from "zod";
import { allowance, length, must, size, strict, tapeZero } from "./fields.ts";

const over = z.enum(["outside", "inside", "centre"]);

const onTube = strict({
  bar: z.string().describe("ID of the bar that the tape was held on."),
  along: length().describe("Along that bar from its end A. Negative: from its end B."),
  over: over
    .optional()
    .describe("Side of the tube where the tape's mark was read: outside, inside or centre."),
  bead: allowance().optional().describe("Anything between tube and tape, such as a weld bead. Without it 0."),
});

const onCorner = strict({
  bar: z.string().describe("ID of the bar that the tape was held on."),
  bend: z.int().min(1).describe("Bend whose outer lines meet at the tape, counted from end A."),
});

const tapeEnd = z.union([z.string(), onTube, onCorner], must("tape-end-is"));

const twoPoints = z.tuple([z.string(), z.string()], must("two-points"));

const any = {
  struck: z.boolean().optional().describe("Struck through: the reading is kept and does not count."),
  note: z.string().optional().describe("Note beside the reading."),
};
const description =
  "Error of this reading, one standard deviation. Without it what the shop gives for its kind.";
const inMm = { ...any, sd: size().optional().describe(description) };
const inDegrees = { ...any, sd: z.number().gt(0).max(180).optional().describe(`${description} In degrees.`) };

const reading = z.union(
  [
    strict({
      tape: z
        .tuple([tapeEnd, tapeEnd], must("two-ends"))
        .describe("Both ends of the tape: points, or places on bars."),
      length: size().describe("Length read on the tape."),
      mark: tapeZero(),
      over: over
        .optional()
        .describe("Side of a tube where the tape's mark was read, for both ends. Without it outside."),
      ...inMm,
    }),
    strict({
      height: z.string().describe("ID of the point whose height was read."),
      z: length().describe("Height over the level floor or table."),
      ...inMm,
    }),
    strict({
      out: z.string().describe("ID of the point that was read out from the centre."),
      y: length().describe("Out from the centre plane. Positive: to the left."),
      ...inMm,
    }),
    strict({
      fore: z.string().describe("ID of the point that was read forward."),
      x: length().describe("Forward of the car's zero."),
      ...inMm,
    }),
    strict({ level: twoPoints.describe("Two points at one height."), ...inMm }),
    strict({ plumb: twoPoints.describe("Two points, one plumb over the other."), ...inMm }),
    strict({
      slope: twoPoints.describe("Two points whose line was read, from the first to the second."),
      angle: z.number().min(-90).max(90).describe("Angle of that line up from level (degrees)."),
      ...inDegrees,
    }),
    strict({
      lean: z
        .enum(["along", "across"])
        .describe("Line of the shell that was read: along the car, or across from right to left."),
      angle: z
        .number()
        .min(-45)
        .max(45)
        .describe("Angle from level (degrees). Positive: the front, or the left side, is higher."),
      ...inDegrees,
    }),
  ],
  must("reading-is"),
);

export const readings = z.array(reading);

export type FileReading = z.output<typeof reading>;
export type FileTapeEnd = z.output<typeof tapeEnd>;
