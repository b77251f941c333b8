import { fitLinear, type LinearFit } from "../estimate/index.ts";
import { count, degrees, type Finding, mm, phrase, type Quantity, ratio } from "../findings/index.ts";
import type { Measured } from "./springback.ts";
import {
  DISAGREES,
  type DieSize,
  gainError,
  type ReadingErrors,
  type TestBend,
  worstTest,
} from "./testbend.ts";

/** What test bends say of a die's radius (mm) and of the tube that a bend uses up. */
export interface TrueRadius {
  readonly clr: Measured;
  /** Length of tube used in a bend over R·θ; absent where the tests cannot tell it and it was taken as 1. */
  readonly arcFactor?: Measured;
  /** How far 1 mm in one leg or stick moves the answer, in the worst case. */
  readonly perMm: { readonly clr: number; readonly arcFactor?: number };
  /** Condition of the equations, unknowns scaled alike: 1 at best; about 16 for 90° and 120°, 27 for 30° and 90°. */
  readonly condition: number;
  readonly tests: number;
}

type Measurable = TestBend & { readonly gain: number };
/** Rows of the equations: of the radius alone, and with the tube that a bend uses up. */
type One = readonly [number];
type Two = readonly [number, number];

/** Above this the two unknowns are told apart by the error of the tape alone (75° and 90° stand at 49). */
const WORST_CONDITION = 50;

/** A radius less sure than a quarter of itself is no radius. */
const WORST_RADIUS = 0.25;

/**
 * True centreline radius R and arc factor a of a die, from the outside legs A, B of test bends and their sticks.
 *
 * Formula (derived): a leg from its sawn end to where the outer lines meet is straight + (R + OD/2)·tan(θ/2), the
 * stick is both straights + a·R·θ, so A + B − stick = 2(R + OD/2)·tan(θ/2) − q·θ with q = a·R, linear in R and q.
 * Each equation is weighted by the error of three tapes and of the angle.
 * Units: mm; R ± and a ± are one standard deviation.
 * Range: one test, or several at angles too close or too small to tell both, gives R with a = 1, and a note says
 * what that costs; tests too small for any radius (one under about 50° on a die of 135) give none, and a note says that.
 */
export function trueRadius(
  bends: readonly TestBend[],
  die: DieSize,
  errors: ReadingErrors,
  place: string,
): { readonly radius?: TrueRadius; readonly findings: readonly Finding[] } {
  const tests = bends.filter((b): b is Measurable => b.gain !== undefined);
  if (tests.length === 0) return { findings: [] };
  const twoOf = (t: Measurable): number => 2 * Math.tan(t.angle / 2);
  const sd = tests.map((t) => gainError(t, die, errors));
  const readings = tests.map((t) => t.gain - (die.od / 2) * twoOf(t));
  const both = fitLinear(
    tests.map((t) => [twoOf(t), -t.angle] as const),
    readings,
    sd,
  );
  if (both && both.condition <= WORST_CONDITION && sure(both)) {
    const radius = withArcFactor(both, tests.length);
    return {
      radius,
      findings: [...disagreement(both, tests, place), ...notes(radius, tests, die, place, 0)],
    };
  }
  const alone = fitLinear(
    tests.map((t) => [twoOf(t) - t.angle] as const),
    readings,
    sd,
  );
  if (!alone || !sure(alone)) {
    const widest = Math.max(...tests.map((t) => t.got));
    const values = { widest: degrees(widest), times: times(alone && worst(alone.gain[0])) };
    return { findings: [{ code: "die-radius-untold", place, values }] };
  }
  const clr = { value: alone.x[0], sd: Math.sqrt(alone.covariance[0][0]) };
  const perMm = { clr: worst(alone.gain[0]) };
  const radius = { clr, perMm, condition: alone.condition, tests: tests.length };
  const perPercent = alone.gain[0].reduce(
    // biome-ignore lint/style/noNonNullAssertion: the gain has an entry for each test
    (sum, g, i) => sum + g * tests[i]!.angle * clr.value * 0.01,
    0,
  );
  return {
    radius,
    findings: [...disagreement(alone, tests, place), ...notes(radius, tests, die, place, perPercent)],
  };
}

/** By the stated errors alone: tests that disagree are another finding. */
const sure = ({ x: [r], covariance: [[rr]], spread }: LinearFit<One> | LinearFit<Two>): boolean =>
  r > 0 && Math.sqrt(rr) <= WORST_RADIUS * r * spread;

/** "81.4 times"; without a solution there is no bound. */
const times = (gain: number | undefined): Quantity =>
  gain === undefined || !Number.isFinite(gain)
    ? phrase("times-any")
    : phrase("times", { times: ratio(gain) });

const worst = (moves: readonly number[]): number => Math.max(...moves.map(Math.abs));

/** R and a = q/R with the ± of a quotient. */
function withArcFactor({ x, covariance, gain, condition }: LinearFit<Two>, tests: number): TrueRadius {
  const [r, q] = x;
  const [[rr, rq], [, qq]] = covariance;
  const [ofR, ofQ] = gain;
  const a = q / r;
  const variance = (qq - 2 * a * rq + a * a * rr) / (r * r);
  // biome-ignore lint/style/noNonNullAssertion: both gains have an entry for each test
  const moves = ofR.map((g, i) => (ofQ[i]! - a * g) / r);
  return {
    clr: { value: r, sd: Math.sqrt(rr) },
    arcFactor: { value: a, sd: Math.sqrt(Math.max(0, variance)) },
    perMm: { clr: worst(ofR), arcFactor: worst(moves) },
    condition,
    tests,
  };
}

function disagreement(
  fit: Pick<LinearFit, "spread" | "off">,
  tests: readonly Measurable[],
  place: string,
): Finding[] {
  const bad = worstTest(fit, tests);
  if (fit.spread <= DISAGREES || !bad) return [];
  return [{ code: "die-legs-disagree", place, values: { n: count(bad.test.n), off: mm(bad.off) } }];
}

function notes(
  radius: TrueRadius,
  tests: readonly Measurable[],
  die: DieSize,
  place: string,
  perPercent: number,
): Finding[] {
  const findings: Finding[] = [
    {
      code: "die-radius-sharpness",
      place,
      values: { times: times(radius.perMm.clr), sd: mm(radius.clr.sd) },
    },
  ];
  if (!radius.arcFactor) {
    const got = tests.map((t) => t.got);
    const values = {
      least: degrees(Math.min(...got)),
      widest: degrees(Math.max(...got)),
      perPercent: mm(perPercent),
    };
    findings.push({ code: tests.length === 1 ? "die-arc-one-test" : "die-arc-angles-close", place, values });
  }
  // Less than a millimetre, or less than twice its own ±, is no difference that a shop could act on.
  const { value, sd } = radius.clr;
  if (Math.abs(value - die.clr) > Math.max(1, 2 * sd)) {
    findings.push({
      code: "die-clr-differs",
      place,
      values: { found: mm(value), sd: mm(sd), clr: mm(die.clr) },
    });
  }
  return findings;
}
