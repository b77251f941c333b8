import * as z from "zod";
import { diameter, direction, length, name, place, size, strict } from "./fields.ts";

/** What a bar was made to: kept by the same edit that marks a step done, and not written again after. */

const angle = (most = 360) => z.number().min(-most).max(most);
const card = z.int().min(1).optional().describe("Number of the card that it was made to.");
const places = z.array(place).min(2).describe("Ends and corners of the centreline, from end A to end B.");

const sawn = strict({
  tube: strict({
    od: diameter().describe("Outside diameter."),
    wall: size().describe("Wall thickness."),
    material: name().optional().describe("What the tube is made of."),
  }).describe("Tube that it was sawn from."),
  length: size().describe("Sawn length."),
  card,
}).describe("What the tube was sawn to.");

const bent = strict({
  die: strict({
    id: z.string().optional().describe("Name of the die in the job at that time."),
    od: diameter().describe("Outside diameter of the tube that the die takes."),
    clr: size().describe("Centreline radius of the die, as known at that time."),
    mark: length().describe("Distance of the die's mark from the bend's start, as known at that time."),
    arcFactor: z.number().gt(0).max(2).describe("Arc factor of the die, as known at that time."),
    springback: strict({
      k: z.number().gt(0).max(2).describe("Angle made per degree set."),
      c: z.number().min(-90).max(90).describe("Degrees added to that."),
    })
      .optional()
      .describe("Springback of the die, as known at that time."),
  }).describe("Die that it was bent on."),
  fed: z.enum(["A", "B"]).describe("End that was fed first."),
  zero: z.string().describe("Zero line from which turns and clocks were counted."),
  bends: z
    .array(
      strict({
        n: z.int().min(1).describe("Bend, counted from end A."),
        mark: length().describe("Mark of the bend from the end that was fed first."),
        angle: angle(180).describe("Angle that was wanted (degrees)."),
        set: angle().optional().describe("Angle that was set at the bender (degrees)."),
        turn: angle().describe("Turn before the bend (degrees)."),
      }),
    )
    .describe("Bends from end A to end B."),
  card,
}).describe("What the bar was bent to.");

const cut = strict({
  diameter: diameter().describe("Diameter of the hole saw."),
  angle: angle(90).describe("Notch angle (degrees off square)."),
  clock: angle().describe("Clock of the heel from the zero line (degrees)."),
  centre: length().describe("Distance of the hole's centre back from the landing."),
  offset: length().describe("How far the axis of the saw was moved off the axis of the tube."),
});

const plate = strict({
  at: place.describe("A place on the face of the plate."),
  normal: direction.describe("Direction out of the face, toward the bar."),
  size: z.tuple([size(), size()]).optional().describe("Size of the plate, along and across."),
  along: direction.optional().describe("Direction of the plate's first size."),
});

const hostEnd = (end: string) =>
  z
    .union([
      strict({ on: z.array(z.int().min(0)).min(1).describe("Bars of this list, counted from 0.") }),
      strict({ plate: plate.describe("Plate that the end is cut to.") }),
    ])
    .optional()
    .describe(`What end ${end} of that bar is cut to. Without it the end is square.`);

const host = strict({
  od: diameter().describe("Outside diameter of the bar that it was cut to."),
  clr: size().optional().describe("Centreline radius of that bar's bends."),
  path: places.describe("Ends and corners of that bar where it was then."),
  A: hostEnd("A"),
  B: hostEnd("B"),
});

const frame = {
  landing: place.describe("Place in the car where the centreline was to end."),
  out: direction.describe("Direction out of this end in the car, as it was to be placed."),
  zero: direction.describe("Direction of the zero line in the car, as the bar was to be placed."),
  over: length().describe(
    "Tube from the landing to the sawn end. Negative: the tube ends before the landing.",
  ),
  finished: size().describe("Net length, long point to long point, that both notches were to give."),
  card,
};

const notched = z
  .union([
    strict({
      by: z.literal("hole saw").describe("Cut by hole saw or mill."),
      cuts: z.array(cut).min(1).describe("Cuts of this end, one for each host."),
      ...frame,
    }),
    strict({
      by: z.literal("wrap").describe("Cut along a wrap."),
      on: z.int().min(1).describe("How many of these bars it was cut to: the first ones of the list."),
      bars: z.array(host).min(1).describe("Bars that the curve was computed from, where they were then."),
      ...frame,
    }),
    strict({
      by: z.literal("saw").describe("Cut flat by the saw: on a plate, or square."),
      plate: plate.optional().describe("Plate that it was cut to. Without it the end is square."),
      ...frame,
    }),
  ])
  .describe("What this end was notched to.");

const standing = strict({ path: places, card });

/** What a bar was made to, step by step. */
export const madeTo = strict({
  sawn: sawn.optional(),
  bent: bent.optional(),
  notched: strict({ A: notched.optional(), B: notched.optional() })
    .optional()
    .describe("What each end was notched to, each by itself."),
  fitted: standing.optional().describe("Where the bar was to be when it was fitted."),
  tacked: standing.optional().describe("Where the bar was to be when it was tacked."),
});

export type FileTo = z.output<typeof madeTo>;
export type FileNotched = z.output<typeof notched>;
export type FileCutHost = z.output<typeof host>;
