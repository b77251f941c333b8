import { describe, expect, it } from "vitest";
import { copeOf } from "../../src/core/cope/index.ts";
import { rad } from "../../src/core/numeric/index.ts";
import { barOf } from "../bars.ts";

const post = barOf("post", 45, 2.5, [
  [0, 0, 0],
  [0, 0, 1500],
]);

/** A bar in the x-z plane at γ (degrees) to the post, moved sideways by e (mm), onto it from x > 0. */
function sideways(od: number, wall: number, e: number, gamma: number) {
  const out = 600;
  const bar = barOf(
    "bar",
    od,
    wall,
    [
      [out * Math.sin(rad(gamma)), e, 700 + out * Math.cos(rad(gamma))],
      [0, e, 700],
    ],
    { B: { on: "post", along: 700, off: [0, e, 0] } },
  );
  return copeOf(bar, "B", [post]);
}

describe("the long point of an end whose rim passes its host in part", () => {
  // The last line that still meets the host grazes it where √(H² − (ρ sin φ − e)²) = 0, so that b there is
  // ρ cos φ / tan γ (geometry.md, the closed form). Once the 360 lines alone were asked: up to 3 mm of bar too short.
  const H = 22.5;
  const grazing = (rho: number, e: number, gamma: number): number => {
    const sin = (Math.abs(e) - H) / rho;
    return Math.abs(sin) < 1 ? -Math.sqrt(1 - sin * sin) * (rho / Math.tan(rad(gamma))) : Infinity;
  };
  it.each([
    [40, 2, 5, 90],
    [40, 2, 10, 90],
    [40, 2, -20, 90],
    [45, 2.5, 44.9, 90],
    [40, 2, 10, 70],
    [38, 2.5, -12, 50],
  ])("%d × %d, %d mm sideways at %d°", (od, wall, e, gamma) => {
    const { cope } = sideways(od, wall, e, gamma);
    expect(cope.misses.length).toBeGreaterThan(0);
    const edges = Math.min(grazing(od / 2, e, gamma), grazing(od / 2 - wall, e, gamma));
    expect(edges).toBeLessThan(Infinity);
    // The least back may also lie on a smooth stretch of the curve: no line found may be below what is reported.
    const lines = Math.min(...[...cope.outer, ...cope.bore].filter((b) => !Number.isNaN(b)));
    expect(cope.least).toBeLessThanOrEqual(lines);
    expect(cope.least).toBeCloseTo(Math.min(edges, lines), 2);
  });
  it("a tube wider than its host, square on, reaches to the host's axis on both sides", () => {
    const { cope } = sideways(60, 3, 0, 90);
    expect(cope.misses).toHaveLength(2);
    expect(cope.least).toBeCloseTo(0, 6);
  });
});

describe("an offset along the bar", () => {
  // geometry.md: such a part of `off` shifts b, and the lines it shifts farthest still meet the host. Once they were
  // given up (H + ρ)/sin γ beyond the landing, and half the rim counted as missing.
  const back = (off: number): Float64Array => {
    const bar = barOf(
      "bar",
      40,
      2,
      [
        [600, 0, 700],
        [off, 0, 700],
      ],
      { B: { on: "post", along: 700, off: [off, 0, 0] } },
    );
    return copeOf(bar, "B", [post]).cope.outer;
  };
  it.each([60, -60, 200])("of %d mm shifts the whole curve by as much", (off) => {
    const plain = back(0);
    back(off).forEach((b, i) => {
      expect(b).toBeCloseTo(plain[i]! - off, 6);
    });
  });
});

describe("a plate that the bar dips behind", () => {
  const stand = (z: number) =>
    copeOf(
      barOf(
        "bar",
        40,
        2,
        [
          [300, 0, z],
          [0, 0, 0],
        ],
        { B: { kind: "plate", plate: "foot", at: [0, 0, 0], normal: [0, 0, 1] } },
      ),
      "B",
      [],
    ).findings.map((f) => f.code);
  it("all the way to its other end: no cut, said as for a tube", () =>
    expect(stand(19)).toEqual(["cope-runs-along"]));
  it("well clear of it: nothing to say", () => expect(stand(300)).toEqual([]));
  it("all of the bar behind it is one finding, not two", () => {
    expect(stand(-300)).toEqual(["plate-behind"]);
  });
});
