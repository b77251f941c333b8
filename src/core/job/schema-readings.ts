import * as z from "zod";
import { allowance, length, must, size, strict } from "./fields.ts";

const over = z.enum(["outside", "inside", "centre"]);

const onTube = strict({
  bar: z.string(),
  along: length(),
  over: over.optional(),
  bead: allowance().optional(),
});

const onCorner = strict({ bar: z.string(), bend: z.int().min(1) });

const tapeEnd = z.union([z.string(), onTube, onCorner], must("tape-end-is"));

const twoPoints = z.tuple([z.string(), z.string()], must("two-points"));

const any = { struck: z.boolean().optional(), note: z.string().optional() };
const inMm = { ...any, sd: size().optional() };
const inDegrees = { ...any, sd: z.number().gt(0).max(180).optional() };

const reading = z.union(
  [
    strict({
      tape: z.tuple([tapeEnd, tapeEnd], must("two-ends")),
      length: size(),
      over: over.optional(),
      ...inMm,
    }),
    strict({ height: z.string(), z: length(), ...inMm }),
    strict({ out: z.string(), y: length(), ...inMm }),
    strict({ fore: z.string(), x: length(), ...inMm }),
    strict({ level: twoPoints, ...inMm }),
    strict({ plumb: twoPoints, ...inMm }),
    strict({ slope: twoPoints, angle: z.number().min(-90).max(90), ...inDegrees }),
    strict({ lean: z.enum(["along", "across"]), angle: z.number().min(-45).max(45), ...inDegrees }),
  ],
  must("reading-is"),
);

export const readings = z.array(reading);

export type FileReading = z.output<typeof reading>;
export type FileTapeEnd = z.output<typeof tapeEnd>;
