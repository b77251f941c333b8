import { FIELDS, SIDES } from "../../words/index.ts";
import { at, type JobDocument, type Json, type JsonPath, same } from "../model/document/index.ts";

/** What every question has: where its answer is in the job, and what it is called. */
interface Asked {
  readonly path: JsonPath;
  readonly label: string;
}

export interface LengthField extends Asked {
  readonly kind: "length";
  readonly sides?: readonly [string, string];
  /** What holds without it; a length that has none must be there. */
  readonly optional?: string;
  /** The figure that holds without it. */
  readonly usual?: number;
  readonly fine?: true;
}
export interface NumberField extends Asked {
  readonly kind: "number";
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  readonly sides?: readonly [string, string];
  readonly optional?: string;
  readonly usual?: number;
}
export interface TextField extends Asked {
  readonly kind: "text";
}
export interface ChoiceField extends Asked {
  readonly kind: "choice";
  readonly options: readonly string[];
  readonly otherwise: string;
  /** What the document keeps for an option, where that is not its own words; an option without one takes it out. */
  readonly values?: Readonly<Record<string, Json>>;
}
/** A place in the car: three lengths in a row, or a measured point's. */
export interface PlaceField extends Asked {
  readonly kind: "place";
  readonly optional?: string;
}
/** Some of a list of names. */
export interface NamesField extends Asked {
  readonly kind: "names";
  readonly options: readonly string[];
}

/** One value of the job, and how it is asked for. */
export type Field = LengthField | NumberField | TextField | ChoiceField | PlaceField | NamesField;

/** One figure of something new, asked in a row with its others; its path begins at the new thing. */
export interface Ask {
  readonly field: Exclude<Field, TextField | NamesField>;
  /** Offered beside the keypad: this figure and those behind it are left out. */
  readonly skip?: string;
}

/** How something new is put in: its figures in a row, then one step of undo. */
export interface Add {
  /** The button: "New test bend". */
  readonly says: string;
  /** Asked first, where the new thing has a name of its own. */
  readonly name?: { readonly label: string; readonly usual: string };
  readonly asks: readonly Ask[];
  /** Where it goes, given its name; a list is made where it is missing. */
  readonly to: (document: JobDocument, name: string) => JsonPath;
}

/** What can be taken out again, with whatever names it. */
export interface Remove {
  readonly says: string;
  readonly without: readonly (readonly [path: JsonPath, to: Json | undefined])[];
}

/** One of a list: a test bend, a place of a line, a hole saw. */
export interface Entry {
  readonly key: string;
  readonly says: string;
  readonly fields: readonly Field[];
  /** What may be added to it: figures that are there only together. */
  readonly adds?: readonly Add[];
  readonly remove?: Remove;
}

export interface List {
  readonly title: string;
  /** A table of short figures in place of a block each. */
  readonly close?: true;
  readonly entries: readonly Entry[];
  readonly add: Add;
}

/** What is beside the figures of a sheet: what test bends say of a die, ten readings for an error, a drawing. */
export type Beside = "die" | "errors" | "driver" | "bender";

/** One thing of the job: its figures, its lists, what may be added to it. */
export interface Sheet {
  readonly key: string;
  readonly title: string;
  /** One of the job's things by name: it can be renamed. */
  readonly thing?: { readonly kind: ThingKind; readonly id: string };
  readonly remove?: Remove;
  readonly fields: readonly Field[];
  readonly lists?: readonly List[];
  readonly adds?: readonly Add[];
  readonly beside?: Beside;
}

export type ThingKind = "tube" | "die" | "plate" | "point";

/** Where the job keeps things of a kind. */
export const HOME: Readonly<Record<ThingKind, string>> = {
  tube: "tubes",
  die: "dies",
  plate: "plates",
  point: "points",
};
export const THING_KINDS = Object.keys(HOME) as readonly ThingKind[];

export const AXES = ["x", "y", "z"] as const;
const NOT_SET = FIELDS.notSet;

export const length = (
  path: JsonPath,
  label: string,
  more: Partial<Pick<LengthField, "sides" | "optional" | "usual" | "fine">> = {},
): LengthField => ({ kind: "length", path, label, ...more });

/** One that need not be there. */
export const maybe = (path: JsonPath, label: string, otherwise: string = NOT_SET): LengthField =>
  length(path, label, { optional: otherwise });

export const degrees = (
  path: JsonPath,
  label: string,
  least: number,
  most: number,
  more: Partial<Pick<NumberField, "sides" | "optional" | "usual" | "unit">> = {},
): NumberField => ({ kind: "number", path, label, least, most, unit: "°", ...more });

/** A place as three lengths, each a field of its own. */
export const coordinates = (path: JsonPath): readonly LengthField[] =>
  AXES.map((axis, k) => length([...path, k], FIELDS.coordinate(axis), { sides: SIDES[axis] }));

export const place = (path: JsonPath, label: string, optional?: string): PlaceField => ({
  kind: "place",
  path,
  label,
  ...(optional === undefined ? {} : { optional }),
});

/** A direction as three numbers. */
export const towards = (path: JsonPath, what: string): readonly NumberField[] =>
  AXES.map((axis, k) =>
    degrees([...path, k], FIELDS.toward(what, axis), -1, 1, { unit: "", sides: SIDES[axis] }),
  );

/**
 * Whether a figure is one, or one each of several: asked once it is there, and what it was goes into each of them.
 * `says`: what is picked for the one and for the several.
 */
export function oneOrSeveral(
  document: JobDocument,
  path: JsonPath,
  label: string,
  [one, several]: readonly [string, string],
  count: number,
): readonly ChoiceField[] {
  const value = at(document, path);
  if (value === undefined) return [];
  const first = Array.isArray(value) ? (value[0] as Json) : value;
  const all = Array.isArray(value) ? value : Array.from({ length: count }, () => first);
  return [
    {
      kind: "choice",
      path,
      label,
      options: [one, several],
      otherwise: one,
      values: { [one]: first, [several]: all },
    },
  ];
}

/** What an option of a choice puts into the document; undefined takes it out. */
export const chosen = ({ values }: ChoiceField, option: string): Json | undefined =>
  values ? values[option] : option;

/** The option that the document has; in words where it is none of them. */
export function optionOf(field: ChoiceField, value: Json | undefined): string {
  if (value === undefined) return field.otherwise;
  const { values } = field;
  if (!values) return typeof value === "string" ? value : field.otherwise;
  const kept = Object.entries(values).find(([, v]) => same(v, value));
  return kept?.[0] ?? FIELDS.otherWay;
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
