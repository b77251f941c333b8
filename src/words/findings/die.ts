import type { Code } from "../../core/findings/index.ts";

export const DIE = {
  "die-test-got":
    "test bend {n} is left out: it got {got}. A test bend is 1 degree or more and less than 180",
  "die-test-set": "test bend {n} is left out: it was set to {set}. Give the angle set on the bender",
  "die-test-over": "test bend {n} is left out: it got {got} from {set} set. Tube springs back, never on",
  "die-test-leg":
    "test bend {n} is left out: its leg of {leg} is shorter than the {least} of the bend itself. Measure from the sawn end to where the outer lines meet",
  "die-test-stick":
    "test bend {n} is left out: its stick of {stick} is not shorter than both outside legs together, {legs}",
  "die-test-no-stick": "test bend {n} is left out: its stick is {stick}. Give its length before the bend",
  "die-test-half": "test bend {n} gives springback alone: the radius wants both legs and the stick",
  "die-test-unlikely":
    "measure the legs of test bend {n} again, outside, to where the outer lines meet. They are {gain} longer than the stick, {expected} is expected",
  "die-springback-ratio":
    "springback is taken in proportion to the angle, from bends about {tested} alone. Below that, expect to pull again; above it, stop short and measure. A second test bend at another angle ends the guess",
  "die-tests-disagree":
    "check test bend {n}: it is {off} off, and the test bends do not suit one springback line",
  "die-springback-odd":
    "check the test bends: a bend set to {set} would come out at {got}. Tube does not spring on; one reading is wrong",
  "die-radius-sharpness": "the radius is known to ± {sd}: an error in one leg moves it {times} as far",
  "die-radius-untold":
    "make a test bend of 90 degrees or more for the radius. Up to {widest} an error in one leg moves it {times} as far",
  "die-arc-one-test":
    "make a test bend at another angle: one cannot part radius from growth. The arc factor is taken as 1; each percent more makes the radius {perPercent} larger",
  "die-arc-angles-close":
    "make a larger test bend: from {least} to {widest} none parts radius from growth. The arc factor is taken as 1; each percent more makes the radius {perPercent} larger",
  "die-legs-disagree": "measure the legs of test bend {n} again: they are {off} off, and the legs disagree",
  "die-clr-differs":
    "check the radius of the die: the test bends say {found} ± {sd}. Bars are laid out with the die's {clr}",
} as const satisfies Partial<Record<Code, string>>;
