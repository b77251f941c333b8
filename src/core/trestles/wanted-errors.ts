// biome-ignore-all lint/style/noNonNullAssertion: the figures of bars of one kind are alike long, so are sd, squares and moves; columns and by have an entry a coordinate, moves and of one a source, and scatter holds every bar of here
import type { Phrase } from "../findings/index.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { normal, seeded, wrapPi } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { type BarShape, shapeOf } from "./shape.ts";

/** Something that the places hang on, and how far it moves them. */
export interface PlaceSource {
  /** What it is called: "the tape from a to post". */
  readonly name: Phrase;
  /** Index of the reading that it is, or is one equation of; absent where it is a coordinate as given. */
  readonly reading?: number;
  readonly unit: "mm" | "deg";
  /** One standard deviation, in `unit`. */
  readonly sd: number;
  /** How far each coordinate moves when it is off by that (mm), in the order of `MeasuredPlaces.names`. */
  readonly by: readonly number[];
}

/** The places that bars take theirs from, and what those are uncertain by. */
export interface MeasuredPlaces {
  /** One name a coordinate: "post x". */
  readonly names: readonly string[];
  /** Independent of each other: the coordinates' covariance is Σ by·byᵀ. */
  readonly sources: readonly PlaceSource[];
  /** Every bar laid out with the coordinates moved by so much (mm). */
  readonly barsWith: (by: readonly number[]) => ReadonlyMap<string, ResolvedBar>;
}

/** What a bar's own figures are uncertain by: one standard deviation each (mm, radians). */
export interface Spread {
  readonly length: number;
  readonly straights: readonly number[];
  readonly angles: readonly number[];
  readonly turns: readonly number[];
  /** Station of each bend's start. */
  readonly starts: readonly number[];
  readonly landings: { readonly A: Vec; readonly B: Vec };
  /** Of the distance between the landings. */
  readonly apart: number;
}

/** From the places alone, to first order, and what it comes from. */
export interface WantedErrors extends Spread {
  /** The coordinate that the length hangs on most, and its share of the variance; absent where the length hangs on none. */
  readonly most?: { readonly name: string; readonly share: number };
  /** The reading, or given coordinate, that it hangs on most: the length moves by `per` for 1 mm or 1° of it. */
  readonly source?: Pick<PlaceSource, "name" | "reading" | "unit"> & {
    readonly share: number;
    readonly per: number;
  };
  /** The same by laying out with places drawn by chance, about the bar as it is; `lost` of the draws gave no such bar. */
  readonly sampled?: Spread & { readonly samples: number; readonly lost: number };
}

/** So many times the places are drawn: the scatter of a standard deviation from it is 5 %. */
export const DRAWS = 200;

export interface Drawing {
  readonly samples: number;
  readonly seed: number;
}

/**
 * How the errors of measured places come through in the bars: to first order (central differences of the layout by one
 * standard deviation of each coordinate, then Σ over the sources of (J·by)²), and by seeded sampling through the layout.
 *
 * A bar that has other bends once a place is moved a little (a corner falls away), or no geometry, is left out.
 * Units: mm, radians. `drawing` absent: no sampling. Yields after each layout: so many in all as `stepsOf` says.
 */
export function* wantedSteps(
  places: MeasuredPlaces,
  drawing?: Drawing,
): Generator<void, ReadonlyMap<string, WantedErrors>> {
  const { names, sources, barsWith } = places;
  const nothing = names.map(() => 0);
  const here = barsWith(nothing);
  const sds = names.map((_, j) => Math.hypot(...sources.map(({ by }) => by[j]!)));
  const bothWays = (j: number, step: number): Moved => {
    const by = (sign: number): number[] => nothing.map((_, k) => (k === j ? sign * step : 0));
    return [2 * step, barsWith(by(1)), barsWith(by(-1))];
  };
  const moved: Moved[] = [];
  for (const [j, sd] of sds.entries()) {
    moved.push(bothWays(j, Math.max(LEAST_STEP, sd)));
    yield;
  }
  // A step of one standard deviation may make a bend of a corner that is left out: then one too small for that.
  const finely = new Map<number, Moved>();
  const fine = (j: number): Moved => {
    const found = finely.get(j) ?? bothWays(j, LEAST_STEP);
    finely.set(j, found);
    return found;
  };
  const random = seeded(drawing?.seed ?? 0);
  const scatter = new Map([...here].map(([id, bar]) => [id, scatterOf(bar)]));
  for (let n = 0; n < (drawing?.samples ?? 0); n++) {
    const drawn = sources.map(({ by }) => [normal(random), by] as const);
    const bars = barsWith(nothing.map((_, j) => drawn.reduce((sum, [z, by]) => sum + z * by[j]!, 0)));
    for (const [id, into] of scatter) into.add(bars.get(id));
    yield;
  }
  const out = new Map<string, WantedErrors>();
  for (const [id, bar] of here) {
    const slopes = ([step, up, down]: Moved): readonly number[] | undefined =>
      differences(figuresOf(up.get(id)), figuresOf(down.get(id)), bar)?.map((v) => v / step);
    const columns = moved.map((both, j) => slopes(both) ?? slopes(fine(j)));
    if (!columns.every((c) => c !== undefined)) continue;
    const told = firstOrder(bar, columns, places);
    const sampled = told.length > 0 || told.apart > 0 ? scatter.get(id)!.told() : undefined;
    out.set(id, { ...told, ...(sampled ? { sampled } : {}) });
  }
  return out;
}

