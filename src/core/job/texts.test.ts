import { describe, expect, it } from "vitest";
import trial from "../../../tests/corpus/trial-frame.json";
import { problemLine, sayProblem } from "../../words/index.ts";
import { readJob } from "./read.ts";
import { wrongText } from "./texts.ts";

const lines = (input: unknown): readonly string[] => {
  const read = readJob(input);
  return read.ok ? [] : read.problems.map(problemLine);
};

/** The trial frame as a file, with the text of a label as it stands between its quotes. */
const labelled = (raw: string): string =>
  JSON.stringify(trial, null, 2).replace('"label": "Main hoop"', `"label": "${raw}"`);
const row =
  labelled("x")
    .split("\n")
    .findIndex((l) => l.includes('"label": "x"')) + 1;
const WHERE = `(line ${row}, column 16)`;

describe("characters that cannot be seen are refused where they are", () => {
  // Unicode Standard 15.0, 23 and Annex 9: what each code is
  it.each([
    ["\\u0007", "a control character (U+0007)"],
    ["\u009b", "a control character (U+009B)"],
    ["\u007f", "a control character (U+007F)"],
    ["\\n", "a line break (U+000A)"],
    ["\u2028", "a line break (U+2028)"],
    ["\\t", "a tab (U+0009)"],
    ["\u202e", "a character that turns the direction of writing (U+202E)"],
    ["\\u2066", "a character that turns the direction of writing (U+2066)"],
    ["\u061c", "a character that turns the direction of writing (U+061C)"],
    ["\u200b", "a character that cannot be seen (U+200B)"],
    ["\ufeff", "a character that cannot be seen (U+FEFF)"],
    ["\u00ad", "a character that cannot be seen (U+00AD)"],
    ["\u{e0041}", "a character that cannot be seen (U+E0041)"],
    ["\\ufffe", "a character that cannot be seen (U+FFFE)"],
    ["\\ud800", "half a character (U+D800)"],
  ])("%j", (raw, what) =>
    expect(lines(labelled(`Main${raw} hoop`))).toEqual([
      `bars.hoop.label: has ${what}; take it out ${WHERE}`,
    ]),
  );

  it.each(["Überrollbügel, hinten 😀", "Stay ½″ × 3 — “left”", "主环", "Arco n.º 2 (izq.)"])(
    "%s passes",
    (label) => expect(lines(labelled(label))).toEqual([]),
  );

  it("in a name, a note, a key and a document alike, and never shown raw", () => {
    const bad = structuredClone(trial) as Record<string, unknown>;
    bad.name = "Trial\u202eemarf";
    (bad.bars as Record<string, unknown>)["sta\u200by"] = { mirrorOf: "stay\u2067-l" };
    const said = lines(bad);
    expect(said).toContain("name: has a character that turns the direction of writing (U+202E); take it out");
    expect(said).toContain('bars["sta\\u200by"]: has a character that cannot be seen (U+200B); take it out');
    expect(said.join("\n")).not.toMatch(/[\p{Cf}]/u);
    expect(lines(JSON.stringify(bad)).join("\n")).not.toMatch(/[\p{Cf}]/u);
  });
});

describe("a label has at most 60 characters, a name 120", () => {
  it("counted as people count them, with line and column", () => {
    expect(lines(labelled("x".repeat(60)))).toEqual([]);
    expect(lines(labelled("😀".repeat(60)))).toEqual([]);
    expect(lines(labelled("x".repeat(61)))).toEqual([
      `bars.hoop.label: a label has at most 60 characters, not 61 ${WHERE}`,
    ]);
    expect(lines({ ...trial, name: "x".repeat(120) })).toEqual([]);
    expect(lines({ ...trial, name: "x".repeat(121) })).toEqual([
      "name: a name has at most 120 characters, not 121",
    ]);
  });
  it("the same words for a field of the app", () => {
    expect(sayProblem(wrongText("x".repeat(61), "label")!)).toBe("a label has at most 60 characters, not 61");
    expect(wrongText("x".repeat(61), "name")).toBeUndefined();
    expect(sayProblem(wrongText("a\u202eb")!)).toContain("U+202E");
  });
});

it("every problem of a file has its line and column, a missing key that of what lacks it", () => {
  const text = `{
  "format": "tubewright job", "version": 1,
  "tubes": { "main": { "od": 45, "wall": 2.5 } },
  "bars": {
    "a": { "tube": "mian", "odd": 1,
      "path": [ [0, 0, 0], [0, 0] ] },
    "b": { "path": [[0, 0, 0],
      [0, 0, 1e999]] }
  }
}`;
  const said = lines(text);
  expect(said.find((l) => l.startsWith("bars.a.tube"))).toContain("(line 5, column 20)");
  expect(said.find((l) => l.startsWith("bars.a.odd"))).toContain("(line 5, column 28)");
  expect(said.find((l) => l.startsWith("bars.a.path[1]"))).toContain("(line 6, column 28)");
  expect(said.find((l) => l.startsWith("bars.b.tube"))).toContain("(line 7, column 10)");
  expect(said.find((l) => l.startsWith("bars.b.path[1]"))).toMatch(/\(line 8, column (7|14)\)/);
  expect(said.every((l) => /\(line \d+, column \d+\)$/.test(l))).toBe(true);
});
