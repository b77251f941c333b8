import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sayProblem } from "../../words/index.ts";
import { placeAt, placesOf } from "../bar/index.ts";
import { readJob } from "../job/index.ts";
import { normal, rad, seeded } from "../numeric/index.ts";
import { judgeTacked, planJob, restate } from "../plan/index.ts";
import { add, dist, mirrored, turn, UP, type Vec } from "../space/index.ts";
import { surveyJob } from "../survey/index.ts";
import { cardChanges, edgeMoved } from "./changed.ts";
import { lineOf, shapeOf, startOf } from "./shape.ts";
import { type TackReading, tackedBars } from "./tacked.ts";

interface DocBar {
  mirrorOf?: string;
  path?: { on?: string; toward?: { on?: string } }[];
  follow?: { bar: string };
  progress?: string;
}
type Doc = { bars: Record<string, DocBar> } & Record<string, unknown>;
const demoDoc = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Doc;
const jobOf = (doc: unknown) => {
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
};
const plan = planJob(jobOf(demoDoc));
const lineOfBar = (id: string) => plan.byId.get(id)!.bar.centreline;
const path = (id: string) => placesOf(lineOfBar(id));
const moved = (id: string, by: Vec) => ({ [id]: { path: path(id).map((p) => add(p, by)) } });

/** Who hangs on whom, read off the document by itself: hosts, hosts of hosts; of a mirrored bar the hosts' twins. */
function dependents(root: string): Set<string> {
  const twin = new Map<string, string>();
  for (const [id, bar] of Object.entries(demoDoc.bars)) {
    if (bar.mirrorOf === undefined) continue;
    twin.set(id, bar.mirrorOf);
    twin.set(bar.mirrorOf, id);
  }
  const own = (bar: DocBar): string[] => [
    ...(bar.path ?? []).flatMap((n) => [n.on, n.toward?.on].filter((x) => x !== undefined)),
    ...(bar.follow ? [bar.follow.bar] : []),
  ];
  const hosts = (bar: DocBar): string[] =>
    bar.mirrorOf === undefined ? own(bar) : own(demoDoc.bars[bar.mirrorOf]!).map((h) => twin.get(h) ?? h);
  const found = new Set<string>();
  for (let grew = true; grew; ) {
    grew = false;
    for (const [id, bar] of Object.entries(demoDoc.bars)) {
      if (found.has(id) || id === root || !hosts(bar).some((h) => h === root || found.has(h))) continue;
      found.add(id);
      grew = true;
    }
  }
  return found;
}

