import type { Manifold } from "manifold-3d";
import { beforeAll, describe, expect, test } from "vitest";
import {
  checker,
  type FitBar,
  type Pose,
  solidOf,
  standing,
  unitQuat,
} from "../../src/core/fit/scene/index.ts";
import { normal, seeded } from "../../src/core/numeric/index.ts";
import { barOf, fittingFor } from "../support/fit.ts";
import { type MeshKernel, meshKernel } from "./solids/kernels.ts";

/**
 * Distances and collisions against Manifold (npm manifold-3d 3.5.4, Apache-2.0), a mesh kernel that we did not write:
 * the moving bar is its tube less its hosts as the kernel subtracts them, the tacked bars are filled tubes.
 */
const fitting = fittingFor({
  format: "tubewright job",
  version: 2,
  tubes: { big: { od: 45, wall: 2.5 }, small: { od: 40, wall: 2 } },
  dies: { d45: { od: 45, clr: 135 }, d40: { od: 40, clr: 120 } },
  bars: {
    hoop: {
      tube: "big",
      die: "d45",
      path: [
        [0, 300, -250],
        [0, 300, 250],
        [0, -300, 250],
        [0, -300, -250],
      ],
    },
    post: {
      tube: "small",
      path: [
        [420, 40, -250],
        [420, -30, 250],
      ],
    },
    straight: {
      tube: "small",
      path: [
        { on: "hoop", z: 0, near: "left" },
        { on: "post", z: 20 },
      ],
    },
    bent: {
      tube: "small",
      die: "d40",
      path: [{ on: "hoop", z: 60, near: "left" }, [260, 260, 90], { on: "post", z: 120 }],
    },
  },
});
const hoop = barOf(fitting, "hoop");
const post = barOf(fitting, "post");
const straight = barOf(fitting, "straight");
const bent = barOf(fitting, "bent");

const SEGMENTS = 96;
/** Sides of the polygons of both meshes lie inside the true tubes by this together (mm). */
const FLAT = 22.5 * (1 - Math.cos(Math.PI / SEGMENTS)) * 3;

let kernel: MeshKernel;
beforeAll(async () => {
  kernel = await meshKernel(SEGMENTS, [200, 100, 0]);
});

const ORIGIN = [200, 100, 0] as const;

/** A solid of the kernel moved to a pose of the bar whose A landing is `about`. */
function movedTo(solid: Manifold, pose: Pose, about: readonly number[]): Manifold {
  const [x, y, z, w] = pose.turn;
  const m = [
    [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
    [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
    [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
  ];
  const a = about.map((v, k) => v - ORIGIN[k]!);
  const shift = [0, 1, 2].map((i) => a[i]! + pose.at[i]! - m[i]!.reduce((sum, v, k) => sum + v * a[k]!, 0));
  const columns = [0, 1, 2].flatMap((k) => [m[0]![k]!, m[1]![k]!, m[2]![k]!, 0]);
  return solid.transform([...columns, ...shift, 1] as Parameters<Manifold["transform"]>[0]);
}

describe.each([
  ["a straight bar", straight, [hoop, post]],
  ["a bent bar", bent, [hoop, post, straight]],
] as const)("%s", (name, own, tacked) => {
  test.each([
    ["near its seat", 6, 0.02, 30],
    ["out of its joints", 60, 0.2, 30],
    ["anywhere", 250, 1.5, 20],
  ] as const)(`${name}: %s`, (_, far, wide, count) => {
    const random = seeded(far);
    const { centreline, tube } = own.bar;
    const r = tube.od / 2;
    const raw = kernel.makeTube(centreline, { from: -40, to: centreline.length + 40 }, r, r - tube.wall);
    const mates = tacked.map((t) =>
      kernel.makeHost(t.bar.centreline, { from: 0, to: t.bar.centreline.length }, t.bar.tube.od / 2),
    );
    const hosts = tacked
      .filter((t) => [...own.hosts.A, ...own.hosts.B].includes(t.bar))
      .map((t) =>
        kernel.makeHost(
          t.bar.centreline,
          { from: -300, to: t.bar.centreline.length + 300 },
          t.bar.tube.od / 2,
        ),
      );
    const solid = kernel.cut(raw, hosts, keepOn(own));
    const check = checker(solidOf(own.bar, own.copes), { obstacles: tacked.map((t) => standing(t.bar)) });
    let touched = 0;
    let clear = 0;
    for (let n = 0; n < count; n++) {
      const pose: Pose = {
        at: [normal(random) * far, normal(random) * far, normal(random) * far],
        turn: unitQuat([normal(random) * wide, normal(random) * wide, normal(random) * wide, 1]),
      };
      const ours = check(pose, { cap: 60, fineBelow: 1e9 }).least;
      const posed = movedTo(solid, pose, centreline.start);
      // The kernel's search gets slow with its length; past what we say it need not look.
      const theirs = Math.min(...mates.map((m) => posed.minGap(m, Math.max(1, ours + 1))));
      const common = mates.reduce((sum, m) => {
        const both = posed.intersect(m);
        const v = both.volume();
        both.delete();
        return sum + v;
      }, 0);
      posed.delete();
      if (ours > 0.02) {
        clear++;
        expect(theirs).toBeGreaterThan(ours - 0.02);
        if (ours < 59) expect(theirs).toBeLessThan(ours + FLAT + 0.02);
        expect(common).toBe(0);
      } else if (ours < -0.02 - FLAT) {
        touched++;
        expect(theirs).toBe(0);
        expect(common).toBeGreaterThan(0);
      }
    }
    expect(clear + touched).toBeGreaterThan(count * 0.7);
    if (far > 50) expect(clear).toBeGreaterThan(count / 20);
    if (far < 100) expect(touched).toBeGreaterThan(count / 5);
    kernel.free(raw, solid, ...mates, ...hosts);
  });
});

/** A place halfway along a bar's chord: nearer to what is kept than to the slugs beyond its ends. */
function keepOn(own: FitBar): [number, number, number] {
  const { start, finish } = own.bar.centreline;
  return [(start[0] + finish[0]) / 2, (start[1] + finish[1]) / 2, (start[2] + finish[2]) / 2];
}
