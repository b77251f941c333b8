import { surveyJob } from "../src/core/survey/index.ts";
import { ERRORS, largeSurvey } from "../tests/support/survey.ts";
import { inTurn, type Row } from "./measure.ts";

/** One survey of sixty points from 240 readings, from readings to points, errors, suspects and the next best reading. */
function surveyed(seed: number, slips: number): number {
  const { points, readings } = largeSurvey(seed, "heights");
  const read = readings.map((r, i) =>
    r.kind === "tape" && i % 50 === 7 && i < 50 * slips ? { ...r, length: r.length + 40 } : r,
  );
  const found = surveyJob({ points, readings: read, shop: { errors: ERRORS } });
  return [...found.points.values()].reduce((sum, p) => sum + p.at[0], found.sigma0 ?? 0);
}

/** Sixty points and 240 readings without a slip and with three, over surveys that differ; starts are found each time. */
export function surveyRows(): Row[] {
  let seed = 0;
  const next = (slips: number) => () => surveyed((seed++ % 12) + 1, slips);
  const [plain, slips] = inTurn([next(0), next(3)], 24, 2);
  return [
    { what: "survey, 60 points, 240 readings", value: plain!, unit: "ms", promise: { atMost: 200 } },
    { what: "the same with three slips", value: slips!, unit: "ms" },
  ];
}
