import { describe, expect, it } from "vitest";
import { barOf } from "../../../tests/bars.ts";
import { closestTo, placeAt } from "../bar/index.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg, rad } from "../numeric/index.ts";
import { add, dot, len, scale, sub, type Vec } from "../space/index.ts";
import { copeOf, type NotchSettings, notchOf, type SawCut } from "./index.ts";
import { FEATHER } from "./saw.ts";
import { overCut } from "./steps.ts";

/** Each case: the bars that the end lands on, the bar (its end B), and what the notcher has. */
interface Case {
  readonly name: string;
  readonly hosts: readonly ResolvedBar[];
  readonly bar: ResolvedBar;
  readonly settings?: Partial<NotchSettings>;
  /** Where the final cut is exact the twin agrees to a hundredth; else feathers count to first order only. */
  readonly within: number;
}

const settings: NotchSettings = { saws: [], steepest: rad(70), wrapBeyond: 1 };

const post = (od: number): ResolvedBar =>
  barOf("post", od, 2.5, [
    [0, 0, -500],
    [0, 0, 500],
  ]);

/** A straight bar from `start` onto the middle of the post, passing its axis at `aside`. */
function onPost(od: number, wall: number, start: Vec, aside = 0, also: readonly string[] = []): ResolvedBar {
  const across = scale([-start[1], start[0], 0], aside / Math.hypot(start[0], start[1]));
  return barOf("bar", od, wall, [add(start, across), across], {
    B: { on: "post", along: 500, off: across, also },
  });
}

const hoop = barOf(
  "hoop",
  45,
  2.5,
  [
    [0, 600, 0],
    [0, 600, 900],
    [0, -600, 900],
    [0, -600, 0],
  ],
  {},
  135,
);
const onHoop = (d: Vec, od: number): ResolvedBar => {
  const { start, end } = hoop.centreline.bends[0]!;
  const s = start + 0.4 * (end - start);
  const landing = placeAt(hoop.centreline, s).at;
  return barOf("bar", od, 2, [add(landing, d), landing], { B: { on: "hoop", along: s } });
};
const brace = barOf("post-2", 30, 2, [
  [25, -300, -300],
  [25, 280, 314],
]);

const cases: readonly Case[] = [
  { name: "equal tubes", hosts: [post(40)], bar: onPost(40, 2, [300, 0, 333]), within: 0.01 },
  { name: "thick wall", hosts: [post(38)], bar: onPost(38, 6, [300, 100, -300]), within: 0.01 },
  { name: "eccentric", hosts: [post(45)], bar: onPost(40, 2, [300, 50, 280], 2.4), within: 0.01 },
  {
    name: "eccentric, the rim misses",
    hosts: [post(40)],
    bar: onPost(40, 2, [300, 50, 280], -5),
    within: 0.01,
  },
  { name: "wider than its host", hosts: [post(38)], bar: onPost(45, 2, [300, 0, 200]), within: 0.01 },
  {
    name: "saw wider than the host",
    hosts: [post(45)],
    bar: onPost(40, 2, [300, 0, 240]),
    settings: { saws: [25] },
    within: 0.1,
  },
  { name: "onto a bend", hosts: [hoop], bar: onHoop([400, -100, 200], 40), within: 0.1 },
  {
    name: "crowded",
    hosts: [post(45), brace],
    bar: onPost(38, 2, [300, -150, 100], 0, ["post-2"]),
    within: 0.1,
  },
];

/**
 * The slow twin: metal and hosts as solids in the car. The cut edge is where rays of the tube's wall leave the saw's
 * cylinder (walked by distance), the bar is pushed along its axis by bisection until an edge anywhere in the wall
 * touches a host's outside, the feeler is the distance from an edge of the outside to the nearest host.
 */
