// biome-ignore-all lint/style/noNonNullAssertion: modelOf numbers points and unknowns: slots, known and network.at have an entry a point, the covariance a line an unknown, and an equation speaks of those points alone
import { learnt, normalEquations, type Row, shrinkage } from "../estimate/index.ts";
import type { Reading } from "../job/reading-types.ts";
import { inverseSymmetric, type Rows } from "../numeric/index.ts";
import { len, sub } from "../space/index.ts";
import type { Fit } from "./adjust.ts";
import { AXES, type Equation, height, known } from "./equation.ts";
import { type Model, touchedBy } from "./model.ts";
import type { Advice, NextBest, Undetermined } from "./types.ts";

type Errors = { readonly tape: number; readonly height: number };

/** A reading that could be taken: the unknowns that it touches and its derivatives over its standard deviation. */
interface Possible extends Row {
  readonly advice: Advice;
}

function possible(fit: Fit, advice: Advice, equation: Equation): Possible {
  const touched = touchedBy(fit.model, equation, fit.network);
  return { advice, at: [...touched.keys()], by: [...touched.values()].map((v) => v / equation.sd) };
}

/** A tape between two points, to be read with the shop's error: the direction between them. */
function tapeOf({ model, network }: Fit, p: number, q: number, errors: Errors): Possible {
  const v = sub(network.at[q]!, network.at[p]!);
  const length = len(v) || 1;
  const at: number[] = [];
  const by: number[] = [];
  for (const i of [0, 1, 2] as const) {
    for (const [end, sign] of [
      [p, -1],
      [q, 1],
    ] as const) {
      const slot = model.slots[end]![i];
      if (slot === undefined) continue;
      at.push(slot);
      by.push((sign * v[i]) / (length * errors.tape));
    }
  }
  return { advice: { kind: "tape", points: [model.ids[p]!, model.ids[q]!] }, at, by };
}

function coordinatesOf(fit: Fit, p: number, errors: Errors): readonly Possible[] {
  const base = { read: 0, sd: errors.height };
  const id = fit.model.ids[p]!;
  return [
    possible(fit, { kind: "height", point: id }, height(base, p)),
    possible(fit, { kind: "out", point: id }, known(base, p, AXES.out)),
    possible(fit, { kind: "fore", point: id }, known(base, p, AXES.fore)),
  ];
}

/** Σ of the variances of some unknowns. */
const traceOf = (c: Rows, slots: readonly number[]): number => slots.reduce((sum, s) => sum + c[s]![s]!, 0);

const slotsOf = (model: Model, p: number): readonly number[] =>
  model.slots[p]!.flatMap((s) => (s === undefined ? [] : [s]));

const isFree = (fit: Fit, p: number): boolean => slotsOf(fit.model, p).some((s) => fit.loose.has(s));

/** Pairs that a tape was read between already, and coordinates that were read. */
export function takenIn(readings: readonly Reading[]): ReadonlySet<string> {
  const taken = readings.flatMap((r) => {
    if (r.struck) return [];
    if (r.kind === "tape")
      return [
        r.ends
          .map((e) => (e.kind === "point" ? e.point : ""))
          .sort()
          .join("\n"),
      ];
    return r.kind === "height" || r.kind === "out" || r.kind === "fore" ? [`${r.kind}\n${r.point}`] : [];
  });
  return new Set(taken);
}

/** Whether a reading was taken already and counts. */
export const isTaken = (advice: Advice, readings: readonly Reading[]): boolean =>
  takenIn(readings).has(keyOf(advice));

export const keyOf = (a: Advice): string =>
  a.kind === "tape" ? [...a.points].sort().join("\n") : `${a.kind}\n${a.point}`;

/** The reading not yet taken that shrinks the errors of the determined points most; undefined where all are exact. */
export function nextBest(fit: Fit, errors: Errors): NextBest | undefined {
  const { model, covariance } = fit;
  const taken = takenIn(model.readings);
  const open = model.ids.flatMap((_, p) => (isFree(fit, p) ? [] : [p]));
  const loose = open.filter((p) => slotsOf(model, p).length > 0);
  const slots = loose.flatMap((p) => slotsOf(model, p));
  let best: { possible: Possible; gain: number } | undefined;
  const consider = (possible: Possible): void => {
    if (taken.has(keyOf(possible.advice))) return;
    const gain = shrinkage(covariance, possible, slots);
    if (!best || gain > best.gain * (1 + 1e-9)) best = { possible, gain };
  };
  for (const p of loose) {
    for (const q of open) if (q < p || !loose.includes(q)) if (q !== p) consider(tapeOf(fit, p, q, errors));
    for (const possible of coordinatesOf(fit, p, errors)) consider(possible);
  }
  if (!best || !(best.gain > 0)) return undefined;
  const { possible } = best;
  const gains = loose.map((p) => ({ p, gain: shrinkage(covariance, possible, slotsOf(model, p)) }));
  const { p, gain } = gains.reduce((a, b) => (b.gain > a.gain ? b : a));
  const before = traceOf(covariance, slotsOf(model, p));
  return {
    reading: possible.advice,
    point: model.ids[p]!,
    before: Math.sqrt(before),
    after: Math.sqrt(Math.max(0, before - gain)),
  };
}

/** An error of this share of the car's extent is a place at last. */
const FIXED = 1 / 20;

/**
 * The points that are not determined, each with the readings that would fix it, the most telling first.
 * Every coordinate is taken as known to the car's extent beforehand; then reading after reading is chosen that leaves
 * the point the least error. Seen from where the point was left attitudeOf, so a first guess where nothing was read.
 */
export function undeterminedOf(fit: Fit, errors: Errors): readonly Undetermined[] {
  const { model, equations } = fit;
  const free = model.ids.flatMap((_, p) => (isFree(fit, p) ? [p] : []));
  if (free.length === 0) return [];
  const noResiduals = fit.rows.map(() => 0);
  const { normal } = normalEquations(fit.rows, noResiduals, model.unknowns);
  const vague = normal.map((row, j) => row.map((v, k) => (j === k ? v + 1 / model.extent ** 2 : v)));
  const covariance = inverseSymmetric(vague);
  const taken = takenIn(model.readings);
  return free.map((p) => {
    const count = new Set(equations.flatMap((e) => (e.points.includes(p) ? [e.reading] : []))).size;
    const places = model.ids.flatMap((_, q) => (q !== p && !isFree(fit, q) ? [q] : []));
    const all = [...places.map((q) => tapeOf(fit, p, q, errors)), ...coordinatesOf(fit, p, errors)].filter(
      ({ advice }) => !taken.has(keyOf(advice)),
    );
    return {
      id: model.ids[p]!,
      readings: count,
      fix: covariance ? fixing(covariance, all, slotsOf(model, p), model.extent) : [],
    };
  });
}

function fixing(
  start: Rows,
  all: readonly Possible[],
  slots: readonly number[],
  extent: number,
): readonly Advice[] {
  const fix: Advice[] = [];
  let c = start;
  const error = (): number => Math.sqrt(Math.max(...slots.map((s) => c[s]![s]!)));
  while (fix.length < 3 && error() > FIXED * extent) {
    const rated = all.map((possible) => ({ possible, gain: shrinkage(c, possible, slots) }));
    const best = rated.reduce<(typeof rated)[number] | undefined>(
      (a, b) => (!a || b.gain > a.gain * 1.001 ? b : a),
      undefined,
    );
    if (!best || !(best.gain > 1e-6 * extent ** 2)) break;
    fix.push(best.possible.advice);
    c = learnt(c, best.possible);
  }
  return fix;
}
