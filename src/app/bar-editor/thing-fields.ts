import { FIELDS, SIDES } from "../../words/index.ts";
import { at, type JobDocument, type Json, type JsonPath } from "../model/document/index.ts";
import { sizesIn } from "./named-sizes.ts";

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

/** Where the job keeps things of a kind. */
export const HOME: Readonly<Record<ThingKind, string>> = {
  tube: "tubes",
  die: "dies",
  plate: "plates",
  point: "points",
};
export const THING_KINDS = Object.keys(HOME) as readonly ThingKind[];

const AXES = ["x", "y", "z"] as const;

const place = (path: JsonPath): readonly Field[] =>
  AXES.map((axis, k) => ({
    kind: "length",
    path: [...path, k],
    label: FIELDS.coordinate(axis),
    sides: SIDES[axis],
  }));

/** A direction as three numbers. */
const towards = (path: JsonPath, what: string): readonly Field[] =>
  AXES.map((axis, k) => ({
    kind: "number",
    path: [...path, k],
    label: FIELDS.toward(what, axis),
    least: -1,
    most: 1,
    unit: "",
    sides: SIDES[axis],
  }));

const NOT_SET = FIELDS.notSet;
/** The two sides of a plate. */
const SIZES = FIELDS.sizes;
/** Which way a plate's first side runs, as a fabricator says it; any other way is three numbers. */
const RUNS: Readonly<Record<string, Json>> = {
  [FIELDS.forward]: [1, 0, 0],
  [FIELDS.left]: [0, 1, 0],
  [FIELDS.up]: [0, 0, 1],
};

/** What can be said of one thing. */
export function fieldsOf(document: JobDocument, kind: ThingKind, id: string): readonly Field[] {
  const base: JsonPath = [HOME[kind], id];
  const length = (key: string, label: string, optional?: string): Field => ({
    kind: "length",
    path: [...base, key],
    label,
    ...(optional === undefined ? {} : { optional }),
  });
  switch (kind) {
    case "tube":
      return [
        length("od", FIELDS.od),
        { ...length("wall", FIELDS.wall), fine: true } as Field,
        { kind: "text", path: [...base, "material"], label: FIELDS.material },
        length("stick", FIELDS.stick, NOT_SET),
      ];
    case "die":
      return [
        length("od", FIELDS.tubeOd),
        length("clr", FIELDS.radius),
        length("clamp", FIELDS.clamp, NOT_SET),
        length("between", FIELDS.between, NOT_SET),
        length("tail", FIELDS.tail, NOT_SET),
        { kind: "number", path: [...base, "maxAngle"], label: FIELDS.most, least: 1, most: 180, unit: "°" },
        {
          kind: "length",
          path: [...base, "mark"],
          label: FIELDS.mark,
          sides: FIELDS.markSides,
          optional: FIELDS.atStart,
        },
      ];
    case "plate":
      return [
        ...place([...base, "at"]),
        ...towards([...base, "normal"], FIELDS.faces),
        length("thickness", FIELDS.thickness, NOT_SET),
        ...SIZES.map(
          (label, k): Field => ({ kind: "length", path: [...base, "size", k], label, optional: NOT_SET }),
        ),
        {
          kind: "choice",
          path: [...base, "along"],
          label: FIELDS.runs,
          options: [...Object.keys(RUNS), NOT_SET],
          otherwise: NOT_SET,
          values: RUNS,
        },
        ...(at(document, [...base, "along"]) === undefined ? [] : towards([...base, "along"], FIELDS.runsTo)),
      ];
    case "point":
      return place(Array.isArray(at(document, base)) ? base : [...base, "at"]);
  }
}

/** What holds for the whole shop. */
export const SHOP_FIELDS: readonly Field[] = [
  { kind: "length", path: ["shop", "trim"], label: FIELDS.allowance, optional: FIELDS.none },
  {
    kind: "length",
    path: ["shop", "gap"],
    label: FIELDS.gap,
    optional: NOT_SET,
    fine: true,
  },
  { kind: "length", path: ["shop", "kerf"], label: FIELDS.kerf, optional: NOT_SET, fine: true },
  {
    kind: "number",
    path: ["notcher", "steepest"],
    label: FIELDS.steepest,
    least: 0,
    most: 89,
    unit: "°",
  },
  {
    kind: "choice",
    path: ["bender", "turnSide"],
    label: FIELDS.turnSide,
    options: ["left", "right"],
    otherwise: "left",
  },
  { kind: "length", path: ["bender", "height"], label: FIELDS.height, optional: NOT_SET },
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
  return same?.[0] ?? FIELDS.otherWay;
}

/** Whether a figure is the program's example still. */
export function isExample(document: JobDocument, { path }: Pick<Field, "path">): boolean {
  const [thing, figure] = figureOf(path);
  const examples = at(document, [...thing, "example"]);
  return Array.isArray(examples) && examples.includes(figure);
}

/** The thing that has a figure (`tubes.main`, `shop`), and its name there. */
export function figureOf(path: JsonPath): readonly [thing: JsonPath, figure: string] {
  const depth = path[0] === "shop" ? 1 : 2;
  return [path.slice(0, depth), String(path[depth])];
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
