import { describe, expect, it } from "vitest";
import { type Job, readJob } from "../../src/core/job/index.ts";
import type { MadeBar } from "../../src/core/made/index.ts";
import { seated } from "../../src/core/made/seat.ts";
import { nelderMead, seeded } from "../../src/core/numeric/index.ts";
import { changeOf, planJob } from "../../src/core/plan/index.ts";
import { madeOf } from "../../src/core/plan/made.ts";

/*
 * Slow twins of the search for a notched bar's best place. Every place is tried by a simplex (Nelder and Mead, Computer
 * Journal 7, 1965) from several starts, over distances to straight hosts written out here. It shares the notch's edge
 * with the program (which the exact kernel checks elsewhere) and nothing of the search.
 */
type V = readonly [number, number, number];
const sub = (a: V, b: V): V => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: V, b: V): V => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const norm = (a: V): number => Math.sqrt(dot(a, a));
const times = (a: V, s: number): V => [a[0] * s, a[1] * s, a[2] * s];
const plus = (a: V, b: V): V => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const unit = (a: V): V => times(a, 1 / norm(a));

/** Two posts and a straight tie between them, notched. */
const portal = (left: readonly V[], right: readonly V[], od: readonly [number, number]): Job => {
  const read = readJob({
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 38, wall: 2.5 }, l: { od: od[0], wall: 2.5 }, r: { od: od[1], wall: 2.5 } },
    shop: { trim: 0 },
    bars: {
      left: { tube: "l", path: left },
      right: { tube: "r", path: right },
      tie: {
        tube: "t",
        progress: "notched",
        path: [
          { on: "left", z: 400 },
          { on: "right", z: 400 },
        ],
      },
    },
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
};

interface Host {
  readonly at: V;
  readonly dir: V;
  readonly radius: number;
}

/** The edges of a made bar where it was made, as plain numbers: x, y, z of each place, outside and bore apart. */
const edges = (made: MadeBar) =>
  (["A", "B"] as const).map((end) => {
    const { landing, out, zero } = made.frames[end];
    const q = cross(out, zero);
    const flat = (places: readonly (V | undefined)[]): Float64Array =>
      Float64Array.from(
        places.flatMap((p) =>
          p ? [...plus(plus(plus(landing, times(zero, p[0])), times(q, p[1])), times(out, p[2]))] : [],
        ),
      );
    return { outer: flat(made.rims[end]!.outer), bore: flat(made.rims[end]!.bore) };
  });

/** A placement: a rotation (three rows) about `from`, then to `to`. */
interface Put {
  readonly r: Float64Array;
  readonly from: V;
  readonly to: V;
}

/** Rodrigues' rotation by a vector. */
function rotation(w: V): Float64Array {
  const a = norm(w);
  if (a < 1e-14) return Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const [x, y, z] = times(w, 1 / a);
  const [s, c] = [Math.sin(a), Math.cos(a)];
  const d = 1 - c;
  return Float64Array.of(
    c + x * x * d,
    x * y * d - z * s,
    x * z * d + y * s,
    y * x * d + z * s,
    c + y * y * d,
    y * z * d - x * s,
    z * x * d - y * s,
    z * y * d + x * s,
    c + z * z * d,
  );
}

const place = ({ r, from, to }: Put, x: number, y: number, z: number): V => {
  const [a, b, c] = [x - from[0], y - from[1], z - from[2]];
  return [
    to[0] + r[0]! * a + r[1]! * b + r[2]! * c,
    to[1] + r[3]! * a + r[4]! * b + r[5]! * c,
    to[2] + r[6]! * a + r[7]! * b + r[8]! * c,
  ];
};

const toTube = (p: V, { at, dir, radius }: Host): number => {
  const w = sub(p, at);
  const t = dot(w, dir);
  return Math.hypot(w[0] - dir[0] * t, w[1] - dir[1] * t, w[2] - dir[2] * t) - radius;
};

/** How far metal is short of an edge cut to a post (geometry.md's closed form, on axis), along the bar's end. */
const shortOf = (p: V, { at, dir, radius }: Host, landing: V, out: V): number => {
  const v = sub(p, landing);
  const along = dot(v, out);
  const side = sub(v, times(out, along));
  // The line through p along −out first meets the post where the greater root is, seen from inside the bar.
  const n = cross(dir, out);
  const sin = norm(n);
  const w = sub(plus(landing, side), at);
  const e = dot(w, unit(n));
  if (Math.abs(e) > radius) return Number.NEGATIVE_INFINITY;
  const square = sub(out, times(dir, dot(out, dir)));
  const here = dot(w, square) / dot(square, square);
  return -here - Math.sqrt(radius * radius - e * e) / sin - along;
};

/** Of 200; the sawn and bent ones are in made-bent.test.ts. */
const CASES = 80;
const SEEDS = [0, 1, 2, 3];
const HOWS = [
  { A: "keep", B: "keep" },
  { A: "cut", B: "keep" },
  { A: "keep", B: "cut" },
  { A: "cut", B: "cut" },
] as const;

