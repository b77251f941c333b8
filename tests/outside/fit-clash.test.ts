import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/core/findings/index.ts";
import { severityOf } from "../../src/core/findings/index.ts";
import { readJob } from "../../src/core/job/index.ts";
import { allFindings, type Plan, planJob } from "../../src/core/plan/index.ts";
import { writerFor } from "../../src/core/units/index.ts";
import { IDS, say } from "../../src/words/index.ts";
import { jobOf } from "../support/fit.ts";
import { overlapsOf } from "../support/overlaps.ts";

function planOf(document: object | string): Plan {
  const read = readJob(typeof document === "string" ? document : JSON.stringify(document));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job);
}

const clashes = (plan: Plan): readonly Finding[] =>
  allFindings(plan).filter((f) => f.code.startsWith("clash"));

const num = (f: Finding, name: string): number => {
  const v = f.values[name];
  return v && "mm" in v ? v.mm : Number.NaN;
};
const said = (f: Finding, name: string): string => {
  const v = f.values[name];
  return v && "bar" in v ? v.bar : v && "plate" in v ? v.plate : "";
};
const pairs = (plan: Plan): readonly string[] =>
  clashes(plan)
    .filter((f) => f.code === "clash")
    .map((f) => [said(f, "bar"), said(f, "other")].sort().join(" "))
    .sort();

const POST = [
  [0, 0, 0],
  [0, 0, 800],
];

describe("clashes against closed forms", () => {
  it("two tubes that cross overlap by their radii less the distance of their middle lines, at that place", () => {
    for (const [apart, clash] of [
      [39.9, true],
      [39.96, false],
      [40, false],
      [25, true],
      [0, true],
    ] as const) {
      const plan = planOf(
        jobOf({
          a: POST,
          b: [
            [apart, -300, 500],
            [apart, 400, 450],
          ],
        }),
      );
      expect(pairs(plan)).toEqual(clash ? ["a b"] : []);
      const [f] = clashes(plan);
      if (!f) continue;
      expect(severityOf(f)).toBe("danger");
      expect(num(f, "overlap")).toBeCloseTo(40 - apart, 6);
      expect([num(f, "x"), num(f, "y"), num(f, "z")]).toEqual([
        expect.closeTo(apart / 2, 6),
        expect.closeTo(0, 6),
        expect.closeTo(500 - (50 * 300) / 700, 6),
      ]);
      expect(num(f, "along")).toBeCloseTo(500 - (50 * 300) / 700, 6);
      expect(num(f, "otherAlong")).toBeCloseTo(Math.hypot(300, (50 * 300) / 700), 6);
    }
  });

  it("a bar on its host is no clash, at any angle, on a bend, off its middle or on a thinner host", () => {
    for (const to of [0, 150, 400, 900]) {
      for (const off of [
        [0, 0, 0],
        [0, 8, 0],
        [0, 0, 12],
      ]) {
        const plan = planOf(jobOf({ post: POST, bar: [{ on: "post", z: 400, off }, [600, 0, 400 + to]] }));
        expect(clashes(plan), `${to} ${off}`).toEqual([]);
      }
    }
    const hoop = [
      [0, 500, 0],
      [0, 500, 900],
      [0, -500, 900],
      [0, -500, 0],
    ];
    const bent = {
      ...(jobOf({}, 40) as object),
      tubes: { t: { od: 45, wall: 2 }, thick: { od: 50, wall: 2 } },
      dies: { d: { od: 45, clr: 135 } },
      bars: {
        hoop: { tube: "t", die: "d", path: hoop },
        stay: { tube: "t", path: [{ on: "hoop", along: 860 }, [-800, 300, 200]] },
        wide: { tube: "thick", path: [{ on: "hoop", z: 500, near: "right" }, [700, -300, 350]] },
      },
    };
    expect(clashes(planOf(bent))).toEqual([]);
  });

  it("a bar that comes back and goes through its own host is a clash there, and only there", () => {
    const job = jobOf({ post: POST });
    const plan = planOf({
      ...job,
      dies: { d: { od: 40, clr: 60 } },
      bars: {
        post: { tube: "t", path: POST },
        back: {
          tube: "t",
          die: "d",
          path: [{ on: "post", z: 100 }, [400, 0, 100], [400, 0, 600], [-300, 0, 600]],
        },
      },
    });
    const found = clashes(plan);
    expect(found).toHaveLength(1);
    expect(num(found[0]!, "overlap")).toBeCloseTo(40, 6);
    expect(num(found[0]!, "along")).toBeCloseTo(600, 6);
  });

  it("two bars on one node overlap unless one is cut to the other", () => {
    const stays = (more: object) =>
      planOf(
        jobOf({
          post: POST,
          a: [{ on: "post", z: 400 }, [500, 0, 400]],
          b: [{ on: "post", z: 400, ...more }, [500, 0, 700]],
        }),
      );
    expect(pairs(stays({}))).toEqual(["a b"]);
    expect(pairs(stays({ also: ["a"] }))).toEqual([]);
    // From opposite sides both are cut off by the post between them, though their middle lines meet.
    expect(
      pairs(
        planOf(
          jobOf({
            post: POST,
            a: [{ on: "post", z: 400 }, [500, 0, 400]],
            b: [{ on: "post", z: 400 }, [-500, 0, 400]],
          }),
        ),
      ),
    ).toEqual([]);
  });

  it("a loop that crosses itself is one clash with both its places; a hoop is none", () => {
    const document = (path: readonly unknown[]) => ({
      ...jobOf({}),
      dies: { d: { od: 40, clr: 80 } },
      bars: { loop: { tube: "t", die: "d", path } },
    });
    const loop = (z: number) => [
      [0, 0, 0],
      [800, 0, 0],
      [800, 500, 0],
      [300, 500, 0],
      [300, -400, z],
    ];
    const plan = planOf(document(loop(0)));
    expect(clashes(plan).map((f) => f.code)).toEqual(["clash-self"]);
    const [f] = clashes(plan);
    expect(num(f!, "overlap")).toBeCloseTo(40, 6);
    expect([num(f!, "first"), num(f!, "x"), num(f!, "y")].map(Math.round)).toEqual([300, 300, 0]);
    // Passed at a height: the leg climbs 90 in 900, so that it is 50 over the first leg where it crosses.
    expect(clashes(planOf(document(loop(90))))).toEqual([]);
    expect(
      clashes(
        planOf(
          document([
            [0, 300, 0],
            [0, 300, 700],
            [0, -300, 700],
            [0, -300, 0],
          ]),
        ),
      ),
    ).toEqual([]);
  });

  it("a plate of a known size is as long, as wide and as thick as it says, whichever way it runs", () => {
    const plan = (
      along: readonly number[] | undefined,
      thickness: number,
      x: number,
      size?: readonly number[],
    ) =>
      planOf({
        ...jobOf({}),
        plates: {
          foot: {
            at: [0, 0, 0],
            normal: [0, 0, 1],
            thickness,
            ...(size ? { size } : {}),
            ...(along ? { along } : {}),
          },
        },
        bars: {
          leg: { tube: "t", path: [{ plate: "foot" }, [0, 0, 600]] },
          by: {
            tube: "t",
            path: [
              [x, -400, -22],
              [x, 400, -22],
            ],
          },
        },
      });
    const bars = (p: Plan): readonly string[] =>
      clashes(p).map((f) => `${said(f, "bar")} ${said(f, "plate")}`);
    // 200 along x, 60 across: 2 under the face is in a plate of 3, and not in one of 1.5.
    expect(bars(plan([1, 0, 0], 3, 80, [200, 60]))).toEqual(["by foot"]);
    expect(num(clashes(plan([1, 0, 0], 3, 80, [200, 60]))[0]!, "overlap")).toBeCloseTo(1, 3);
    expect(bars(plan([1, 0, 0], 1.5, 80, [200, 60]))).toEqual([]);
    expect(bars(plan([0, 1, 0], 3, 80, [200, 60]))).toEqual([]);
    expect(bars(plan([0, 1, 0], 3, 25, [200, 60]))).toEqual(["by foot"]);
    // A plate without a size is a guess, and no danger is made of a guess.
    expect(bars(plan(undefined, 3, 0))).toEqual([]);
  });

  it("says what to do, both bars, the overlap and the place", () => {
    const plan = planOf(
      jobOf({
        a: POST,
        b: [
          [15, -300, 500],
          [15, 300, 500],
        ],
      }),
    );
    expect(clashes(plan).map((f) => say(f, writerFor({ length: "mm", fraction: 16 }), IDS))).toEqual([
      "move a or b, or cope one to the other: they overlap by 25.0 mm. The place is x 7.5 mm, y 0.0 mm, z 500.0 mm (500.0 mm along a, 300.0 mm along b)",
    ]);
  });
});

