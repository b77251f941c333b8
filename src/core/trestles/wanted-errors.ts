import type { ResolvedBar } from "../layout/types.ts";
import { type Rows, wrapPi } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { type BarShape, shapeOf } from "./shape.ts";

/** The places that bars take theirs from, and how sure they are. */
export interface MeasuredPlaces {
  /** One name a coordinate: "post x". */
  readonly names: readonly string[];
  /** Covariance of the coordinates (mm²). */
  readonly covariance: Rows;
  /** Every bar laid out with the coordinates moved by so much (mm). */
  readonly barsWith: (by: readonly number[]) => ReadonlyMap<string, ResolvedBar>;
}

/** What a bar's own figures are uncertain by, from the places alone: one standard deviation each (mm, radians). */
export interface WantedErrors {
  readonly length: number;
  readonly straights: readonly number[];
  readonly angles: readonly number[];
  readonly turns: readonly number[];
  /** Station of each bend's start. */
  readonly starts: readonly number[];
  readonly landings: { readonly A: Vec; readonly B: Vec };
  /** Of the distance between the landings. */
  readonly apart: number;
  /** The coordinate that the length hangs on most, and its share of the variance; absent where the length hangs on none. */
  readonly most?: { readonly name: string; readonly share: number };
}

/**
 * How the errors of measured places come through in the bars, to first order: central differences of the layout by
 * one standard deviation of each coordinate, then J C Jᵀ.
 *
 * A bar that has other bends once a place is moved (a corner under 0.001° falls away), or no geometry, is left out.
 */
export function wantedErrors(places: MeasuredPlaces): ReadonlyMap<string, WantedErrors> {
  const { names, covariance, barsWith } = places;
  const nothing = names.map(() => 0);
  const here = barsWith(nothing);
  const steps = names.map((_, j) => Math.max(1e-3, Math.sqrt(covariance[j]![j]!)));
  const moved = names.map((_, j) => {
    const by = (sign: number): number[] => nothing.map((_, k) => (k === j ? sign * steps[j]! : 0));
    return covariance[j]![j]! > 0 ? ([barsWith(by(1)), barsWith(by(-1))] as const) : undefined;
  });
  const out = new Map<string, WantedErrors>();
  for (const [id, bar] of here) {
    const base = figures(bar);
    const rows: number[][] = base.map(() => []);
    let whole = true;
    moved.forEach((pair, j) => {
      const up = pair ? pair[0].get(id) : bar;
      const down = pair ? pair[1].get(id) : bar;
      const [a, b] = [up && figures(up), down && figures(down)];
      if (a?.length !== base.length || b?.length !== base.length) whole = false;
      else {
        base.forEach((_, i) => {
          rows[i]!.push(difference(i, a[i]!, b[i]!, bar) / (2 * steps[j]!));
        });
      }
    });
    if (whole) out.set(id, told(bar, rows, places));
  }
  return out;
}

/** Length, landings' distance, both landings, straights, angles, turns, starts: the order is `told`'s. */
function figures(bar: ResolvedBar): number[] {
  const { centreline: line } = bar;
  const shape: BarShape = shapeOf(line);
  return [
    line.length,
    dist(line.start, line.finish),
    ...line.start,
    ...line.finish,
    ...shape.straights,
    ...shape.angles,
    ...shape.turns,
    ...line.bends.map((b) => b.start),
  ];
}

/** Turns wrap at half a turn. */
function difference(i: number, a: number, b: number, bar: ResolvedBar): number {
  const n = bar.centreline.bends.length;
  const turns = 8 + (n + 1) + n;
  return i >= turns && i < turns + n ? wrapPi(a - b) : a - b;
}

function told(bar: ResolvedBar, rows: readonly (readonly number[])[], places: MeasuredPlaces): WantedErrors {
  const { covariance, names } = places;
  const through = (row: readonly number[]): number =>
    row.reduce(
      (s, v, j) => (v === 0 ? s : s + v * row.reduce((t, w, k) => t + covariance[j]![k]! * w, 0)),
      0,
    );
  const sd = rows.map((row) => Math.sqrt(Math.max(0, through(row))));
  const n = bar.centreline.bends.length;
  let at = 8;
  const next = (count: number): number[] => sd.slice(at, (at += count));
  const shares = names.map((_, j) => rows[0]![j]! ** 2 * covariance[j]![j]!);
  const most = shares.indexOf(Math.max(...shares));
  const sum = shares.reduce((s, v) => s + v, 0);
  return {
    length: sd[0]!,
    apart: sd[1]!,
    landings: { A: [sd[2]!, sd[3]!, sd[4]!], B: [sd[5]!, sd[6]!, sd[7]!] },
    straights: next(n + 1),
    angles: next(n),
    turns: next(n),
    starts: next(n),
    ...(sum > 0 ? { most: { name: names[most]!, share: shares[most]! / sum } } : {}),
  };
}
