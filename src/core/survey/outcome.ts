// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import { covarianceWith, globalTest, sparse, standardised } from "../estimate/index.ts";
import { deg } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import type { Fit } from "./adjust.ts";
import { ellipsoidOf } from "./ellipsoid.ts";
import type { Equation } from "./equation.ts";
import type { Adjusted, ReadingResult, SurveyPoint } from "./types.ts";

/** Residual, redundancy and normalised residual of one equation of a fit, in sd. */
export interface Checked {
  readonly equation: Equation;
  readonly residual: number;
  readonly redundancy: number;
  readonly normalized: number | null;
}

/** Each equation's residual over its own a-priori standard deviation. */
export function checks(fit: Fit): readonly Checked[] {
  return fit.equations.map((equation, i) => {
    const residual = fit.weighted[i]! * equation.sd;
    return { equation, residual, ...standardised(fit, i) };
  });
}

/** What was read or given at once has one part or more. */
export type Parts = readonly [Checked, ...Checked[]];

/** What was read or given at once: a reading (a plumb has two equations), or the place of a point (up to three). */
export type Source = { readonly reading: number } | { readonly place: number };

/** Checks by what was read or given: the readings in their order, then the given places. */
export function bySource(all: readonly Checked[]): readonly (Source & { readonly parts: Parts })[] {
  const readings = new Map<number, Parts>();
  const places = new Map<number, Parts>();
  for (const check of all) {
    const { reading, points } = check.equation;
    const [map, key] = reading === undefined ? [places, points[0]!] : [readings, reading];
    const before = map.get(key);
    map.set(key, before ? [...before, check] : [check]);
  }
  return [
    ...[...readings].sort(([a], [b]) => a - b).map(([reading, parts]) => ({ reading, parts })),
    ...[...places].map(([place, parts]) => ({ place, parts })),
  ];
}

/** The part of a reading that stands out most. */
export const worstOf = (parts: Parts): Checked =>
  parts.reduce((a, b) => (Math.abs(b.normalized ?? 0) > Math.abs(a.normalized ?? 0) ? b : a));

/** What a reading came to; a plumb's two parts as one: how far apart in plan, and the greater normalised residual. */
function resultOf(index: number, parts: Parts): ReadingResult {
  const worst = worstOf(parts);
  const { read, isAngle } = worst.equation;
  const size = isAngle ? deg : (v: number): number => v;
  const residual = parts.length === 1 ? size(worst.residual) : Math.hypot(...parts.map((p) => p.residual));
  return {
    index,
    unit: isAngle ? "deg" : "mm",
    read: size(read),
    computed: size(read) + residual,
    residual,
    normalized: worst.normalized,
    redundancy: Math.max(...parts.map((p) => p.redundancy)),
  };
}

/** The points of a fit that are determined. */
export function pointsOf(fit: Fit): ReadonlyMap<string, SurveyPoint> {
  const { model, covariance, loose, network } = fit;
  const points = new Map<string, SurveyPoint>();
  model.ids.forEach((id, p) => {
    const slots = model.slots[p]!;
    if (slots.some((slot) => slot !== undefined && loose.has(slot))) return;
    const c = (i: 0 | 1 | 2, j: 0 | 1 | 2): number => {
      const [a, b] = [slots[i], slots[j]];
      return a === undefined || b === undefined ? 0 : covariance[a]![b]!;
    };
    const row = (i: 0 | 1 | 2): Vec => [c(i, 0), c(i, 1), c(i, 2)];
    const block = [row(0), row(1), row(2)] as const;
    const sd: Vec = [Math.sqrt(c(0, 0)), Math.sqrt(c(1, 1)), Math.sqrt(c(2, 2))];
    points.set(id, { id, at: network.at[p]!, sd, covariance: block, ellipsoid: ellipsoidOf(block) });
  });
  return points;
}

/** The covariance of all determined points that are not exact, together, and what each equation adds to it. */
function jointOf({ model, covariance, loose, equations, rows }: Fit): Adjusted["joint"] {
  const inIt = model.slots.flatMap((slots, p) => {
    const own = slots.filter((s) => s !== undefined);
    return own.length > 0 && !own.some((s) => loose.has(s)) ? [p] : [];
  });
  const slots = inIt.flatMap((p) => model.slots[p]!);
  const common = (a: number | undefined, b: number | undefined): number =>
    a === undefined || b === undefined ? 0 : covariance[a]![b]!;
  return {
    ids: inIt.map((p) => model.ids[p]!),
    covariance: slots.map((a) => slots.map((b) => common(a, b))),
    sources: equations.map((equation, i) => {
      const { reading, isAngle, sd } = equation;
      // The adjusted unknowns are C·Aᵀ·l, A the rows and l what was read, both over the standard deviations.
      const row = sparse(rows[i]!);
      return {
        of: reading === undefined ? coordinateOf(model, equation, row.at[0]!) : { reading },
        unit: isAngle ? "deg" : "mm",
        sd: isAngle ? deg(sd) : sd,
        by: slots.map((slot) => (slot === undefined ? 0 : covarianceWith(covariance, row, slot))),
      };
    }),
  };
}

/** A coordinate known beforehand: its equation speaks of one point and touches that coordinate alone. */
function coordinateOf(model: Fit["model"], { points }: Equation, slot: number) {
  const p = points[0]!;
  return { point: model.ids[p]!, axis: model.slots[p]!.indexOf(slot) as 0 | 1 | 2 };
}

function leanOf({ model, network, covariance }: Fit): Pick<Adjusted, "lean"> {
  const [along, across] = model.lean;
  const one = (slot: number | undefined, way: 0 | 1) =>
    slot === undefined
      ? undefined
      : { angle: deg(network.attitude.lean[way]), sd: deg(Math.sqrt(covariance[slot]![slot]!)) };
  const [a, b] = [one(along, 0), one(across, 1)];
  return a || b ? { lean: { ...(a ? { along: a } : {}), ...(b ? { across: b } : {}) } } : {};
}

/** A fit as the outcome of one adjustment. */
export function outcomeOf(fit: Fit, all = checks(fit)): Adjusted {
  const { chi2, freedom } = fit;
  const test = globalTest(chi2, freedom);
  return {
    points: pointsOf(fit),
    joint: jointOf(fit),
    sigma0: freedom > 0 ? Math.sqrt(chi2 / freedom) : null,
    freedom,
    ...(test ? { test } : {}),
    readings: bySource(all).flatMap((s) => ("reading" in s ? [resultOf(s.reading, s.parts)] : [])),
    ...leanOf(fit),
  };
}
