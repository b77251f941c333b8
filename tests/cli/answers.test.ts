import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { BrokenAnswer, printJson } from "../../src/cli/call.ts";
import { node } from "../../src/cli/platform.ts";
import { pairedCage } from "../support/fit.ts";
import { run } from "./run.ts";

const printed = (value: unknown): string => {
  let out = "";
  const platform = {
    ...node,
    out: (text: string) => {
      out += text;
    },
  };
  printJson(value, platform);
  return out;
};

describe("no JSON holds a number that is not finite", () => {
  it.each([
    [{ a: [{ b: Number.NaN }] }, "a[0].b is no finite number"],
    [{ copes: { least: -Infinity } }, "copes.least is no finite number"],
    [{ a: { b: null } }, "a.b is nothing"],
    [{ a: [1, undefined] }, "a[1] is nothing"],
  ])("%j is not printed, and the key is named", (value, says) => {
    expect(() => printed(value)).toThrow(BrokenAnswer);
    expect(() => printed(value)).toThrow(says);
  });
  it("null stands where a wall line misses; an absent key and −0 are fine", () => {
    expect(printed({ outer: [{ phi: 0, back: null }], x: -0, y: undefined })).toBe(
      '{"outer":[{"phi":0,"back":null}],"x":0}\n',
    );
  });
  it("a bar named in also that runs beside, and is never met, is no part of the cut", async () => {
    const t = { od: 40, wall: 2 };
    const job = {
      format: "tubewright job",
      version: 1,
      tubes: { t },
      bars: {
        post: {
          tube: "t",
          path: [
            [0, 0, -300],
            [0, 0, 300],
          ],
        },
        rail: {
          tube: "t",
          path: [
            [0, 0, 45],
            [900, 0, 45],
          ],
        },
        bar: { tube: "t", path: [{ on: "post", along: 300, also: ["rail"] }, [800, 0, 0]] },
      },
    };
    const { out, err } = await run(["cope", "j", "--bar", "bar", "--json"], { j: JSON.stringify(job) });
    expect(err).not.toContain("in the answer");
    const [end] = (JSON.parse(out) as { copes: { onto: string[]; saw: { exact: boolean } }[] }).copes;
    expect(end).toMatchObject({ onto: ["post"], saw: { exact: true } });
  });
});

describe("an inch job is answered in inches alone", () => {
  const inches = (job: object): string => JSON.stringify({ ...job, show: { length: "in", fraction: 16 } });
  const trial = JSON.parse(readFileSync("tests/corpus/trial-frame.json", "utf8")) as object;
  const frame = inches(trial);
  const MM = /\d ?mm\b|\d m\b/;
  it.each([
    ["bend"],
    ["cope", "--steps"],
    ["check"],
    ["survey"],
    ["errors"],
    ["die", "--die", "d45", "--test", "93,90,14,14,25", "--test", "30,28"],
    ["gaps", "--bar", "cross", "--end", "A", "--cut", "10", "--read", "0:9,90:0,180:0,270:0"],
    ["tacked", "--bar", "cross", "--read", "height:cross@9000:20"],
  ])("%s %s %s", async (command, ...args) => {
    const { out, err } = await run([command, "j", ...args], { j: frame });
    expect((out + err).length).toBeGreaterThan(20);
    expect(out + err).not.toMatch(MM);
    const json = await run([command, "j", ...args, "--json"], { j: frame });
    for (const [, says] of json.out.matchAll(/"(?:says|why)":"((?:[^"\\]|\\.)*)"/g))
      expect(says).not.toMatch(MM);
  });
  it("fit: why, clearance, gap, springing, too long", async () => {
    const cage = {
      ...pairedCage([-600, 420, 100]),
      order: ["left", "right", "high", "low", "stay", "stay-r"],
    };
    const args = ["fit", "j", "--overlong", "2", "--progress", "--threads", "1"];
    const { out, err } = await run(args, { j: inches(cage) });
    expect(out).toContain(" in");
    expect(out + err).not.toMatch(MM);
    expect(out + err).not.toContain("{");
    const mm = await run(args, { j: JSON.stringify(cage) });
    expect(mm.out).toMatch(MM);
    expect(mm.out).not.toContain("{");
    const json = await run([...args, "--json"], { j: inches(cage) });
    expect(json.out).not.toMatch(/\{\d/);
    for (const [, why] of json.out.matchAll(/"why":"([^"]*)"/g)) expect(why).not.toMatch(MM);
  }, 120_000);
});

describe("long work says how far it has come, on standard error alone", () => {
  it("check and cards of many bars", async () => {
    const bars = Object.fromEntries(
      Array.from({ length: 40 }, (_, i) => [
        `b${i}`,
        {
          tube: "t",
          path: [
            [i * 60, 0, 0],
            [i * 60, 0, 500],
          ],
        },
      ]),
    );
    const job = JSON.stringify({
      format: "tubewright job",
      version: 1,
      tubes: { t: { od: 40, wall: 2 } },
      bars,
    });
    let now = 0;
    const slow = { now: () => (now += 400) };
    const { out, err } = await run(["check", "j", "--json"], { j: job }, slow);
    expect(err).toMatch(/^bars figured: \d+ of 40$/m);
    expect(err).toMatch(/^bars checked: \d+ of 40$/m);
    expect(err.split("\n").length).toBeLessThan(20);
    JSON.parse(out);
    const watched = await run(["check", "j"], { j: job }, { ...slow, watched: true });
    expect(watched.err).toContain("\r\u001b[Kbars checked: ");
    expect(watched.err.endsWith("\r\u001b[K")).toBe(true);
    expect((await run(["check", "j"], { j: job }, { now: () => 0 })).err).toBe("");
  });
});
