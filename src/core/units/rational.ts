/** An exact number n/d, d > 0. Not kept in lowest terms: nothing here needs it. */
export interface Rational {
  readonly n: bigint;
  readonly d: bigint;
}

export const rational = (n: bigint, d = 1n): Rational => ({ n, d });

export const plus = (a: Rational, b: Rational): Rational => rational(a.n * b.d + b.n * a.d, a.d * b.d);

export const times = (a: Rational, b: Rational): Rational => rational(a.n * b.n, a.d * b.d);

/** One inch in millimetres: 25.4 exactly (international yard and pound agreement of 1959; NIST SP 811, B.8). */
export const INCH: Rational = rational(127n, 5n);

/** A decimal written with a point, `12`, `12.5` or `.5`, with or without exponent (as String(number) writes it). */
export function fromDecimal(text: string): Rational {
  const [mantissa = "", exponent = "0"] = text.toLowerCase().split("e");
  const [whole = "", part = ""] = mantissa.split(".");
  const shift = Number(exponent) - part.length;
  const n = BigInt(`${whole}${part}` || "0");
  return shift >= 0 ? rational(n * 10n ** BigInt(shift)) : rational(n, 10n ** BigInt(-shift));
}

/** The double nearest to n/d, ties to even: no rounding but this one happens between a text and its number. */
export function toNumber({ n, d }: Rational): number {
  if (n === 0n) return 0;
  const magnitude = n < 0n ? -n : n;
  // at least 66 bits of quotient; what is left over goes into the lowest as a sticky bit, so that
  // Number() rounds the true quotient and not a truncated one
  const shift = BigInt(d.toString(2).length + 66);
  const scaled = magnitude << shift;
  const quotient = scaled / d;
  const value = Number(scaled % d === 0n ? quotient : quotient | 1n) * 2 ** -Number(shift);
  return n < 0n ? -value : value;
}

/** The integer nearest to n/d, ties to even. */
export function roundHalfEven({ n, d }: Rational): bigint {
  const magnitude = n < 0n ? -n : n;
  const floor = magnitude / d;
  const twice = 2n * (magnitude % d);
  const up = twice > d || (twice === d && floor % 2n === 1n);
  const rounded = up ? floor + 1n : floor;
  return n < 0n ? -rounded : rounded;
}
