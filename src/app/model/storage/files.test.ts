import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { problemLine } from "../../../words/index.ts";
import { fromJson, jobText, toJson } from "../document/index.ts";
import { demo, frame } from "../document/testing.ts";
import { digestOf, fileName, readFile } from "./files.ts";

describe("a job file", () => {
  it("goes in and comes out as the same JSON, two blanks deep", () => {
    const text = readFileSync("demo/sandling.json", "utf8");
    const read = readFile(text);
    if (!read.ok) throw new Error("the demo does not pass");
    const out = jobText(toJson(fromJson(read.document)));
    // Of the present version, and the same in all else.
    expect(out).toBe(`${JSON.stringify({ ...JSON.parse(text), version: 2 }, null, 2)}\n`);
    expect(readFile(out)).toEqual(read);
  });

  it("that does not pass gives its lines and its text back", () => {
    const text = jobText(frame()).replace('"tube": "light"', '"tube": "mian"');
    const read = readFile(text);
    expect(read).toMatchObject({ ok: false, text });
    expect(!read.ok && read.problems.map(problemLine)).toEqual([
      'bars.cross.tube: no tube is called "mian" — did you mean "main"? (line 98, column 15)',
    ]);
    expect(readFile("{")).toMatchObject({ ok: false, text: "{" });
    expect(readFile(jobText({ ...frame(), version: 3 }))).toMatchObject({ ok: false });
    expect(readFile(jobText({ ...frame(), version: 0 }))).toMatchObject({ ok: false });
  });

  it("of a newer version is given as it was written, with what is unknown here", () => {
    const newer = { ...frame(), version: 3 };
    expect(readFile(jobText(newer))).toMatchObject({ ok: false, problems: [], newer });
    const unknown = { ...newer, sleeves: { s: { along: "1 in" } } };
    const read = readFile(jobText(unknown));
    expect(read).toMatchObject({ ok: false, newer: unknown });
    expect(read.ok ? [] : read.problems.map((p) => p.place)).toEqual(["version", "sleeves"]);
    expect(jobText(toJson(fromJson(unknown)))).toBe(jobText(unknown));
  });

  it("is named after the job", () => {
    expect(fileName(frame())).toBe("trial-frame.json");
    expect(fileName({ ...frame(), name: " " })).toBe("job.json");
    expect(fileName(demo())).toBe("sandling-3-door-hill-climb-cage-invented.json");
  });

  // FIPS 180-2, appendix B.1: SHA-256 of "abc"
  it("is known again by its digest", async () => {
    expect(await digestOf("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });
});
