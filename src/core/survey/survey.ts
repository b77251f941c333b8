import type { Finding } from "../findings/index.ts";
import { bestFit, credible, type Fit, type Found, fitFrom, type Lost } from "./adjust.ts";
import { nextBest, undeterminedOf } from "./advice.ts";
import { ALIKE } from "./candidates.ts";
import type { SurveyBar } from "./ends.ts";
import { AS_GOOD, highest, mirroredOf, type Other, othersOf } from "./mirror.ts";
import { type Model, modelOf, type SurveyJob } from "./model.ts";
import { outcomeOf } from "./outcome.ts";
import {
  mirrorFindings,
  misplacedFindings,
  overallFindings,
  samePlaceFindings,
  suspectFindings,
  undeterminedFindings,
  unsolvedFinding,
} from "./report.ts";
import { type Gone, snoop } from "./snoop.ts";
import type { Adjusted, Survey } from "./types.ts";

/**
 * Where every point of the car is, from what was read, with errors, and what does not fit.
 *
 * Weighted least squares in three dimensions over all readings that are not struck, start values found by itself.
 * Convention: car axes; each reading as its type says (job/reading-types.ts); tapes at tubes: `endOf`; the shell's
 * lean: `attitudeOf`. Exact points do not move. A point known with an error takes part with one observation for each
 * coordinate whose sd is more than 0: they count in `freedom`, not in `readings`.
 * Units: mm and degrees in and out. A reading's sd is its own, else the shop's (`shop.errors`, at least 0.001).
 * Range: a point that the readings leave free, or free to within the car's extent, is in `undetermined` and has no
 * place. Where no solution is found `converged` is false and all else empty. Mirror images that suit as well are in
 * `mirrored`; the highest is taken. They are looked for point by point, for all that hangs on one plane of known
 * points, and in surveys of up to twenty points along every likely way to place them: one that hinges on measured points
 * of a large survey may be missed, and with three tapes a point and nothing to check by one survey in 25 to 50
 * (made-up ones) still settles on a mirrored place without a word: a fourth tape, or one height, ends that.
 * `points`, `sigma0`, `readings` come from all readings, `cleaned` from all but the suspects. Errors are a priori:
 * from the stated errors, not multiplied by `sigma0`; to first order, so they mean little where they are as large as
 * what was measured.
 * Formula: adjustment of observations, Baarda's data snooping (any text on survey adjustment: Wolf & Ghilani).
 * Accuracy: the printed digits of the published networks in tests/outside/survey.test.ts.
 */
export function surveyJob(job: SurveyJob, bars: ReadonlyMap<string, SurveyBar> = new Map()): Survey {
  const model = modelOf(job, bars);
  const best = bestFit(model, model.equations);
  if (!best.fit) return unsolved(model, best);
  const { found, others: images } = chosen(best);
  const all = outcomeOf(found.fit);
  let others = images;
  const { fit, suspects, misplaced } = snoop(found, (rest, gone) => {
    const last = likeliest(rest, gone);
    others = last.others;
    return last.fit;
  });
  const cleaned = fit === found.fit ? all : outcomeOf(fit);
  const errors = { tape: job.shop.errors.tape || 1, height: job.shop.errors.height || 1 };
  const undetermined = undeterminedOf(found.fit, errors);
  // A slip can hide a place that the others give, and without a suspect a place may be lost: told is what remains.
  const missing = fit === found.fit ? undetermined : undeterminedOf(fit, errors);
  const mirrored = (others ?? othersOf(fit)).map((other) => mirroredOf(fit, other));
  const next = nextBest(fit, errors);
  const findings = [
    ...model.findings,
    ...suspectFindings(model, suspects, new Set(missing.map((m) => m.id))),
    ...(hasDatum(model) ? undeterminedFindings(missing) : noDatum(missing.length > 0)),
    ...mirrorFindings(mirrored),
    ...samePlaceFindings(cleaned),
    ...misplacedFindings(fit, misplaced),
    ...overallFindings(model, all, cleaned),
  ];
  return {
    ...all,
    converged: true,
    suspects,
    undetermined,
    mirrored,
    cleaned,
    ...(next ? { next } : {}),
    findings,
  };
}

/**
 * The solution, and the others that suit as well: the highest of all that chance cannot tell from the best. One that is
 * found to be better by more takes its place. None are looked for among slips.
 */
function chosen(best: Found): { readonly found: Found; readonly others?: readonly Other[] } {
  if (best.fit.chi2 > credible(best.fit.freedom)) return { found: best };
  let { fit } = best;
  for (let again = 0; again < 5; again++) {
    const all: readonly Other[] = [fit, ...othersOf(fit)];
    const least = Math.min(...all.map((o) => o.chi2));
    const [first, ...rest] = all.filter((o) => o.chi2 <= least + AS_GOOD);
    if (!first) break;
    const taken = highest([first, ...rest], fit.model.extent);
    const next = taken === fit ? undefined : fitFrom(fit.model, fit.equations, taken.network);
    if (!next) return { found: { fit, consensus: fit.network }, others: rest };
    fit = next;
  }
  return { found: { fit, consensus: fit.network } };
}

/**
 * What is left once slips are out, where it suits the readings that are gone best: a slip, or what was meant by it, may
 * still tell a place from its mirror image.
 */
function likeliest(
  fit: Fit,
  gone: readonly Gone[],
): { readonly fit: Fit; readonly others?: readonly Other[] } {
  if (fit.chi2 > credible(fit.freedom)) return { fit };
  const all: readonly Other[] = [fit, ...othersOf(fit)];
  const off = ({ network }: Other): number =>
    gone.reduce(
      (sum, { equation: e, meant }) => sum + Math.log1p(((e.observe(network).value - meant) / e.sd) ** 2),
      0,
    );
  const best = all.reduce((a, b) => (off(b) < off(a) - ALIKE ? b : a));
  const next = best === fit ? fit : fitFrom(fit.model, fit.equations, best.network);
  return next ? { fit: next, others: all.filter((o) => o !== best) } : { fit };
}

const hasDatum = (model: Model): boolean =>
  model.known.some((point) => point.at) || model.readings.some((r) => r.kind === "out" || r.kind === "fore");

const noDatum = (missing: boolean): readonly Finding[] =>
  missing ? [{ code: "survey-no-datum", place: "points", values: {} }] : [];

function unsolved(model: Model, lost: Lost): Survey {
  const nothing: Adjusted = {
    points: new Map(),
    joint: { ids: [], covariance: [], sources: [] },
    sigma0: null,
    freedom: 0,
    readings: [],
  };
  return {
    ...nothing,
    converged: false,
    suspects: [],
    undetermined: model.ids.flatMap((id, p) =>
      model.slots[p]?.some((s) => s !== undefined) ? [{ id, readings: 0, fix: [] }] : [],
    ),
    mirrored: [],
    cleaned: nothing,
    findings: [...model.findings, unsolvedFinding(model, lost)],
  };
}
