import { at, type JobDocument, type Json, type JsonPath } from "../model/document/index.ts";
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
      /** What the document keeps for an option, where that is not its own words; an option without one takes it out. */
      readonly values?: Readonly<Record<string, Json>>;
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

/** A direction as three numbers. */
const towards = (path: JsonPath, what: string): readonly Field[] =>
  AXES.map((axis, k) => ({
    kind: "number",
    path: [...path, k],
    label: `${what} ${SIDES[axis][0]}`,
    least: -1,
    most: 1,
    unit: "",
    sides: SIDES[axis],
  }));

const NOT_SAID = "not said";
/** The two sides of a plate. */
const SIZES = ["first side", "second side"] as const;
/** Which way a plate's first side runs, as a fabricator says it; any other way is three numbers. */
const RUNS: Readonly<Record<string, Json>> = { forward: [1, 0, 0], "to the left": [0, 1, 0], up: [0, 0, 1] };

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
        ...towards([...base, "normal"], "faces"),
        length("thickness", "thickness", "not said"),
        ...SIZES.map(
          (label, k): Field => ({ kind: "length", path: [...base, "size", k], label, optional: "not said" }),
        ),
        {
          kind: "choice",
          path: [...base, "along"],
          label: "first side runs",
          options: [...Object.keys(RUNS), NOT_SAID],
          otherwise: NOT_SAID,
          values: RUNS,
        },
        ...(at(document, [...base, "along"]) === undefined ? [] : towards([...base, "along"], "first side")),
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

/** What an option of a choice puts into the document; undefined takes it out. */
export const chosen = ({ values }: Extract<Field, { kind: "choice" }>, option: string): Json | undefined =>
  values ? values[option] : option;

/** The option that the document has; in words where it is none of them. */
export function optionOf(field: Extract<Field, { kind: "choice" }>, value: Json | undefined): string {
  if (value === undefined) return field.otherwise;
  const { values } = field;
  if (!values) return typeof value === "string" ? value : field.otherwise;
  const same = Object.entries(values).find(([, v]) => JSON.stringify(v) === JSON.stringify(value));
  return same?.[0] ?? "another way";
}

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

/**
 * What is set where a list of numbers is not there yet, as it cannot be one by one: a point gets all three coordinates at
 * once, a plate both sides alike. What is taken out of a list takes the whole list out.
 */
export function placeWith(
  document: JobDocument,
  path: JsonPath,
  to: Json | undefined,
): readonly [JsonPath, Json | undefined] {
  const k = path[path.length - 1];
  const home = path.slice(0, -1);
  if (typeof k !== "number") return [path, to];
  if (to === undefined) return [home, undefined];
  if (Array.isArray(at(document, home))) return [path, to];
  if (home[home.length - 1] === "size") return [home, [to, to]];
  const whole: Json[] = [0, 0, 0];
  whole[k] = to;
  return [home, whole];
}