describe("cards after a tack (D6)", () => {
  it("zero change: no card is stale, and every plan keeps its identity", () => {
    const same = restate(
      plan,
      { ...moved("main-hoop", [0, 0, 0]), ...moved("pillar-bar-left", [0, 0, 0]) },
      0,
    );
    expect(same.stale).toEqual([]);
    expect(same.cut).toEqual([]);
    for (const b of plan.bars) expect(same.plan.byId.get(b.id)).toBe(b);
  });

  it("rigid move of all that a bar hangs on: no card is stale", () => {
    const doc = (angle: number, by: Vec) => {
      const at = (p: Vec): Vec => add(turn(p, UP, angle), by);
      const places = {
        left: [at([0, 500, 0]), at([40, 480, 900]), at([300, 450, 1200])],
        right: [at([0, -500, 0]), at([-30, -520, 1000])],
      };
      return places;
    };
    const here = doc(0, [0, 0, 0]);
    const small = planJob(
      jobOf({
        format: "tubewright job",
        version: 2,
        tubes: { t: { od: 40, wall: 2 } },
        dies: { d: { od: 40, clr: 120 } },
        bars: {
          left: { tube: "t", die: "d", path: here.left },
          right: { tube: "t", path: here.right },
          cross: {
            tube: "t",
            path: [
              { on: "left", along: 400 },
              { on: "right", along: 650 },
            ],
          },
          bar: {
            tube: "t",
            path: [
              { on: "left", along: 900 },
              { on: "cross", along: 300 },
            ],
          },
        },
      }),
    );
    const there = doc(0.3, [55, -21, 13]);
    const built = { left: { path: there.left }, right: { path: there.right } };
    // Long points are sought to 1e-5°, so that a blank is the same to some 1e-6 mm.
    const all = restate(small, built, 1e-4);
    expect(all.stale).toEqual([]);
    expect(
      dist(all.plan.byId.get("cross")!.bar.centreline.start, small.byId.get("cross")!.bar.centreline.start),
    ).toBeGreaterThan(10);
    // One of the two alone is no rigid move, and strikes both.
    expect(restate(small, { left: built.left }, 1e-4).stale.map((c) => c.id)).toEqual(["cross", "bar"]);
  });

  it("perturb one host: exactly its dependents", () => {
    const hoop = lineOfBar("main-hoop");
    const shape = shapeOf(hoop);
    const bent = lineOf(
      { ...shape, angles: shape.angles.map((a, i) => a + rad(0.2 * (i + 1))) },
      { ...startOf(hoop), at: add(hoop.start, [2.3, 1.1, 0.7]) },
    );
    const all = restate(plan, { "main-hoop": { path: placesOf(bent) } }, 1e-6);
    expect(new Set(all.stale.map((c) => c.id))).toEqual(dependents("main-hoop"));
    expect(all.lost).toEqual([]);
    const one = restate(plan, moved("pillar-bar-left", [1, 2, 3]), 1e-6);
    expect(new Set(one.stale.map((c) => c.id))).toEqual(dependents("pillar-bar-left"));
    expect(one.stale.length).toBeGreaterThan(2);
  });

  it("a hoop tacked 4 mm off strikes, of those that depend on it, exactly those that change by more than the shop's gap", () => {
    const depend = dependents("main-hoop");
    for (const by of [
      [4, 0, 0],
      [0, 4, 0],
      [0, 0, -4],
    ] as const) {
      const built = moved("main-hoop", by);
      const all = new Map(restate(plan, built, 0).stale.map((c) => [c.id, c.most]));
      const struck = restate(plan, built).stale.map((c) => c.id);
      expect(struck.length).toBeGreaterThan(5);
      expect(struck.every((id) => depend.has(id))).toBe(true);
      for (const id of depend) expect(struck.includes(id)).toBe((all.get(id) ?? 0) > 1);
    }
  });

  it("bars already cut are told apart, with how far they have come; tacked ones have no card", () => {
    const doc = structuredClone(demoDoc);
    doc.bars["rear-stay-left"]!.progress = "notched";
    doc.bars["rear-stay-right"]!.progress = "tacked";
    const now = planJob(jobOf(doc));
    const { stale, cut } = restate(now, moved("main-hoop", [4, 0, 0]));
    expect(cut.map((c) => [c.id, c.progress])).toEqual([["rear-stay-left", "notched"]]);
    // The hoop went forward, away from the stay's foot: the stay is too short by most of 4 mm.
    expect(cut[0]!.blank).toBeGreaterThan(2);
    expect(stale.map((c) => c.id)).not.toContain("rear-stay-right");
    expect(stale.map((c) => c.id)).toContain("pillar-bar-left");
  });

  it("what a mirrored bar hangs on was moved alike: it comes out as its twin's mirror image", () => {
    const { plan: after } = restate(plan, moved("main-hoop", [4, 0, -3]));
    for (const [id, bar] of Object.entries(demoDoc.bars)) {
      if (bar.mirrorOf === undefined) continue;
      const [a, b] = [after.byId.get(id)!.bar, after.byId.get(bar.mirrorOf)!.bar];
      placesOf(a.centreline).forEach((p, i) => {
        expect(dist(p, mirrored(placesOf(b.centreline)[i]!))).toBeLessThan(1e-6);
      });
      // A rim that grazes its host turns a rounding of 1e-14 into 1e-6 along the line, differently on either side.
      const [here, there] = [after.byId.get(id)!.bend.blank, after.byId.get(bar.mirrorOf)!.bend.blank];
      expect(Math.abs(here - there)).toBeLessThan(3e-6);
    }
  });

  it("a pillar bar as built moves what follows it, and not its twin or what follows that", () => {
    const { plan: after } = restate(plan, moved("pillar-bar-left", [0, 5, 0]));
    expect(after.byId.get("pillar-bar-right")).toBe(plan.byId.get("pillar-bar-right"));
    expect(after.byId.get("pillar-follower-right")).toBe(plan.byId.get("pillar-follower-right"));
    expect(after.byId.get("pillar-follower-left")).not.toBe(plan.byId.get("pillar-follower-left"));
  });

  it("an edit keeps what it does not touch; taking a bar out of asBuilt brings back the plan", () => {
    const built = moved("main-hoop", [4, 0, 0]);
    const first = restate(plan, built).plan;
    const again = planJob({ ...first.job, name: "renamed" }, first);
    for (const b of first.bars) expect(again.byId.get(b.id)).toBe(b);
    const back = planJob(jobOf(demoDoc), first);
    expect(cardChanges(new Map(), []).length).toBe(0);
    for (const b of plan.bars) expect(back.byId.get(b.id)!.bend.blank).toBeCloseTo(b.bend.blank, 9);
  });

  it("a cope's edge that only slides along its own steep part has not moved by what it slid", () => {
    const { cope } = plan.byId.get("harness-bar")!.copes.A;
    expect(edgeMoved(cope, cope)).toBe(0);
    const raised = {
      ...cope,
      outer: cope.outer.map((v) => v + 5),
      bore: cope.bore.map((v) => v + 5),
      least: cope.least + 5,
    };
    expect(edgeMoved(cope, raised)).toBeLessThan(1e-9);
    // Rolled by 1°: 0.35 mm round a 40 tube, never more on the template however steep the edge.
    const rolled = (a: Float64Array) => a.map((_, i) => a[(i + 1) % a.length]!);
    const turned = { ...cope, outer: rolled(cope.outer), bore: rolled(cope.bore) };
    expect(edgeMoved(cope, turned)).toBeLessThan((40 * Math.PI) / 360 + 1e-6);
    expect(edgeMoved(cope, turned)).toBeGreaterThan(0.05);
    expect(edgeMoved(cope, { ...cope, onto: ["another"] })).toBe(Number.POSITIVE_INFINITY);
  });

  it("a name in asBuilt that is no bar is one clear line", () => {
    const read = readJob({
      ...demoDoc,
      asBuilt: {
        "main-hop": {
          path: [
            [0, 0, 0],
            [1, 1, 1],
          ],
        },
      },
    });
    expect(read.ok ? [] : read.problems.map(sayProblem)).toEqual([
      'no bar is called "main-hop" — did you mean "main-hoop"?',
    ]);
  });
});

