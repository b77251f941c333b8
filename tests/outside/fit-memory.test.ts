import { describe, expect, test } from "vitest";
import { type FitMemory, type Fitting, findOrder, newMemory } from "../../src/core/fit/index.ts";
import { sweep } from "../../src/core/fit/way/index.ts";
import { sayWhy } from "../../src/words/index.ts";
import { crowded } from "../support/crowded.ts";
import { barOf, EFFORT, fittingFor, judgeOrder, pairedCage } from "../support/fit.ts";

/** Judges an order with a memory and counts what had to be searched for. */
function looked(fitting: Fitting, order: readonly string[], memory: FitMemory) {
  const searched: string[] = [];
  const steps: number[] = [];
  const bars = judgeOrder(
    { ...fitting, memory, onSearch: (b) => searched.push(b), onStep: (s) => steps.push(s.done) },
    order,
  );
  expect(steps).toEqual(order.map((_, i) => i + 1));
  for (const j of bars) {
    expect(j.goesIn, j.bar).toBe("free");
    const own = barOf(fitting, j.bar);
    const tacked = j.after.map((t) => barOf(fitting, t).bar);
    const swept = sweep(own.bar, own.copes, j.way, tacked, fitting.parts(false));
    expect(swept.overlap).toBeLessThan(0.01);
    if (j.clearance !== undefined) expect(swept.clearance).toBeGreaterThan(j.clearance * 0.98 - 0.3);
  }
  expect(bars.map((j) => j.after)).toEqual(order.map((_, i) => order.slice(0, i)));
  return { searched, bars };
}

describe("what was found is asked again only where something changed", () => {
  const order = ["left", "right", "high", "low", "stay", "stay-r"];
  const fitting = fittingFor(pairedCage([-600, 420, 100]));
  const memory = newMemory();
  const first = looked(fitting, order, memory);

  test("at first all but twins that go in as their twin did", () => {
    expect(first.searched).toContain("high");
    expect(first.searched).not.toContain("stay-r");
  });

  test("the same order again: nothing is searched, the same answers", () => {
    const again = looked(fitting, order, structuredClone(memory));
    expect(again.searched).toEqual([]);
    expect(again.bars).toEqual(first.bars);
  });

  test("one tag moved up: nothing is searched, as every way is still one", () => {
    const moved = looked(
      fitting,
      ["left", "right", "stay", "high", "low", "stay-r"],
      structuredClone(memory),
    );
    expect(moved.searched).toEqual([]);
  });

  test("one bar changed: only that is searched, its twin follows in the mirror", () => {
    const edited = fittingFor(pairedCage([-640, 430, 140]));
    expect(looked(edited, order, structuredClone(memory)).searched).toEqual(["stay"]);
  });

  test("a bar put in the way of another: that one is searched anew, and only that", () => {
    const searched: string[] = [];
    const wrong = ["left", "right", "low", "stay", "stay-r", "high"];
    const close = fittingFor(pairedCage([-600, 420, 100]), { ...EFFORT, nodes: 100, most: 0.5 });
    judgeOrder({ ...close, memory: structuredClone(memory), onSearch: (b) => searched.push(b) }, wrong);
    expect(new Set(searched).size).toBeLessThanOrEqual(1);
  });
});

test("stopped: what is not searched is said so, and not remembered", () => {
  const memory = newMemory();
  let asked = 0;
  const fitting = fittingFor(pairedCage([-600, 420, 100]), { ...EFFORT, stop: () => asked > 1 });
  const bars = judgeOrder({ ...fitting, memory, onStep: () => asked++ }, ["left", "right", "high", "low"]);
  expect(bars.map((j) => j.stopped ?? false)).toEqual([false, false, true, true]);
  expect(bars[3]).toMatchObject({ goesIn: "unknown", way: [] });
  expect(sayWhy(bars[3]!.why, String)).toBe("the search was stopped before it was done");
  const kept = [...memory.answers.values()].flat().map((r) => r.judged.bar);
  expect(kept).toEqual(["left", "right"]);
  const part = findOrder({ ...fitting, effort: { ...EFFORT, stop: () => true } });
  expect(part.bars.every((j) => j.stopped)).toBe(true);
  expect(part.order.indexOf("left")).toBeLessThan(part.order.indexOf("high"));
});

describe("a car with a roof, openings and marks", () => {
  const fitting = fittingFor(crowded);
  const found = findOrder(fitting);
  const of = (id: string) => found.bars.find((j) => j.bar === id)!;

  test("an order of all: what the body sets first, what is easier with the roof off last, twins together", () => {
    expect(found.bars.every((j) => j.goesIn !== "no")).toBe(true);
    expect(found.order[0]).toBe("hoop");
    expect(found.order[found.order.length - 1]).toBe("gusset");
    expect(Math.abs(found.order.indexOf("stay-l") - found.order.indexOf("stay-r"))).toBe(1);
  });

  test("the hoop goes in by the screen, and that is said", () => {
    expect(of("hoop")).toMatchObject({ goesIn: "free", joint: "open", through: ["screen"] });
    expect(of("hoop").clearance).toBeGreaterThan(5);
  });

  test("out of turn: the hoop after the roof is off is set by nothing", () => {
    const loose = {
      ...fitting,
      bars: fitting.bars.map((b) =>
        b.bar.id === "stay-l" ? { ...b, hosts: { A: [], B: [] }, needs: "roof off" as const } : b,
      ),
    };
    const [, hoop] = judgeOrder(loose, ["stay-l", "hoop"]);
    expect(hoop).toMatchObject({ goesIn: "no", proved: true, way: [] });
    expect(sayWhy(hoop!.why, String)).toContain("the roof is off by then");
  });
});
