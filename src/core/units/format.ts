import type { Writer } from "../findings/index.ts";
import { fromDecimal, INCH, type Rational, rational, roundHalfEven } from "./rational.ts";

export interface LengthStyle {
  readonly unit: "mm" | "in";
  /** Inches are written to 1/fraction: a whole number from 1. DECIMAL_INCHES: decimals, `12.313 in`. */
  readonly fraction: number;
  /** Decimals of millimetres, 0 to 9; 1 where nothing is said. */
  readonly decimals?: number;
  /** Inches with this many decimals instead of a fraction (0 to 9): gaps and walls, `0.044 in`. */
  readonly inchDecimals?: number;
  /** Inches from 12 on as feet and inches. */
  readonly feet?: boolean;
}

/** The parts of an inch that are written as decimals: thousandths. */
export const DECIMAL_INCHES = 1000;

/** Printed and true length closer than this are the same (in): half of the thousandth that a caliper reads. */
const EXACT = rational(1n, 2000n);

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
  const decimals = inchDecimals ?? (fraction === DECIMAL_INCHES ? 3 : undefined);
  if (decimals !== undefined) return `${fixed(mm, decimals, INCH)} in`;
  if (!Number.isInteger(fraction) || fraction < 1) throw new RangeError(`${fraction} is no part of an inch`);
  const parts = BigInt(fraction);
  const { n, d } = exactly(mm);
  const size = rational(n * INCH.d, d * INCH.n);
  const total = roundHalfEven(rational(size.n * parts, size.d));
  const mark = roundingMark(size, rational(total, parts));
  const sign = mm < 0 && total !== 0n ? "-" : "";
  const over = total % parts;
  const divisor = gcd(over, parts);
  const part = over === 0n ? "" : `${over / divisor}/${parts / divisor}`;
  const whole = total / parts;
  if (feet && whole >= 12n) {
    const rest = [`${whole % 12n}`, part].filter((piece) => piece !== "").join(" ");
    return `${sign}${whole / 12n} ft ${rest}${mark} in`;
  }
  if (part === "") return `${sign}${whole}${mark} in`;
  return whole === 0n ? `${sign}${part}${mark} in` : `${sign}${whole} ${part}${mark} in`;
}

/** Which way the true size (in) lies from the printed one. */
function roundingMark(size: Rational, printed: Rational): string {
  const off = size.n * printed.d - printed.n * size.d;
  const over = off < 0n ? -off : off;
  if (over * EXACT.d < EXACT.n * size.d * printed.d) return "";
  return off < 0n ? " −" : " +";
}

/**
 * A length (mm) as text with its unit beside it: `312.5 mm`, or `12 5/16 in` rounded to the fraction and reduced.
 * Ties go to the even neighbour; a value that rounds to 0 has no sign. `parseLength` reads back what this writes.
 * A fraction says which way it was rounded, as a shop writes it: `76 7/8 − in` for a size a little less than 76 7/8,
 * `76 7/8 + in` for a little more, and no mark where the two differ by less than 0.0005 in. The mark is of the size:
 * `-1/2 + in` is farther from 0 than -1/2. Decimals carry no mark: their last digit says how far they can be off.
 * Throws RangeError on NaN and Infinity (a broken invariant, not a user's slip).
 */
export const formatLength = (mm: number, style: LengthStyle): string =>
  style.unit === "in" ? inches(mm, style) : `${fixed(mm, style.decimals ?? 1)} mm`;

/** An angle (degrees) as text with its sign of degree beside it; ties to even, never "-0". Throws as formatLength. */
export const formatAngle = (degrees: number, decimals: number): string => `${fixed(degrees, decimals)}°`;

/** How the shop reads numbers: a Writer, and finer ones for gaps and diameters. */
export interface ShopWriter extends Writer {
  /** Gaps, offsets, walls: hundredths of a millimetre, thousandths of an inch. */
  readonly fine: (mm: number) => string;
  /** Diameters: tenths of a millimetre, thousandths of an inch. */
  readonly size: (mm: number) => string;
}

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

/** The Writer of a job's reader, with gaps and diameters as a shop reads them. Throws as formatLength. */
export function shopWriterFor(show: { readonly length: "mm" | "in"; readonly fraction: number }): ShopWriter {
  const finer = (decimals: number) => (mm: number) =>
    formatLength(mm, { unit: show.length, fraction: show.fraction, decimals, inchDecimals: 3 });
  return { ...writerFor(show), fine: finer(2), size: finer(1) };
}
