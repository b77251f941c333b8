import type { PhraseCode } from "../findings/index.ts";
import type { Vec } from "../space/index.ts";
import type { SlipCode } from "../units/index.ts";
import { advicePhrase } from "./phrases.ts";
import type { Advice, Survey, SurveyPoint } from "./types.ts";

const plain = ([x, y, z]: Vec): Vec => [x + 0, y + 0, z + 0];

const places = (points: ReadonlyMap<string, SurveyPoint>) =>
  Object.fromEntries([...points].map(([id, { at, sd }]) => [id, { at: plain(at), sd: plain(sd) }]));

const codeOf = (advice: Advice): PhraseCode => advicePhrase(advice).phrase;

/**
 * The survey as the command line promises it, readings to take and slips in `words`, each with its code; more keys stand beside the promised ones. Lengths mm, angles degrees.
 * A point that is not determined is in `undetermined` alone. `sigma0` is null where nothing is left to check by.
 */
export function surveyJson(
  survey: Survey,
  words: { readonly advice: (a: Advice) => string; readonly slip: (s: SlipCode) => string },
) {
  const { sigma0, freedom, test, lean, next } = survey;
  return {
    points: places(survey.points),
    sigma0,
    freedom,
    readings: survey.readings.map(({ index, residual, normalized, redundancy }) => ({
      index,
      residual: residual + 0,
      normalized: normalized === null ? null : normalized + 0,
      redundancy,
    })),
    suspects: survey.suspects.map((s) => s.index),
    undetermined: survey.undetermined.map((u) => u.id),
    cleaned: places(survey.cleaned.points),
    cleanedSigma0: survey.cleaned.sigma0,
    cleanedFreedom: survey.cleaned.freedom,
    converged: survey.converged,
    ...(test ? { test } : {}),
    ...(lean ? { lean } : {}),
    suspected: survey.suspects.map((s) => (s.slip ? { ...s, likely: words.slip(s.slip), code: s.slip } : s)),
    fixes: survey.undetermined.map(({ id, fix }) => ({
      point: id,
      take: fix.map(words.advice),
      code: fix.map(codeOf),
      advice: fix,
    })),
    mirrored: survey.mirrored.map(({ points, settle }) => ({
      points,
      settle: words.advice(settle),
      code: codeOf(settle),
      advice: settle,
    })),
    ellipsoids: Object.fromEntries([...survey.points].map(([id, { ellipsoid }]) => [id, ellipsoid])),
    ...(next
      ? {
          next: {
            ...next,
            reading: words.advice(next.reading),
            code: codeOf(next.reading),
            advice: next.reading,
          },
        }
      : {}),
  };
}
