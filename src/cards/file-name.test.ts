import fc from "fast-check";
import { expect, test } from "vitest";
import { fileNames } from "./file-name.ts";

const names = (...ids: string[]): string[] => [...fileNames(ids).values()];

test("plain IDs keep their name", () => {
  expect(names("pillar-bar-left", "Hoop_2.b")).toEqual(["pillar-bar-left", "Hoop_2.b"]);
});

test("what a system refuses is changed, and names stay apart where case does not count", () => {
  expect(names("a/b", "a\\b", "A:B")).toEqual(["a-b", "a-b-2", "A-B-3"]);
  expect(names("../../etc/passwd", "con", "LPT1.x", "été", "  ", "…")).toEqual([
    "etc-passwd",
    "bar-con",
    "bar-LPT1.x",
    "ete",
    "bar",
    "bar-2",
  ]);
});

test("seed 7: any IDs at all", () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.string({ unit: "binary", maxLength: 90 }), { minLength: 1, maxLength: 30 }),
      (ids) => {
        const made = names(...ids);
        expect(new Set(made.map((name) => name.toLowerCase())).size).toBe(ids.length);
        for (const name of made) {
          expect(name).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]*$/);
          expect(name).not.toMatch(/[.]$|^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i);
          expect(name.length).toBeLessThan(70);
        }
      },
    ),
    { seed: 7, numRuns: 100 },
  );
});
