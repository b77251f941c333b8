import { existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { run as pages } from "../programs.ts";
import { run } from "./run.ts";

const DEMO = "demo/sandling.json";
const fresh = (): string => join(mkdtempSync(join(tmpdir(), "tubewright-print-")), "print.pdf");

/** The words of each page as poppler finds them. */
const wordsOf = (file: string): readonly string[] =>
  pages("pdftotext", "-raw", file, "-")
    .toString("utf8")
    .split("\f")
    .map((page) => page.replace(/\s+/g, " "))
    .filter((page) => page.trim() !== "");

it("one PDF of bars in the order asked for: as many pages as it says, numbered through, one check square", async () => {
  const file = fresh();
  const call = ["print", DEMO, "--out", file, "--bars", "pillar-bar-left,main-hoop,harness-bar", "--json"];
  const { code, out, err } = await run(call);
  expect(code, err).toBe(0);
  const said = JSON.parse(out) as { pages: { name: string; trueSize: boolean }[]; without: unknown[] };
  const read = wordsOf(file);
  expect(read).toHaveLength(said.pages.length);
  expect(said.without).toEqual([]);
  read.forEach((page, i) => {
    expect(page).toContain(`page ${i + 1} of ${read.length}`);
  });
  const square = read.flatMap((page, i) => (page.includes("Measure from corner 0") ? [i] : []));
  expect(square).toHaveLength(1);
  expect(said.pages[square[0]!]!.trueSize).toBe(true);
  read.forEach((page, i) => {
    if (/^Wraps|^Mark strip/.test(page) && i !== square[0])
      expect(page).toContain(`Check square: page ${square[0]! + 1}.`);
  });
  const first = (label: string): number =>
    read.findIndex((page) => page.startsWith(`Bender card — ${label}`));
  expect([first("Pillar bar, left"), first("Main hoop") > 0]).toEqual([0, true]);
}, 60_000);

it("sheets by name, of bars and of the job; a bar without them is named and the rest is made", async () => {
  const file = fresh();
  const sheets = ["--sheets", "overview,order,strip", "--bars", "harness-bar,main-hoop"];
  const { out, err } = await run(["print", DEMO, "--out", file, ...sheets, "--paper", "Letter"]);
  const read = wordsOf(file);
  expect(out).toMatch(new RegExp(`: ${read.length} pages; print at 100 %: true size counts on \\d+ pages?`));
  expect(err).toContain("bars.harness-bar: has none of these sheets");
  expect(read.some((page) => page.startsWith("Overview"))).toBe(true);
  expect(read.some((page) => page.startsWith("Mark strip — Main hoop"))).toBe(true);
  expect(read.some((page) => page.startsWith("Bender card"))).toBe(false);
}, 60_000);

it.each([
  [["--bars", "main-hop"], '--bars main-hop: the job has no bar of that name — did you mean "main-hoop"?'],
  [["--sheets", "wrap"], '--sheets: no sheet is called "wrap"'],
  [["--paper", "A5"], "--paper"],
])("%j is one line, and nothing is written", async (more, line) => {
  const file = fresh();
  const { code, out, err } = await run(["print", DEMO, "--out", file, ...more]);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain(line);
  expect(existsSync(file)).toBe(false);
});

it("with nothing to print there is no file, and no PDF without pages", async () => {
  const file = fresh();
  const call = ["print", DEMO, "--out", file, "--bars", "harness-bar", "--sheets", "strip"];
  const { code, err } = await run(call);
  expect([code, existsSync(file)]).toEqual([1, false]);
  expect(err).toContain("there is nothing to print");
});
