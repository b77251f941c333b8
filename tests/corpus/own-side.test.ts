/** Landings by station on a bar that is its own mirror image, once that was built otherwise than wanted. */
import { describe, expect, it } from "vitest";
import { run as call } from "../cli/run.ts";

type Place = readonly [number, number, number];
/** A hoop bent 12 longer on the left, 3.5 on the right, and not upright. */
const BUILT: readonly Place[] = [
  [-2, 601, -12],
  [4, 600, 900],
  [4, -600, 900],
  [0, -598, -3.5],
];
const dist = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

const job = (bars: object, more: object = {}): string =>
  JSON.stringify({
    format: "tubewright job",
    version: 2,
    name: "Own side",
    tubes: { t: { od: 45, wall: 2.5 }, s: { od: 40, wall: 2 } },
    dies: { d: { od: 45, clr: 135 }, ds: { od: 40, clr: 120 } },
    bars: {
      hoop: {
        tube: "t",
        die: "d",
        path: [
          [0, 600, 0],
          [0, 600, 900],
          [0, -600, 900],
          [0, -600, 0],
        ],
      },
      ...bars,
    },
    asBuilt: { hoop: { path: BUILT } },
    ...more,
  });

async function landings(text: string) {
  const { out, err } = await call(["cope", "job.json", "--json"], { "job.json": text });
  expect(err).not.toContain("error");
  const { copes } = JSON.parse(out) as { copes: { bar: string; end: string; landing: Place }[] };
  return (bar: string, end: string): Place => copes.find((c) => c.bar === bar && c.end === end)!.landing;
}

const [footA, , , footB] = BUILT as [Place, Place, Place, Place];

describe("a landing by station, mirrored", () => {
  it.each([
    ["from A", 50, footA, footB],
    ["at the very foot", 0, footA, footB],
    ["from B", -50, footB, footA],
  ])("%s is as far from the foot on its own side, as built", async (_, along, own, other) => {
    const y = along < 0 ? -500 : 500;
    const bars = {
      left: { tube: "s", path: [[800, y, 100], { on: "hoop", along }] },
      right: { mirrorOf: "left" },
    };
    const at = await landings(job(bars));
    expect(dist(at("left", "B"), own)).toBeCloseTo(Math.abs(along), 5);
    expect(dist(at("right", "B"), other)).toBeCloseTo(Math.abs(along), 5);
  });

  it("on a bar in the centre plane both land on one place", async () => {
    const spine = {
      tube: "t",
      path: [
        [0, 0, 100],
        [1000, 0, 100],
      ],
    };
    const bars = {
      spine,
      left: { tube: "s", path: [[400, 500, 100], { on: "spine", along: 300 }] },
      right: { mirrorOf: "left" },
    };
    const at = await landings(
      job(bars, {
        asBuilt: {
          spine: {
            path: [
              [-5, 1, 100],
              [1003, 2, 100],
            ],
          },
        },
      }),
    );
    expect(dist(at("left", "B"), at("right", "B"))).toBeLessThan(1e-6);
    expect(dist(at("left", "B"), [-5, 1, 100])).toBeCloseTo(300, 5);
  });

  it("a bar that follows the hoop on one side is followed on the other by its twin", async () => {
    const follow = { bar: "hoop", gap: 20, side: "inside", from: 100, to: 600 };
    const bars = {
      left: {
        tube: "s",
        die: "ds",
        path: [
          [300, 400, 50],
          [300, 300, 800],
        ],
        follow,
      },
      right: { mirrorOf: "left" },
    };
    const { out } = await call(["bend", "job.json", "--json"], { "job.json": job(bars) });
    const { bars: bent } = JSON.parse(out) as { bars: { id: string; bends: { angle: number }[] }[] };
    const angles = (id: string): number[] => bent.find((b) => b.id === id)!.bends.map((b) => b.angle);
    // The hoop came out nearly alike on both sides, so do the two bars that follow it; the wrong leg gives another bar.
    expect(angles("right")).toHaveLength(angles("left").length);
    for (const [i, a] of angles("right").entries()) expect(Math.abs(a - angles("left")[i]!)).toBeLessThan(2);
  });

  it("as wanted the two are mirror images to the last digit", async () => {
    const bars = {
      left: { tube: "s", path: [[800, 500, 100], { on: "hoop", along: 50 }] },
      right: { mirrorOf: "left" },
    };
    const at = await landings(job(bars, { asBuilt: {} }));
    const [x, y, z] = at("left", "B");
    expect(at("right", "B")).toEqual([x, -y, z]);
  });
});
