import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { type Disk, nodeDisk } from "./disk.ts";
import { LIST } from "./list.ts";
import { settle } from "./settle.ts";
import { FolderTrouble, Staged } from "./staged.ts";

const PID = 7;
const nobody = (): boolean => false;
const around = (disk: Disk = nodeDisk, lives: (pid: number) => boolean = nobody) => ({
  disk,
  pid: PID,
  lives,
  reason: (error: unknown) => String((error as NodeJS.ErrnoException).code ?? error),
});

type Files = Readonly<Record<string, string>>;
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

function put(folder: string, files: Files, disk?: Disk) {
  const set = new Staged(folder, around(disk));
  for (const [name, text] of Object.entries(files)) set.put(name, bytes(text));
  return set.commit();
}

/** Every file below a folder with its text; folders that are empty too. */
function seen(folder: string, list = false): Files {
  const all: Record<string, string> = {};
  const walk = (here: string): void => {
    const entries = readdirSync(here, { withFileTypes: true });
    if (entries.length === 0) all[`${relative(folder, here)}/`] = "";
    for (const e of entries) {
      const path = join(here, e.name);
      if (e.isDirectory()) walk(path);
      else if (list || e.name !== LIST) all[relative(folder, path)] = readFileSync(path, "utf8");
    }
  };
  walk(folder);
  return all;
}

function room(): { readonly root: string; readonly out: string } {
  const root = mkdtempSync(join(tmpdir(), "tubewright-folder-"));
  onTestFinished(() => rmSync(root, { recursive: true }));
  return { root, out: join(root, "out") };
}

const OLD: Files = { "overview.pdf": "1", "bars/a.pdf": "a1", "bars/b.pdf": "b1", "wraps/b-A.svg": "w1" };
const NEW: Files = { "overview.pdf": "2", "bars/a.pdf": "a2", "bars/c.pdf": "c2" };

describe("a set of files that takes a folder's place", () => {
  it("takes away what the run before made and this one did not, and leaves what is not its own", () => {
    const { root, out } = room();
    put(out, OLD);
    writeFileSync(join(out, "notes.txt"), "mine");
    mkdirSync(join(out, "photos", "empty"), { recursive: true });
    writeFileSync(join(out, "bars", "mine.txt"), "mine too");
    writeFileSync(join(out, "bars", "a.pdf"), "a1 with my remarks");
    writeFileSync(join(out, "wraps", "b-A.svg"), "w1 changed");
    const { left, gone } = put(out, NEW);
    expect(seen(out)).toEqual({
      ...NEW,
      "notes.txt": "mine",
      "photos/empty/": "",
      "bars/mine.txt": "mine too",
      "bars/a-kept.pdf": "a1 with my remarks",
      "wraps/b-A.svg": "w1 changed",
    });
    expect(left).toEqual([
      { name: "bars/a.pdf", as: "bars/a-kept.pdf", changed: true },
      { name: "wraps/b-A.svg", as: "wraps/b-A.svg", changed: true },
    ]);
    expect(gone).toEqual(["bars/b.pdf"]);
    expect(readdirSync(root)).toEqual(["out"]);
    // what was left is someone's own from now on
    put(out, { "overview.pdf": "3" });
    expect(Object.keys(seen(out))).toContain("bars/a-kept.pdf");
    expect(Object.keys(seen(out))).toContain("wraps/b-A.svg");
  });

  it("overwrites nothing that another program made under such a name, link or folder", () => {
    const { root, out } = room();
    mkdirSync(join(out, "bars", "c.pdf"), { recursive: true });
    writeFileSync(join(root, "elsewhere"), "far");
    symlinkSync(join(root, "elsewhere"), join(out, "overview.pdf"));
    writeFileSync(join(out, LIST), "not a list");
    put(out, NEW);
    expect(readFileSync(join(root, "elsewhere"), "utf8")).toBe("far");
    expect(seen(out)).toEqual({
      ...NEW,
      "bars/c-kept.pdf/": "",
      "overview-kept.pdf": "far",
      "files-made-kept.list": "not a list",
    });
  });

  it("carries over what stays, to the byte and only if nobody changed it", () => {
    const { out } = room();
    put(out, OLD);
    writeFileSync(join(out, "bars", "b.pdf"), "b1 changed");
    const set = new Staged(out, around());
    set.put("bars/a.pdf", bytes("a2"));
    expect([...set.carry((name) => name !== "overview.pdf").keys()]).toEqual(["wraps/b-A.svg"]);
    const { left, gone } = set.commit();
    expect(seen(out)).toEqual({ "bars/a.pdf": "a2", "bars/b.pdf": "b1 changed", "wraps/b-A.svg": "w1" });
    expect([left, gone]).toEqual([
      [{ name: "bars/b.pdf", as: "bars/b.pdf", changed: true }],
      ["overview.pdf"],
    ]);
  });

  it("is refused while another run writes there, and where a file has the name", () => {
    const { root, out } = room();
    mkdirSync(join(root, ".out.making-99"));
    expect(
      () =>
        new Staged(
          out,
          around(nodeDisk, (pid) => pid === 99),
        ),
    ).toThrow(/another run writes there now/);
    writeFileSync(join(root, "file"), "x");
    expect(() => new Staged(join(root, "file"), around())).toThrow("that is a file; name a folder");
    expect(() => new Staged(join(root, "file", "in"), around())).toThrow(FolderTrouble);
    expect(readdirSync(root).sort()).toEqual([".out.making-99", "file"]);
  });
});

