import { describe, expect, it } from "vitest";
import { readJob } from "../../core/job/index.ts";
import { deg, rad } from "../../core/numeric/index.ts";
import { checkSizes, judgeCheck, notchAt, planJob } from "../../core/plan/index.ts";
import { resultsOf } from "../bar-editor/testing.ts";
import { split, writeIn } from "../kit/write.ts";
import { demo } from "../model/document/testing.ts";
import { notcherSteps, standing } from "../notch/notcher-steps.ts";
import { benderSteps } from "./bender/bender-steps.ts";
import { sayJudged, writeSize } from "./bender/check-words.ts";

const document = demo();
const results = resultsOf(document);
const read = readJob(document);
const plan = planJob(read.ok ? read.job : expect.fail());
const mm = writeIn({ length: "mm", fraction: 16 });
const inch = writeIn({ length: "in", fraction: 16 });
const numbers = (text: string): number => Number.parseFloat(text);

describe("the steps at the bender", () => {
  it("are saw, every mark, and turn, bend and check of every bend in the order of bending", () => {
    const steps = benderSteps(results.bars.get("main-hoop")!, "left", mm);
    expect(steps.map((s) => s.kind)).toEqual([
      "saw",
      "mark",
      "mark",
      "mark",
      "mark",
      ...[1, 2, 3, 4].flatMap(() => ["turn", "bend", "check"]),
    ]);
  });

  it("give the figures of the plan that the command line prints", () => {
    for (const { id, bend, bar } of plan.bars) {
      const steps = benderSteps(results.bars.get(id)!, "left", mm);
      expect(numbers(steps[0]!.figure!)).toBeCloseTo(bend.blank + bend.trim.A + bend.trim.B, 1);
      for (const b of bend.bends) {
        const mark = steps.find((s) => s.key === `mark ${b.n}`)!;
        expect(numbers(mark.figure!), `${id} ${b.n}`).toBeCloseTo(bar.fromEnd === "A" ? b.mark : b.markB, 1);
        const made = steps.find((s) => s.key === `bend ${b.n}`)!;
        expect(numbers(made.figure!)).toBeCloseTo(deg(b.set?.set ?? b.angle), 1);
      }
    }
  });

  it("are one for a straight bar", () => {
    expect(benderSteps(results.bars.get("harness-bar")!, "left", mm).map((s) => s.kind)).toEqual(["saw"]);
  });

  it("have names of their own, a unit beside every figure, and no other unit than the shop's", () => {
    for (const write of [mm, inch])
      for (const bar of results.bars.values()) {
        const steps = benderSteps(bar, "right", write);
        expect(new Set(steps.map((s) => s.key)).size).toBe(steps.length);
        const sizes = bar.bend.bends
          .flatMap(({ n }) => checkSizes(bar, plan.job, n))
          .flatMap((size) => [size.value, size.sd ?? 0].map((x) => writeSize(size, x, write)));
        const text = [...steps.flatMap((s) => [s.figure ?? "", ...s.says]), ...sizes].join("\n");
        expect(text).not.toMatch(write === mm ? /\d in\b/ : /\d mm\b/);
        for (const s of steps) if (s.figure !== undefined) expect(s.figure).toMatch(/( mm| in|°)$/);
      }
  });
});

describe("what was read after a bend, held against the plan", () => {
  const sizes = checkSizes(results.bars.get("pillar-bar-left")!, plan.job, 3);
  const [angle, leg] = [sizes[0]!, sizes.find((s) => s.what === "leg-B")!];
  const says = (size: typeof angle, read: number, write = mm) =>
    sayJudged(size, judgeCheck(size, read)!, write);

  it("is within its ±, off as is usual, or off and to be read at the trestles: what is off first, and which way", () => {
    const sd = angle.sd!;
    expect(says(angle, angle.value + 0.99 * sd)).toEqual({ says: "Within ± 0.5°.", isOff: false });
    expect(says(angle, angle.value - 1.5 * sd).says).toBe(
      "Off by 0.8° (under), within twice its ±: usual for this shop.",
    );
    expect(says(angle, angle.value + rad(1.2))).toEqual({
      says: "Off by 1.2° (over): read it at the trestles.",
      isOff: true,
    });
    expect(says(leg, leg.value - 5).says).toBe("Off by 5.0 mm (short): read it at the trestles.");
    expect(says(leg, leg.value + 25.4, inch).says).toBe("Off by 1 in (long): read it at the trestles.");
  });

  it("asks for the unit where a slip of unit explains it", () => {
    expect(says(leg, leg.value / 10).says).toBe(
      "Check the unit: about 671.4 mm is expected. Was it typed in cm?",
    );
  });
});

