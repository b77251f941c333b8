import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { closestTo } from "../bar/index.ts";
import { readJob } from "../job/index.ts";
import { hostsOf } from "../plan/hosts.ts";
import { type BarPlan, type Plan, planJob } from "../plan/index.ts";
import { dist, mirrored, ORIGIN, type Vec } from "../space/index.ts";
import { type TubeMesh, tubeMesh } from "./index.ts";

const jobOf = (text: string): Plan => {
  const read = readJob(text);
  if (!read.ok) throw new Error("the job does not read");
  return planJob(read.job);
};
const demo = jobOf(readFileSync("demo/sandling.json", "utf8"));
const trial = jobOf(readFileSync("tests/corpus/trial-frame.json", "utf8"));
const plans: readonly (readonly [string, Plan, BarPlan])[] = [demo, trial].flatMap((plan) =>
  plan.bars.map((b) => [`${plan.job.name}: ${b.id}`, plan, b] as const),
);
const copesOf = (b: BarPlan) => ({ A: b.copes.A.cope, B: b.copes.B.cope });
const meshOf = (b: BarPlan, origin: Vec = ORIGIN): TubeMesh => tubeMesh(b.bar, copesOf(b), { origin });

const vertex = (m: TubeMesh, i: number): Vec => [
  m.positions[3 * i]! + m.origin[0],
  m.positions[3 * i + 1]! + m.origin[1],
  m.positions[3 * i + 2]! + m.origin[2],
];
const places = (m: TubeMesh): Vec[] => Array.from({ length: m.positions.length / 3 }, (_, i) => vertex(m, i));