describe("how a tacked bar stands", () => {
  const line = lineOfBar("main-hoop");
  const hoop = { id: "main-hoop", line, od: 45, heldB: false };
  const scatter = { mark: 1, angle: rad(0.5), turn: rad(0.5), foot: 2, lean: rad(0.3) };
  const at = (share: number) => ({ bar: "main-hoop", along: share * line.length });
  const spots = [
    { what: "tape", from: { at: [1000, 600, 0] as Vec }, to: at(0.3), over: "outside" },
    { what: "tape", from: { at: [1000, -600, 0] as Vec }, to: at(0.3), over: "outside" },
    { what: "height", of: at(0.5), over: "outside" },
  ] as const;
  const readingsOf = (truth: typeof line): TackReading[] =>
    spots.map((s) => {
      const only = tackedBars([{ ...hoop, line: truth }], [{ ...s, value: 1000, sd: 1e9 }], scatter, 1)!;
      return { ...s, value: only.readings[0]!.computed };
    });

  it("readings that agree with the plan leave it; a hoop 4 mm forward is found by cross tapes from in front", () => {
    const still = tackedBars([hoop], readingsOf(line), scatter, 1)!;
    expect(Math.max(...still.bars[0]!.moved)).toBeLessThan(1e-6);
    const forward = lineOf(shapeOf(line), { ...startOf(line), at: add(line.start, [4, 0, 0]) });
    const found = tackedBars([hoop], readingsOf(forward), scatter, 1)!;
    const top = found.bars[0]!.line.bends[1]!.corner;
    const wanted = line.bends[1]!.corner;
    // Two cross tapes with little else: most of it is believed.
    expect(top[0] - wanted[0]).toBeGreaterThan(2.5);
    expect(top[0] - wanted[0]).toBeLessThan(4.5);
  });

  it("its ± is its scatter: 120 hoops bent and set by the shop's scatter, read with a tape of ± 1 (seed 12)", () => {
    const random = seeded(12);
    const shape = shapeOf(line);
    const start = startOf(line);
    const ratio: number[][] = [];
    for (let t = 0; t < 120; t++) {
      const draw = (sd: number): number => sd * normal(random);
      const spin: Vec = [draw(scatter.lean), draw(scatter.lean), draw(scatter.lean)];
      const by = Math.hypot(...spin);
      const axis: Vec = [spin[0] / by, spin[1] / by, spin[2] / by];
      const truth = lineOf(
        {
          ...shape,
          angles: shape.angles.map((a) => a + draw(scatter.angle)),
          turns: shape.turns.map((a, i) => (i > 0 ? a + draw(scatter.turn) : 0)),
          straights: shape.straights.map((a) => a + draw(scatter.mark)),
        },
        {
          at: add(start.at, [draw(2), draw(2), draw(2)]),
          dir: turn(start.dir, axis, by),
          inside: turn(start.inside, axis, by),
        },
      );
      const found = tackedBars(
        [hoop],
        readingsOf(truth).map((r) => ({ ...r, value: r.value + normal(random) })),
        scatter,
        1,
      )!;
      const bar = found.bars[0]!;
      ratio.push(placesOf(truth).map((p, i) => dist(p, placesOf(bar.line)[i]!) / bar.sd[i]!));
    }
    for (let k = 0; k < ratio[0]!.length; k++) {
      const size = Math.sqrt(ratio.reduce((s, r) => s + r[k]! ** 2, 0) / ratio.length);
      expect(size).toBeGreaterThan(0.85);
      expect(size).toBeLessThan(1.15);
    }
  });

  it("a foot that is held stays within its own scatter, whatever the readings say of the rest", () => {
    const forward = lineOf(shapeOf(line), { ...startOf(line), at: add(line.start, [4, 0, 0]) });
    const foot = (heldB: boolean) => {
      const bar = tackedBars([{ ...hoop, heldB }], readingsOf(forward), scatter, 1)!.bars[0]!;
      return { moved: bar.moved[5]!, sd: bar.sd[5]! };
    };
    expect(foot(true).sd).toBeLessThan(Math.sqrt(3) * scatter.foot);
    expect(foot(false).sd).toBeGreaterThan(2 * foot(true).sd);
    expect(foot(true).moved).toBeLessThan(2 * scatter.foot);
  });

  it("a tape of 25 mm too much is named", () => {
    const readings = readingsOf(line).map((r, i) => (i === 2 ? { ...r, value: r.value + 25 } : r));
    expect(tackedBars([hoop], readings, scatter, 1)!.suspect).toBe(2);
  });

  it("a tape lies on a tube as it does in the survey, oblique or square, on every side", () => {
    const mark: Vec = [900, -350, 120];
    for (const over of ["outside", "inside", "centre"] as const) {
      for (const share of [0.05, 0.3, 0.5, 0.62, 0.93]) {
        const ends = [
          { kind: "point", point: "m" },
          { kind: "tube", bar: "main-hoop", along: share * line.length, over, bead: 0 },
        ] as const;
        const surveyed = surveyJob(
          {
            points: { m: { at: mark, sd: [0, 0, 0] } },
            readings: [{ kind: "tape", ends, length: 1000, sd: 1e4 }],
            shop: { errors: { tape: 1, height: 1, level: 1, plumb: 1, slope: 1 } },
          },
          new Map([["main-hoop", { centreline: line, tube: { od: 45 } }]]),
        );
        const reading = {
          what: "tape",
          from: { at: mark },
          to: at(share),
          over,
          value: 1000,
          sd: 1e9,
        } as const;
        const [told] = tackedBars([hoop], [reading], scatter, 1)!.readings;
        expect(told!.computed).toBeCloseTo(surveyed.readings[0]!.computed, 4);
      }
    }
  });
});

