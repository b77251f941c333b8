import { expect, test } from "vitest";
import { type Ask, unanswered } from "./fitting.ts";
import { leaving } from "./untacked.ts";

const BARS = ["hoop", "stay", "a", "b", "c", "d", "on-b", "on-d"];
const LANDS: ReadonlyMap<string, readonly string[]> = new Map([
  ["hoop", []],
  ["stay", ["hoop"]],
  ["a", ["hoop"]],
  ["b", ["hoop"]],
  ["c", ["hoop"]],
  ["d", ["hoop"]],
  ["on-b", ["b"]],
  ["on-d", ["d"]],
  ["bar", ["stay"]],
]);

/** A cage in which "bar" goes in as a rule says; counts what was asked. */
function sought(goes: (among: ReadonlySet<string>) => boolean, blockedBy: readonly string[] = []) {
  let asked = 0;
  const ask: Ask = (id, before) => {
    asked++;
    expect(id).toBe("bar");
    // Never without what it stands on, and nothing that hangs in the air.
    expect(before).toContain("hoop");
    expect(before).toContain("stay");
    for (const b of before) for (const host of LANDS.get(b)!) expect(before).toContain(host);
    return { ...unanswered(id, before, []), goesIn: goes(new Set(before)) ? "free" : "no" };
  };
  const stuck = { ...unanswered("bar", BARS, []), blockedBy };
  return { leave: leaving(stuck, ask, LANDS, () => false), asked };
}

test("one bar in the way, whatever the search had named", () => {
  expect(sought((s) => !s.has("c"), ["c"]).leave).toEqual(["c"]);
  expect(sought((s) => !s.has("c"), ["a", "b"]).leave).toEqual(["c"]);
});

test("what lands on it is left out with it", () => {
  expect(sought((s) => !s.has("b")).leave).toEqual(["b", "on-b"]);
});

test("two in the way, and a smaller set rather than the one that putting back happened on", () => {
  expect(sought((s) => !s.has("a") && !s.has("c")).leave).toEqual(["a", "c"]);
  // Either c alone, or a with d and what lands on d: putting back keeps whichever it meets last.
  const rule = (s: ReadonlySet<string>): boolean => !s.has("c") || !(s.has("a") || s.has("d"));
  expect(sought(rule, ["a", "d"]).leave).toEqual(["c"]);
  expect(sought(rule, ["c"]).leave).toEqual(["c"]);
});

test("three in the way are found by putting back", () => {
  expect(sought((s) => !s.has("a") && !s.has("b") && !s.has("c")).leave).toEqual(["a", "b", "c", "on-b"]);
});

test("where not even all of them left out helps, it is asked once and none is named", () => {
  expect(sought(() => false)).toEqual({ leave: [], asked: 1 });
});
