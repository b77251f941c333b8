import { count, degrees, type Finding, mm } from "../findings/index.ts";
import type { Die, DieTest } from "../job/types.ts";
import { rad } from "../numeric/index.ts";

/** What a die is before anything was measured on it (mm). */
export type DieSize = Pick<Die, "od" | "clr">;

/** One standard deviation of a shop's readings: the angle finder (degrees) and the tape (mm). */
export interface ReadingErrors {
  readonly angle: number;
  readonly tape: number;
}

/** Taken where the shop has not said (common practice, no source). */
export const COMMON_ERRORS: ReadingErrors = { angle: 0.5, tape: 1 };

/** No shop reads finer than a hundredth; a stated error of 0 counts as that (degrees, mm). */
const FINEST = 0.01;

export const realErrors = (errors: ReadingErrors): ReadingErrors => ({
  angle: Math.max(FINEST, errors.angle),
  tape: Math.max(FINEST, errors.tape),
});

/** A test bend that can be true. */
export interface TestBend {
  /** Counted from 1, as the shop wrote them down. */
  readonly n: number;
  /** Degrees. */
  readonly set: number;
  /** Degrees. */
  readonly got: number;
  /** Bend angle that came out (radians). */
  readonly angle: number;
  /** Both outside legs together, less the stick (mm). */
  readonly gain?: number;
}

export interface TestBends {
  readonly bends: readonly TestBend[];
  readonly findings: readonly Finding[];
}

/**
 * The test bends that can be true, and one finding for each that cannot, which is left out.
 *
 * Convention: outside legs run from the square-sawn end to where the outer lines of both legs meet.
 * Units: as in the job: degrees and mm.
 * Range: refused are an angle under 1° or of 180° and more, more got than set, a leg shorter than the bend itself takes up
 * on the die's nominal radius (a straight below 0), and a stick as long as both legs or longer (the outer lines are
 * always the longer way round). Legs that no radius within a tenth of the die's could give are kept, with a warning.
 */
export function testBends(
  tests: readonly DieTest[],
  die: DieSize,
  place = "tests",
  errors: ReadingErrors = COMMON_ERRORS,
): TestBends {
  const bends: TestBend[] = [];
  const findings: Finding[] = [];
  tests.forEach((test, i) => {
    const where = `${place}[${i}]`;
    const trouble = impossible(test, die, i + 1, where);
    if (trouble) {
      findings.push(trouble);
      return;
    }
    const bend: TestBend = { n: i + 1, set: test.set, got: test.got, angle: rad(test.got) };
    if (!test.legs || test.stick === undefined) {
      if (test.legs || test.stick !== undefined) {
        findings.push({ code: "die-test-half", place: where, values: { n: count(i + 1) } });
      }
      bends.push(bend);
      return;
    }
    const measured = { ...bend, gain: test.legs[0] + test.legs[1] - test.stick };
    const doubt = unlikely(measured, die, where, errors);
    if (doubt) findings.push(doubt);
    bends.push(measured);
  });
  return { bends, findings };
}

function impossible(test: DieTest, die: DieSize, n: number, where: string): Finding | undefined {
  const { set, got, legs, stick } = test;
  const no = (code: Finding["code"], key: string, values: Finding["values"]): Finding => ({
    code,
    place: `${where}.${key}`,
    values: { n: count(n), ...values },
  });
  if (!(got >= 1 && got < 180)) return no("die-test-got", "got", { got: degrees(got) });
  if (!(set > 0 && set < 360)) return no("die-test-set", "set", { set: degrees(set) });
  if (got > set) return no("die-test-over", "got", { got: degrees(got), set: degrees(set) });
  if (!legs || stick === undefined) return undefined;
  const takes = (die.clr + die.od / 2) * Math.tan(rad(got) / 2);
  for (const [i, leg] of legs.entries()) {
    if (!(leg >= takes)) return no("die-test-leg", `legs[${i}]`, { leg: mm(leg), least: mm(takes) });
  }
  const both = legs[0] + legs[1];
  if (!(stick > 0)) return no("die-test-no-stick", "stick", { stick: mm(stick) });
  if (stick >= both) return no("die-test-stick", "stick", { stick: mm(stick), legs: mm(both) });
  return undefined;
}

/** Residuals this many times the stated errors are no accident. */
export const DISAGREES = 3;

/** The test that a fit misses most, and by how much. */
export function worstTest<T>(
  { off }: { readonly off: readonly number[] },
  tests: readonly T[],
): { readonly test: T; readonly off: number } | undefined {
  // biome-ignore lint/style/noNonNullAssertion: a fit has a residual for each of its tests
  const missed = tests.map((test, i) => ({ test, off: Math.abs(off[i]!) }));
  return missed.reduce<(typeof missed)[number] | undefined>(
    (w, m) => (w && w.off >= m.off ? w : m),
    undefined,
  );
}

/** One standard deviation of legs less stick (mm): three tapes, and the angle finder through the equation's slope. */
export function gainError(bend: TestBend, die: DieSize, errors: ReadingErrors): number {
  const { angle, tape } = realErrors(errors);
  const slope = (die.clr + die.od / 2) / Math.cos(bend.angle / 2) ** 2 - die.clr;
  return Math.hypot(Math.sqrt(3) * tape, slope * rad(angle));
}

function unlikely(
  bend: TestBend & { readonly gain: number },
  die: DieSize,
  where: string,
  errors: ReadingErrors,
): Finding | undefined {
  const two = 2 * Math.tan(bend.angle / 2);
  const expected = (die.clr + die.od / 2) * two - die.clr * bend.angle;
  // A tenth of radius, a twentieth of growth and four standard deviations cover any die that is worth keeping.
  const room =
    0.1 * die.clr * (two - bend.angle) + 0.05 * die.clr * bend.angle + 4 * gainError(bend, die, errors);
  if (Math.abs(bend.gain - expected) <= room) return undefined;
  const values = { n: count(bend.n), gain: mm(bend.gain), expected: mm(expected) };
  return { code: "die-test-unlikely", place: `${where}.legs`, values };
}