describe("clashes against tubes sampled all over", () => {
  it("the demo car has those that are there, and no other", { timeout: 600_000 }, () => {
    const plan = planOf(readFileSync("demo/sandling.json", "utf8"));
    const sampled = overlapsOf(plan, 0.1);
    expect(pairs(plan)).toEqual([...sampled.keys()].sort());
    expect(clashes(plan).every((f) => f.code === "clash")).toBe(true);
    for (const f of clashes(plan)) {
      const deep = sampled.get([said(f, "bar"), said(f, "other")].sort().join(" "))!;
      // The sampling meets no sharp point exactly, and never more than there is.
      expect(num(f, "overlap")).toBeGreaterThan(deep - 0.01);
      expect(num(f, "overlap")).toBeLessThan(deep + 0.35);
    }
  });

  it("so have crowded cars drawn at random (seed 5)", { timeout: 600_000 }, () => {
    let state = 5;
    const random = (): number => {
      state = (state * 1103515245 + 12345) % 2147483648;
      return state / 2147483648;
    };
    const place = (): number[] => [random() * 500, random() * 500 - 250, random() * 500].map(Math.round);
    let met = 0;
    for (let n = 0; n < 8; n++) {
      const post = [
        [0, 0, 0],
        [Math.round(random() * 60), 0, 500],
      ];
      const bars: Record<string, readonly unknown[]> = { post };
      for (let k = 0; k < 3; k++)
        bars[`on${k}`] = [{ on: "post", along: Math.round(80 + 320 * random()) }, [350, ...place().slice(1)]];
      for (let k = 0; k < 2; k++) bars[`by${k}`] = [place(), place()];
      const plan = planOf(jobOf(bars, 30));
      const sampled = overlapsOf(plan, 0.3);
      const found = pairs(plan);
      met += sampled.size;
      for (const pair of sampled.keys()) expect(found, `car ${n}`).toContain(pair);
      const deep = clashes(plan).filter((f) => num(f, "overlap") > 1.5);
      for (const f of deep)
        expect([...sampled.keys()], `car ${n}`).toContain(
          [said(f, "bar"), said(f, "other")].sort().join(" "),
        );
    }
    expect(met).toBeGreaterThan(5);
  });
});
