import { learnt, type Row, shrinkage } from "../estimate/index.ts";
import { type Rows, rad } from "../numeric/index.ts";
import { dot, len, sub, type Vec } from "../space/index.ts";
import { keyOf, takenIn } from "./advice.ts";
import { type Attitude, attitudeOf } from "./attitude.ts";
import type { SurveyJob } from "./model.ts";
import type { Adjusted, Advice, Survey } from "./types.ts";

/** A reading of one point, and its error before and after it: √(sx² + sy² + sz²) (mm). */
export interface PointRead {
  readonly reading: Advice;
  readonly before: number;
  readonly after: number;
}

interface Possible extends Row {
  readonly advice: Advice;
}

/** A reading that would shrink the error by less than this share of it is not worth a walk. */
const WORTH = 0.01;

/**
 * What to read next at one point that is determined: the reading that shrinks its error most, then the one that does so
 * once the first is taken, and so on, at most `most` of them, none that was taken already.
 *
 * Units: mm. Errors: the shop's, one standard deviation. Formula: the covariance after one more reading (rank-one update
 * of the adjustment's; any text on survey adjustment: Wolf & Ghilani). Accuracy: to first order, where the point is now;
 * the error of the shell's lean counts as each height's own, what the two have in common is left out.
 * Empty for a point that is not determined (`Survey.undetermined` says what fixes it), or that is exact.
 */
export function readsOf(
  { readings, shop }: Pick<SurveyJob, "readings" | "shop">,
  survey: Survey,
  id: string,
  most = 4,
): readonly PointRead[] {
  const { joint } = survey.cleaned;
  const own = slotsOf(joint, id);
  if (!own) return [];
  const taken = takenIn(readings);
  const all = possibles(survey.cleaned, id, {
    tape: shop.errors.tape || 1,
    height: shop.errors.height || 1,
  }).filter(({ advice }) => !taken.has(keyOf(advice)));
  const next: PointRead[] = [];
  let c: Rows = joint.covariance;
  const error = (of: Rows): number => Math.sqrt(own.reduce((sum, s) => sum + (of[s]?.[s] ?? 0), 0));
  while (next.length < most) {
    const rated = all.map((possible) => ({ possible, gain: shrinkage(c, possible, own) }));
    const best = rated.reduce<(typeof rated)[number] | undefined>(
      (a, b) => (!a || b.gain > a.gain * (1 + 1e-9) ? b : a),
      undefined,
    );
    const before = error(c);
    if (!best || !(best.gain > (1 - (1 - WORTH) ** 2) * before ** 2)) break;
    c = learnt(c, best.possible);
    next.push({ reading: best.possible.advice, before, after: error(c) });
    all.splice(all.indexOf(best.possible), 1);
  }
  return next;
}

type Errors = { readonly tape: number; readonly height: number };

function slotsOf({ ids }: Adjusted["joint"], id: string): readonly [number, number, number] | undefined {
  const k = ids.indexOf(id);
  return k < 0 ? undefined : [3 * k, 3 * k + 1, 3 * k + 2];
}

/** A tape to every other point that has a place, and the three coordinates. */
function possibles(adjusted: Adjusted, id: string, errors: Errors): Possible[] {
  const { joint, points } = adjusted;
  const here = points.get(id);
  if (!here) return [];
  /** A direction at one point over the reading's error, where that point can move at all. */
  const row = (advice: Advice, sd: number, ...parts: readonly (readonly [string, Vec])[]): Possible => {
    const at: number[] = [];
    const by: number[] = [];
    for (const [point, way] of parts)
      for (const [i, slot] of (slotsOf(joint, point) ?? []).entries()) {
        at.push(slot);
        by.push((way[i] ?? 0) / sd);
      }
    return { advice, at, by };
  };
  const tapes = [...points.values()].flatMap((other) => {
    const v = sub(other.at, here.at);
    const length = len(v);
    if (other.id === id || !(length > 0)) return [];
    const dir: Vec = [v[0] / length, v[1] / length, v[2] / length];
    const back: Vec = [-dir[0], -dir[1], -dir[2]];
    return [row({ kind: "tape", points: [other.id, id] }, errors.tape, [other.id, dir], [id, back])];
  });
  const { up, sd } = leaning(adjusted, here.at);
  return [
    ...tapes,
    row({ kind: "height", point: id }, Math.hypot(errors.height, sd), [id, up]),
    row({ kind: "out", point: id }, errors.height, [id, [0, 1, 0]]),
    row({ kind: "fore", point: id }, errors.height, [id, [1, 0, 0]]),
  ];
}

/** Which way is up, and what the lean's own error makes of a height there (mm). */
function leaning({ lean }: Adjusted, at: Vec): { readonly up: Attitude["up"]; readonly sd: number } {
  const [a, b] = [lean?.along, lean?.across];
  const { up, by } = attitudeOf(rad(a?.angle ?? 0), rad(b?.angle ?? 0));
  return { up, sd: Math.hypot(dot(at, by[0]) * rad(a?.sd ?? 0), dot(at, by[1]) * rad(b?.sd ?? 0)) };
}
