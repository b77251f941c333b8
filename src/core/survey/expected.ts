import type { Reading } from "../job/reading-types.ts";
import { deg, rad } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import { attitudeOf } from "./attitude.ts";
import type { SurveyBar } from "./ends.ts";
import type { Equation } from "./equation.ts";
import { equationsOf } from "./model.ts";
import type { Survey } from "./types.ts";

/** Errors play no part in what is expected. */
const SHOP = { errors: { tape: 1, height: 1, level: 1, plumb: 1, slope: 1 } };

/**
 * What a reading would read where points and bars are as given (mm, or degrees): a tape as it reads, what of it was held
 * at its first end included. Undefined where one of its ends has no place, and for level and plumb, which read nothing.
 */
export function expectedOf(
  reading: Reading,
  points: ReadonlyMap<string, Vec>,
  bars: ReadonlyMap<string, SurveyBar>,
  lean?: Survey["lean"],
): number | undefined {
  if (reading.kind === "level" || reading.kind === "plumb") return undefined;
  const ids = pointsIn(reading);
  const at = ids.map((id) => points.get(id)).filter((place) => place !== undefined);
  if (at.length < ids.length) return undefined;
  const numbers = new Map(ids.map((id, i) => [id, i]));
  const [equation] = equationsOf(reading, 0, { readings: [reading], shop: SHOP }, numbers, bars);
  if (!equation || !isEquation(equation)) return undefined;
  const attitude = attitudeOf(rad(lean?.along?.angle ?? 0), rad(lean?.across?.angle ?? 0));
  const { value } = equation.observe({ at, attitude });
  return equation.isAngle ? deg(value) : value;
}

const isEquation = (made: object): made is Equation => "observe" in made;

/** The points that a reading names. */
export function pointsIn(r: Reading): readonly string[] {
  if (r.kind === "tape") return r.ends.flatMap((e) => (e.kind === "point" ? [e.point] : []));
  if (r.kind === "lean") return [];
  return "points" in r ? r.points : [r.point];
}
