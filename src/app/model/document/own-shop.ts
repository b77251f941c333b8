import {
  at,
  entries,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  same,
  withEntry,
} from "../../../shared/index.ts";

/** What of a job is the shop's and not the car's: things by name, and figures. */
const THINGS = ["tubes", "dies"] as const;
const FIGURES = ["bender", "notcher", "shop"] as const;
const KEYS = [...THINGS, ...FIGURES, "show"] as const;

/** A job without a name or a bar: what a shop is kept as, and what a new job begins with. */
const BARE = { format: "tubewright job", version: 2 } as const;

/** The shop in a job: its tubes, dies with their test bends, bender, notcher, allowance, errors, and its units. */
export const shopOf = (document: JobDocument): JobDocument => ({
  ...BARE,
  ...Object.fromEntries(KEYS.flatMap((key) => (document[key] === undefined ? [] : [[key, document[key]]]))),
});

/** How many tubes, dies, test bends and hole saws it has. */
export interface ShopCount {
  readonly tubes: number;
  readonly dies: number;
  readonly tests: number;
  readonly saws: number;
}

export function countsOf(shop: JobDocument): ShopCount {
  const dies = entries(shop.dies);
  const many = (value: Json | undefined): number => (Array.isArray(value) ? value.length : 0);
  return {
    tubes: entries(shop.tubes).length,
    dies: dies.length,
    tests: dies.reduce((sum, [, die]) => sum + many(at(die, ["tests"])), 0),
    saws: many(at(shop, ["notcher", "saws"])),
  };
}

/** Whether there is anything in it that a person entered. */
export const isBare = (shop: JobDocument): boolean =>
  THINGS.every((key) => entries(shop[key]).length === 0) &&
  FIGURES.every((key) => entries(shop[key]).every(([figure, value]) => isExample(shop[key], figure, value)));

const isExample = (home: Json | undefined, figure: string, value: Json): boolean => {
  const examples = isObject(home) ? home.example : undefined;
  return (
    (figure === "example" && Array.isArray(value)) || (Array.isArray(examples) && examples.includes(figure))
  );
};

/**
 * The kept shop after one step in a job: what the step set is set in it too, a new name where the step gave one; what
 * else it has stays, as a car that does without a die takes none from the shop. `isUndo`: what the step took back goes.
 */
export function shopAfter(
  kept: JobDocument,
  before: JobDocument,
  after: JobDocument,
  isUndo = false,
): JobDocument {
  const things = THINGS.reduce((shop, key) => {
    const [was, is] = [objectAt(before, key), objectAt(after, key)];
    const gone = entries(was).filter(([id]) => !Object.hasOwn(is, id));
    const fresh = entries(is).filter(([id, thing]) => !same(was[id], thing));
    const drop = gone.filter(
      ([id, thing]) =>
        same(objectAt(shop, key)[id], thing) && (isUndo || fresh.some(([, other]) => same(other, thing))),
    );
    const all = [...drop.map(([id]) => [id, undefined] as const), ...fresh];
    return all.reduce((next, [id, thing]) => withThing(next, key, id, thing), shop);
  }, kept);
  return FIGURES.reduce((shop, key) => {
    const [was, is] = [objectAt(before, key), objectAt(after, key)];
    const changed = [...new Set([...Object.keys(was), ...Object.keys(is)])].filter(
      (figure) => !same(was[figure], is[figure]),
    );
    return changed.reduce((next, figure) => withThing(next, key, figure, is[figure]), shop);
  }, things);
}

const objectAt = (document: JobDocument, key: string): JsonObject => {
  const value = document[key];
  return isObject(value) ? value : {};
};

const withThing = (shop: JobDocument, key: string, id: string, to: Json | undefined): JobDocument =>
  withEntry(shop, key, withEntry(objectAt(shop, key), id, to));

/**
 * A new job: with nothing in it but an allowance at the ends (without any, the first notch cut wrong costs the bar), or
 * with all that a shop has.
 */
export function newJobOf(name: string, show: JsonObject, shop?: JobDocument): JobDocument {
  const mm = (shop ? at(shop, ["show", "length"]) : show.length) !== "in";
  const own = shop ? objectAt(shop, "shop") : {};
  const allowance = own.trim === undefined ? { ...own, trim: mm ? 30 : "1 1/4 in", example: ["trim"] } : own;
  return {
    ...BARE,
    name,
    show,
    tubes: {},
    ...(shop ? shopOf(shop) : {}),
    bars: {},
    shop: allowance,
  };
}
