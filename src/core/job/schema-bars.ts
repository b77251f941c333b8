import * as z from "zod";
import { allowance, byId, direction, label, length, strict } from "./fields.ts";
import { node } from "./kinds/index.ts";
import { NEEDS, PROGRESS } from "./types.ts";

const follow = strict({
  bar: z.string(),
  gap: allowance(),
  side: z.union([z.enum(["inside", "outside"]), direction], {
    error: "side is inside, outside or a direction [x, y, z]",
  }),
  from: length().optional(),
  to: length().optional(),
});

const notchAngle = z.number().min(0).lt(90);

const believed = z.union([notchAngle, z.tuple([notchAngle, notchAngle], { error: "must be [from, to]" })], {
  error: "a notch angle is degrees off square, or [from, to]",
});

const either = {
  label: label().optional(),
  trim: strict({ A: allowance().optional(), B: allowance().optional() }).optional(),
  fromEnd: z.enum(["A", "B"]).optional(),
  believed: strict({ A: believed.optional(), B: believed.optional() }).optional(),
  progress: z.enum(PROGRESS).optional(),
  needs: z.enum(NEEDS).optional(),
};

const mirrorBar = strict(
  { mirrorOf: z.string(), ...either },
  "a mirrored bar takes everything else from its original; beside mirrorOf only {known} may stand",
);

const pathBar = strict({
  ...either,
  tube: z.string(),
  die: z.string().optional(),
  path: z.array(node).min(2),
  follow: follow.optional(),
});

export const bars = byId(
  z.union([mirrorBar, pathBar], { error: "a bar has a tube and a path, or is the mirrorOf another" }),
);

export type FileBar = z.output<typeof bars>[string];
