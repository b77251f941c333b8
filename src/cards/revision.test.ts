import { expect, test } from "vitest";
import { HARD, planOf } from "../../tests/support/cards.ts";
import { fnv1a, revisionOf } from "./revision.ts";

test("FNV-1a of the published test strings (Fowler, Noll, Vo: test vectors, 32 bits; from memory)", () => {
  expect(fnv1a("")).toBe(0x811c9dc5);
  expect(fnv1a("a")).toBe(0xe40c292c);
  expect(fnv1a("foobar")).toBe(0xbf9cf968);
});

const revision = (job: unknown, id: string, length: "mm" | "in" = "mm"): string => {
  const plan = planOf(job, length);
  return revisionOf(plan, plan.byId.get(id)!);
};

/** The job with another value at one place. */
function changed(value: unknown, ...path: readonly (string | number)[]): unknown {
  const job: unknown = structuredClone(HARD);
  let at = job as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) at = at[key] as typeof at;
  at[path[path.length - 1]!] = value;
  return job;
}

test("the same job has the same revision, whatever unit it is shown in", () => {
  expect(revision(HARD, "crowded")).toMatch(/^[0-9a-f]{4}$/);
  expect(revision(structuredClone(HARD), "crowded", "in")).toBe(revision(HARD, "crowded"));
});

test.each([
  ["the host moves", [1, 0, 1000], ["bars", "post", "path", 1]],
  ["a bar beside it at the joint moves", [600, 1, 1000], ["bars", "diag", "path", 1]],
  ["the tube gets another wall", 2.5, ["tubes", "t40", "wall"]],
  ["the trim changes", { A: 3 }, ["bars", "crowded", "trim"]],
  ["the notcher goes steeper", 65, ["notcher", "steepest"]],
  ["another gap is accepted", { gap: 2 }, ["shop"]],
])("it changes when %s", (_, value, path) => {
  expect(revision(changed(value, ...path), "crowded")).not.toBe(revision(HARD, "crowded"));
});

test("it stays when a bar changes that it has nothing to do with", () => {
  const other = changed([2000, 0, 1200], "bars", "wide", "path", 1);
  expect(revision(other, "crowded")).toBe(revision(HARD, "crowded"));
});

test("a die's test bends change the card of the bar that is bent on it", () => {
  const other = changed(86.3, "dies", "tested", "tests", 1, "got");
  expect(revision(other, "tested")).not.toBe(revision(HARD, "tested"));
  expect(revision(other, "fromB")).toBe(revision(HARD, "fromB"));
});
