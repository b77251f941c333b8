import type { Writer } from "../findings/index.ts";
import { fromDecimal, INCH, type Rational, rational, roundHalfEven } from "./rational.ts";

export interface LengthStyle {
  readonly unit: "mm" | "in";
  /** Inches are written to 1/fraction: a whole number from 1. */
  readonly fraction: number;
  /** Decimals of millimetres, 0 to 9; 1 where nothing is said. */
  readonly decimals?: number;
  /** Inches with this many decimals instead of a fraction (0 to 9): gaps and walls, `0.044 in`. */
  readonly inchDecimals?: number;
  /** Inches from 12 on as feet and inches. */
  readonly feet?: boolean;
}

/** The size of a number as its shortest decimal writes it: 0.79375 is a tie in 1/16 in, though its double is not. */
function exactly(value: number): Rational {
  if (!Number.isFinite(value)) throw new RangeError(`${value} cannot be written as a length or an angle`);
  return fromDecimal(String(Math.abs(value)));
}

/** To so many decimals (of `unit`, mm in it, where one is given), ties to even, never "-0". */
function fixed(value: number, decimals: number, unit: Rational = rational(1n, 1n)): string {
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 9)
    throw new RangeError(`${decimals} is no number of decimals`);
  const size = exactly(value);
  const [n, d] = [size.n * unit.d, size.d * unit.n];
  const scaled = roundHalfEven(rational(n * 10n ** BigInt(decimals), d));
  const digits = scaled.toString().padStart(decimals + 1, "0");
  const whole = digits.slice(0, digits.length - decimals);
  const sign = value < 0 && scaled !== 0n ? "-" : "";
  return decimals === 0 ? sign + whole : `${sign}${whole}.${digits.slice(-decimals)}`;
}

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));

function inches(mm: number, { fraction, feet, inchDecimals }: LengthStyle): string {
  if (inchDecimals !== undefined) return `${fixed(mm, inchDecimals, INCH)} in`;
  if (!Number.isInteger(fraction) || fraction < 1) throw new RangeError(`${fraction} is no part of an inch`);
  const parts = BigInt(fraction);
  const { n, d } = exactly(mm);
  const total = roundHalfEven(rational(n * INCH.d * parts, d * INCH.n));
  const sign = mm < 0 && total !== 0n ? "-" : "";
  const over = total % parts;
  const divisor = gcd(over, parts);
  const part = over === 0n ? "" : `${over / divisor}/${parts / divisor}`;
  const whole = total / parts;
  if (feet && whole >= 12n) {
    const rest = [`${whole % 12n}`, part].filter((piece) => piece !== "").join(" ");
    return `${sign}${whole / 12n} ft ${rest} in`;
  }
  if (part === "") return `${sign}${whole} in`;
  return whole === 0n ? `${sign}${part} in` : `${sign}${whole} ${part} in`;
}

/**
 * A length (mm) as text with its unit beside it: `312.5 mm`, or `12 5/16 in` rounded to the fraction and reduced.
 * Ties go to the even neighbour; a value that rounds to 0 has no sign. `parseLength` reads back what this writes.
 * Throws RangeError on NaN and Infinity (a broken invariant, not a user's slip).
 */
export const formatLength = (mm: number, style: LengthStyle): string =>
  style.unit === "in" ? inches(mm, style) : `${fixed(mm, style.decimals ?? 1)} mm`;

/** An angle (degrees) as text with its sign of degree beside it; ties to even, never "-0". Throws as formatLength. */
export const formatAngle = (degrees: number, decimals: number): string => `${fixed(degrees, decimals)}°`;

/** How a job's reader wants to see lengths and angles: the Writer for `say`. */
export function writerFor(
  show: { readonly length: "mm" | "in"; readonly fraction: number },
  decimals: { readonly mm?: number; readonly angle?: number } = {},
): Writer {
  const style: LengthStyle = { unit: show.length, fraction: show.fraction, decimals: decimals.mm ?? 1 };
  return {
    length: (mm) => formatLength(mm, style),
    angle: (degrees) => formatAngle(degrees, decimals.angle ?? 1),
    finer: {
      length: (mm) => formatLength(mm, { ...style, decimals: 3, inchDecimals: 4 }),
      angle: (degrees) => formatAngle(degrees, 3),
    },
  };
}