class Killed extends Error {}
const STEPS = ["write", "makeFolder", "move", "remove", "removeFolder"] as const;

/** A disk whose process is killed before or after its step n; nothing that it tries afterwards happens. */
function dying(n: number, when: "before" | "after"): { readonly disk: Disk; readonly steps: () => number } {
  let step = 0;
  const guarded = Object.fromEntries(
    STEPS.map((name) => [
      name,
      (...args: [string, string]) => {
        step++;
        if (step > n || (step === n && when === "before")) throw new Killed();
        (nodeDisk[name] as (...a: [string, string]) => void)(...args);
        if (step === n) throw new Killed();
      },
    ]),
  );
  return { disk: { ...nodeDisk, ...guarded } as Disk, steps: () => step };
}

/** As dying, but the disk says that it is full, once, and goes on. */
function failing(n: number): Disk {
  let step = 0;
  const guarded = Object.fromEntries(
    STEPS.map((name) => [
      name,
      (...args: [string, string]) => {
        step++;
        if (step === n) throw Object.assign(new Error("full"), { code: "ENOSPC" });
        (nodeDisk[name] as (...a: [string, string]) => void)(...args);
      },
    ]),
  );
  return { ...nodeDisk, ...guarded } as Disk;
}

const MINE: Files = { "notes.txt": "mine", "bars/mine.txt": "mine too" };

function before(): { readonly root: string; readonly out: string } {
  const at = room();
  put(at.out, OLD);
  for (const [name, text] of Object.entries(MINE)) writeFileSync(join(at.out, name), text);
  return at;
}

const stepsOfRun = (): number => {
  const { out } = before();
  const { disk, steps } = dying(Number.POSITIVE_INFINITY, "before");
  put(out, NEW, disk);
  return steps();
};

const cards = (files: Files): Files =>
  Object.fromEntries(
    Object.entries(files).filter(([name]) => !name.includes("mine") && name !== "notes.txt"),
  );

it("killed at any step, it leaves the old set or the new, whole, and nothing of anyone else's is lost", () => {
  const steps = stepsOfRun();
  expect(steps).toBeGreaterThan(15);
  for (let n = 1; n <= steps; n++) {
    for (const when of ["before", "after"] as const) {
      const { root, out } = before();
      expect(() => put(out, NEW, dying(n, when).disk), `step ${n}`).toThrow(FolderTrouble);
      // between the two renames alone the name is free
      if (readdirSync(root).includes("out"))
        expect([cards(OLD), cards(NEW)], `step ${n} ${when}`).toContainEqual(cards(seen(out)));
      settle(nodeDisk, out, nobody);
      expect(readdirSync(root)).toEqual(["out"]);
      const now = seen(out);
      expect(now).toMatchObject(MINE);
      expect([cards(OLD), cards(NEW)], `step ${n} ${when}, settled`).toContainEqual(cards(now));
      put(out, NEW);
      expect(seen(out)).toEqual({ ...NEW, ...MINE });
    }
  }
});

it("where the disk is full at any step, it says what holds: nothing was changed, or the new files are there", () => {
  const steps = stepsOfRun();
  for (let n = 1; n <= steps; n++) {
    const { root, out } = before();
    let said = "";
    try {
      put(out, NEW, failing(n));
    } catch (error) {
      expect(error).toBeInstanceOf(FolderTrouble);
      said = (error as Error).message;
    }
    const now = seen(out);
    if (said.includes("nothing was changed there")) {
      expect(now, `step ${n}`).toEqual({ ...OLD, ...MINE });
      if (!said.includes("unfinished set is left")) expect(readdirSync(root)).toEqual(["out"]);
    } else {
      expect(said).toContain("the new files are in place");
      expect(cards(now)).toEqual(NEW);
    }
    put(out, NEW);
    expect(seen(out)).toEqual({ ...NEW, ...MINE });
    expect(readdirSync(root)).toEqual(["out"]);
  }
});

it("takes back the folders that it made on the way where nothing came of it", () => {
  const { root } = room();
  const set = new Staged(join(root, "a", "b", "out"), around());
  set.put("x", bytes("x"));
  expect(set.abandon()).toBe("nothing was changed there");
  expect(readdirSync(root)).toEqual([]);
});