function twin(
  bar: ResolvedBar,
  hosts: readonly ResolvedBar[],
  cut: SawCut,
  feather: number,
  meets: (phi: number) => boolean,
) {
  const { cope } = copeOf(bar, "B", hosts);
  const [ex, ez]: [Vec, Vec] = [cope.zero, cope.out];
  const ey: Vec = [
    ez[1] * ex[2] - ez[2] * ex[1],
    ez[2] * ex[0] - ez[0] * ex[2],
    ez[0] * ex[1] - ez[1] * ex[0],
  ];
  const inCar = (x: number, y: number, z: number): Vec =>
    add(cope.landing, add(scale(ex, x), add(scale(ey, y), scale(ez, z))));
  const toHost = (p: Vec): number =>
    Math.min(...hosts.map((h) => len(sub(p, closestOn(h, p))) - h.tube.od / 2));
  const heel: Vec = [Math.cos(cut.clock), Math.sin(cut.clock), 0];
  const aside: Vec = [-heel[1], heel[0], 0];
  const axis: Vec = [heel[0] * Math.cos(cut.notch), heel[1] * Math.cos(cut.notch), -Math.sin(cut.notch)];
  const through = add(scale(aside, cut.offset), [0, 0, -cut.centre] as Vec);
  const toSaw = (p: Vec): number => {
    const v = sub(p, through);
    return len(sub(v, scale(axis, dot(v, axis)))) - cut.radius;
  };
  const edges: { readonly phi: number; readonly p: Vec; readonly outside: boolean }[] = [];
  for (let k = 0; k <= 4; k++) {
    const rho = bar.tube.od / 2 - (bar.tube.wall * k) / 4;
    for (let i = 0; i < 180; i++) {
      const phi = deg(cut.clock) + 2 * i;
      if (!meets(phi)) continue;
      const [x, y] = [rho * Math.cos(rad(phi)), rho * Math.sin(rad(phi))];
      let z = -400;
      for (let n = 0; n < 4000 && toSaw([x, y, z]) > 1e-8; n++) z += toSaw([x, y, z]);
      if (z < 100) edges.push({ phi: 2 * i, p: [x, y, z], outside: k === 0 });
    }
  }
  const at = (p: Vec, off: number): number => toHost(inCar(p[0], p[1], p[2] - off));
  let [low, high] = [-30, 60];
  while (high - low > 1e-5) {
    const middle = (low + high) / 2;
    if (edges.some(({ p }) => at(p, middle) < -feather)) low = middle;
    else high = middle;
  }
  const gaps = edges.filter((e) => e.outside).map((e) => at(e.p, high));
  return { standsOff: high, gap: Math.max(0, ...gaps) };
}

/** The nearest place of a host's centreline, run on straight past its ends as the cut takes it. */
function closestOn(host: ResolvedBar, p: Vec): Vec {
  const { s } = closestTo(host.centreline, p);
  const { at, dir } = placeAt(host.centreline, s);
  const end = s < 1e-6 || s > host.centreline.length - 1e-6;
  return end ? add(at, scale(dir, dot(sub(p, at), dir))) : at;
}

