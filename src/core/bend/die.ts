import type { Finding } from "../findings/index.ts";
import type { DieTest } from "../job/types.ts";
import { type TrueRadius, trueRadius } from "./radius.ts";
import { type Springback, springbackOf } from "./springback.ts";
import { COMMON_ERRORS, type DieSize, type ReadingErrors, testBends } from "./testbend.ts";

/** What a shop's test bends say of one die. Advice to be typed into the die: nothing here changes a bar by itself. */
export interface DieCard {
  readonly springback?: Springback;
  readonly radius?: TrueRadius;
  /** Tests left out and why, what had to be assumed, and where the tests disagree. */
  readonly findings: readonly Finding[];
}

/**
 * A die's card from test bends, by weighted least squares with ± (one standard deviation).
 *
 * Units: tests and springback in degrees and mm, as in the job.
 * Range: any number of tests; what they cannot tell is absent, and a finding says what was assumed instead.
 * `place` is where the tests stand in the job (`dies.d45.tests`); `errors` is the shop's own, else 0.5° and 1 mm.
 */
export function calibrate(
  tests: readonly DieTest[],
  die: DieSize,
  place = "tests",
  errors: ReadingErrors = COMMON_ERRORS,
): DieCard {
  const read = testBends(tests, die, place, errors);
  const { springback, findings: sprung } = springbackOf(read.bends, place, errors);
  const { radius, findings: bent } = trueRadius(read.bends, die, errors, place);
  return {
    ...(springback && { springback }),
    ...(radius && { radius }),
    findings: [...read.findings, ...sprung, ...bent],
  };
}
