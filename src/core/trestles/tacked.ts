// biome-ignore-all lint/style/noNonNullAssertion: lines and od hold every bar, x has an entry for each unknown in the order of unknownsOf, at one a reading, and the places of one bar are alike many; all that a reading names is among the bars, by the docstring
import { type Centreline, placeAt, placesOf, tapeMark } from "../bar/index.ts";
import { adjusted, checkedByPriors, deviationOf, sparse, suspectAmong } from "../estimate/index.ts";
import { add, dist, len, scale, sub, turn, type Vec } from "../space/index.ts";
import type { Expected } from "./expected.ts";
import { type BarShape, lineOf, type Start, shapeOf, startOf } from "./shape.ts";

/** Where a tape or a rule is held: a place in the car, or a tube at a station of its centreline. */
export type Spot = { readonly at: Vec } | { readonly bar: string; readonly along: number };

/** Where on a tube: the side away from the other end (top for a height), the side facing it (underside), or its centre. */
export type Over = "outside" | "inside" | "centre";

/** A reading on bars that are tacked (mm). */
export type TackReading = {
  readonly value: number;
  /** One standard deviation; the tape's where absent. */
  readonly sd?: number;
  readonly over: Over;
} & (
  | {
      readonly what: "tape";
      readonly from: Spot;
      readonly to: Spot;
      /** What of the tape was held at its start: it read that much more than `value` (mm). */
      readonly held?: number;
    }
  /** z, y or x of a spot. */
  | { readonly what: "height" | "out" | "fore"; readonly of: Spot }
);

/** A tacked bar: as it was to stand. */
export interface TackedBar {
  readonly id: string;
  readonly line: Centreline;
  readonly od: number;
  /** Whether its end B is tacked to something as well: then that stands where it was to be, as surely as end A. */
  readonly heldB: boolean;
}

/** What a tacked bar may be off by: one standard deviation each (mm, radians). */
export interface TackScatter {
  readonly mark: number;
  readonly angle: number;
  readonly turn: number;
  /** Where its end A stands, and an end B that is held, each way. */
  readonly foot: number;
  /** How it leans, about each axis. */
  readonly lean: number;
}

export interface TackedShape {
  readonly id: string;
  /** The bar as it stands. */
  readonly line: Centreline;
  /** How far each of its ends and corners, from A to B, is from where it was to be; one standard deviation, all ways together (mm). */
  readonly moved: readonly number[];
  readonly sd: readonly number[];
}

export interface Tacked {
  readonly bars: readonly TackedShape[];
  readonly readings: readonly {
    readonly read: number;
    readonly computed: number;
    readonly normalized: number;
  }[];
  /** The reading farthest from what the scatter allows, where that is beyond the critical value. */
  readonly suspect?: number;
}

/**
 * How tacked bars really stand, from a few readings.
 *
 * Least squares from a prior: each bar's bend angles, turns and straights, the place of its end A and its lean, all
 * believed as wanted ± the scatter; so one to three readings move what they tell of, and what they do not tell of stays.
 * A tape lies as it does in the survey (`tapeMark`); a tape between two of the bars moves both, each by what it scatters.
 * A height, out or fore adds the radius along that axis: right for a tube that lies square to it.
 * Units: mm, radians. Undefined where no bars near the wanted ones give such readings.
 * Limits: tacked bars are judged each by itself; that they touch each other is not used, so read on the bar in doubt.
 */
export function tackedBars(
  bars: readonly TackedBar[],
  readings: readonly TackReading[],
  scatter: TackScatter,
  tape: number,
): Tacked | undefined {
  const { models, unknowns, od, laid } = modelled(bars, scatter);
  const prior = Array.from({ length: unknowns }, () => ({ at: 0, sd: 1 }));
  const computed = (x: readonly number[]): number[] => {
    const lines = laid(x);
    return readings.map((r) => measured(r, lines, od));
  };
  const held = models.filter((m) => m.heldB);
  const strayed = (x: readonly number[]): number[] => {
    const lines = held.length > 0 ? laid(x) : undefined;
    return held.flatMap((m) => [...sub(lines!.get(m.id)!.finish, m.line.finish)]);
  };
  const fit = adjusted(
    {
      residuals: (x) => [...computed(x).map((v, i) => v - readings[i]!.value), ...strayed(x)],
      sd: [
        ...readings.map((r) => Math.max(r.sd ?? tape, 1e-6)),
        ...held.flatMap(() => [scatter.foot, scatter.foot, scatter.foot]),
      ],
      prior,
    },
    prior.map(() => 0),
  );
  if (!fit) return undefined;
  const at = computed(fit.x);
  const list = readings.map((r, i) => ({
    read: r.value,
    computed: at[i]!,
    normalized: checkedByPriors(fit, i),
  }));
  const suspect = suspectAmong(list.map((r) => r.normalized));
  const lines = laid(fit.x);
  return {
    bars: models.map((m) => {
      const line = lines.get(m.id)!;
      const here = placesOf(line);
      const wanted = placesOf(m.line);
      const rows = fit.x.map((_, j) => {
        const h = 1e-4;
        const up = placesOf(laid(fit.x.map((v, k) => (k === j ? v + h : v))).get(m.id)!);
        return up.map((p, i) => scale(sub(p, here[i]!), 1 / h));
      });
      const sd = here.map((_, i) =>
        deviationOf(
          fit.covariance,
          ([0, 1, 2] as const).map((k) => sparse(rows.map((r) => r[i]![k]))),
        ),
      );
      return { id: m.id, line, moved: here.map((p, i) => dist(p, wanted[i]!)), sd };
    }),
    readings: list,
    ...(suspect === undefined ? {} : { suspect }),
  };
}