describe.each(SEEDS)("seed %i: notched bars on hosts that moved and leaned", (seed) => {
  it("no place found by hand is better by 0.02 mm, the gap stated is so, and the verdict follows", () => {
    const random = seeded(seed + 70);
    const within = (a: number): number => (2 * random() - 1) * a;
    const seen = new Map<string, number>();
    for (let n = 0; n < CASES / SEEDS.length; n++) {
      const od = (
        [
          [38, 38],
          [45, 38],
          [50, 60],
        ] as const
      )[Math.floor(random() * 3)]!;
      const lean = (x: number, by: readonly number[]): V[] => [
        [x + by[0]!, by[1]!, 0],
        [x + by[2]!, by[3]!, 800],
      ];
      const four = (a: number): number[] => [within(a), within(a), within(a), within(a)];
      const [l, r] = [four(80), four(80)];
      const by = n % 2 === 0 ? 1 : 4;
      const slip = (v: readonly number[]): number[] => v.map((x) => x + within(by));
      const [l2, r2] = [slip(l), slip(r)];
      const old = planJob(portal(lean(0, l), lean(600, r), od));
      const now = planJob(portal(lean(0, l2), lean(600, r2), od), old);
      const want = now.byId.get("tie")!;
      const made = madeOf(old, "tie")!;
      const rims = edges(made);
      const hosts = [lean(0, l2), lean(600, r2)].map(
        ([a, b], i): Host => ({ at: a!, dir: unit(sub(b!, a!)), radius: od[i]! / 2 }),
      );
      const [start, finish] = [want.bar.centreline.start, want.bar.centreline.finish] as const;
      const axis = unit(sub(finish, start));
      const ends = [
        { was: made.line.start, want: start, out: times(axis, -1) },
        { was: made.line.finish, want: finish, out: axis },
      ];
      const up = unit(sub([0, 0, 1], times(axis, axis[2])));
      const ways = [up, cross(axis, up)];
      const cost = (put: Put, how: (typeof HOWS)[number], every: number) => {
        let [gap, fouls] = [0, 0];
        rims.forEach(({ outer, bore }, e) => {
          const isCut = (e === 0 ? how.A : how.B) === "cut";
          for (const list of [outer, bore])
            for (let i = 0; i < list.length; i += 3 * every) {
              const p = place(put, list[i]!, list[i + 1]!, list[i + 2]!);
              if (isCut) fouls = Math.max(fouls, shortOf(p, hosts[e]!, ends[e]!.want, ends[e]!.out));
              else {
                const d = toTube(p, hosts[e]!);
                if (list === outer) gap = Math.max(gap, d);
                fouls = Math.max(fouls, -d - 0.01);
              }
            }
        });
        for (const { was, want: at } of ends)
          for (const way of ways)
            fouls = Math.max(fouls, Math.abs(dot(sub(place(put, ...was), at), way)) - 10);
        return { gap, fouls };
      };
      const middle: V = times(plus(made.line.start, made.line.finish), 0.5);
      const putBy = (x: readonly number[]): Put => ({
        r: rotation([x[3]! / 300, x[4]! / 300, x[5]! / 300]),
        from: middle,
        to: [middle[0] + x[0]!, middle[1] + x[1]!, middle[2] + x[2]!],
      });
      // A barrier that hardens, so that the simplex does not stick at its wall; the best of some starts is polished.
      const search = (how: (typeof HOWS)[number]): number => {
        const walk = (x: readonly number[], hard: number, step: number, every: number, iterations: number) =>
          nelderMead(
            (p) => {
              const { gap, fouls } = cost(putBy(p), how, every);
              return gap + hard * fouls;
            },
            x,
            x.map(() => step),
            { iterations, width: 1e-6 },
          );
        const starts = [[0, 0, 0, 0, 0, 0], ...[0, 1].map(() => [...four(2), within(2), within(2)])];
        let x = starts
          .map((s) => walk(walk(s, 3, 0.5, 12, 200).at, 20, 0.3, 12, 200))
          .reduce((a, b) => (b.value < a.value ? b : a)).at;
        for (const [hard, step] of [
          [20, 0.1],
          [100, 0.1],
          [100, 0.02],
          [400, 0.02],
        ] as const)
          x = walk(x, hard, step, 6, 300).at;
        const { gap, fouls } = cost(putBy(x), how, 1);
        return gap + 100 * fouls;
      };
      const twin: number[] = [];
      for (const how of HOWS) {
        const found = seated(made, want, how, { slide: 10, aside: 10 });
        expect(found, `case ${n}`).toBeDefined();
        // What the program says of its own place is so, by these distances.
        const { axes, from, to } = found!.pose;
        const r = Float64Array.from([0, 1, 2].flatMap((i) => axes.map((a) => a[i as 0])));
        const own = cost({ r, from, to }, how, 1);
        expect(own.gap, `case ${n}`).toBeCloseTo(Math.max(found!.gap.A ?? 0, found!.gap.B ?? 0), 6);
        expect(own.fouls, `case ${n}`).toBeCloseTo(found!.fouls, 5);
        const best = search(how);
        expect(own.gap + 100 * own.fouls, `case ${n} ${how.A} ${how.B}`).toBeLessThan(best + 0.02);
        twin.push(Math.min(best, own.gap + 100 * own.fouls));
        if (twin.at(-1)! <= 1) break;
      }
      const [verdict] = changeOf(old, now.job).bars;
      const fits = twin.findIndex((t) => t <= 1);
      const expected = fits === 0 ? "good" : fits > 0 ? "notch again" : "make again";
      const isClose = twin.some((t) => Math.abs(t - 1) < 0.025);
      // A bar none of whose figures changes by 0.05 mm is not listed; it must be good then.
      if (!verdict) expect(twin[0], `case ${n}`).toBeLessThan(0.2);
      else if (!isClose) expect(verdict.verdict, `case ${n}`).toBe(expected);
      const what = verdict?.verdict ?? "not listed";
      seen.set(what, (seen.get(what) ?? 0) + 1);
    }
    expect(seen.size).toBeGreaterThan(1);
  });
});
