import { describe, expect, it } from "vitest";
import { seeded } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { type Centreline, centrelineOf, closestTo, crossings, placeAt } from "./index.ts";

function wandering(random: () => number): Centreline {
  for (;;) {
    const nodes: Vec[] = [[0, 0, 0]];
    for (let i = 0; i < 4; i++) {
      const [x, y, z] = nodes[nodes.length - 1]!;
      nodes.push([x + 300 + 300 * random(), y + 800 * (random() - 0.5), z + 800 * (random() - 0.5)]);
    }
    const built = centrelineOf(nodes, 60 + 60 * random(), { bar: "b", place: "b" });
    if (built.ok) return built.centreline;
  }
}

describe("places on a centreline against a dense walk along it (seed 11)", () => {
  const random = seeded(11);
  const lines = Array.from({ length: 12 }, () => wandering(random));

  it("the closest point is the closest of all", () => {
    for (const line of lines) {
      for (let k = 0; k < 20; k++) {
        const p: Vec = [2000 * random() - 200, 1200 * (random() - 0.5), 1200 * (random() - 0.5)];
        const found = closestTo(line, p);
        expect(Math.abs(dist(placeAt(line, found.s).at, p) - found.distance)).toBeLessThan(1e-9);
        let least = Infinity;
        for (let s = 0; s <= line.length; s += 0.5) least = Math.min(least, dist(placeAt(line, s).at, p));
        expect(found.distance).toBeLessThanOrEqual(least + 1e-9);
        expect(found.distance).toBeGreaterThan(least - 0.3);
      }
    }
  });

  it("crossings are all the sign changes, and lie on the plane", () => {
    let seen = 0;
    for (const line of lines) {
      for (const axis of [0, 1, 2] as const) {
        const value = placeAt(line, line.length * random()).at[axis];
        const found = crossings(line, axis, value);
        if (found.kind !== "stations") throw new Error("a wandering bar lies in no plane");
        for (const s of found.at) expect(Math.abs(placeAt(line, s).at[axis] - value)).toBeLessThan(1e-6);
        let changes = 0;
        let before = placeAt(line, 0).at[axis] - value;
        for (let s = 0.25; s <= line.length; s += 0.25) {
          const now = placeAt(line, s).at[axis] - value;
          if (before < 0 !== now < 0) changes++;
          before = now;
        }
        expect(found.at.length).toBe(changes);
        seen += changes;
      }
    }
    expect(seen).toBeGreaterThan(36);
  });

  it("a leg in the plane has no one crossing; a bend that touches it has one", () => {
    const hoop = centrelineOf(
      [
        [0, 600, 0],
        [0, 600, 900],
        [0, -600, 900],
        [0, -600, 0],
      ],
      135,
      { bar: "h", place: "h" },
    );
    if (!hoop.ok) throw new Error("no hoop");
    expect(crossings(hoop.centreline, 2, 900)).toEqual({ kind: "in-plane" });
    expect(crossings(hoop.centreline, 0, 0)).toEqual({ kind: "in-plane" });
    expect(crossings(hoop.centreline, 2, 620)).toEqual({
      kind: "stations",
      at: [620, expect.closeTo(2264.115, 3)],
    });
    expect(crossings(hoop.centreline, 2, -1)).toEqual({ kind: "stations", at: [] });
    const bow = centrelineOf(
      [
        [0, 0, 0],
        [500, 0, 500],
        [1000, 0, 0],
      ],
      200,
      { bar: "b", place: "b" },
    );
    if (!bow.ok) throw new Error("no bow");
    const top = placeAt(bow.centreline, bow.centreline.length / 2).at[2];
    const touch = crossings(bow.centreline, 2, top);
    expect(touch.kind === "stations" && touch.at.length).toBe(1);
  });
});
