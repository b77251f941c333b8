import { describe, expect, it } from "vitest";
import { copeOf } from "../../src/core/cope/index.ts";
import { rad, seeded } from "../../src/core/numeric/index.ts";
import { barOf } from "../bars.ts";
import { slowAt, slowJoint, slowLine } from "../support/slow-joint.ts";

type V = readonly [number, number, number];

/** Random bars that bend near their landing, on straight hosts and bent ones, many of the same diameter. */
function randomEnd(random: () => number) {
  const spread = (m: number): number => m * (random() - 0.5);
  const od = 30 + 15 * random();
  const hostOd = random() < 0.4 ? od : 30 + 20 * random();
  const bent: readonly V[] = [
    [0, 0, -300],
    [spread(40), spread(40), 0],
    [100 + spread(200), spread(300), 250 + spread(100)],
  ];
  const straight: readonly V[] = [
    [0, 0, -300],
    [0, 0, 300],
  ];
  const hostCorners = random() < 0.5 ? straight : bent;
  const hostLine = slowLine(hostCorners, 2.6 * hostOd);
  const along = 60 + random() * (hostLine.length - 120);
  const landing = slowAt(hostLine, along).at;
  const toward = (from: V, d: V, l: number): V => {
    const k = l / Math.hypot(...d);
    return [from[0] + k * d[0], from[1] + k * d[1], from[2] + k * d[2]];
  };
  const near = toward(landing, [0.4 + random(), spread(1.6), spread(1.6)], 15 + random() * 120);
  const far = toward(near, [spread(2), spread(2), spread(2)], 400);
  return { od, hostOd, hostCorners, hostLine, along, corners: [far, near, landing] };
}

describe("joints against a slow twin with code of its own (seed 11)", () => {
  it("starts beyond the right stretch of rings and meets the host where the stepped lines do", () => {
    const random = seeded(11);
    const counts = { met: 0, walked: 0, bentHost: 0 };
    for (let k = 0; k < 200 && counts.met < 40; k++) {
      const { od, hostOd, hostCorners, hostLine, along, corners } = randomEnd(random);
      const clr = 2.6 * od;
      let bar: ReturnType<typeof barOf>;
      try {
        bar = barOf("bar", od, 2, corners, { B: { on: "host", along } }, clr);
      } catch {
        continue; // its bend has no room
      }
      const host = barOf(
        "host",
        hostOd,
        2,
        hostCorners,
        {},
        hostCorners.length > 2 ? 2.6 * hostOd : undefined,
      );
      const made = copeOf(bar, "B", [host]);
      if (made.findings.some((f) => f.code === "cope-runs-along")) continue;
      const { out, zero, outer } = made.cope;
      const quarter: V = [
        out[1] * zero[2] - out[2] * zero[1],
        out[2] * zero[0] - out[0] * zero[2],
        out[0] * zero[1] - out[1] * zero[0],
      ];
      const phis = Array.from({ length: 12 }, (_, i) => 30 * i + 7);
      const side = (phi: number) => (i: 0 | 1 | 2) =>
        Math.cos(rad(phi)) * zero[i] + Math.sin(rad(phi)) * quarter[i];
      const slow = slowJoint(
        {
          bar: slowLine(corners, clr),
          rho: od / 2,
          bore: od / 2 - 2,
          host: hostLine,
          hostRadius: hostOd / 2,
        },
        phis.map((phi): V => [side(phi)(0), side(phi)(1), side(phi)(2)]),
        od / 2,
      )!;
      counts.met++;
      if (made.joint!.walked) counts.walked++;
      if (hostCorners.length > 2) counts.bentHost++;
      phis.forEach((phi, i) => {
        const here = outer[phi]!;
        if (Number.isNaN(slow.backs[i]!)) expect(here).toBeNaN();
        else expect(Math.abs(here - slow.backs[i]!)).toBeLessThan(0.05);
      });
    }
    expect(counts.met).toBe(40);
    expect(counts.walked).toBeGreaterThan(8);
    expect(counts.bentHost).toBeGreaterThan(8);
  });
});
