import { THINGS } from "../../words/index.ts";
import { entries, type JobDocument, type Json, thingsOf } from "../model/document/index.ts";
import { type Field, type Sheet, THING_KINDS, type ThingKind } from "./field.ts";
import { bar } from "./kinds/bar.ts";
import { bodySheets } from "./kinds/body.ts";
import { die, dieSheet, statedSprings } from "./kinds/die.ts";
import { driverSheets } from "./kinds/driver.ts";
import { plate } from "./kinds/plate.ts";
import { point } from "./kinds/point.ts";
import { rackSheets } from "./kinds/rack.ts";
import { shopSheets } from "./kinds/shop.ts";
import { tube } from "./kinds/tube.ts";
import { sizesIn } from "./named-sizes.ts";

/** What the job holds beside bars and readings, by what a fabricator looks for. */
export const TOPICS = [...THING_KINDS, "shop", "driver", "body", "rack"] as const;
export type Topic = (typeof TOPICS)[number];

export const isThing = (topic: Topic): topic is ThingKind =>
  (THING_KINDS as readonly string[]).includes(topic);

const OF = { tube, die, plate, point, bar } as const;

/** What can be said of one thing; of a bar: what its sentences do not say. */
export const fieldsOf = (document: JobDocument, kind: ThingKind | "bar", id: string): readonly Field[] =>
  OF[kind](document, id);

const OTHERS = { shop: shopSheets, driver: driverSheets, body: bodySheets, rack: rackSheets } as const;

/** Every sheet of a topic, with all its figures, lists and what may be added. */
export function sheetsOf(document: JobDocument, topic: Topic): readonly Sheet[] {
  if (!isThing(topic)) return OTHERS[topic](document);
  return entries(thingsOf(document, topic)).flatMap(([id]): readonly Sheet[] => [
    {
      key: id,
      title: THINGS.named(THINGS.one[topic], id),
      thing: { kind: topic, id },
      fields: fieldsOf(document, topic, id),
      ...(topic === "die" ? dieSheet(document, id) : {}),
    },
    ...(topic === "die" ? statedSprings(document, id) : []),
  ]);
}

/** A new thing with example sizes to type over, but for those that a tube's name says. */
export function newThing(kind: ThingKind, length: "mm" | "in", name = ""): Json {
  const mm = length === "mm";
  const sizes = kind === "tube" ? sizesIn(name, length) : undefined;
  if (sizes) return sizes;
  switch (kind) {
    case "tube":
      return { od: mm ? 40 : "1 3/4 in", wall: mm ? 2.5 : "0.095 in", example: ["od", "wall"] };
    case "die":
      return { od: mm ? 40 : "1 3/4 in", clr: mm ? 120 : "6 in", example: ["od", "clr"] };
    case "plate":
      return {
        at: [0, 500, 0],
        normal: [0, 0, 1],
        thickness: mm ? 3 : "1/8 in",
        example: ["at", "normal", "thickness"],
      };
    case "point":
      return [0, 0, 600];
  }
}
