import { at, type JobDocument, type Json, type JsonPath } from "../document/index.ts";
import { SIDES } from "./parts.ts";

/** One value of a tube, a die, a plate, a point or the shop, and how it is asked for. */
export type Field =
  | {
      readonly kind: "length";
      readonly path: JsonPath;
      readonly label: string;
      readonly sides?: readonly [string, string];
      readonly optional?: string;
      readonly fine?: true;
    }
  | {
      readonly kind: "number";
      readonly path: JsonPath;
      readonly label: string;
      readonly least: number;
      readonly most: number;
      readonly unit: string;
      readonly sides?: readonly [string, string];
    }
  | { readonly kind: "text"; readonly path: JsonPath; readonly label: string }
  | {
      readonly kind: "choice";
      readonly path: JsonPath;
      readonly label: string;
      readonly options: readonly string[];
      readonly otherwise: string;
    };

export type ThingKind = "tube" | "die" | "plate" | "point";

export const THINGS: Readonly<
  Record<ThingKind, { readonly home: string; readonly many: string; readonly one: string }>
> = {
  tube: { home: "tubes", many: "Tubes", one: "tube" },
  die: { home: "dies", many: "Dies", one: "die" },
  plate: { home: "plates", many: "Plates", one: "plate" },
  point: { home: "points", many: "Points", one: "point" },
};

const AXES = ["x", "y", "z"] as const;

const place = (path: JsonPath): readonly Field[] =>
  AXES.map((axis, k) => ({ kind: "length", path: [...path, k], label: SIDES[axis][0], sides: SIDES[axis] }));

/** What can be said of one thing. */
export function fieldsOf(document: JobDocument, kind: ThingKind, id: string): readonly Field[] {
  const base: JsonPath = [THINGS[kind].home, id];
  const length = (key: string, label: string, optional?: string): Field => ({
    kind: "length",
    path: [...base, key],
    label,
    ...(optional === undefined ? {} : { optional }),
  });
  switch (kind) {
    case "tube":
      return [
        length("od", "outside diameter"),
        { ...length("wall", "wall"), fine: true } as Field,
        { kind: "text", path: [...base, "material"], label: "material" },
        length("stick", "stick as bought", "not said"),
      ];
    case "die":
      return [
        length("od", "for tube of"),
        length("clr", "centreline radius"),
        length("clamp", "clamp needs", "not said"),
        length("between", "least between bends", "not said"),
        length("tail", "least behind the last", "not said"),
        { kind: "number", path: [...base, "maxAngle"], label: "most angle", least: 1, most: 180, unit: "°" },
        {
          kind: "length",
          path: [...base, "mark"],
          label: "mark from the bend's start",
          sides: ["toward the tail", "toward the end fed first"],
          optional: "at its start",
        },
      ];
    case "plate":
      return [
        ...place([...base, "at"]),
        ...AXES.map(
          (axis, k): Field => ({
            kind: "number",
            path: [...base, "normal", k],
            label: `faces ${SIDES[axis][0]}`,
            least: -1,
            most: 1,
            unit: "",
            sides: SIDES[axis],
          }),
        ),
        length("thickness", "thickness", "not said"),
      ];
    case "point":
      return place(Array.isArray(at(document, base)) ? base : [...base, "at"]);
  }
}

/** What holds for the whole shop. */
export const SHOP_FIELDS: readonly Field[] = [
  { kind: "length", path: ["shop", "trim"], label: "left over at each end", optional: "nothing" },
  {
    kind: "length",
    path: ["shop", "gap"],
    label: "gap accepted at a joint",
    optional: "not said",
    fine: true,
  },
  { kind: "length", path: ["shop", "kerf"], label: "saw kerf", optional: "not said", fine: true },
  {
    kind: "number",
    path: ["notcher", "steepest"],
    label: "notcher reaches off square",
    least: 0,
    most: 89,
    unit: "°",
  },
  {
    kind: "choice",
    path: ["bender", "turnSide"],
    label: "the die bends to your",
    options: ["left", "right"],
    otherwise: "left",
  },
  { kind: "length", path: ["bender", "height"], label: "bender over the floor", optional: "not said" },
];

/** A new thing with sizes to type over. */
export function newThing(kind: ThingKind, length: "mm" | "in"): Json {
  const mm = length === "mm";
  switch (kind) {
    case "tube":
      return { od: mm ? 40 : "1 3/4 in", wall: mm ? 2.5 : "0.095 in" };
    case "die":
      return { od: mm ? 40 : "1 3/4 in", clr: mm ? 120 : "6 in" };
    case "plate":
      return { at: [0, 500, 0], normal: [0, 0, 1], thickness: 3 };
    case "point":
      return [0, 0, 600];
  }
}

/** A point that is still unknown has no coordinates to set one by one: it gets all three at once. */
export function placeWith(document: JobDocument, path: JsonPath, to: Json): readonly [JsonPath, Json] {
  const k = path[path.length - 1];
  const home = path.slice(0, -1);
  if (typeof k !== "number" || Array.isArray(at(document, home))) return [path, to];
  const whole: Json[] = [0, 0, 0];
  whole[k] = to;
  return [home, whole];
}
