import { describe, expect, it } from "vitest";
import { judgeOrder } from "../../tests/support/fit.ts";
import { trap } from "../app/order/testing.ts";
import { type Judged, weldReach } from "../core/fit/index.ts";
import { readJob } from "../core/job/index.ts";
import { fittingOf, planJob } from "../core/plan/index.ts";
import { record } from "../draw/sinks/record.ts";
import { HONEST } from "../words/index.ts";
import { orderSheet } from "./files.ts";

const read = readJob(trap());
if (!read.ok) throw new Error("the trap does not read");
const plan = planJob(read.job);
const order = read.job.order!;
const fitting = { ...fittingOf(plan), effort: { seed: 1, nodes: 200, most: 5, stop: () => false } };
const judged = judgeOrder(fitting, order.slice(0, 3));
const no: Judged = { ...judged[2]!, bar: "high", goesIn: "no", way: [], blockedBy: ["low"] };
const reach = weldReach(fitting, order);

const textsOf = (paper: "A4" | "Letter", found: Partial<Parameters<typeof orderSheet>[1]> = {}): string[] =>
  orderSheet(plan, { order, judged: [...judged, no], reach, ...found }, paper).sheets.flatMap((sheet) =>
    record(sheet).flatMap((p) => (p.kind === "text" ? [p.text] : [])),
  );

describe.each(["A4", "Letter"] as const)("the order sheet on %s", (paper) => {
  const said = textsOf(paper);
  const all = said.join(" ");
  it("has every bar, in order, with its number, what it lands on and how it goes in", () => {
    const at = ["Post, left", "Post, right", "Lower bar", "Upper bar"].map((label) =>
      said.findIndex((t) => t.startsWith(`${label} ·`)),
    );
    expect(at.every((n) => n >= 0)).toBe(true);
    expect([...at].sort((a, b) => a - b)).toEqual(at);
    for (const n of ["1", "2", "3", "4"]) expect(said).toContain(n);
    expect(all).toContain("After Post, left and Post, right, on which it lands.");
    expect(said.filter((t) => t === "goes in free")).toHaveLength(3);
    expect(said).toContain("DOES NOT GO IN");
    expect(all).toContain("Lower bar is in its way.");
  });
  it("says what must be welded first, what to pack, how far it can be trusted, and who decides", () => {
    expect(all).toMatch(/Weld end A before Upper bar goes in: it closes \d+ % of the ring\./);
    expect(all).toContain("Lay a straight edge across Post, left and Post, right: the bar just touches it.");
    for (const word of HONEST.split(" ")) expect(all).toContain(word);
    expect(all).toContain("qualified people");
  });
});

it("a bar that nobody checked says so", () => {
  const said = textsOf("A4", { judged: [] });
  expect(said.filter((t) => t === "NOT CHECKED")).toHaveLength(4);
  expect(said).not.toContain("goes in free");
});