describe("the steps at the notcher", () => {
  const ends = plan.bars.flatMap((bar) =>
    (["A", "B"] as const).map((end) => ({ bar, end, notch: notchAt(plan, bar.id, end) })),
  );
  const stepsOf = ({ bar, end, notch }: (typeof ends)[number], write = mm) =>
    notcherSteps(results.bars.get(bar.id)!, end, notch, { gap: 1 }, write);

  it("say saw, clock and the final angle of the plan", () => {
    let exact = 0;
    for (const e of ends) {
      const saw = e.notch?.saw;
      if (!saw || e.notch!.cuts.length > 0 || e.notch!.useWrap) continue;
      const steps = stepsOf(e);
      expect(numbers(steps.find((s) => s.kind === "saw")!.figure!)).toBeCloseTo(2 * saw.cut.radius, 1);
      const cuts = steps.filter((s) => s.kind === "cut");
      expect(numbers(cuts[cuts.length - 1]!.figure!)).toBeCloseTo(deg(saw.cut.notch), 1);
      expect(steps[steps.length - 1]!.kind).toBe("fit");
      if (e.notch!.exact) exact++;
      // shallow before deep
      const angles = cuts.map((c) => c.notch!);
      expect([...angles].sort((a, b) => a - b)).toEqual(angles);
    }
    expect(exact).toBeGreaterThan(10);
  });

  it("begin with the wrap where the plan says so, and never say it elsewhere", () => {
    const wrapped = ends.filter((e) => e.notch?.useWrap);
    expect(wrapped.length).toBeGreaterThan(0);
    for (const e of ends)
      expect(stepsOf(e)[0]!.kind === "wrap", `${e.bar.id} ${e.end}`).toBe(e.notch?.useWrap === true);
  });

  it("are of one method: where the wrap is it, the saw only roughs out", () => {
    for (const e of ends) {
      const kinds = new Set(stepsOf(e).map((s) => s.kind));
      expect(kinds.has("wrap") && (kinds.has("cut") || kinds.has("saw"))).toBe(false);
      if (!e.notch?.useWrap || !e.notch.saw) continue;
      const words = stepsOf(e).flatMap((s) => s.says);
      expect(words.filter((w) => w.startsWith("Rough out with a hole saw")).length).toBe(1);
      expect(words.join(" ")).toContain(`${deg(e.notch.saw.cut.notch).toFixed(1)}° off square`);
    }
  });

  it("say why there is no saw cut, without a figure of one", () => {
    const e = ends.find((x) => x.bar.id === "header-bar" && x.end === "A")!;
    const { saw: _, hole: __, steps: ___, ...none } = e.notch!;
    const noSaw = { code: "notch-no-saw", place: "", values: { missing: { mm: 40 } } } as const;
    for (const [findings, why] of [
      [[noSaw], "no listed hole saw notches this tube here, and 40.0 mm is not listed"],
      [[], "no single hole saw cut comes within the tube's own diameter of this shape"],
    ] as const) {
      const words = stepsOf({ ...e, notch: { ...none, findings } }).flatMap((s) => s.says);
      expect(words[0]).toContain(why);
      expect(words.join(" ")).not.toMatch(/Rough out|off square|hole centre/i);
    }
  });

  it("say every hole that is held outboard from the final hole's place", () => {
    const e = ends.find((x) => x.bar.id === "hoop-diagonal-upper-half" && x.end === "B")!;
    const [first, last] = stepsOf(e).filter((s) => s.kind === "cut");
    const [planned] = e.notch!.steps!.steps;
    expect(first!.says[0]).toContain(`: ${planned!.outboard.toFixed(1)} mm outboard of the final hole.`);
    expect(first!.says[1]).toContain(
      `the bar is ${planned!.shows.standsOff.toFixed(2)} mm short of its seat`,
    );
    expect(last!.says[0]).not.toContain("outboard");
  });

  it("say what stays open where the rim misses in part, and never that it seats all round", () => {
    const e = ends.find((x) => x.bar.id === "hoop-diagonal-upper-half" && x.end === "B")!;
    const notch = { ...e.notch!, exact: false, open: [[10, 20]] as const };
    const words = stepsOf({ ...e, notch })
      .flatMap((s) => [s.figure ?? "", ...s.says])
      .join(" ");
    expect(words).toContain("stays open at 10.0° to 20.0°");
    expect(words).not.toMatch(/all round|exactly|every line/);
  });

  it("name every end that is sawn flat, with its long point where it leans", () => {
    const flat = ends.filter((e) => e.notch === undefined);
    expect(flat.length).toBeGreaterThan(4);
    for (const e of flat) {
      const [step, ...more] = stepsOf(e);
      expect(more).toEqual([]);
      expect(step!.kind).toBe("flat");
      expect(step!.clock !== undefined).toBe(step!.figure !== undefined);
    }
  });

  it("have names of their own and speak the shop's unit", () => {
    for (const write of [mm, inch])
      for (const e of ends) {
        const steps = stepsOf(e, write);
        expect(new Set(steps.map((s) => s.key)).size).toBe(steps.length);
        expect(steps.flatMap((s) => [s.figure ?? "", ...s.says]).join("\n")).not.toMatch(
          write === mm ? /\d in\b(?! from)/ : /\d mm\b/,
        );
      }
  });

  it("how the ends stand to each other is said the same of a bar and, turned over, of its mirror", () => {
    const say = (id: string) =>
      standing(results.bars.get(id)!, notchAt(plan, id, "A"), notchAt(plan, id, "B"), mm);
    const [left, right] = [say("door-bar-front-upper-half-left"), say("door-bar-front-upper-half-right")];
    expect(left).toBeDefined();
    const turned = (s: string) =>
      s.includes("counter-clockwise")
        ? s.replace("counter-clockwise", "clockwise")
        : s.replace("clockwise", "counter-clockwise");
    expect(right).toBe(turned(left!));
  });
});

describe("a figure in two sizes", () => {
  it("is its number and its unit", () => {
    expect(split("12 5/16 in")).toEqual({ number: "12 5/16", unit: "in" });
    expect(split("1063.9 mm")).toEqual({ number: "1063.9", unit: "mm" });
    expect(split("61.4°")).toEqual({ number: "61.4°", unit: "" });
    expect(split("none")).toEqual({ number: "none", unit: "" });
  });
});
