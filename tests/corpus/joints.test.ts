import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { run } from "../cli/run.ts";

interface Bars {
  readonly bars: readonly { readonly id: string; readonly blank: number; readonly sawn: number }[];
  readonly findings: readonly { readonly code: string; readonly severity: string; readonly bar?: string }[];
}
interface Copes {
  readonly copes: readonly {
    readonly bar: string;
    readonly end: string;
    readonly onto: readonly string[];
    readonly outer: readonly { readonly phi: number; readonly back: number | null }[];
    readonly misses: readonly (readonly [number, number])[];
    readonly beyondHost: readonly (readonly [number, number])[];
    readonly saw?: { readonly exact: boolean };
  }[];
  readonly findings: Bars["findings"];
}

const text = (name: string): string => readFileSync(`tests/corpus/joints/${name}.json`, "utf8");

async function answer<T>(
  args: readonly string[],
  job: string,
): Promise<{ code: number; said: T; err: string }> {
  const { code, out, err } = await run([args[0]!, "job", ...args.slice(1), "--json"], { job });
  return { code, said: JSON.parse(out) as T, err };
}

/** Faults met from outside: saw lengths wrong by metres, at exit 0. The figures were computed independently. */
describe("where the joint is", () => {
  it.each([
    ["plate-dip", "b", 2425.0],
    ["plate-plane-behind", "hoop", 1760.0],
    ["host-extension", "rail", 2447.0],
    ["equal-bent-in-joint", "rail", 427.73],
    ["equal-bent-in-joint", "rail2", 427.73],
  ])("%s: %s is sawn to %d", async (name, bar, sawn) => {
    const { code, said } = await answer<Bars>(["bend", "--bar", bar], text(name));
    expect(code).toBe(0);
    expect(Math.abs(said.bars[0]!.sawn - sawn)).toBeLessThan(0.05);
  });

  it("an end of its host's diameter, bent in its joint, misses nowhere", async () => {
    const { said } = await answer<Copes>(["cope", "--every", "1"], text("equal-bent-in-joint"));
    for (const cope of said.copes) {
      expect(cope.misses).toEqual([]);
      expect(cope.outer.every((o) => o.back !== null)).toBe(true);
    }
  });

  it("a bar that swings back through its own host has the joint at its landing", async () => {
    const job = JSON.stringify({
      format: "tubewright job",
      version: 1,
      tubes: { t: { od: 40, wall: 2 } },
      dies: { d: { od: 40, clr: 120 } },
      bars: {
        post: {
          tube: "t",
          path: [
            [0, 0, 0],
            [0, 0, 1200],
          ],
        },
        rail: {
          tube: "t",
          die: "d",
          path: [{ on: "post", along: 200 }, [500, 0, 200], [500, 0, 900], [-400, 0, 900]],
        },
      },
    });
    const { said } = await answer<Bars>(["bend", "--bar", "rail"], job);
    // Along the centreline 500 + 700 + 900 less 2 corners of 57.94..; the equal saddle's long point stands at 0.
    const corner = 2 * 120 - (Math.PI / 2) * 120;
    expect(said.bars[0]!.sawn).toBeCloseTo(2100 - 2 * corner, 4);
  });
});

describe("also hosts", () => {
  const job = text("also-hosts");
  const end = async (bar: string) =>
    (await answer<Copes>(["cope", "--bar", bar, "--end", "A", "--every", "1"], job)).said;

  it("a diagonal from the other side ends where it lands: 38.4 at the heel, not 228.6", async () => {
    const { copes } = await end("stay");
    expect(Math.max(...copes[0]!.outer.map((o) => o.back!))).toBeCloseTo(38.42, 2);
  });
  it("one that lies farther in is no part of the cut", async () => {
    const { copes, findings } = await end("far");
    expect(copes[0]!.onto).toEqual(["post"]);
    expect(Math.max(...copes[0]!.outer.map((o) => o.back!))).toBeCloseTo(20, 6);
    expect(findings.map((f) => f.code)).toContain("also-farther-in");
  });
  it("metal that only the host's extension would be is listed, kept, and never exact", async () => {
    const { copes, findings } = await end("steep");
    expect(Math.max(...copes[0]!.outer.map((o) => o.back!))).toBeCloseTo(228.57, 1);
    expect(copes[0]!.misses).toEqual([]);
    expect(copes[0]!.beyondHost.reduce((sum, [a, b]) => sum + b - a, 0)).toBeCloseTo(169.3, 1);
    expect(copes[0]!.saw?.exact ?? false).toBe(false);
    expect(findings.map((f) => f.code)).toContain("landing-beyond-end");
  });
  it("a larger diagonal does not poke through the post that it is cut to", async () => {
    const larger = JSON.parse(job);
    larger.tubes.big = { od: 60, wall: 2 };
    larger.bars.diag.tube = "big";
    const { said } = await answer<Copes>(
      ["cope", "--bar", "stay", "--end", "A", "--every", "1"],
      JSON.stringify(larger),
    );
    expect(Math.max(...said.copes[0]!.outer.map((o) => o.back!))).toBeCloseTo(38.42, 2);
  });
});

describe("an end that cannot be cut has no figures", () => {
  const job = (rail: unknown, more: Record<string, unknown> = {}): string =>
    JSON.stringify({
      format: "tubewright job",
      version: 1,
      tubes: { t: { od: 40, wall: 2 } },
      dies: { d: { od: 40, clr: 120 } },
      plates: { p: { at: [0, 0, 0], normal: [0, 0, 1] } },
      bars: {
        post: {
          tube: "t",
          path: [
            [0, 0, 0],
            [0, 0, 1000],
          ],
        },
        other: {
          tube: "t",
          path: [
            [800, -200, 300],
            [800, 200, 300],
          ],
        },
        rail: { tube: "t", ...(rail as object) },
        ...more,
      },
    });
  it.each([
    [
      "misses its host all round",
      { path: [{ on: "post", along: 500, off: [0, 60, 0] }, [700, 60, 500]] },
      "cope-none",
    ],
    [
      "runs along its host",
      { path: [{ on: "post", along: 500, off: [30, 0, 0] }, [30, 0, 900]] },
      "cope-parallel",
    ],
    [
      "lies along its host to its other end",
      { path: [{ on: "post", along: 500 }, [14, 0, 900]] },
      "cope-runs-along",
    ],
    ["comes from behind its plate", { path: [{ plate: "p" }, [0, 0, -400]] }, "plate-behind"],
  ])("%s", async (_, rail, code) => {
    for (const command of ["bend", "cope"]) {
      const { code: exit, said, err } = await answer<Bars & Copes>([command], job(rail));
      expect(exit).toBe(1);
      expect(said.bars?.map((b) => b.id) ?? said.copes.map((c) => c.bar)).not.toContain("rail");
      expect(said.findings.filter((f) => f.bar === "rail").map((f) => f.code)).toContain(code);
      expect(err).toMatch(/^error: bars\.rail/m);
    }
  });

  it("what lands on it is still answered", async () => {
    const rail = { path: [{ on: "post", along: 500, off: [0, 60, 0] }, [700, 60, 500]] };
    const stay = { tube: "t", path: [{ on: "rail", along: 300 }, [300, 60, 100]] };
    const { code, said } = await answer<Bars>(["bend"], job(rail, { stay }));
    expect(code).toBe(1);
    expect(said.bars.map((b) => b.id)).toEqual(["post", "other", "stay"]);
  });
});
