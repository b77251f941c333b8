import * as z from "zod";
import { byId, place, size, strict } from "./fields.ts";

/** The car around the bars: its body, and who sits in it. */

const places = byId(z.array(place)).optional();

/** A ring or a sheet's edge, measured place by place in order; the last joins the first. */
const ring = z.array(place).min(3);

const panel = strict({
  edge: ring.describe("Edge of the sheet, place by place in order. The last place joins the first."),
  openings: z.array(z.string()).optional().describe("Names of the openings cut out of this sheet."),
});

export const body = strict({
  lines: places.describe("Lines of the body by name, each as places in order."),
  skin: places.describe("Outlines of the skin by name, each as places in order."),
  openings: byId(ring)
    .optional()
    .describe("Door, hatch and screen openings by name. Each is its edge, place by place in order."),
  panels: byId(panel).optional().describe("Sheets by name that block the way of a bar."),
  roof: z
    .array(z.string())
    .optional()
    .describe("Names of lines, skin, openings and panels that come off with the roof."),
});

export const driver = strict({
  hip: place.optional().describe("Hip point of the driver: forward, left, up."),
  shoulder: place.optional().describe("Shoulder point of the driver: forward, left, up."),
  torsoRadius: size().optional().describe("Radius kept free around the torso."),
  helmet: place.optional().describe("Centre of the helmet: forward, left, up."),
  helmetRadius: size().optional().describe("Radius kept free around the centre of the helmet."),
});
