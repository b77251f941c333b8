import type { TopoDS_Shape } from "replicad-opencascadejs";
import { beforeAll, describe, expect, test } from "vitest";
import { copeOf } from "../../../src/core/cope/index.ts";
import type { ResolvedBar } from "../../../src/core/layout/index.ts";
import { rad } from "../../../src/core/numeric/index.ts";
import {
  cutPoints,
  demoJoints,
  type JointCase,
  missingJoints,
  slottedJoint,
  solidsOf,
  unusualJoints,
} from "./joints.ts";
import { type ExactKernel, exactKernel } from "./kernels.ts";
import { entryAngle, inWall, meanLength, wallArea, wallPlace } from "./ours.ts";

/**
 * Copes against Open CASCADE Technology, a general-purpose exact solid kernel that we did not write (npm
 * replicad-opencascadejs 1.1.0): the tube is swept, its hosts are swept and subtracted, and the metal that is left and
 * the edges that the cut left on it are compared with our curves.
 */

/** The promise is 0.01 mm; the kernel's digits allow a tenth of that, and are held to it (mm). */
const AGREES = 0.001;
/** A line that meets its host at less than this only grazes: distance to the surface counts (geometry.md). */
const GRAZING = rad(5);

/** The kernel's first cut compiles it; on a busy machine that alone may take ten seconds (ms). */
const SLOW = 60_000;

let kernel: ExactKernel;

beforeAll(async () => {
  kernel = await exactKernel();
}, SLOW);

function cutSolid(c: JointCase): { hosts: TopoDS_Shape[]; solid: TopoDS_Shape } {
  const { tube, hosts } = solidsOf(kernel, c);
  const solid = kernel.cut(tube, hosts, c.keep);
  kernel.free(tube);
  return { hosts, solid };
}

/** Greatest distance of our points from the edges that the kernel cut, and of grazing ones from the hosts' outside. */
function curveDistances(c: JointCase, solid: TopoDS_Shape, hosts: TopoDS_Shape[]) {
  const edges = kernel.cutEdges(solid, hosts);
  const outside = kernel.faces(...hosts);
  const result = { toEdges: 0, compared: 0, toSurface: 0 };
  for (const { rho, phi, back } of cutPoints(c)) {
    const place = wallPlace(c, rho, phi, back);
    result.toSurface = Math.max(result.toSurface, kernel.distance(place, outside));
    if (entryAngle(c, rho, phi, back) < GRAZING) continue;
    result.compared++;
    result.toEdges = Math.max(result.toEdges, kernel.distance(place, edges));
  }
  kernel.free(edges, outside);
  return result;
}

const demo = demoJoints();
const unusual = unusualJoints();

test("there are at least 12 joints of the demo, straight and bent hosts among them, and every unusual kind", () => {
  const bent = (c: JointCase): boolean => c.joint.hosts.some((h) => !h.straight);
  expect(demo.length).toBeGreaterThanOrEqual(12);
  expect(demo.filter(bent).length).toBeGreaterThanOrEqual(5);
  expect(demo.filter((c) => !bent(c)).length).toBeGreaterThanOrEqual(5);
  const off = ({ bar, end }: JointCase): boolean => {
    const seat = bar.seat[end];
    return seat.kind === "on" && seat.off.some((x) => x !== 0);
  };
  const crowded = (c: JointCase): boolean => c.hosts.length > 1;
  const selfBent = (c: JointCase): boolean => c.cope.bentInJoint;
  for (const kind of [off, crowded, selfBent])
    for (const onBend of [true, false]) expect(unusual.some((c) => kind(c) && bent(c) === onBend)).toBe(true);
});

test.each(unusual.filter((c) => c.hosts.length > 1).map((c) => [c.name, c] as const))(
  "%s: the other bar really takes metal",
  (_, c) => {
    const seat = { ...c.bar.seat[c.end], hosts: [c.hosts[0]!.id] } as ResolvedBar["seat"]["A"];
    const alone = copeOf({ ...c.bar, seat: { ...c.bar.seat, [c.end]: seat } }, c.end, [c.hosts[0]!]).cope;
    const deeper = c.cope.outer.filter((back, i) => back > alone.outer[i]! + 0.1);
    expect(deeper.length).toBeGreaterThan(30);
  },
);

