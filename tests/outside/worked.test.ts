import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type End, readJob } from "../../src/core/job/index.ts";
import { deg } from "../../src/core/numeric/index.ts";
import { planJob } from "../../src/core/plan/index.ts";

/** The demo car's answers, computed independently of this program (demo/sandling-worked.json). */
interface Worked {
  readonly bars: readonly {
    id: string;
    length: number;
    blank: number;
    angles: number[];
    rotations: number[];
    starts: number[];
  }[];
  readonly copes: readonly {
    bar: string;
    end: End;
    every: number;
    outer: (number | null)[];
    bore: (number | null)[];
    grazing: number[];
  }[];
}

const worked = JSON.parse(readFileSync("demo/sandling-worked.json", "utf8")) as Worked;
const read = readJob(readFileSync("demo/sandling.json", "utf8"));
if (!read.ok) throw new Error("the demo does not pass");
const plan = planJob(read.job);

describe("the demo car against its worked answers", () => {
  it("lays out every bar without an error", () => {
    expect(worked.bars.length).toBe(36);
    expect(plan.bars.map((b) => b.id)).toEqual(worked.bars.map((b) => b.id));
  });

  it.each(worked.bars)("$id: length, angles, rotations, starts, blank", (w) => {
    const { bend } = plan.byId.get(w.id)!;
    expect(Math.abs(bend.length - w.length)).toBeLessThan(0.01);
    expect(bend.bends.length).toBe(w.angles.length);
    bend.bends.forEach((b, i) => {
      expect(Math.abs(deg(b.angle) - w.angles[i]!)).toBeLessThan(0.001);
      expect(Math.abs(deg(b.rotation) - w.rotations[i]!)).toBeLessThan(0.001);
      expect(Math.abs(b.start - w.starts[i]!)).toBeLessThan(0.01);
    });
    // The worked blanks come from lines 3° apart and leave out those that graze.
    expect(Math.abs(bend.blank - w.blank)).toBeLessThan(1);
  });

  it.each(worked.copes)("$bar end $end: both walls", (w) => {
    const { cope } = plan.byId.get(w.bar)!.copes[w.end];
    for (const wall of ["outer", "bore"] as const) {
      w[wall].forEach((back, i) => {
        if (back === null) expect(w.grazing).toContain(i * w.every);
        else expect(Math.abs(cope[wall][i * w.every]! - back)).toBeLessThan(0.01);
      });
    }
  });
});
