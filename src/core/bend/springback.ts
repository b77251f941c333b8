import { fitLinear } from "../estimate/index.ts";
import { count, degrees, type Finding } from "../findings/index.ts";
import type { Die } from "../job/types.ts";
import { deg, rad } from "../numeric/index.ts";
import {
  COMMON_ERRORS,
  DISAGREES,
  type ReadingErrors,
  realErrors,
  type TestBend,
  testBends,
  worstTest,
} from "./testbend.ts";

/** A measured value and one standard deviation of it, in the same unit. */
export interface Measured {
  readonly value: number;
  readonly sd: number;
}

/** got = k·set + c, in degrees as a die of the job has it. */
export interface Springback {
  readonly k: Measured;
  readonly c: Measured;
  /** Covariance of k and c (degrees). */
  readonly covariance: number;
  /** A line through two or more settings, or, from one setting alone, springback in proportion to the angle (c 0). */
  readonly basis: "line" | "ratio";
  readonly tests: number;
}

/**
 * Slope per degree of the angle finder's error that is still worth having: two settings 14° apart. At ½° that is
 * ± 0.05, 3° in 60. (By the settings alone, so that a card and an angle to set agree whatever the shop's errors.)
 */
const SLOPE_WORTH_HAVING = 0.1;

/**
 * The springback line from test bends by least squares, each `got` with the angle finder's error.
 *
 * Units: degrees. Range: no bends, no line. From one setting, or from settings too close for a slope (two less than
 * about 14° apart), springback is taken in proportion to the angle and a note says so: it then
 * asks too little below the angle tested (another pull mends that) and too much above it.
 */
export function springbackOf(
  bends: readonly TestBend[],
  place = "tests",
  errors: ReadingErrors = COMMON_ERRORS,
): { readonly springback?: Springback; readonly findings: readonly Finding[] } {
  if (bends.length === 0) return { findings: [] };
  const got = bends.map((b) => b.got);
  const { angle } = realErrors(errors);
  const sd = bends.map(() => angle);
  const line = fitLinear(
    bends.map((b) => [b.set, 1] as const),
    got,
    sd,
  );
  const usable =
    line && Math.sqrt(line.covariance[0][0]) <= SLOPE_WORTH_HAVING * angle * line.spread && line.x[0] > 0;
  if (usable) {
    const [[kk, kc], [, cc]] = line.covariance;
    const springback: Springback = {
      k: { value: line.x[0], sd: Math.sqrt(kk) },
      c: { value: line.x[1], sd: Math.sqrt(cc) },
      covariance: kc,
      basis: "line",
      tests: bends.length,
    };
    return { springback, findings: doubts(springback, line, bends, place) };
  }
  const ratio = fitLinear(
    bends.map((b) => [b.set] as const),
    got,
    sd,
  );
  if (!ratio) return { findings: [] };
  const springback: Springback = {
    k: { value: ratio.x[0], sd: Math.sqrt(ratio.covariance[0][0]) },
    c: { value: 0, sd: 0 },
    covariance: 0,
    basis: "ratio",
    tests: bends.length,
  };
  return { springback, findings: doubts(springback, ratio, bends, place) };
}

function doubts(
  springback: Springback,
  fit: { readonly spread: number; readonly off: readonly number[] },
  bends: readonly TestBend[],
  place: string,
): Finding[] {
  const findings: Finding[] = [];
  if (springback.basis === "ratio") {
    const tested = bends.reduce((sum, b) => sum + b.got, 0) / bends.length;
    findings.push({ code: "die-springback-ratio", place, values: { tested: degrees(tested) } });
  }
  const worst = worstTest(fit, bends);
  if (fit.spread > DISAGREES && worst) {
    const values = { n: count(worst.test.n), off: degrees(worst.off) };
    findings.push({ code: "die-tests-disagree", place, values });
  }
  // A line may not promise that some bend springs on by itself; two standard deviations are allowed for.
  for (const set of [0, 180]) {
    const { value: gets, sd } = springsTo(springback, set);
    if (gets > set + 2 * sd) {
      findings.push({
        code: "die-springback-odd",
        place,
        values: { set: degrees(set), got: degrees(gets) },
      });
    }
  }
  return findings;
}

/** What comes out of a setting (degrees). */
export function springsTo(s: Springback, set: number): Measured {
  const variance = s.c.sd ** 2 + 2 * set * s.covariance + (set * s.k.sd) ** 2;
  return { value: s.k.value * set + s.c.value, sd: Math.sqrt(Math.max(0, variance)) };
}

export interface AngleToSet {
  /** Radians; the wanted angle itself where nothing is known. */
  readonly set: number;
  /** One standard deviation (radians), where it comes from test bends. */
  readonly sd?: number;
  /** True where a springback line is known, stated in the job or measured at two angles well apart. */
  readonly calibrated: boolean;
  readonly basis: "stated" | "line" | "ratio" | "none";
}

/**
 * The angle to set at the bender so that `wanted` comes out: set = (wanted − c)/k.
 *
 * Units: radians in and out (the die's own k and c are in degrees). What the job states goes before its test bends;
 * `errors` is the shop's own for the ±, else 0.5°.
 */
export function angleToSet(
  die: Pick<Die, "od" | "clr" | "springback" | "tests">,
  wanted: number,
  errors: ReadingErrors = COMMON_ERRORS,
): AngleToSet {
  if (die.springback) {
    const { k, c } = die.springback;
    return { set: rad((deg(wanted) - c) / k), calibrated: true, basis: "stated" };
  }
  const { springback } = springbackOf(testBends(die.tests, die).bends, undefined, errors);
  if (!springback) return { set: wanted, calibrated: false, basis: "none" };
  const set = (deg(wanted) - springback.c.value) / springback.k.value;
  return {
    set: rad(set),
    sd: rad(springsTo(springback, set).sd / springback.k.value),
    calibrated: springback.basis === "line",
    basis: springback.basis,
  };
}