/** Twice the step, and the bars with a coordinate moved by it, up and down. */
type Moved = readonly [number, ReadonlyMap<string, ResolvedBar>, ReadonlyMap<string, ResolvedBar>];

/** A place is moved by no less (mm): finer than any tape, coarse beside rounding. */
const LEAST_STEP = 1e-3;

/** How many steps `wantedSteps` takes. */
export const stepsOf = ({ names }: MeasuredPlaces, drawing?: Drawing): number =>
  names.length + (drawing?.samples ?? 0);

/** Length, landings' distance, both landings, straights, angles, turns, starts: the order is `spread`'s. */
function figuresOf(bar: ResolvedBar | undefined): readonly number[] | undefined {
  if (!bar) return undefined;
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

/** Undefined where the two are not the same kind of bar. Turns wrap at half a turn. */
function differences(
  a: readonly number[] | undefined,
  b: readonly number[] | undefined,
  bar: ResolvedBar,
): readonly number[] | undefined {
  const n = bar.centreline.bends.length;
  if (!a || !b || a.length !== b.length || a.length !== 8 + (n + 1) + 3 * n) return undefined;
  const turns = 8 + (n + 1) + n;
  return a.map((v, i) => (i >= turns && i < turns + n ? wrapPi(v - b[i]!) : v - b[i]!));
}

function spread(bar: ResolvedBar, sd: readonly number[]): Spread {
  const n = bar.centreline.bends.length;
  let at = 8;
  const next = (count: number): number[] => sd.slice(at, (at += count));
  return {
    length: sd[0]!,
    apart: sd[1]!,
    landings: { A: [sd[2]!, sd[3]!, sd[4]!], B: [sd[5]!, sd[6]!, sd[7]!] },
    straights: next(n + 1),
    angles: next(n),
    turns: next(n),
    starts: next(n),
  };
}

function firstOrder(
  bar: ResolvedBar,
  columns: readonly (readonly number[])[],
  { names, sources }: MeasuredPlaces,
): WantedErrors {
  const base = figuresOf(bar)!;
  const moves = sources.map(({ by }) => {
    const all = base.map(() => 0);
    by.forEach((v, j) => {
      if (v !== 0) for (const [i, c] of columns[j]!.entries()) all[i]! += c * v;
    });
    return all;
  });
  const sd = base.map((_, i) => Math.hypot(...moves.map((m) => m[i]!)));
  const variance = sd[0]! ** 2;
  const told = spread(bar, sd);
  if (!(variance > 0)) return told;
  const shares = names.map(
    (_, j) => columns[j]![0]! ** 2 * sources.reduce((s, { by }) => s + by[j]! ** 2, 0),
  );
  const most = greatest(shares);
  // A reading with two equations counts as one.
  const keyOf = ({ reading }: PlaceSource, s: number): string =>
    reading === undefined ? `given ${s}` : `${reading}`;
  const sums = new Map<string, number>();
  sources.forEach((source, s) => {
    const key = keyOf(source, s);
    sums.set(key, (sums.get(key) ?? 0) + moves[s]![0]! ** 2);
  });
  const of = sources.map((source, s) => sums.get(keyOf(source, s))!);
  const first = greatest(of);
  const { name, reading, unit, sd: own } = sources[first]!;
  return {
    ...told,
    most: { name: names[most]!, share: shares[most]! / shares.reduce((s, v) => s + v, 0) },
    source: {
      name,
      ...(reading === undefined ? {} : { reading }),
      unit,
      share: of[first]! / variance,
      per: Math.sqrt(of[first]!) / own,
    },
  };
}

const greatest = (list: readonly number[]): number => list.indexOf(Math.max(...list));

/** Gathers how a bar's figures scatter about what they are. */
function scatterOf(bar: ResolvedBar) {
  const base = figuresOf(bar)!;
  const squares = base.map(() => 0);
  let samples = 0;
  let lost = 0;
  return {
    add(drawn: ResolvedBar | undefined): void {
      samples++;
      const off = differences(figuresOf(drawn), base, bar);
      if (!off) lost++;
      else for (const [i, v] of off.entries()) squares[i]! += v * v;
    },
    told(): WantedErrors["sampled"] {
      if (samples === lost) return undefined;
      const sd = squares.map((s) => Math.sqrt(s / (samples - lost)));
      return { ...spread(bar, sd), samples, lost };
    },
  };
}
