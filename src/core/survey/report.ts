// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import {
  count,
  degrees,
  type Finding,
  list,
  mm,
  phrase,
  place as placed,
  point as pointOf,
  type Quantity,
  ratio,
  reading as readingOf,
  text,
} from "../findings/index.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { dist } from "../space/index.ts";
import type { Fit, Lost } from "./adjust.ts";
import type { Model } from "./model.ts";
import { advicePhrase, readingPhrase } from "./phrases.ts";
import type { Adjusted, Mirrored, Suspect, Undetermined } from "./types.ts";

const quantity = (value: number, unit: "mm" | "deg") => (unit === "deg" ? degrees(value) : mm(value));

/** A list in a sentence names so many and counts the others. */
const NAMED = 5;
const listed = (items: readonly Quantity[]): Quantity => list(items, NAMED);

/**
 * One finding for each reading that does not fit: by unit, between exact places, against the others, or so that no place
 * is left for a point (`missing`).
 */
export function suspectFindings(
  model: Model,
  suspects: readonly Suspect[],
  missing: ReadonlySet<string>,
): readonly Finding[] {
  return suspects.map(({ index, unit, read, computed, slip, among }): Finding => {
    const reading = model.readings[index]!;
    const place = `readings[${index}]`;
    const values = {
      reading: readingPhrase(reading),
      read: quantity(read, unit),
      computed: quantity(computed, unit),
    };
    if (slip !== undefined)
      return { code: "survey-unit", place, values: { ...values, likely: phrase(`slip-${slip}`) } };
    if (readsExactPlaces(model, index)) return { code: "survey-exact", place, values };
    const others = among ? listed(among.map(readingOf)) : phrase("other-readings");
    const point = pointsOf(model, index).find((id) => missing.has(id));
    if (point !== undefined)
      return { code: "survey-no-place", place, values: { ...values, others, point: pointOf(point) } };
    if (among)
      return {
        code: "survey-suspect-among",
        place,
        values: { ...values, others },
      };
    return { code: "survey-suspect", place, values };
  });
}

const pointsOf = (model: Model, index: number): readonly string[] =>
  model.equations.flatMap((e) => (e.reading === index ? e.points.map((p) => model.ids[p]!) : []));

/** A reading of exact places alone. */
function readsExactPlaces(model: Model, index: number): boolean {
  const exact = (p: number): boolean => model.slots[p]!.every((slot) => slot === undefined);
  const own = model.equations.filter((e) => e.reading === index);
  return own.every((e) => (e.points.length > 0 ? e.points.every(exact) : !e.isAngle));
}

export function undeterminedFindings(undetermined: readonly Undetermined[]): readonly Finding[] {
  return undetermined.map(({ id, readings, fix }) => ({
    code: "survey-undetermined",
    place: `points.${id}`,
    values: {
      point: pointOf(id),
      count: count(readings),
      fix: fix.length > 0 ? list(fix.map(advicePhrase)) : phrase("take-tied-place"),
    },
  }));
}

export function mirrorFindings(mirrored: readonly Mirrored[]): readonly Finding[] {
  return mirrored.map(({ points, settle }) => {
    const [first] = points;
    return {
      code: "survey-mirror",
      place: `points.${first!.id}`,
      values: {
        points: listed(points.map((p) => pointOf(p.id))),
        point: pointOf(first!.id),
        at: placed(first!.at),
        other: placed(first!.other),
        settle: advicePhrase(settle),
      },
    };
  });
}

/** Points within a thousandth of a millimetre of each other. */
export function samePlaceFindings(adjusted: Adjusted): readonly Finding[] {
  const points = [...adjusted.points.values()];
  return points.flatMap((p, i) =>
    points
      .slice(i + 1)
      .filter((q) => dist(p.at, q.at) <= SAME_PLACE)
      .map(
        (q): Finding => ({
          code: "survey-same-place",
          place: `points.${q.id}`,
          values: { first: pointOf(p.id), second: pointOf(q.id) },
        }),
      ),
  );
}

/** Places given with an error that the readings contradict. */
export function misplacedFindings(fit: Fit, misplaced: readonly number[]): readonly Finding[] {
  return misplaced.map((p) => {
    const id = fit.model.ids[p]!;
    const { at, sd } = fit.model.known[p]!;
    const values = {
      point: pointOf(id),
      off: mm(dist(at!, fit.network.at[p]!)),
      sd: list(sd.map(mm)),
    };
    return { code: "survey-misplaced", place: `points.${id}`, values };
  });
}

/** The one line where no solution was found: how much is out of step, or the reading farthest out where most agree. */
export function unsolvedFinding(model: Model, { consensus, astray }: Lost): Finding {
  if (astray !== undefined)
    return {
      code: "survey-tangled",
      place: "readings",
      values: { astray: count(astray), all: count(model.equations.length) },
    };
  const rated = consensus
    ? model.equations.flatMap((e) =>
        e.reading === undefined ? [] : [{ e, off: Math.abs(e.observe(consensus).value - e.read) / e.sd }],
      )
    : [];
  const worst = rated.reduce<(typeof rated)[number] | undefined>(
    (a, b) => (a && a.off >= b.off ? a : b),
    undefined,
  );
  if (!worst) return { code: "survey-no-solution", place: "readings", values: {} };
  const index = worst.e.reading!;
  return {
    code: "survey-far-out",
    place: `readings[${index}]`,
    values: { reading: readingPhrase(model.readings[index]!) },
  };
}

/** What the readings as a whole say of themselves. */
export function overallFindings(model: Model, all: Adjusted, cleaned: Adjusted): readonly Finding[] {
  const found: Finding[] = [];
  if (cleaned.test && !cleaned.test.passed)
    found.push({
      code: "survey-test",
      place: "readings",
      values: { sigma0: ratio(cleaned.sigma0!) },
    });
  const unchecked = all.readings.filter((r) => r.normalized === null);
  if (unchecked.length > 0)
    found.push({
      code: "survey-unchecked",
      place: "readings",
      values: { places: listed(unchecked.map((r) => readingOf(r.index))) },
    });
  const [along, across] = model.lean;
  if ((along === undefined) !== (across === undefined))
    found.push({
      code: "survey-lean-half",
      place: "readings",
      values: { way: text(along === undefined ? "across" : "along") },
    });
  return found;
}
