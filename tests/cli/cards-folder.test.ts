import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeEach, describe, expect, it, onTestFinished } from "vitest";
import { run } from "./run.ts";

const trial = readFileSync("tests/corpus/trial-frame.json", "utf8");
type Doc = { bars: Record<string, Record<string, unknown>>; [key: string]: unknown };
const edited = (edit: (doc: Doc) => void): string => {
  const doc = JSON.parse(trial) as Doc;
  edit(doc);
  return JSON.stringify(doc);
};
let out = "";
let root = "";
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "tubewright-out-"));
  out = join(root, "cards");
  const made = root;
  onTestFinished(() => rmSync(made, { recursive: true }));
});
const files = (): readonly string[] =>
  readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name).slice(out.length + 1))
    .sort();
const cards = (job: string, ...args: string[]) => run(["cards", "job", "--out", out, ...args], { job });

describe("the folder of cards", () => {
  it("holds no card of a bar that the job no longer has", async () => {
    await cards(trial);
    const without = edited((d) => {
      delete d.bars["stay-r"];
    });
    const { code, out: said } = await cards(without);
    expect(code).toBe(0);
    expect(files().filter((f) => f.includes("stay-r"))).toEqual([]);
    expect(said).toContain("removed, made by a run before and not by this one: bars/stay-r.pdf");
    expect(readdirSync(root)).toEqual(["cards"]);
  });

  it("names what someone changed and leaves it; deletes nothing that it did not make", async () => {
    await cards(trial);
    writeFileSync(join(out, "bars", "stay-r.pdf"), "with my remarks");
    writeFileSync(join(out, "mine.txt"), "mine");
    const { err } = await cards(
      edited((d) => {
        delete d.bars["stay-r"];
      }),
    );
    expect(err).toContain("warning: bars/stay-r.pdf was changed since it was made; left as it is");
    expect(readFileSync(join(out, "bars", "stay-r.pdf"), "utf8")).toBe("with my remarks");
    expect(readFileSync(join(out, "mine.txt"), "utf8")).toBe("mine");
  });

  it("with --bar, other bars' cards stay, and those that the job has changed since are named", async () => {
    await cards(trial);
    const all = files();
    const kept = readFileSync(join(out, "bars", "hoop.pdf"));
    const same = await cards(trial, "--bar", "cross");
    expect(same.err).not.toContain("has changed since");
    expect(files()).toEqual(all);
    expect(readFileSync(join(out, "bars", "hoop.pdf"))).toEqual(kept);
    const moved = edited((d) => {
      (d.bars["stay-l"]!.path as [{ along: number }])[0].along = 800;
    });
    const { err } = await cards(moved, "--bar", "cross", "--json");
    expect(err).toMatch(
      /run cards without --bar: the job has changed since these were made: bars\/stay-l\.pdf/,
    );
    expect(err).not.toContain("bars/hoop.pdf");
    expect(files()).toEqual(all);
  });

  it.each([
    ["a file", () => writeFileSync(out, "x"), /that is a file; name a folder; nothing was changed there$/],
    ["a link to nothing", () => symlinkSync(join(root, "no"), out), /that is a link to nothing/],
  ])("%s is refused in one line, and nothing is written", async (_, make, line) => {
    make();
    const { code, err, out: said } = await cards(trial);
    expect([code, said]).toEqual([2, ""]);
    expect(err.trimEnd()).toMatch(line);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
    expect(readdirSync(root)).toEqual(["cards"]);
  });

  it("where one is, or above it, is no folder for the cards", async () => {
    for (const here of [".", ".."]) {
      const { code, err } = await run(["cards", "job", "--out", here], { job: trial });
      expect(code).toBe(2);
      expect(err).toContain("name a folder for the cards, such as cards");
    }
  });

  it("behind a link is written where the link leads", async () => {
    mkdirSync(join(root, "far"));
    symlinkSync(join(root, "far"), out);
    expect((await cards(trial)).code).toBe(0);
    expect(readdirSync(join(root, "far"))).toContain("overview.pdf");
    expect(readdirSync(root).sort()).toEqual(["cards", "far"]);
  });

  it.skipIf(process.getuid?.() === 0)("in a place that may not be written to is refused", async () => {
    chmodSync(root, 0o500);
    const { code, err } = await cards(trial);
    chmodSync(root, 0o700);
    expect(code).toBe(2);
    expect(err).toContain("this user may not open it; nothing was changed there");
    expect(readdirSync(root)).toEqual([]);
  });
});
