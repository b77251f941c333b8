import * as z from "zod";
import { type PhraseCode, text } from "../findings/index.ts";
import { parseLength } from "../units/index.ts";
import { type Wrong, wrong } from "./problem.ts";
import { MOST, wrongText } from "./texts.ts";

// A page with a strict content security policy forbids code made from text; zod must not even try.
z.config({ jitless: true });

/** What the schema wants there, as the code of its words. */
export const must = (error: PhraseCode) => ({ error });

/** Names of a thing's own figures that are the program's examples, until the shop sets or confirms them. */
export const examples = <T extends string>(...figures: readonly [T, ...T[]]) =>
  z
    .array(z.enum(figures))
    .optional()
    .describe("Figures of this thing that are the program's examples, not set or confirmed by the shop yet.");

/** No length in a car is longer (mm): a slip, not a size. */
export const LONGEST = 1e6;

interface Bounds {
  /** Greater than, at least, at most (mm). */
  readonly above?: number;
  readonly min?: number;
  readonly max?: number;
}

/** A number as it was given, not rounded. */
const number = (value: number) => text(String(value));

function outside(mm: number, { above, min, max }: Required<Bounds>): Wrong | undefined {
  if (mm <= above) return wrong("length-not-above", { limit: number(above), mm: number(mm) });
  if (mm < min) return wrong("length-below", { limit: number(min), mm: number(mm) });
  if (mm > max) return wrong("length-above", { limit: number(max), mm: number(mm) });
  return undefined;
}

/** A length as a person writes it; comes out in millimetres. */
export function length(bounds: Bounds = {}) {
  const { above = -Infinity, min = -LONGEST, max = LONGEST } = bounds;
  const inSchema = bounds.above === undefined ? { minimum: min } : { exclusiveMinimum: above };
  const inMm = z.number().meta({ ...inSchema, maximum: max });
  return z.union([inMm, z.string()], must("a-length")).transform((value, ctx): number => {
    const read = typeof value === "number" ? { ok: true as const, mm: value } : parseLength(value);
    const params = read.ok ? outside(read.mm, { above, min, max }) : wrong("no-length", { why: read.why });
    if (params) ctx.issues.push({ code: "custom", params: { ...params }, input: value });
    return read.ok ? read.mm + 0 : 0;
  });
}

/** A text of no more characters than its kind may have; what it may not hold is looked for everywhere at once. */
const line = (as: keyof typeof MOST) =>
  z
    .string()
    .meta({ maxLength: MOST[as] })
    .check(({ value, issues }) => {
      const params = [...value].length > MOST[as] ? wrongText(value, as) : undefined;
      if (params) issues.push({ code: "custom", params: { ...params }, input: value });
    });

export const label = () => line("label");
export const name = () => line("name");

/** A size that must be there: more than nothing. */
export const size = (max = LONGEST) => length({ above: 0, max });

/** A size that may be nothing. */
export const allowance = () => length({ min: 0 });

/** A tape need not begin at its hook: a worn or burnt end is left out by holding a mark of it. */
export const tapeZero = () =>
  allowance()
    .optional()
    .describe(
      "Mark of the tape that was held at its first end, taken off the length read. Without it the hook, 0.",
    );

/** Any tube, saw or die of a cage has its diameter in here (mm). */
export const diameter = () => length({ min: 1, max: 1000 });

const coordinate = length();

const three = must("three-lengths");

/** A place in the car, or a move. */
export const place = z.tuple([coordinate, coordinate, coordinate], three);

const component = z.number().min(-LONGEST).max(LONGEST);

/** A direction: plain numbers, of any length but none. */
export const direction = z.tuple([component, component, component], must("three-numbers"));

/**
 * An object that refuses keys it does not know. The issue's message is the list of those that it knows, and after
 * a bar `|` the code of why no other may be there.
 */
export const strict = <Shape extends z.ZodRawShape>(shape: Shape, because: PhraseCode | "" = "") =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === "unrecognized_keys" ? `${offered(shape).join(", ")}|${because}` : undefined,
  });

/** What a person would write there: which figures are examples is the program's own note. */
const offered = (shape: z.ZodRawShape): string[] => Object.keys(shape).filter((key) => key !== "example");

/** Things by their IDs; the IDs are looked at in `rules.ts`. */
export const byId = <Value extends z.ZodType>(value: Value) => z.record(z.string(), value);
