import { describe, expect, it } from "vitest";
import { dist, type Vec } from "../space/index.ts";
import { ballMesh, capsuleMesh, type Mesh, plateMesh, sectionOf } from "./index.ts";

const vertex = (m: Mesh, i: number): Vec => [
  m.positions[3 * i]!,
  m.positions[3 * i + 1]!,
  m.positions[3 * i + 2]!,
];

function volume(m: Mesh): number {
  let six = 0;
  for (let t = 0; t < m.indices.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => vertex(m, m.indices[t + k]!)) as [Vec, Vec, Vec];
    six +=
      a[0] * (b[1] * c[2] - b[2] * c[1]) -
      a[1] * (b[0] * c[2] - b[2] * c[0]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

describe("simple shapes", () => {
  it("a plate is a box behind the face that the bar stands on, with twelve edges", () => {
    const m = plateMesh({
      at: [10, 20, 30],
      normal: [0, 0, 1],
      size: [150, 120],
      along: [1, 0, 0],
      thickness: 3,
    });
    expect(volume(m)).toBeCloseTo(150 * 120 * 3, 1);
    expect(m.edges.length).toBe(12 * 6);
    const all = Array.from({ length: m.positions.length / 3 }, (_, i) => vertex(m, i));
    expect([0, 1, 2].map((k) => Math.max(...all.map((p) => p[k]!)))).toEqual([85, 80, 30]);
    expect([0, 1, 2].map((k) => Math.min(...all.map((p) => p[k]!)))).toEqual([-65, -40, 27]);
    const lines = new Set<string>();
    for (let i = 0; i < m.edges.length; i += 6) {
      const ends = [m.edges.slice(i, i + 3).join(), m.edges.slice(i + 3, i + 6).join()].sort();
      lines.add(ends.join("|"));
    }
    expect(lines.size).toBe(12);
  });

  it("a plate whose sides run askew is drawn along them", () => {
    const along: Vec = [0.6, 0.8, 0];
    const m = plateMesh({ at: [0, 0, 0], normal: [0, 0, 1], size: [200, 50], along, thickness: 4 });
    expect(volume(m)).toBeCloseTo(200 * 50 * 4, 1);
    const all = Array.from({ length: m.positions.length / 3 }, (_, i) => vertex(m, i));
    expect(Math.max(...all.map((p) => p[0] * 0.6 + p[1] * 0.8))).toBeCloseTo(100, 4);
    expect(Math.max(...all.map((p) => p[0] * -0.8 + p[1] * 0.6))).toBeCloseTo(25, 4);
  });

  it("a plate without sides is a disc: of its half diagonal, of what its bar needs, or bare", () => {
    const sides = (n: number) => (Math.sin((2 * Math.PI) / n) * n) / (2 * Math.PI);
    const disc = (r: number, t: number) => Math.PI * r * r * t * sides(64);
    const sized = plateMesh({ at: [0, 0, 0], normal: [0.6, 0, 0.8], size: [80, 60], thickness: 4 });
    expect(volume(sized)).toBeCloseTo(disc(50, 4), 0);
    expect(volume(plateMesh({ at: [1, 2, 3], normal: [-1, 0, 0], unsized: 67.5 }))).toBeCloseTo(
      disc(67.5, 3),
      0,
    );
    expect(volume(plateMesh({ at: [0, 0, 0], normal: [0, -1, 0] }))).toBeCloseTo(disc(50, 3), 0);
  });

  it("a ball and a capsule hold what Archimedes says, less their facets, and stay on their surface", () => {
    const r = 145;
    const ball = ballMesh([1, 2, 3], r, [1, 2, 3]);
    const whole = (4 / 3) * Math.PI * r ** 3;
    expect(volume(ball) / whole).toBeGreaterThan(0.98);
    expect(volume(ball) / whole).toBeLessThan(1);
    for (let i = 0; i < ball.positions.length / 3; i++) {
      expect(dist(vertex(ball, i), [0, 0, 0])).toBeCloseTo(r, 3);
    }
    const capsule = capsuleMesh([0, 0, 0], [300, 0, 400], 120);
    const want = (4 / 3) * Math.PI * 120 ** 3 + Math.PI * 120 ** 2 * 500;
    expect(volume(capsule) / want).toBeGreaterThan(0.98);
    expect(volume(capsule) / want).toBeLessThan(1);
  });

  it("a plane cuts a capsule in a closed curve as long as its circle, and nothing beside it", () => {
    const capsule = capsuleMesh([0, 0, 100], [500, 0, 100], 120, [7, 8, 9]);
    const cut = sectionOf(capsule, 0, 250);
    let length = 0;
    const ends = new Map<string, number>();
    for (let i = 0; i < cut.length; i += 6) {
      const a: Vec = [cut[i]!, cut[i + 1]!, cut[i + 2]!];
      const b: Vec = [cut[i + 3]!, cut[i + 4]!, cut[i + 5]!];
      expect(a[0] + 7).toBeCloseTo(250, 3);
      length += dist(a, b);
      for (const p of [a, b]) {
        const key = p.map((v) => v.toFixed(2)).join();
        ends.set(key, (ends.get(key) ?? 0) + 1);
      }
    }
    expect(length / (2 * Math.PI * 120)).toBeGreaterThan(0.99);
    expect(length / (2 * Math.PI * 120)).toBeLessThanOrEqual(1);
    expect([...ends.values()].every((n) => n === 2)).toBe(true);
    expect(sectionOf(capsule, 0, 700).length).toBe(0);
  });
});
