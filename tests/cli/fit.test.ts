import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { jobOf, TRAP } from "../support/fit.ts";
import { run } from "./run.ts";

const trap = JSON.stringify(jobOf(TRAP));
const files = { "trap.json": trap };

interface Answer {
  readonly order: readonly string[];
  readonly bars: readonly {
    readonly bar: string;
    readonly after: readonly string[];
    readonly goesIn: string;
    readonly joint: string;
    readonly way: readonly { readonly at: readonly number[]; readonly turn: readonly number[] }[];
    readonly clearance?: number;
    readonly spring: number;
    readonly why: string;
  }[];
}

describe("tubewright fit", () => {
  test.each(["A4", "Letter"])(
    "--out writes the order sheet, on %s; the answer is the same",
    async (paper) => {
      const folder = mkdtempSync(join(tmpdir(), "tubewright-"));
      try {
        const call = ["fit", "trap.json", "--order", "left,right,high,low", "--json"];
        const plain = await run(call, files);
        const { code, out, err } = await run([...call, "--out", folder, "--paper", paper], files);
        expect([code, out]).toEqual([0, plain.out]);
        expect(err).toContain(join(folder, "order.pdf"));
        const pdf = readFileSync(join(folder, "order.pdf"), "latin1");
        expect(pdf.startsWith("%PDF-")).toBe(true);
        expect(pdf).toMatch(paper === "A4" ? /MediaBox \[0 0 595/ : /MediaBox \[0 0 612/);
      } finally {
        rmSync(folder, { recursive: true });
      }
      const wrong = await run(["fit", "trap.json", "--out", folder, "--paper", "A5"], files);
      expect(wrong).toMatchObject({ code: 2, err: expect.stringContaining("--paper A5: A4 or Letter") });
    },
  );

  test("JSON: an order in which all go in, each with its way from outside to the seat", async () => {
    const { code, out } = await run(["fit", "trap.json", "--json"], files);
    expect(code).toBe(0);
    const { order, bars } = JSON.parse(out) as Answer;
    expect([...order].sort()).toEqual(["high", "left", "low", "right"]);
    expect(order.indexOf("high")).toBeLessThan(order.indexOf("low"));
    expect(bars.map((b) => b.bar)).toEqual(order);
    for (const [i, b] of bars.entries()) {
      expect(b.after).toEqual(order.slice(0, i));
      expect(b).toMatchObject({ goesIn: "free", spring: 0 });
      expect(["slides", "tips", "locked", "open"]).toContain(b.joint);
      expect(b.why.length).toBeGreaterThan(5);
      expect(b.way[b.way.length - 1]).toEqual({ at: [0, 0, 0], turn: [0, 0, 0, 1] });
      for (const { turn } of b.way) expect(Math.hypot(...turn)).toBeCloseTo(1, 8);
    }
  });

  test("a user's own order, by call or by job: the first that no longer goes in, and the smallest cure", async () => {
    const said = await run(["fit", "trap.json", "--order", "left, right, low, high"], files);
    expect(said.code).toBe(0);
    expect(said.out).toContain("high is the first that does not go in; put in before low, it does");
    const own = { ...(JSON.parse(trap) as object), order: ["left", "right", "low"] };
    const job = await run(["fit", "own.json", "--bar", "high", "--json"], {
      "own.json": JSON.stringify(own),
    });
    const { bars } = JSON.parse(job.out) as Answer;
    expect(bars).toHaveLength(1);
    expect(bars[0]).toMatchObject({ bar: "high", goesIn: "no", way: [] });
    expect(bars[0]).not.toHaveProperty("clearance");
    expect(bars[0]!.after).toEqual(["left", "right", "low"]);
  });

  test("copes cut with a gap, and a bar left too long", async () => {
    // Between hosts that lean together the bar at z = 586 is 539.6 long and stops short going up: a width for a height.
    const args = ["fit", "trap.json", "--order", "left,right,high,low", "--bar", "high"];
    const { out } = await run([...args, "--overlong", "4", "--json"], files);
    const [long] = (JSON.parse(out) as { bars: { overlong: { short: number; swung?: object } }[] }).bars;
    // 400 of width in 900 of height: 4 mm too long is 9 mm too low.
    expect(long!.overlong.short).toBeCloseTo(9, 1);
    expect(long!.overlong.swung).toBeUndefined();
    expect((await run([...args, "--overlong", "4"], files)).out).toContain(
      "4.0 mm too long it stops 9.0 mm short",
    );
    const gap = await run([...args, "--gap", "2", "--json"], files);
    const [open] = (JSON.parse(gap.out) as Answer).bars;
    expect(open).toMatchObject({ goesIn: "free", spring: 0 });
    // Nothing touches at its seat then. The sides of a cope lie along the host, so that 2 mm back they are clear of it by
    // √(20² + 2²) − 20 alone.
    expect(open!.clearance).toBeCloseTo(Math.hypot(20, 2) - 20, 1);
    expect(open!.clearance).toBeGreaterThan(0.05);
    expect((await run([...args, "--gap", "-1"], files)).err).toContain(
      "--gap -1: give a number from 0 to 20",
    );
  });

  test("a wrong call is one line", async () => {
    const none = await run(["fit", "trap.json", "--order", "left,hihg"], files);
    expect([none.code, none.err.split("\n")[0]]).toEqual([
      2,
      '--order: no bar is called "hihg" — did you mean "high"?',
    ]);
    const twice = await run(["fit", "trap.json", "--order", "left,left"], files);
    expect([twice.code, twice.err.split("\n")[0]]).toEqual([2, "--order: left is in the list twice"]);
  });

  test("a panel that makes no sheet is said so and blocks nothing", async () => {
    const edge = [
      [0, 0, 900],
      [0, 0, 900],
      [0, 0, 900],
    ];
    const job = { ...(JSON.parse(trap) as object), body: { panels: { bad: { edge } } } };
    const { err } = await run(["fit", "bad.json", "--order", "left,right,high,low", "--bar", "low"], {
      "bad.json": JSON.stringify(job),
    });
    expect(err).toContain("warning: body.panels.bad: its edge and openings make no sheet; it blocks nothing");
  });
});
