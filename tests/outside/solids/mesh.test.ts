import { beforeAll, describe, expect, test } from "vitest";
import { copeOf, type Joint } from "../../../src/core/cope/index.ts";
import type { ResolvedBar } from "../../../src/core/layout/index.ts";
import type { Vec } from "../../../src/core/space/index.ts";
import { demoJoints, type JointCase, solidsOf, unusualJoints } from "./joints.ts";
import { type MeshKernel, meshKernel } from "./kernels.ts";
import { inWall, meanLength, wallArea } from "./ours.ts";

/**
 * Copes against Manifold, a general-purpose mesh kernel that we did not write (npm manifold-3d 3.5.4). Its hosts are
 * polyhedra, a little thinner than round ones (and a little thicker on the inside of a bend), so its cut must lie
 * between our curves for a host that much thinner and that much thicker, and the metal left must converge on ours
 * with the square of the segments.
 */

const SEGMENTS = [64, 128] as const;
/** A busy machine may take this long over a joint (ms). */
const SLOW = 60_000;
/** A place comes out of the kernel as 32-bit floats, good to 2e-5 mm within 300 mm (mm). */
const FLOATS = 1e-4;

interface MeshCut {
  /** Metal left over the area of the tube's section, a polygon's (mm). */
  readonly length: number;
  /** Corners that the cut made. */
  readonly corners: readonly Vec[];
  /** How far the hosts' faces depart from round ones, host by host. */
  readonly departs: readonly ReturnType<MeshKernel["departs"]>[];
}

async function meshCut(c: JointCase, segments: number): Promise<MeshCut> {
  const kernel = await meshKernel(segments, c.cope.landing);
  const { tube, hosts } = solidsOf(kernel, c);
  const solid = kernel.cut(tube, hosts, c.keep);
  const turned = (2 * Math.PI) / segments;
  const cut: MeshCut = {
    length: kernel.volume(solid) / ((wallArea(c) * Math.sin(turned)) / turned),
    corners: kernel.cutCorners(solid, tube),
    departs: c.hosts.map(({ tube: { od }, centreline: { bends } }) =>
      kernel.departs(od / 2, Math.min(...bends.map((b) => b.clr))),
    ),
  };
  kernel.free(solid, tube, ...hosts);
  return cut;
}

/** Our joint with each host's outside radius changed by so much (mm). */
function resized(c: JointCase, by: readonly number[]): Joint {
  const hosts = c.hosts.map(
    (host, i): ResolvedBar => ({ ...host, tube: { ...host.tube, od: host.tube.od + 2 * by[i]! } }),
  );
  return copeOf(c.bar, c.end, hosts).joint!;
}

describe.each([...demoJoints(), ...unusualJoints()].map((c) => [c.name, c] as const))("%s", (_, c) => {
  let cuts: MeshCut[];
  beforeAll(async () => {
    cuts = [];
    for (const segments of SEGMENTS) cuts.push(await meshCut(c, segments));
  }, SLOW);

  test("as much metal is left, the more nearly the finer the mesh", () => {
    const ours = meanLength(c, 8, 1440);
    const [coarse, fine] = cuts.map(({ length }) => length - ours) as [number, number];
    expect(Math.abs(fine)).toBeLessThan(0.01);
    // Polygons depart by the square of their sides: half the sides, a quarter of the error, which extrapolates away.
    expect(Math.abs(coarse)).toBeLessThan(0.04);
    expect(Math.abs((4 * fine - coarse) / 3)).toBeLessThan(0.001);
    if (c.cope.kind === "on") expect(coarse / fine).toBeGreaterThan(3);
  });

  test("its cut lies between our curves for hosts as thin and as thick as its own", () => {
    for (const { corners, departs } of cuts) {
      const thick = resized(
        c,
        departs.map(({ outside }) => outside + FLOATS),
      );
      const thin = resized(
        c,
        departs.map(({ inside }) => -inside - FLOATS),
      );
      let looked = 0;
      for (const corner of corners) {
        const { rho, cos, sin, back } = inWall(c, corner);
        // The end of a stub that stops short of its landing was sawn, not coped.
        if (back < c.near + FLOATS) continue;
        looked++;
        expect(back).toBeLessThan(thick.back(rho, cos, sin) + FLOATS);
        const least = thin.back(rho, cos, sin);
        // A line that passes the thinner host by has no least.
        if (!Number.isNaN(least)) expect(back).toBeGreaterThan(least - FLOATS);
      }
      expect(looked).toBeGreaterThan(80);
    }
  });
});