/** Sum of the signed tetrahedra from one vertex. */
function volume(m: TubeMesh, indices: Uint32Array = m.indices): number {
  const p = places(m);
  const o = p[0]!;
  let six = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => {
      const v = p[indices[t + k]!]!;
      return [v[0] - o[0], v[1] - o[1], v[2] - o[2]] as const;
    }) as [Vec, Vec, Vec];
    six +=
      a[0] * (b[1] * c[2] - b[2] * c[1]) -
      a[1] * (b[0] * c[2] - b[2] * c[0]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

/**
 * Pappus's second theorem: a section whose centroid lies on the centreline sweeps section × length, however the
 * centreline bends. From landing to landing, less what the copes take off between bore and outside, by Gauss's three
 * points across the wall and the middle rule round it. Holds where no end is itself bent within its cope.
 */
function analyticVolume(plan: Plan, b: BarPlan): number {
  const r1 = b.bar.tube.od / 2;
  const r0 = r1 - b.bar.tube.wall;
  let v = Math.PI * (r1 * r1 - r0 * r0) * b.bar.centreline.length;
  const nodes = [-Math.sqrt(0.6), 0, Math.sqrt(0.6)];
  const weights = [5 / 9, 8 / 9, 5 / 9];
  for (const end of ["A", "B"] as const) {
    const joint = b.copes[end].joint;
    if (!joint) continue;
    expect(hostsOf(b.bar, end, plan.layout)).toBeDefined();
    const lines = 720;
    for (let i = 0; i < lines; i++) {
      const phi = ((i + 0.5) * 2 * Math.PI) / lines;
      nodes.forEach((node, k) => {
        const rho = (r1 + r0) / 2 + (node * (r1 - r0)) / 2;
        const back = joint.back(rho, Math.cos(phi), Math.sin(phi));
        if (Number.isNaN(back)) return;
        v -= ((weights[k]! * (r1 - r0)) / 2) * rho * back * ((2 * Math.PI) / lines);
      });
    }
  }
  return v;
}

describe("a coped tube as a mesh", () => {
  it("has bars to look at, bent ones and several-bend ones among them", () => {
    expect(plans.length).toBeGreaterThan(38);
    expect(plans.filter(([, , b]) => b.bar.centreline.bends.length > 1).length).toBeGreaterThan(3);
  });

  it.each(plans)(
    "%s: rim vertices lie on the hosts' outsides, the rest of the wall outside them",
    (_, plan, b) => {
      const m = meshOf(b);
      const all = places(m);
      const length = b.bar.centreline.length;
      const middle = length / 2;
      for (const end of ["A", "B"] as const) {
        const hosts = hostsOf(b.bar, end, plan.layout)!;
        const seat = b.bar.seat[end];
        if (seat.kind === "square") continue;
        const { cope } = b.copes[end];
        if (cope.misses.length > 0) continue;
        const clear = (p: Vec): number =>
          seat.kind === "plate"
            ? (p[0] - seat.at[0]) * seat.normal[0] +
              (p[1] - seat.at[1]) * seat.normal[1] +
              (p[2] - seat.at[2]) * seat.normal[2]
            : Math.min(
                ...hosts.map((h) => {
                  // A host's end straights run on past its ends, as the cope has them.
                  const { distance } = closestTo(h.centreline, p);
                  return distance - h.tube.od / 2;
                }),
              );
        let onHost = 0;
        let least = Infinity;
        all.forEach((p, i) => {
          const fromEnd = end === "A" ? m.stations[i]! : length - m.stations[i]!;
          if (fromEnd > Math.min(cope.greatest + 1, middle)) return;
          const c = clear(p);
          if (Math.abs(c) < 1e-3) onHost++;
          least = Math.min(least, c);
        });
        expect(least).toBeGreaterThan(-2e-3);
        // Every wall line's end: two walls, each listed for the wall and for the cut face.
        const rim = m.edges.length / 12;
        expect(rim).toBeGreaterThan(90);
        const lines = new Set<string>();
        all.forEach((p, i) => {
          const fromEnd = end === "A" ? m.stations[i]! : length - m.stations[i]!;
          if (fromEnd <= middle && Math.abs(clear(p)) < 1e-3) lines.add(p.join());
        });
        expect(lines.size).toBeGreaterThanOrEqual(2 * 48);
        expect(onHost).toBeGreaterThanOrEqual(lines.size);
      }
    },
  );

  it.each(plans)("%s: every line of its outline lies on a host", (_, plan, b) => {
    const m = meshOf(b);
    let counted = 0;
    for (let i = 0; i < m.edges.length; i += 3) {
      const p: Vec = [m.edges[i]!, m.edges[i + 1]!, m.edges[i + 2]!];
      const end = dist(p, b.bar.centreline.start) < dist(p, b.bar.centreline.finish) ? "A" : "B";
      const seat = b.bar.seat[end];
      if (seat.kind !== "on" || b.copes[end].cope.misses.length > 0) continue;
      const hosts = hostsOf(b.bar, end, plan.layout)!;
      const off = Math.min(
        ...hosts.map((h) => Math.abs(closestTo(h.centreline, p).distance - h.tube.od / 2)),
      );
      expect(off).toBeLessThan(1e-3);
      counted++;
    }
    const copedEnds = (["A", "B"] as const).filter(
      (e) => b.bar.seat[e].kind === "on" && b.copes[e].cope.misses.length === 0,
    );
    expect(counted > 0).toBe(copedEnds.length > 0);
  });

  it.each(plans)("%s: closed, every edge used once each way", (_, __, b) => {
    const m = meshOf(b);
    const ids = new Map<string, number>();
    const welded = Array.from({ length: m.positions.length / 3 }, (_, i) => {
      const key = `${m.positions[3 * i]} ${m.positions[3 * i + 1]} ${m.positions[3 * i + 2]}`;
      if (!ids.has(key)) ids.set(key, ids.size);
      return ids.get(key)!;
    });
    for (const [indices, least] of [
      [m.indices, 500],
      [m.farIndices, 150],
    ] as const) {
      const edges = new Map<string, number>();
      for (let t = 0; t < indices.length; t += 3) {
        const tri = [0, 1, 2].map((k) => welded[indices[t + k]!]!);
        for (let k = 0; k < 3; k++) {
          const [a, c] = [tri[k]!, tri[(k + 1) % 3]!];
          if (a !== c) edges.set(`${a} ${c}`, (edges.get(`${a} ${c}`) ?? 0) + 1);
        }
      }
      const lonely = [...edges].filter(([key, n]) => {
        const [a, c] = key.split(" ");
        return edges.get(`${c} ${a}`) !== n;
      });
      expect(edges.size).toBeGreaterThan(least);
      expect(lonely).toEqual([]);
    }
  });

  it.each(plans)("%s: holds what Pappus says, to 0.5 %", (_, plan, b) => {
    const want = analyticVolume(plan, b);
    const got = volume(meshOf(b));
    expect(Math.abs(got / want - 1)).toBeLessThan(0.005);
    // The coarse surface has 12 lines round, a polygon with 4.5 % less area.
    expect(Math.abs(volume(meshOf(b), meshOf(b).farIndices) / want - 1)).toBeLessThan(0.055);
    const fine = volume(tubeMesh(b.bar, copesOf(b), { around: 180, perBend: 45 }));
    expect(Math.abs(fine / want - 1)).toBeLessThan(0.001);
  });

  it("keeps wall lines parallel along a bar with bends in several planes: no twist", () => {
    const b = demo.byId.get("pillar-bar-left")!;
    expect(b.bar.centreline.bends.length).toBe(3);
    const m = meshOf(b);
    // The longest edge of every triangle of a straight's wall, taken along it, leaves it by less than a step round.
    const radius = b.bar.tube.od / 2;
    for (let t = 0; t < m.outerCount; t += 3) {
      const ps = [0, 1, 2].map((k) => vertex(m, m.indices[t + k]!));
      const ss = [0, 1, 2].map((k) => m.stations[m.indices[t + k]!]!);
      for (let k = 0; k < 3; k++) {
        const mid = ps[k]!.map((v, i) => (v + ps[(k + 1) % 3]![i]!) / 2) as unknown as Vec;
        const inside = (ss[k]! + ss[(k + 1) % 3]!) / 2;
        if (inside < 60 || inside > b.bar.centreline.length - 60) continue;
        const off = closestTo(b.bar.centreline, mid).distance;
        // A chord sags by r(1 − cos of half a step) round the tube, and by (R + r)(1 − cos 3°) along a bend.
        expect(off).toBeGreaterThan(radius * Math.cos(Math.PI / 48) - 0.35);
      }
    }
  });

  it("mirror law: the mirrored bar's mesh is the mesh mirrored", () => {
    const pairs = demo.bars.filter((b) => b.bar.mirrorOf !== undefined);
    expect(pairs.length).toBeGreaterThan(5);
    for (const b of pairs) {
      const original = demo.byId.get(b.bar.mirrorOf!)!;
      const want = places(meshOf(original)).map(mirrored);
      const got = places(meshOf(b));
      expect(got.length).toBe(want.length);
      const grid = new Map<string, Vec[]>();
      const cell = (p: Vec, d: Vec = ORIGIN) => p.map((v, i) => Math.floor(v / 5) + d[i]!).join();
      for (const p of want) {
        const key = cell(p);
        grid.set(key, [...(grid.get(key) ?? []), p]);
      }
      for (const p of got) {
        let best = Infinity;
        for (const x of [-1, 0, 1])
          for (const y of [-1, 0, 1])
            for (const z of [-1, 0, 1])
              for (const q of grid.get(cell(p, [x, y, z])) ?? []) best = Math.min(best, dist(p, q));
        expect(best).toBeLessThan(1e-3);
      }
    }
  });

  it("subtracts the origin before numbers become 32 bits wide", () => {
    const b = demo.byId.get("pillar-bar-left")!;
    const near = meshOf(b, b.bar.centreline.start);
    const plain = meshOf(b);
    expect(near.origin).toEqual(b.bar.centreline.start);
    const o = near.origin;
    for (let i = 0; i < 40; i++) {
      for (let k = 0; k < 3; k++) {
        expect(near.positions[3 * i + k]! + o[k]!).toBeCloseTo(plain.positions[3 * i + k]!, 3);
      }
    }
  });

  it("says its stations and its spine", () => {
    const b = demo.byId.get("main-hoop")!;
    const m = meshOf(b);
    expect(m.stations.length).toBe(m.positions.length / 3);
    for (let i = 0; i < m.spine.length; i += 4) {
      const p: Vec = [m.spine[i]!, m.spine[i + 1]!, m.spine[i + 2]!];
      const close = closestTo(b.bar.centreline, p);
      expect(close.distance).toBeLessThan(1e-3);
      expect(Math.abs(close.s - m.spine[i + 3]!)).toBeLessThan(1e-2);
    }
  });

  it("marks a rim that misses as open and runs its lines to the landing plane", () => {
    const plan = jobOf(
      JSON.stringify({
        format: "tubewright job",
        version: 2,
        name: "a miss",
        tubes: { thin: { od: 25, wall: 2 }, thick: { od: 60, wall: 2 } },
        bars: {
          host: {
            label: "Host",
            tube: "thin",
            path: [
              [0, -500, 0],
              [0, 500, 0],
            ],
          },
          fat: { label: "Fat", tube: "thick", path: [{ on: "host", along: 500 }, [600, 0, 0]] },
        },
      }),
    );
    const b = plan.byId.get("fat")!;
    expect(b.copes.A.cope.misses.length).toBeGreaterThan(0);
    const m = meshOf(b);
    expect(m.open.length).toBeGreaterThan(0);
    for (let i = 0; i < m.open.length; i += 3) expect(m.open[i]!).toBeCloseTo(0, 4);
    expect(volume(m)).toBeGreaterThan(0);
    expect(meshOf(plan.byId.get("host")!).open.length).toBe(0);
  });
});
