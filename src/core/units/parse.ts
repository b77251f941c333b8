import { type Phrase, text as textOf } from "../findings/index.ts";
import { fromDecimal, INCH, plus, type Rational, rational, times, toNumber } from "./rational.ts";
import { type LengthCode, type Refused, type Token, tokens, type Unit } from "./tokens.ts";

export type ParsedLength =
  | { readonly ok: true; readonly mm: number }
  /** Why it is none; the words are in words. */
  | { readonly ok: false; readonly why: Phrase };

/** What the grammar refuses; caught in `parseLength` and nowhere else. */
class Refusal extends Error {
  constructor(readonly why: Refused) {
    super(why.code);
  }
}

const refuse = (code: LengthCode, values: Refused["values"] = {}): never => {
  throw new Refusal({ code, values });
};

const PER_UNIT: Readonly<Record<Unit, Rational>> = {
  mm: rational(1n),
  cm: rational(10n),
  m: rational(1000n),
  in: INCH,
  ft: times(INCH, rational(12n)),
};

/** No length that a person writes is longer; keeps a pasted page from costing time. */
const LONGEST_TEXT = 60;

interface Amount {
  readonly value: Rational;
  readonly hasFraction: boolean;
  readonly whole: boolean;
  readonly text: string;
}

/** Reads along the tokens of one text. */
class Reader {
  private at = 0;
  constructor(private readonly all: readonly Token[]) {}

  peek(ahead = 0): Token | undefined {
    return this.all[this.at + ahead];
  }

  take(kind: Token["kind"]): Token | undefined {
    return this.peek()?.kind === kind ? this.all[this.at++] : undefined;
  }

  unit(): Unit | undefined {
    const token = this.take("unit");
    return token?.kind === "unit" ? token.unit : undefined;
  }

  /** `76 7/8 − in`: passes over the mark of which way it was rounded, which stands just before the inches' unit. */
  roundingMark(): void {
    const [mark, unit] = [this.peek(), this.peek(1)];
    if (mark?.kind === "sign" && mark.gap && unit?.kind === "unit" && unit.unit === "in") this.at++;
  }

  /** The rest as it was written. */
  rest(): string {
    const left = this.all.slice(this.at).map((t, i) => (t.gap && i > 0 ? " " : "") + t.text);
    return left.join("");
  }

  private number(): Token & { readonly kind: "number" } {
    const token = this.take("number");
    if (token?.kind === "number") return token;
    return this.peek()
      ? refuse("length-no-number-before", { rest: this.rest() })
      : refuse("length-no-number");
  }

  /** `5/16`, `12`, `12.5`, `12 5/16` or `12-5/16`. */
  amount(): Amount {
    const first = this.number();
    if (this.peek()?.kind === "slash") return this.fraction(first);
    const whole: Amount = {
      value: fromDecimal(first.decimal),
      hasFraction: false,
      whole: first.whole,
      text: first.text,
    };
    const dash = this.peek()?.kind === "sign" ? 1 : 0;
    if (this.peek(dash)?.kind !== "number" || this.peek(dash + 1)?.kind !== "slash") return whole;
    const joint = this.peek();
    if (dash === 1) {
      if (joint?.text !== "-" || joint.gap) refuse("length-sum", { rest: this.rest(), first: first.text });
      this.at++;
    }
    if (!first.whole) refuse("length-fraction-after-decimal", { first: first.text });
    const fraction = this.fraction(this.number());
    if (fraction.value.n >= fraction.value.d)
      refuse("length-fraction-large", { fraction: fraction.text, first: first.text });
    return {
      value: plus(whole.value, fraction.value),
      hasFraction: true,
      whole: false,
      text: `${first.text} ${fraction.text}`,
    };
  }

  private fraction(over: Token & { readonly kind: "number" }): Amount {
    this.take("slash");
    const under = this.number();
    if (!over.whole || !under.whole)
      refuse("length-decimal-in-fraction", { fraction: `${over.text}/${under.text}` });
    if (BigInt(under.decimal) === 0n) refuse("length-over-zero", { fraction: `${over.text}/${under.text}` });
    const value = rational(BigInt(over.decimal), BigInt(under.decimal));
    return { value, hasFraction: true, whole: false, text: `${over.text}/${under.text}` };
  }
}