describe.each([...demo, ...unusual].map((c) => [c.name, c] as const))("%s", (_, c) => {
  let cut: ReturnType<typeof cutSolid>;
  beforeAll(() => {
    cut = cutSolid(c);
    return () => kernel.free(cut.solid, ...cut.hosts);
  }, SLOW);

  test("as much metal is left", () => {
    const [rough, fine] = [meanLength(c, 5, 720), meanLength(c, 10, 1440)];
    // What the sum itself is worth: twice the lines change it by less than the tolerance.
    expect(Math.abs(fine - rough)).toBeLessThan(AGREES);
    expect(Math.abs(kernel.volume(cut.solid) / wallArea(c) - fine)).toBeLessThan(AGREES);
  });

  test("our curves lie on the edges that it cut", () => {
    const { toEdges, compared, toSurface } = curveDistances(c, cut.solid, cut.hosts);
    expect(compared).toBeGreaterThanOrEqual(44);
    expect(toEdges).toBeLessThan(AGREES);
    expect(toSurface).toBeLessThan(AGREES);
  });
});

/** A bar named in `also` that is met farther in, apart from the joint, is a clash and no part of the cut (geometry.md). */
test("slotted: what crosses farther in is no part of the cut, which agrees without it", () => {
  const c = slottedJoint();
  expect(c.cope.onto).toEqual(["hoop"]);
  expect(c.joint.apart).toEqual([{ id: "beside", fartherIn: true }]);
  const { hosts, solid } = cutSolid({ ...c, hosts: c.hosts.slice(0, 1) });
  const { toEdges, compared } = curveDistances(c, solid, hosts);
  expect(compared).toBeGreaterThanOrEqual(44);
  expect(toEdges).toBeLessThan(AGREES);
  expect(Math.abs(kernel.volume(solid) / wallArea(c) - meanLength(c, 5, 720))).toBeLessThan(AGREES);
  kernel.free(solid, ...hosts);
});

test.each(missingJoints().map((c) => [c.name, c] as const))(
  "%s: the arcs that miss are those where the kernel sees lines pass the host by",
  (_, c) => {
    const { tube, hosts } = solidsOf(kernel, c);
    const missed = (phi: number): boolean => c.cope.misses.some(([a, b]) => phi > a && phi < b);
    // An arc misses where the outside or the bore does. Lines all round, and 0.02° to both sides of each arc's ends.
    const ends = c.cope.misses.flat().flatMap((phi) => [phi - 0.02, phi + 0.02]);
    const lines = [...Array.from({ length: 36 }, (_, i) => 10 * i + 0.5), ...ends];
    for (const phi of lines) {
      const passes = [c.cope.outerRadius, c.cope.boreRadius].some((rho) => {
        const [from, to] = [wallPlace(c, rho, phi, c.far), wallPlace(c, rho, phi, c.near)];
        return !kernel.enters(from, to, hosts[0]!);
      });
      expect({ phi, passes }).toEqual({ phi, passes: missed(phi) });
    }
    expect(lines.filter(missed).length).toBeGreaterThan(5);
    expect(lines.filter(missed).length).toBeLessThan(lines.length);
    kernel.free(tube, ...hosts);
  },
);

test("a place in the wall is found again from where it lies", () => {
  for (const c of [...demo, ...unusual])
    for (const back of [0, c.cope.least, c.cope.greatest, c.far])
      for (const phi of [10, 130, 250]) {
        const found = inWall(c, wallPlace(c, c.cope.boreRadius, phi, back));
        expect(found.rho).toBeCloseTo(c.cope.boreRadius, 8);
        expect(found.back).toBeCloseTo(back, 8);
        expect(found.cos).toBeCloseTo(Math.cos(rad(phi)), 8);
        expect(found.sin).toBeCloseTo(Math.sin(rad(phi)), 8);
      }
});
