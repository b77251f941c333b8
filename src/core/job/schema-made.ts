import * as z from "zod";
import { allowance, length, must, place, size, strict, tapeZero } from "./fields.ts";
import { madeTo } from "./schema-to.ts";
import { PROGRESS } from "./types.ts";

/** Readings of one bar as it was made: bent on the trestles, tacked in the car, gaps round a seated joint. */

const any = {
  struck: z.boolean().optional().describe("Struck through: the reading is kept and does not count."),
  note: z.string().optional().describe("Note beside the reading."),
};
const end = z.enum(["A", "B"]).describe("End of the bar.");
const bend = z.int().min(1).describe("Bend, counted from end A.");
const leg = z.int().min(1);

const bent = z.discriminatedUnion("what", [
  strict({
    what: z
      .literal("end-to-end")
      .describe("Straight across, from the centre of one sawn end to the centre of the other."),
    size: size().describe("Length read."),
    ...any,
  }),
  strict({
    what: z
      .literal("leg")
      .describe("From a sawn end to where the outer lines of both legs of the next bend meet."),
    end,
    size: size().describe("Length read."),
    ...any,
  }),
  strict({
    what: z
      .literal("across")
      .describe("Across from leg to leg, outside to outside, square where the later leg begins."),
    legs: z.tuple([leg, leg]).describe("Both legs, counted from end A."),
    size: size().describe("Length read."),
    ...any,
  }),
  strict({
    what: z
      .literal("off-flat")
      .describe("Height of the underside of a sawn end, with both legs of a bend on a flat table."),
    bend,
    end,
    size: length().describe("Height read."),
    ...any,
  }),
  strict({
    what: z.literal("angle").describe("Angle of a bend, by angle finder on both legs."),
    bend,
    angle: z.number().min(0).max(180).describe("Angle read (degrees)."),
    ...any,
  }),
]);

/** A point of the job, or a tube at a station of its centreline (negative: from its B end). */
const spot = z.union(
  [
    z.string(),
    strict({
      bar: z.string().describe("ID of the bar that was measured."),
      along: length().describe("Along that bar from its end A. Negative: from its end B."),
    }),
  ],
  must("spot-is"),
);

const over = z
  .enum(["outside", "inside", "centre"])
  .optional()
  .describe("Side of the tube where the reading was taken: outside, inside or centre. Without it outside.");

const measured = spot.describe("What was measured: a point, or a place on a bar.");

const tacked = z.discriminatedUnion("what", [
  strict({
    what: z.literal("tape").describe("Length by tape."),
    from: spot.describe("One end of the tape: a point, or a place on a bar."),
    to: spot.describe("Other end of the tape: a point, or a place on a bar."),
    over,
    size: size().describe("Length read on the tape."),
    mark: tapeZero(),
    ...any,
  }),
  strict({
    what: z.literal("height").describe("Height over the floor or table."),
    of: measured,
    over,
    size: length().describe("Height read."),
    ...any,
  }),
  strict({
    what: z.literal("out").describe("Out from the centre plane."),
    of: measured,
    over,
    size: length().describe("Measure read. Positive: to the left."),
    ...any,
  }),
  strict({
    what: z.literal("fore").describe("Forward of the car's zero."),
    of: measured,
    over,
    size: length().describe("Measure read. Positive: forward."),
    ...any,
  }),
]);

/** Gaps felt with the cut that was made: angle off square, turned and moved outboard against the one figured. */
const gaps = strict({
  cut: z.number().min(0).max(85).describe("Notch angle of the cut that was made (degrees off square)."),
  roll: z
    .number()
    .min(-180)
    .max(180)
    .optional()
    .describe("How far that cut was turned from the clock on the card (degrees). Without it 0."),
  outboard: length()
    .optional()
    .describe("How far its hole was moved outboard from the place on the card. Without it 0."),
  read: z
    .array(
      strict({
        phi: z.number().min(-360).max(360).describe("Clock of the reading from the zero line (degrees)."),
        gap: allowance().describe("Gap read there."),
        ...any,
      }),
    )
    .describe("Gaps read around the joint."),
});

/** A bar as it was built. */
export const asBuilt = strict({
  path: z.array(place).min(2).describe("Ends and corners of the centreline as built, from end A to end B."),
  over: strict({
    A: allowance().optional().describe("Tube beyond the long point at end A."),
    B: allowance().optional().describe("Tube beyond the long point at end B."),
  })
    .optional()
    .describe("Tube beyond each long point, while the ends are as sawn. It replaces the allowance."),
});

const known = {
  to: madeTo.optional().describe("What the bar was made to, kept when each step was marked done."),
  bent: z.array(bent).optional().describe("Readings of the bent bar on the trestles."),
  tacked: z.array(tacked).optional().describe("Readings of the bar tacked in the car."),
  gaps: strict({
    A: gaps.optional().describe("Gaps read at end A, with the cut that was made."),
    B: gaps.optional().describe("Gaps read at end B, with the cut that was made."),
  })
    .optional()
    .describe("Gaps read around each joint, the bar pushed home."),
};

const thrown = strict({
  progress: z.enum(PROGRESS).optional().describe("Last step that was done on it."),
  ...known,
  asBuilt: asBuilt.optional().describe("Where it was in the car."),
});

export const made = strict({
  ...known,
  past: z.array(thrown).optional().describe("Bars made before this one and thrown away, the oldest first."),
  stale: z
    .unknown()
    .optional()
    .describe("Not used: jobs of an earlier program have it.")
    .meta({ deprecated: true }),
});

export const card = strict({
  n: z.int().min(1).describe("Number of the card: goes up by one when it is issued with a figure changed."),
  code: z
    .string()
    .regex(/^[0-9a-f]{4,64}$/, must("card-code-is"))
    .describe("Digest of the figures on the card, in hexadecimal. The same figures give the same code."),
  on: z.iso.date(must("day-is")).describe("Day on which the card was issued: year, month, day."),
}).describe("The card of one bar as it was last issued: printed, or its first step started.");

export type FileAsBuilt = z.output<typeof asBuilt>;
export type FileMade = z.output<typeof made>;
export type FileKnown = Pick<FileMade, keyof typeof known>;
