import { describe, expect, test } from "vitest";
import { HARD, planOf } from "../../../tests/support/cards.ts";
import { cardOf, codeOf, fnv1a, issued } from "./cards.ts";

test("FNV-1a of the published test strings (Fowler, Noll, Vo: test vectors, 32 bits; from memory)", () => {
  expect(fnv1a("")).toBe(0x811c9dc5);
  expect(fnv1a("a")).toBe(0xe40c292c);
  expect(fnv1a("foobar")).toBe(0xbf9cf968);
});

const code = (job: unknown, id: string, length: "mm" | "in" = "mm"): string => {
  const plan = planOf(job, length);
  return codeOf(plan, plan.byId.get(id)!);
};

/** The job with another value at one place. */
function changed(value: unknown, ...path: readonly (string | number)[]): unknown {
  const job: unknown = structuredClone(HARD);
  let at = job as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) at = at[key] as typeof at;
  at[path[path.length - 1]!] = value;
  return job;
}

test("the same job has the same code, whatever unit it is shown in", () => {
  expect(code(HARD, "crowded")).toMatch(/^[0-9a-f]{4}$/);
  expect(code(structuredClone(HARD), "crowded", "in")).toBe(code(HARD, "crowded"));
});

test.each([
  ["the host moves", [1, 0, 1000], ["bars", "post", "path", 1]],
  ["a bar beside it at the joint moves", [600, 1, 1000], ["bars", "diag", "path", 1]],
  ["the tube gets another wall", 2.5, ["tubes", "t40", "wall"]],
  ["the trim changes", { A: 3 }, ["bars", "crowded", "trim"]],
  ["the notcher goes steeper", 65, ["notcher", "steepest"]],
  ["another gap is accepted", { gap: 2 }, ["shop"]],
])("it changes when %s", (_, value, path) => {
  expect(code(changed(value, ...path), "crowded")).not.toBe(code(HARD, "crowded"));
});

test("it stays when a bar changes that it has nothing to do with", () => {
  const other = changed([2000, 0, 1200], "bars", "wide", "path", 1);
  expect(code(other, "crowded")).toBe(code(HARD, "crowded"));
});

test("a die's test bends change the card of the bar that is bent on it", () => {
  const other = changed(86.3, "dies", "tested", "tests", 1, "got");
  expect(code(other, "tested")).not.toBe(code(HARD, "tested"));
  expect(code(other, "fromB")).toBe(code(HARD, "fromB"));
});

describe("a card's number", () => {
  const cards = { wide: { n: 1, code: "0a0b", on: "2026-11-02" } };

  test("counts from 1, up with each new code, not with one that was issued already", () => {
    const first = issued({}, "crowded", "4dce", "2026-11-29");
    expect(first).toEqual({ crowded: { n: 1, code: "4dce", on: "2026-11-29" } });
    expect(issued({ cards: first }, "crowded", "4dce", "2026-12-24")).toBe(first);
    const second = issued({ cards: { ...first, ...cards } }, "crowded", "0001", "2026-12-24");
    expect(second).toEqual({ ...cards, crowded: { n: 2, code: "0001", on: "2026-12-24" } });
    // figures that come back are a card of their own: the one on the bench is the newest
    expect(issued({ cards: second }, "crowded", "4dce", "2027-01-02").crowded?.n).toBe(3);
  });

  test("takes no name of an object's own for a card", () => {
    expect(Object.hasOwn(issued({ cards }, "constructor", "4dce", "2026-11-29"), "constructor")).toBe(true);
  });

  test("is the one issued while the figures are the same, else the next, without a day", () => {
    const before = planOf(HARD, "mm");
    const bar = (plan: typeof before) => plan.byId.get("crowded")!;
    const now = codeOf(before, bar(before));
    expect(cardOf(before, bar(before))).toEqual({ n: 1, code: now });
    const job = { ...before.job, cards: issued({ cards }, "crowded", now, "2026-11-29") };
    const plan = { ...before, job };
    expect(cardOf(plan, bar(plan))).toEqual({ n: 1, code: now, on: "2026-11-29" });
    const moved = planOf(changed([1, 0, 1000], "bars", "post", "path", 1), "mm");
    const then = { ...moved, job: { ...moved.job, cards: job.cards } };
    expect(cardOf(then, bar(then))).toMatchObject({ n: 2 });
    expect("on" in cardOf(then, bar(then))).toBe(false);
  });
});
