/**
 * Looking into a document that may be anything: the checks that a shape cannot express run on the raw document, so
 * that they speak up even where something else is wrong. Only own properties count (`constructor` is a fair ID).
 */
import { parseLength } from "../units/index.ts";
import type { Path } from "./problem.ts";

type Dict = Readonly<Record<string, unknown>>;

export const isDict = (value: unknown): value is Dict =>
  typeof value === "object" && value !== null && !Array.isArray(value);

export const own = (value: unknown, key: string | number): unknown =>
  typeof value === "object" && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string | number, unknown>)[key]
    : undefined;

export const has = (value: unknown, key: string): boolean => own(value, key) !== undefined;

/** What stands at a path, or undefined. */
export const lookup = (document: unknown, path: Path): unknown => path.reduce(own, document);

/** The entries of an object that stands under a key; none where there is no object. */
export const entriesOf = (document: unknown, key: string): readonly (readonly [string, unknown])[] => {
  const value = own(document, key);
  return isDict(value) ? Object.entries(value) : [];
};

export const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** A length in millimetres, where one stands there that can be read. */
export function lengthAt(value: unknown): number | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? value : undefined;
  if (typeof value !== "string") return undefined;
  const read = parseLength(value);
  return read.ok ? read.mm : undefined;
}

const isNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);

/** A direction of three numbers; undefined where it is no such thing. */
export function directionOf(value: unknown): readonly [number, number, number] | undefined {
  const list = listOf(value);
  const [x, y, z] = list;
  if (list.length !== 3 || !isNumber(x) || !isNumber(y) || !isNumber(z)) return undefined;
  return [x, y, z];
}