describe("tapes between two tacked bars", () => {
  const scatter = { mark: 1, angle: rad(0.5), turn: rad(0.5), foot: 2, lean: rad(0.3) };
  const front = lineOfBar("main-hoop");
  const shape = shapeOf(front);
  const start = startOf(front);
  const rear = lineOf(shape, { ...start, at: add(start.at, [-1200, 0, 0]) });
  const bars = [
    { id: "front", line: front, od: 45, heldB: true },
    { id: "rear", line: rear, od: 45, heldB: true },
  ];
  const high = 0.4;
  const spot = (bar: string, share: number) => ({ bar, along: share * front.length });
  const across = (value: number) => [
    { what: "tape", from: spot("front", high), to: spot("rear", high), over: "centre", value } as const,
    {
      what: "tape",
      from: spot("front", 1 - high),
      to: spot("rear", 1 - high),
      over: "centre",
      value,
    } as const,
  ];

  it("8 mm too little between two hoops alike: each gives half", () => {
    const found = tackedBars(bars, across(1192), scatter, 1)!;
    const at = (line: typeof front) => placeAt(line, high * line.length).at[0];
    const [f, r] = found.bars.map((b) => b.line);
    const [moved, other] = [at(f!) - at(front), at(r!) - at(rear)];
    expect(moved).toBeLessThan(-3);
    expect(other).toBeCloseTo(-moved, 1);
    expect(at(f!) - at(r!)).toBeCloseTo(1192, 0);
  });

  it("one that is better known gives less, and what is read of it alone tells the two apart", () => {
    const tight = (id: string): TackReading[] =>
      [high, 1 - high].map((share) => ({
        what: "fore",
        of: spot(id, share),
        over: "centre",
        value: at(share),
        sd: 0.1,
      }));
    const at = (share: number) => placeAt(front, share * front.length).at[0];
    const found = tackedBars(bars, [...across(1192), ...tight("front")], scatter, 1)!;
    const [f, r] = found.bars.map((b) => placeAt(b.line, high * b.line.length).at[0]);
    expect(Math.abs(f! - at(high))).toBeLessThan(0.3);
    expect(r! - (at(high) - 1200)).toBeGreaterThan(6.5);
  });

  it("judged from a job: both paths are given, and each changes its own cards", () => {
    const other = "header-bar";
    const places = (id: string) => plan.byId.get(id)!.bar.centreline;
    const from = { bar: "main-hoop", along: 700 };
    const to = { bar: other, along: places(other).length / 2 };
    const apart = dist(placeAt(places("main-hoop"), 700).at, placeAt(places(other), to.along).at);
    const readings = [{ what: "tape", from, to, over: "centre", value: apart - 6 } as const];
    const answer = judgeTacked(plan, "main-hoop", readings)!;
    expect(Object.keys(answer.paths)).toEqual(["main-hoop", other]);
    expect(answer.path).toBe(answer.paths["main-hoop"]!.path);
    for (const bar of answer.found.bars) expect(Math.max(...bar.moved)).toBeGreaterThan(0.3);
    expect(
      judgeTacked(plan, "main-hoop", [{ ...readings[0]!, to: { bar: "nobody", along: 1 } }]),
    ).toBeUndefined();
  });
});
