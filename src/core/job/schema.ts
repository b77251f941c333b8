import * as z from "zod";
import { DECIMAL_INCHES } from "../units/index.ts";
import { allowance, byId, direction, LONGEST, length, name, place, size, strict } from "./fields.ts";
import { bars } from "./schema-bars.ts";
import { made } from "./schema-made.ts";
import { readings } from "./schema-readings.ts";

/** Any tube, saw or die of a cage has its diameter in here (mm). */
const diameter = () => length({ min: 1, max: 1000 });

const tube = strict({
  od: diameter(),
  wall: size(500),
  material: name().optional(),
  stick: size().optional(),
});

const dieTest = strict({
  set: z.number().gt(0).max(360),
  got: z.number().gt(0).max(360),
  legs: z.tuple([size(), size()], { error: "must be [A, B], two lengths" }).optional(),
  stick: size().optional(),
});

const die = strict({
  od: diameter(),
  clr: size(),
  clamp: allowance().optional(),
  between: allowance().optional(),
  tail: allowance().optional(),
  maxAngle: z.number().gt(0).max(360).optional(),
  mark: length().optional(),
  arcFactor: z.number().gt(0).max(2).optional(),
  springback: strict({ k: z.number().gt(0).max(2), c: z.number().min(-90).max(90) }).optional(),
  tests: z.array(dieTest).optional(),
});

const plate = strict({
  at: place,
  normal: direction,
  thickness: size().optional(),
  size: z.tuple([size(), size()], { error: "must be two lengths" }).optional(),
  along: direction.optional(),
});

const threeAllowances = z.tuple([allowance(), allowance(), allowance()], {
  error: "must be [sx, sy, sz], three lengths",
});

const point = z.union(
  [
    place,
    strict({
      at: place.optional(),
      sd: z.union([allowance(), threeAllowances], { error: "sd is a length or [sx, sy, sz]" }).optional(),
    }),
  ],
  { error: "a point is [x, y, z], {} while it is unknown, or has at and sd" },
);

const deviation = () => z.number().min(0).max(180).optional();

const shop = strict({
  gap: allowance().optional(),
  trim: allowance().optional(),
  kerf: allowance().optional(),
  torch: strict({ od: diameter(), length: size() }).optional(),
  errors: strict({
    mark: allowance().optional(),
    angle: deviation(),
    turn: deviation(),
    tape: allowance().optional(),
    slope: deviation(),
    height: allowance().optional(),
    level: allowance().optional(),
    plumb: allowance().optional(),
  }).optional(),
});

const notcher = strict({
  saws: z.array(diameter()).optional(),
  steepest: z.number().gt(0).lt(90).optional(),
  wrapBeyond: allowance().optional(),
});

const places = byId(z.array(place)).optional();

/** A ring or a sheet's edge, measured place by place in order; the last joins the first. */
const ring = z.array(place).min(3);

const panel = strict({ edge: ring, openings: z.array(z.string()).optional() });

const body = strict({
  lines: places,
  skin: places,
  openings: byId(ring).optional(),
  panels: byId(panel).optional(),
  roof: z.array(z.string()).optional(),
});

const card = strict({
  n: z.int().min(1).describe("Number of the card: goes up by one when it is issued with a figure changed."),
  code: z
    .string()
    .regex(/^[0-9a-f]{4,64}$/, { error: "the code of a card is 4 to 64 of the digits 0 to 9 and a to f" })
    .describe("Digest of the figures on the card, in hexadecimal. The same figures give the same code."),
  on: z.iso
    .date({ error: 'a day is written year, month, day, such as "2026-11-29"' })
    .describe("Day on which the card was issued: year, month, day."),
}).describe("The card of one bar as it was last issued: printed, or its first step started.");

/** The newest version of a job that this program reads, and the one that it writes. */
export const VERSION = 2;

/** The document as a person keeps it; its output has every length in millimetres. */
export const documentSchema = strict({
  format: z.literal("tubewright job"),
  version: z.literal(VERSION),
  name: name().optional(),
  show: strict({
    length: z.enum(["mm", "in"]).optional(),
    fraction: z.literal([2, 4, 8, 16, 32, 64, 128, DECIMAL_INCHES]).optional(),
  }).optional(),
  tubes: byId(tube).optional(),
  dies: byId(die).optional(),
  plates: byId(plate).optional(),
  points: byId(point).optional(),
  bars: bars.optional(),
  asBuilt: byId(
    strict({
      path: z.array(place).min(2),
      over: strict({ A: allowance().optional(), B: allowance().optional() }).optional(),
    }),
  ).optional(),
  made: byId(made).optional(),
  cards: byId(card)
    .optional()
    .describe(
      "Cards as last issued, by the ID of the bar. Each counts up when it is issued with a figure changed.",
    ),
  readings: readings.optional(),
  bender: strict({
    height: size().optional(),
    turnSide: z.enum(["left", "right"]).optional(),
  }).optional(),
  notcher: notcher.optional(),
  shop: shop.optional(),
  rack: z.array(strict({ tube: z.string(), pieces: z.array(size()) })).optional(),
  body: body.optional(),
  order: z.array(z.string()).optional(),
  driver: strict({
    hip: place.optional(),
    shoulder: place.optional(),
    torsoRadius: size().optional(),
    helmet: place.optional(),
    helmetRadius: size().optional(),
  }).optional(),
});

export type FileJob = z.output<typeof documentSchema>;

/**
 * The document's shape as JSON Schema (draft 2020-12). It knows keys, kinds and the bounds of plain numbers; that a
 * length's text can be read, that names exist and that landings make no circle only `readJob` knows.
 */
export function jobSchemaJson(): object {
  const title = "Tubewright job";
  const description = `Lengths: a number of millimetres (at most ${LONGEST}) or text such as "12 5/16 in". Angles: degrees.`;
  const { $schema, ...rest } = z.toJSONSchema(documentSchema, { io: "input", target: "draft-2020-12" });
  return { $schema, title, description, ...rest };
}
