import * as z from "zod";
import { parseLength } from "../units/index.ts";
import { MOST, wrongText } from "./texts.ts";

// A page with a strict content security policy forbids code made from text; zod must not even try.
z.config({ jitless: true });

/** No length in a car is longer (mm): a slip, not a size. */
export const LONGEST = 1e6;

interface Bounds {
  /** Greater than, at least, at most (mm). */
  readonly above?: number;
  readonly min?: number;
  readonly max?: number;
}

const A_LENGTH = 'a length is a number of millimetres or text such as "12 5/16 in"';

function outside(mm: number, { above, min, max }: Required<Bounds>): string | undefined {
  if (mm <= above) return `must be more than ${above} mm, not ${mm} mm`;
  if (mm < min) return `must be at least ${min} mm, not ${mm} mm`;
  if (mm > max) return `must be at most ${max} mm, not ${mm} mm`;
  return undefined;
}

/** A length as a person writes it; comes out in millimetres. */
export function length(bounds: Bounds = {}) {
  const { above = -Infinity, min = -LONGEST, max = LONGEST } = bounds;
  const inSchema = bounds.above === undefined ? { minimum: min } : { exclusiveMinimum: above };
  const number = z.number().meta({ ...inSchema, maximum: max });
  return z.union([number, z.string()], { error: A_LENGTH }).transform((value, ctx): number => {
    const read = typeof value === "number" ? { ok: true as const, mm: value } : parseLength(value);
    const why = read.ok ? outside(read.mm, { above, min, max }) : read.why;
    if (why !== undefined) ctx.issues.push({ code: "custom", message: why, input: value });
    return read.ok ? read.mm + 0 : 0;
  });
}

/** A text of no more characters than its kind may have; what it may not hold is looked for everywhere at once. */
const line = (as: keyof typeof MOST) =>
  z
    .string()
    .meta({ maxLength: MOST[as] })
    .check(({ value, issues }) => {
      const message = [...value].length > MOST[as] ? wrongText(value, as) : undefined;
      if (message !== undefined) issues.push({ code: "custom", message, input: value });
    });

export const label = () => line("label");
export const name = () => line("name");

/** A size that must be there: more than nothing. */
export const size = (max = LONGEST) => length({ above: 0, max });

/** A size that may be nothing. */
export const allowance = () => length({ min: 0 });

/** Any tube, saw or die of a cage has its diameter in here (mm). */
export const diameter = () => length({ min: 1, max: 1000 });

const coordinate = length();

const three = { error: "must be [x, y, z], three lengths" };

/** A place in the car, or a move. */
export const place = z.tuple([coordinate, coordinate, coordinate], three);

const component = z.number().min(-LONGEST).max(LONGEST);

/** A direction: plain numbers, of any length but none. */
export const direction = z.tuple([component, component, component], {
  error: "must be [x, y, z], three numbers",
});

/**
 * An object that refuses keys it does not know. The issue's message is the list of those that it knows, and after
 * a bar `|` why no other may stand there; `problems.ts` makes the sentence.
 */
export const strict = <Shape extends z.ZodRawShape>(shape: Shape, because = "") =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === "unrecognized_keys" ? `${Object.keys(shape).join(", ")}|${because}` : undefined,
  });

/** Things by their IDs; the IDs are looked at in `rules.ts`. */
export const byId = <Value extends z.ZodType>(value: Value) => z.record(z.string(), value);
