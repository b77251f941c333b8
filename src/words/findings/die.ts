import type { Code } from "../../core/findings/index.ts";

export const DIE = {
  "die-test-got":
    "test bend {n} is left out: it got {got}; a test bend is 1 degree or more and less than 180",
  "die-test-set": "test bend {n} is left out: it was set to {set}; give the angle that the bender was set to",
  "die-test-over": "test bend {n} is left out: it got {got} from {set} set; tube springs back, never on",
  "die-test-leg":
    "test bend {n} is left out: a leg of {leg} is shorter than the {least} that the bend itself takes up; measure from the sawn end to where the outer lines meet",
  "die-test-stick":
    "test bend {n} is left out: a stick of {stick} is as long as both outside legs together, {legs}; it was shorter",
  "die-test-no-stick": "test bend {n} is left out: its stick is {stick}; give its length before the bend",
  "die-test-half": "test bend {n} tells springback alone: the radius wants both legs and the stick",
  "die-test-unlikely":
    "test bend {n}: the legs are together {gain} longer than the stick where {expected} was to be expected; were they measured outside, to where the outer lines meet?",
  "die-springback-ratio":
    "springback is taken in proportion to the angle, from bends about {tested} alone: below that, expect to pull again; above it, stop short and measure; a second test bend at another angle ends the guess",
  "die-tests-disagree": "the test bends do not lie on one springback line; test bend {n} is {off} off it",
  "die-springback-odd":
    "by these test bends a bend set to {set} would come out at {got}; tube does not spring on, so one reading is wrong",
  "die-radius-sharpness": "the radius is known to ± {sd}; an error in one leg would move it {times} as far",
  "die-radius-untold":
    "test bends up to {widest} are too small to tell the radius: an error in one leg would move it {times} as far; bend one of 90 degrees or more",
  "die-arc-one-test":
    "one angle cannot tell radius from growth: the arc factor is taken as 1, and each percent that it is really more makes the radius {perPercent} larger",
  "die-arc-angles-close":
    "test bends from {least} to {widest} are too close together or too small to tell radius from growth: the arc factor is taken as 1, and each percent that it is really more makes the radius {perPercent} larger",
  "die-legs-disagree": "the legs of the test bends do not agree; those of test bend {n} are {off} off",
  "die-clr-differs":
    "the test bends say a radius of {found} ± {sd}; the die says {clr}, and that is what bars are laid out with",
} as const satisfies Partial<Record<Code, string>>;
