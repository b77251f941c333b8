import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { placeAt } from "../bar/index.ts";
import { readJob } from "../job/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { planJob } from "./plan.ts";
import { tackReading, tackSlips } from "./tacked.ts";

const read = readJob(readFileSync("demo/sandling.json", "utf8"));
const plan = planJob(read.ok ? read.job : expect.fail());
const MARK: Vec = [1500, 0, 200];
const ALONG = 1300;

/** A tape from a mark on the floor to the middle of the main hoop, so much of it held. */
const tape = (size: number, mark: number) =>
  tackReading(
    { what: "tape", from: "floor", to: { bar: "main-hoop", along: ALONG }, over: "centre", size, mark },
    { floor: { at: MARK } },
  )!;

it("inches typed as millimetres are found in what the tape showed, its mark included", () => {
  const there = placeAt(plan.byId.get("main-hoop")!.bar.centreline, ALONG).at;
  for (const mark of [0, 10, 25.4]) {
    const shown = dist(MARK, there) + mark;
    expect(tackSlips(plan, "main-hoop", [tape(shown, mark)])).toEqual([]);
    const [slip] = tackSlips(plan, "main-hoop", [tape(shown / 25.4, mark)]);
    expect(slip?.expected).toBeCloseTo(shown, 6);
  }
});
