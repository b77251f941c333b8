import type { Code, Finding } from "../../core/findings/index.ts";
import { at, type JobDocument } from "../model/document/index.ts";
import type { Question } from "../model/state/index.ts";

/**
 * Where a finding is mended beside the bar itself: the die's figures and test bends, hole saws and notcher, the bender,
 * the errors of the shop, a plate, readings in the car. `bar`: by the bar's own sentences; `none`: nothing is asked for.
 */
type Lead = "die" | "notcher" | "bender" | "errors" | "plate" | "car" | "bar" | "none";

/** Every finding; a new one does not compile until it is said where it leads. */
export const LEADS: Readonly<Record<Code, Lead>> = {
  "straight-short": "bar",
  "corner-coincident": "bar",
  "corner-folds": "bar",
  "die-missing": "die",
  "landing-off-host": "bar",
  "crossing-none": "bar",
  "crossing-several": "bar",
  "crossing-tie": "bar",
  "crossing-in-plane": "bar",
  "mirror-host": "bar",
  "host-without-geometry": "none",
  "point-unplaced": "car",
  "follow-side": "bar",
  "follow-range": "bar",
  "toward-end": "bar",
  "toward-tie": "bar",
  "follow-departs": "none",
  "ends-coped-to-each-other": "bar",
  "nearly-in-line": "bar",
  "plate-behind": "plate",
  "cope-none": "bar",
  "cope-runs-along": "bar",
  "cope-past-bends": "bar",
  "cope-misses": "none",
  "cope-parallel": "bar",
  "cope-shallow": "bar",
  "landing-near-end": "bar",
  "landing-beyond-end": "bar",
  "also-farther-in": "bar",
  "also-not-met": "bar",
  "tube-over-host": "bar",
  "notch-steep": "notcher",
  "notch-no-saw": "notcher",
  "notch-no-cut": "notcher",
  "notch-gap": "notcher",
  "bent-in-joint": "none",
  "survey-no-datum": "car",
  "survey-no-solution": "car",
  "survey-far-out": "car",
  "survey-tangled": "car",
  "survey-undetermined": "car",
  "survey-mirror": "car",
  "survey-suspect": "car",
  "survey-suspect-among": "car",
  "survey-no-place": "car",
  "survey-unit": "car",
  "survey-exact": "car",
  "survey-misplaced": "car",
  "door-gap-changed": "car",
  "survey-test": "errors",
  "survey-same-place": "car",
  "survey-unchecked": "car",
  "survey-lean-half": "car",
  "survey-bar-missing": "none",
  "survey-off-bar": "car",
  "survey-no-bend": "car",
  "reading-unit": "none",
  "bar-on-adjusted": "car",
  "bar-on-doubtful": "car",
  "bar-on-mirrored": "car",
  "survey-own-bar": "car",
  "survey-bars-circle": "car",
  "die-test-got": "die",
  "die-test-set": "die",
  "die-test-over": "die",
  "die-test-leg": "die",
  "die-test-stick": "die",
  "die-test-no-stick": "die",
  "die-test-half": "die",
  "die-test-unlikely": "die",
  "die-springback-ratio": "die",
  "die-tests-disagree": "die",
  "die-springback-odd": "die",
  "die-radius-sharpness": "die",
  "die-radius-untold": "die",
  "die-arc-one-test": "die",
  "die-arc-angles-close": "die",
  "die-legs-disagree": "die",
  "die-clr-differs": "die",
  "die-other-tube": "die",
  "bend-tight": "none",
  "die-uncalibrated": "die",
  "clamp-short": "die",
  "bends-close": "die",
  "tail-short": "die",
  "angle-beyond-die": "die",
  "set-beyond-die": "die",
  "bend-small": "errors",
  "bend-kept-small": "errors",
  "bend-off-tube": "bar",
  "mark-off-tube": "bar",
  "check-negative": "die",
  "blank-nothing": "bar",
  "set-impossible": "die",
  "bend-into-floor": "bender",
  "bend-into-operator": "bender",
  "sheets-many": "none",
  clash: "bar",
  "clash-self": "bar",
  "clash-plate": "plate",
};

/** The questions to which findings lead, each once, in their order. */
export function questionsOf(document: JobDocument, findings: readonly Finding[]): readonly Question[] {
  const all = new Map<string, Question>();
  for (const finding of findings) {
    const question = questionOf(document, finding);
    if (question) all.set(`${question.topic} ${question.key ?? ""}`, question);
  }
  return [...all.values()];
}

function questionOf(document: JobDocument, finding: Finding): Question | undefined {
  switch (LEADS[finding.code]) {
    case "die": {
      const key = dieOf(document, finding);
      return { topic: "die", ...(key === undefined ? {} : { key }) };
    }
    case "plate": {
      const { plate } = finding.values;
      return plate && "plate" in plate ? { topic: "plate", key: plate.plate } : undefined;
    }
    case "notcher":
    case "bender":
    case "errors":
      return { topic: "shop", key: LEADS[finding.code] };
    case "car":
      return { topic: "car" };
    default:
      return undefined;
  }
}

/** The die that a finding is of: by its place in the job, or of its bar, whose original may say it. */
function dieOf(document: JobDocument, { place, bar }: Finding): string | undefined {
  const named = Object.keys((document.dies ?? {}) as object)
    .filter(
      (id) => place === `dies.${id}` || place.startsWith(`dies.${id}.`) || place.startsWith(`dies.${id}[`),
    )
    .sort((a, b) => b.length - a.length)[0];
  if (named !== undefined || bar === undefined) return named;
  const original = at(document, ["bars", bar, "mirrorOf"]) ?? bar;
  const die = at(document, ["bars", String(original), "die"]);
  return typeof die === "string" ? die : undefined;
}
