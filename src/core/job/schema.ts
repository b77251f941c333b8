import * as z from "zod";
import { DECIMAL_INCHES } from "../units/index.ts";
import { byId, LONGEST, name, size, strict } from "./fields.ts";
import { bars } from "./schema-bars.ts";
import { body, driver } from "./schema-body.ts";
import { asBuilt, card, made } from "./schema-made.ts";
import { readings } from "./schema-readings.ts";
import { setUp } from "./schema-set-up.ts";
import { bender, notcher, shop } from "./schema-shop.ts";
import { die, plate, point, tube } from "./schema-things.ts";

/** The newest version of a job that this program reads, and the one that it writes. */
export const VERSION = 2;

/** The document as a person keeps it; its output has every length in millimetres. */
export const documentSchema = strict({
  format: z.literal("tubewright job").describe("Says that this file is a job."),
  version: z.literal(VERSION).describe("Version of the job's format."),
  name: name().optional().describe("Name of the job."),
  show: strict({
    length: z
      .enum(["mm", "in"])
      .optional()
      .describe("Unit of the lengths on screens and cards. Without it mm."),
    fraction: z
      .literal([2, 4, 8, 16, 32, 64, 128, DECIMAL_INCHES])
      .optional()
      .describe("Finest fraction of an inch shown: 16 for sixteenths, 1000 for decimals. Without it 16."),
  })
    .optional()
    .describe("How lengths are shown."),
  tubes: byId(tube).optional().describe("Tubes in use, by ID."),
  dies: byId(die).optional().describe("Bending dies, by ID."),
  plates: byId(plate).optional().describe("Plates that bars stand on, by ID."),
  points: byId(point)
    .optional()
    .describe("Measured points, by ID: a place, {} while it is unknown, or a place with its error."),
  bars: bars.optional().describe("Bars of the cage or frame, by ID."),
  asBuilt: byId(asBuilt).optional().describe("Bars as they were built, by the ID of the bar."),
  made: byId(made)
    .optional()
    .describe("What bars were made to, and readings of them after, by the ID of the bar."),
  cards: byId(card)
    .optional()
    .describe(
      "Cards as last issued, by the ID of the bar. Each counts up when it is issued with a figure changed.",
    ),
  setUp: setUp.optional().describe("How the car was made ready before it was measured."),
  readings: readings.optional().describe("Readings taken in the car, in the order in which they were taken."),
  bender: bender.optional().describe("The bender."),
  notcher: notcher.optional().describe("The notcher."),
  shop: shop.optional().describe("What this shop accepts, leaves and gets wrong."),
  rack: z
    .array(
      strict({
        tube: z.string().describe("ID of the tube."),
        pieces: z.array(size()).describe("Lengths of the pieces in stock."),
      }),
    )
    .optional()
    .describe("Pieces in stock, by tube."),
  body: body.optional().describe("The body of the car: what the bars must get past."),
  order: z
    .array(z.string())
    .optional()
    .describe("Order in which the bars go in, by ID. Bars that are not listed come after."),
  driver: driver.optional().describe("The driver in the seat."),
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
