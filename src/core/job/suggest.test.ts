import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editDistance, Suggester } from "./suggest.ts";

/** The slow twin: the recursion that defines the optimal string alignment distance. */
function slow(a: string, b: string): number {
  if (a === "" || b === "") return a.length + b.length;
  const [x, y] = [a.slice(0, -1), b.slice(0, -1)];
  let least = Math.min(slow(x, b) + 1, slow(a, y) + 1, slow(x, y) + (a.at(-1) === b.at(-1) ? 0 : 1));
  if (a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1))
    least = Math.min(least, slow(a.slice(0, -2), b.slice(0, -2)) + 1);
  return least;
}

describe("edit distance", () => {
  // V. Levenshtein's distance of the textbook pair is 3 (Wagner and Fischer's algorithm, any text on it; from memory)
  it("knows the textbook pair", () => expect(editDistance("kitten", "sitting")).toBe(3));

  it("agrees with its definition", () => {
    const word = fc.array(fc.constantFrom("a", "b", "c"), { maxLength: 6 }).map((c) => c.join(""));
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(editDistance(a, b)).toBe(slow(a, b));
      }),
      { seed: 21, numRuns: 300 },
    );
  });
});

describe("did you mean", () => {
  const bars = ["main-hoop", "harness-bar", "cross", "x"];
  it.each([
    ["main-hop", "main-hoop"],
    ["mian-hoop", "main-hoop"],
    ["MAIN-HOOP", "main-hoop"],
    ["corss", "cross"],
    ["roof", undefined],
    ["y", undefined],
    ["X", "x"],
    ["", undefined],
    ["m".repeat(1000), undefined],
  ])("%s: %s", (name, meant) => expect(new Suggester().closest(name, bars)).toBe(meant));

  it("stops when its allowance is spent", () => {
    const names = Array.from({ length: 5000 }, (_, i) => `a-rather-long-name-of-a-bar-${i}`);
    const suggester = new Suggester();
    const started = performance.now();
    for (let i = 0; i < 5000; i++) suggester.closest(`a-rather-lnog-name-of-a-bar-x${i}`, names);
    expect(performance.now() - started).toBeLessThan(2000);
    expect(suggester.closest("a-rather-long-name-of-a-bar-01", names)).toBeUndefined();
  });
});