describe("a cut set up in its joint: the bar pushed along its axis until it touches", () => {
  it.each(cases)(
    "$name: stand-off and gap of every step are the slow twin's",
    ({ hosts, bar, within, settings: own }) => {
      const made = copeOf(bar, "B", hosts);
      const first = 0.25;
      for (const believed of [undefined, { first }]) {
        const notch = notchOf(bar, "B", made, { ...settings, ...own, ...(believed ? { believed } : {}) })!;
        const { steps } = notch.steps!;
        expect(steps.length).toBeGreaterThan(1);
        const feather = notch.flush ? 0 : FEATHER;
        // the joint meets here both inside and outside: beside a missing line both have it their own way
        const open = (phi: number): boolean => notch.open.some(([a, b]) => a - 1.5 < phi && phi < b + 1.5);
        for (const step of steps) {
          const cut = { ...notch.saw!.cut, notch: step.notch, centre: step.centre };
          const slow = twin(bar, hosts, cut, feather, (phi) => !open(((phi % 360) + 360) % 360));
          expect(
            Math.abs(step.shows.standsOff - slow.standsOff),
            `stands off at ${deg(step.notch)}`,
          ).toBeLessThan(within);
          expect(Math.abs(step.shows.gap - slow.gap), `gap at ${deg(step.notch)}`).toBeLessThan(within);
        }
      }
    },
  );

  it("an angle nearer to the final one than half a degree is no step", () => {
    const made = onPostAt(45, 40, 30.4);
    const counts = [29.85, 29.95, 30.8, 30.95].map((first) => made({ first: rad(first) }).steps.length);
    expect(counts).toEqual([2, 1, 1, 2]);
    const merged = made({ first: rad(30.1) });
    expect([deg(merged.steps[0]!.notch), merged.leave]).toEqual([expect.closeTo(30.4, 6), 0]);
    // of a range whose shallow end is as near, the final cut is the first, and what it may cost up to the far end is left
    const range = made({ range: [rad(30.1), rad(34)] });
    expect(range.steps.length).toBe(1);
    expect(range.leave).toBeCloseTo(overCut(rad(30.4), rad(34), { radius: 22.5, offset: 0 }, [20, 18]), 6);
  });

  it("the last step of a cut that is not exact shows what it leaves for good", () => {
    for (const { hosts, bar, settings: own, within } of cases) {
      const notch = notchOf(bar, "B", copeOf(bar, "B", hosts), { ...settings, ...own })!;
      const { shows } = notch.steps!.steps.at(-1)!;
      expect([shows.standsOff, shows.gap]).toEqual([notch.saw!.standsOff, notch.saw!.gap]);
      expect(shows.gap > 0).toBe(within > 0.05);
    }
  });

  it.each(cases)(
    "$name: no cut of the plan goes outside the final one, and each just touches it",
    ({ hosts, bar, settings: own }) => {
      const notch = notchOf(bar, "B", copeOf(bar, "B", hosts), { ...settings, ...own })!;
      const [first] = notch.steps!.steps;
      const final = notch.saw!.cut;
      const cut = { ...final, notch: first!.notch, centre: first!.centre };
      let most = -Infinity;
      for (const rho of [bar.tube.od / 2, bar.tube.od / 2 - bar.tube.wall])
        for (let i = 0; i < 720; i++) {
          const [x, y] = [rho * Math.cos(rad(i / 2)), rho * Math.sin(rad(i / 2))];
          const over = rayOut(cut, x, y) - rayOut(final, x, y);
          if (!Number.isNaN(over)) most = Math.max(most, over);
        }
      expect(most).toBeLessThan(0.002);
      // beside a line that misses the curves fall so steeply that half degrees do not come near the edge
      const near = notch.open.length > 0 ? 0.2 : 0.002;
      if (first!.outboard > 0) expect(most).toBeGreaterThan(-near);
    },
  );
});

/** Plans of a bar of this size that leans so far off square on a post. */
const onPostAt = (hostOd: number, od: number, notch: number) => {
  const bar = onPost(od, 2, [300, 0, 300 * Math.tan(rad(notch))]);
  const made = copeOf(bar, "B", [post(hostOd)]);
  return (believed: NonNullable<NotchSettings["believed"]>) =>
    notchOf(bar, "B", made, { ...settings, believed })!.steps!;
};

/** Back at which a ray of the tube leaves the saw's cylinder: the quadratic of a line and a cylinder, greater root. */
function rayOut(cut: SawCut, x: number, y: number): number {
  const [c, s] = [Math.cos(cut.clock), Math.sin(cut.clock)];
  const a: Vec = [c * Math.cos(cut.notch), s * Math.cos(cut.notch), -Math.sin(cut.notch)];
  const v: Vec = [x + s * cut.offset, y - c * cut.offset, cut.centre];
  const [va, da] = [dot(v, a), -a[2]];
  const [p, q, r] = [1 - da * da, -v[2] - va * da, dot(v, v) - va * va - cut.radius ** 2];
  return q * q < p * r ? Number.NaN : (-q + Math.sqrt(q * q - p * r)) / p;
}
