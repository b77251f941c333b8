import type { Code } from "../../core/findings/index.ts";

/** Values that a sentence compares: written with digits enough to differ. */
export const COMPARED: Readonly<Partial<Record<Code, readonly (readonly [string, string])[]>>> = {
  "landing-off-host": [["length", "along"]],
  "follow-departs": [["gap", "wanted"]],
  "landing-near-end": [["distance", "needed"]],
  "landing-beyond-end": [["distance", "needed"]],
  "tube-over-host": [["od", "hostOd"]],
  "notch-steep": [["angle", "steepest"]],
  "notch-gap": [["gap", "accepted"]],
  "survey-suspect": [["read", "computed"]],
  "survey-suspect-among": [["read", "computed"]],
  "survey-exact": [["read", "computed"]],
  "survey-off-bar": [["length", "along"]],
  "die-test-over": [["got", "set"]],
  "die-test-leg": [["leg", "least"]],
  "die-test-stick": [["stick", "legs"]],
  "die-springback-odd": [["set", "got"]],
  "die-clr-differs": [["found", "clr"]],
  "die-other-tube": [["die", "tube"]],
  "bend-tight": [["clr", "least"]],
  "clamp-short": [["has", "needs"]],
  "bends-close": [["has", "needs"]],
  "tail-short": [["has", "needs"]],
  "angle-beyond-die": [["angle", "most"]],
  "set-beyond-die": [["set", "most"]],
  "bend-into-floor": [["below", "height"]],
};
