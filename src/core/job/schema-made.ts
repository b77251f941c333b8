import * as z from "zod";
import { allowance, length, must, size, strict } from "./fields.ts";

/** Readings of one bar as it was made: bent on the trestles, tacked in the car, gaps round a seated joint. */

const any = { struck: z.boolean().optional(), note: z.string().optional() };
const end = z.enum(["A", "B"]);
const bend = z.int().min(1);

const bent = z.discriminatedUnion("what", [
  strict({ what: z.literal("end-to-end"), size: size(), ...any }),
  strict({ what: z.literal("leg"), end, size: size(), ...any }),
  strict({ what: z.literal("across"), legs: z.tuple([bend, bend]), size: size(), ...any }),
  strict({ what: z.literal("off-flat"), bend, end, size: length(), ...any }),
  strict({ what: z.literal("angle"), bend, angle: z.number().min(0).max(180), ...any }),
]);

/** A point of the job, or a tube at a station of its centreline (negative: from its B end). */
const spot = z.union([z.string(), strict({ bar: z.string(), along: length() })], must("spot-is"));

const over = z.enum(["outside", "inside", "centre"]).optional();

const tacked = z.discriminatedUnion("what", [
  strict({ what: z.literal("tape"), from: spot, to: spot, over, size: size(), ...any }),
  strict({ what: z.literal("height"), of: spot, over, size: length(), ...any }),
  strict({ what: z.literal("out"), of: spot, over, size: length(), ...any }),
  strict({ what: z.literal("fore"), of: spot, over, size: length(), ...any }),
]);

/** Gaps felt with the cut that was made: angle off square, turned and moved outboard against the one figured. */
const gaps = strict({
  cut: z.number().min(0).max(85),
  roll: z.number().min(-180).max(180).optional(),
  outboard: length().optional(),
  read: z.array(strict({ phi: z.number().min(-360).max(360), gap: allowance(), ...any })),
});

/** The card that was given out before this bar's hosts were read anew: why it no longer holds, and what it said. */
const stale = strict({ why: z.string(), blank: size().optional() });

export const made = strict({
  bent: z.array(bent).optional(),
  tacked: z.array(tacked).optional(),
  gaps: strict({ A: gaps.optional(), B: gaps.optional() }).optional(),
  stale: stale.optional(),
});

export type FileMade = z.output<typeof made>;
