import { describe, expect, it } from "vitest";
import { turnsOf } from "../../../core/bend/index.ts";
import { deg } from "../../../core/numeric/index.ts";
import { resultsOf } from "../../bar-editor/testing.ts";
import { setValue } from "../../model/document/index.ts";
import { demo } from "../../model/document/testing.ts";
import { inDie, type Seen } from "./in-die.ts";

const fed = (end: "A" | "B") => {
  const edit = setValue(["bars", "main-hoop", "fromEnd"], end).edit(demo());
  if (!edit.ok) throw new Error(edit.lines[0]);
  return resultsOf(edit.document);
};
const lengthOf = (line: readonly Seen[]): number =>
  line.slice(1).reduce((sum, p, i) => sum + Math.hypot(...p.map((x, k) => x - line[i]![k]!)), 0);

describe.each(["A", "B"] as const)("the tube in the bender, fed from %s", (end) => {
  const bars = [...fed(end).bars.values()].filter((b) => b.bend.bends.length > 0);

  it("there are bars with several bends among those looked at", () => {
    expect(bars.filter((b) => b.bend.bends.length > 1).length).toBeGreaterThan(4);
  });

  it.each(["left", "right"] as const)(
    "runs from the mark straight back to the operator, die to the %s",
    (side) => {
      for (const bar of bars)
        for (let i = 0; i < bar.bend.bends.length; i++)
          for (const made of [false, true]) {
            const tube = inDie(bar, side, i, made)!;
            const tail = tube.line[tube.line.length - 1]!;
            expect(Math.abs(tail[0])).toBeLessThan(1e-6);
            expect(Math.abs(tail[2])).toBeLessThan(1e-6);
            expect(tail[1]).toBeLessThan(0);
            expect(Math.sign(tube.die[0])).toBe(side === "left" ? -1 : 1);
          }
    },
  );

  it("never changes its length: what is bent and what is not add up to what was sawn", () => {
    for (const bar of bars) {
      const sawn = bar.bend.blank + bar.bend.trim.A + bar.bend.trim.B;
      for (let i = 0; i < bar.bend.bends.length; i++)
        // sampled arcs are chords: a little short
        for (const made of [false, true]) {
          const found = lengthOf(inDie(bar, "left", i, made)!.line);
          expect(found).toBeLessThanOrEqual(sawn + 1e-6);
          expect(found).toBeGreaterThan(sawn - 2);
        }
    }
  });

  it.each(["left", "right"] as const)(
    "shows the last bend where the card says that it points, die to the %s",
    (side) => {
      let looked = 0;
      for (const bar of bars)
        turnsOf(bar.bar, side).forEach((turn, i) => {
          const { line } = inDie(bar, side, i + 1, false)!;
          // the leg before the tube ahead of the die: the first that leaves the line of sight
          const leg = [...line].reverse().find((p) => Math.hypot(p[0], p[2]) > 1)!;
          const above = Math.atan2(leg[2], Math.abs(leg[0]));
          expect(deg(above)).toBeCloseTo(deg(turn.points.above), 3);
          if (turn.points.side && Math.abs(turn.points.above) < 1.5)
            expect(Math.sign(leg[0])).toBe(turn.points.side === "left" ? -1 : 1);
          looked++;
        });
      expect(looked).toBeGreaterThan(8);
    },
  );

  it("bends the leading part level, to the die's side", () => {
    for (const bar of bars) {
      const made = inDie(bar, "left", 0, true)!.line;
      expect(Math.max(...made.map((p) => Math.abs(p[2])))).toBeLessThan(1e-6);
      expect(Math.min(...made.map((p) => p[0]))).toBeLessThan(-1);
      expect(Math.max(...made.map((p) => p[0]))).toBeLessThan(1e-6);
    }
  });
});