/** Feet have been read: what may follow is a dash and inches, with or without their unit. */
function inchesAfter(feet: Amount, reader: Reader): Rational {
  const ft = times(feet.value, PER_UNIT.ft);
  const dash = reader.peek();
  if (dash === undefined) return ft;
  if (dash.kind === "sign") {
    const after = reader.peek(1);
    if (dash.text !== "-" || (dash.gap && after?.gap === false))
      refuse("length-feet-sum", { rest: reader.rest() });
    reader.take("sign");
  }
  if (reader.peek()?.kind !== "number") refuse("length-after-feet", { rest: reader.rest() });
  const inches = reader.amount();
  reader.roundingMark();
  const unit = reader.unit() ?? "in";
  if (unit !== "in") refuse("length-not-inches", { size: `${inches.text} ${unit}` });
  if (!feet.whole) refuse("length-part-feet", { feet: feet.text });
  if (inches.value.n >= 12n * inches.value.d) refuse("length-twelve", { inches: inches.text });
  return plus(ft, times(inches.value, INCH));
}

function magnitude(reader: Reader, assumed: "mm" | "in"): Rational {
  const amount = reader.amount();
  reader.roundingMark();
  if (amount.hasFraction && reader.peek()?.kind === "sign") refuse("length-second", { rest: reader.rest() });
  const unit = reader.unit() ?? (amount.hasFraction ? "in" : assumed);
  const metric = unit === "mm" || unit === "cm" || unit === "m";
  if (metric && amount.hasFraction) refuse("length-metric-fraction", { unit });
  return unit === "ft" ? inchesAfter(amount, reader) : times(amount.value, PER_UNIT[unit]);
}

function read(text: string, assumed: "mm" | "in"): number {
  if (text.trim() === "") refuse("length-missing");
  if (text.length > LONGEST_TEXT) refuse("length-long", { count: `${text.length}` });
  if (/^\s*[-+]?(nan|infinity|∞)\s*$/i.test(text)) refuse("length-endless");
  const cut = tokens(text);
  if ("why" in cut) return refuse(cut.why.code, cut.why.values);
  const reader = new Reader(cut);
  const sign = reader.take("sign");
  const value = magnitude(reader, assumed);
  if (reader.peek()) refuse("length-after", { rest: reader.rest() });
  return toNumber(sign?.text === "-" ? rational(-value.n, value.d) : value);
}

const oneLine = (text: string): string => text.replace(/[\p{Cc}\u2028\u2029]/gu, " ");

const phraseOf = (text: string, { code, values }: Refused): Phrase => {
  const all = Object.entries({ ...values, text: quoted(text) });
  return { phrase: code, values: Object.fromEntries(all.map(([k, v]) => [k, textOf(oneLine(v))])) };
};

/** The text in quotes, cut short where it is long. */
function quoted(text: string): string {
  const short = text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 1)}…` : text;
  return short.includes('"') ? `'${short}'` : `"${short}"`;
}

/**
 * A length as people in the shop write it.
 *
 * Reads whole and decimal numbers (point or comma), fractions, mixed numbers (`12 5/16`, `12-5/16`, `12½`), with mm,
 * cm, m, in, ft, `"`, `'` (also primes and typographic quotes), feet with inches (`1' 3-1/2"`, `1 ft 3 in`, `5'10`),
 * and a sign before the whole. A mark of rounding before the inches' unit (`76 7/8 − in`) is read as it is written by
 * `formatLength`: the printed size counts. A fraction without a unit is inches, because only an inch is parted so; a plain
 * number without a unit is `assumed` (millimetres unless said otherwise); a plain number after feet is inches.
 *
 * Returns millimetres: the double nearest to the exact value (the arithmetic is exact, an inch is 25.4 mm).
 * Refuses, with the reason on one line, whatever can be meant in two ways or not at all: thousands separators, a
 * comma before just three digits (`1,234`), fractions of a millimetre, two units, sums, text left over.
 */
export function parseLength(text: string, assumed: "mm" | "in" = "mm"): ParsedLength {
  try {
    return { ok: true, mm: read(text, assumed) };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, why: phraseOf(text, error.why) };
    throw error;
  }
}