interface Modelled {
  readonly models: readonly (TackedBar & { readonly shape: BarShape; readonly start: Start })[];
  readonly unknowns: number;
  readonly od: ReadonlyMap<string, number>;
  /** The bars' centrelines when their unknowns are off by so many standard deviations of the scatter. */
  readonly laid: (x: readonly number[]) => ReadonlyMap<string, Centreline>;
}

/** Unknowns count in standard deviations of the scatter, so that all are of one size for the search. */
function modelled(bars: readonly TackedBar[], scatter: TackScatter): Modelled {
  const models = bars.map((b) => ({ ...b, shape: shapeOf(b.line), start: startOf(b.line) }));
  const sizes = models.map((m) => unknownsOf(m.shape, scatter));
  const laid = (x: readonly number[]): ReadonlyMap<string, Centreline> => {
    let at = 0;
    return new Map(
      models.map((m, i) => {
        const own = x.slice(at, (at += sizes[i]!.length)).map((v, j) => v * sizes[i]![j]!);
        return [m.id, offBy(m.shape, m.start, own)];
      }),
    );
  };
  return { models, unknowns: sizes.flat().length, od: new Map(models.map((m) => [m.id, m.od])), laid };
}

/** What each reading would be on bars that stand as they were to, and one standard deviation of it by scatter and tape (mm). */
export function expectedTacks(
  bars: readonly TackedBar[],
  readings: readonly TackReading[],
  scatter: TackScatter,
  tape: number,
): readonly Expected[] {
  const { unknowns, od, laid } = modelled(bars, scatter);
  const none = Array.from({ length: unknowns }, () => 0);
  const off = none.map((_, j) => none.map((v, k) => (k === j ? v + 1 : v))).map(laid);
  const planned = laid(none);
  return readings.map((r) => {
    const at = measured(r, planned, od);
    const own = r.sd ?? tape;
    return { at, sd: Math.hypot(own, ...off.map((lines) => measured(r, lines, od) - at)) };
  });
}

/** Standard deviations of a bar's unknowns: angles, turns, straights, foot, lean. */
function unknownsOf(shape: BarShape, { mark, angle, turn: rolled, foot, lean }: TackScatter): number[] {
  return [
    ...shape.angles.map(() => angle),
    ...shape.turns.slice(1).map(() => rolled),
    ...shape.straights.map(() => mark),
    foot,
    foot,
    foot,
    lean,
    lean,
    lean,
  ];
}

/** The bar with its unknowns off by x, leaning about where its end A stands. */
function offBy(shape: BarShape, start: Start, x: readonly number[]): Centreline {
  const n = shape.angles.length;
  const turns = Math.max(0, n - 1);
  const rest = n + turns + n + 1;
  const bent: BarShape = {
    angles: shape.angles.map((a, i) => a + x[i]!),
    turns: shape.turns.map((t, i) => (i > 0 ? t + x[n + i - 1]! : 0)),
    straights: shape.straights.map((s, i) => s + x[n + turns + i]!),
    radii: shape.radii,
    numbers: shape.numbers,
  };
  const spin: Vec = [x[rest + 3]!, x[rest + 4]!, x[rest + 5]!];
  const by = len(spin);
  const leant = (v: Vec): Vec => (by > 0 ? turn(v, scale(spin, 1 / by), by) : v);
  return lineOf(bent, {
    at: add(start.at, [x[rest]!, x[rest + 1]!, x[rest + 2]!]),
    dir: leant(start.dir),
    inside: leant(start.inside),
  });
}

/** What a reading would give (mm) on bars that stand just so; all that it names must be among them. */
export const readOn = (
  reading: TackReading,
  bars: readonly Pick<TackedBar, "id" | "line" | "od">[],
): number =>
  measured(reading, new Map(bars.map((b) => [b.id, b.line])), new Map(bars.map((b) => [b.id, b.od])));

function measured(
  reading: TackReading,
  lines: ReadonlyMap<string, Centreline>,
  od: ReadonlyMap<string, number>,
): number {
  const section = (spot: Spot): { readonly at: Vec; readonly dir?: Vec; readonly reach: number } => {
    if ("at" in spot) return { at: spot.at, reach: 0 };
    const line = lines.get(spot.bar)!;
    const { at, dir } = placeAt(line, spot.along < 0 ? line.length + spot.along : spot.along);
    return { at, dir, reach: ({ outside: 1, inside: -1, centre: 0 }[reading.over] * od.get(spot.bar)!) / 2 };
  };
  if (reading.what === "tape") {
    const [p, q] = [section(reading.from), section(reading.to)];
    const mark = (s: typeof p, other: Vec): Vec => (s.dir ? tapeMark(s.at, s.dir, s.reach, other) : s.at);
    return dist(mark(p, q.at), mark(q, p.at));
  }
  const axis = ({ fore: 0, out: 1, height: 2 } as const)[reading.what];
  const { at, reach } = section(reading.of);
  return at[axis] + reach;
}
