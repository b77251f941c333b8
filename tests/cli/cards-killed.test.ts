import { execFileSync, spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

/** The built program, for a process that can be killed. */
let built = "";
let root = "";
beforeAll(() => {
  mkdirSync("dist", { recursive: true });
  built = mkdtempSync("dist/try-");
  execFileSync("node", ["tools/build.mjs", built]);
  root = mkdtempSync(join(tmpdir(), "tubewright-killed-"));
  // Small jobs: what counts here is how the folder changes hands.
  const bar = (x: number) => ({
    tube: "t",
    path: [
      [x, 0, 0],
      [x, 0, 500],
    ],
  });
  const job = (bars: object) => ({
    format: "tubewright job",
    version: 1,
    tubes: { t: { od: 40, wall: 2 } },
    bars,
  });
  writeFileSync(join(root, "old.json"), JSON.stringify(job({ a: bar(0), b: bar(100), c: bar(200) })));
  writeFileSync(join(root, "new.json"), JSON.stringify(job({ a: bar(1), b: bar(100) })));
  // A preload that kills this process, as kill -9 does, before or after its rename n.
  writeFileSync(
    join(root, "kill.cjs"),
    `const fs = require("node:fs"), [n, when] = process.env.KILL_AT.split(" "), rename = fs.renameSync;
    let count = 0;
    fs.renameSync = (...a) => {
      count++;
      if (count === +n && when === "before") process.kill(process.pid, "SIGKILL");
      rename(...a);
      if (count === +n) process.kill(process.pid, "SIGKILL");
    };
    require("node:module").syncBuiltinESMExports();`,
  );
}, 60_000);
afterAll(() => {
  rmSync(built, { recursive: true, force: true });
  rmSync(root, { recursive: true, force: true });
});

interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

function call(
  job: string,
  out: string,
  options: { killAt?: string; meanwhile?: (pid: number) => void } = {},
) {
  const { killAt, meanwhile } = options;
  const preload = killAt === undefined ? [] : ["--require", join(root, "kill.cjs")];
  const program = [...preload, join(built, "cli.mjs"), "cards", join(root, `${job}.json`), "--out", out];
  const child = spawn(process.execPath, program, { env: { ...process.env, KILL_AT: killAt ?? "" } });
  const said = { out: "", err: "" };
  child.stdout.on("data", (b: Buffer) => {
    said.out += b.toString();
  });
  child.stderr.on("data", (b: Buffer) => {
    said.err += b.toString();
  });
  meanwhile?.(child.pid!);
  return new Promise<Ended>((done) => {
    child.on("close", (code, signal) => done({ code, signal, ...said }));
  });
}

/** The folder's files with what they hold. */
function set(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((e) => e.isFile());
  return Object.fromEntries(
    names.map((e) => {
      const path = join(e.parentPath, e.name);
      return [path.slice(folder.length + 1), readFileSync(path, "latin1")];
    }),
  );
}

describe("tubewright cards, killed", () => {
  it("at any rename leaves the old set or the new, and nothing beside it after the next run", async () => {
    const [out, kept] = [join(root, "killed", "cards"), join(root, "kept")];
    await call("new", out);
    const NEW = set(out);
    rmSync(out, { recursive: true });
    await call("old", out);
    cpSync(out, kept, { recursive: true });
    const OLD = set(out);
    expect(Object.keys(OLD)).toContain("bars/c.pdf");
    expect(Object.keys(NEW)).not.toContain("bars/c.pdf");
    const died: string[] = [];
    for (let n = 1; n <= died.length / 2 + 1; n++) {
      for (const when of ["before", "after"]) {
        rmSync(out, { recursive: true });
        cpSync(kept, out, { recursive: true });
        writeFileSync(join(out, "notes.txt"), "mine");
        const { signal } = await call("new", out, { killAt: `${n} ${when}` });
        const { "notes.txt": notes, ...cards } = set(out);
        expect(notes, `${n} ${when}`).toBe("mine");
        const is = JSON.stringify(cards) === JSON.stringify(OLD) ? "old" : "new";
        expect(cards, `${n} ${when}`).toEqual(is === "old" ? OLD : NEW);
        expect(readdirSync(join(root, "killed")).filter((name) => name.includes("replaced"))).toEqual([]);
        if (signal === "SIGKILL") died.push(is);
      }
    }
    // two renames change the sets, a third moves the notes; nothing is killed at a fourth
    expect(died).toEqual(["old", "old", "old", "new", "new", "new"]);
    expect((await call("new", out)).code).toBe(0);
    expect(set(out)).toEqual({ ...NEW, "notes.txt": "mine" });
    expect(readdirSync(join(root, "killed"))).toEqual(["cards"]);
  }, 300_000);

  it("by Ctrl-C while it draws says what holds, takes its own back and leaves the old set", async () => {
    const out = join(root, "stopped", "cards");
    await call("old", out);
    const OLD = set(out);
    const { code, err, signal } = await call("new", out, {
      meanwhile: (pid) => {
        const looks = setInterval(() => {
          const beside = readdirSync(join(root, "stopped")).find((name) => name.includes("making"));
          if (beside === undefined || readdirSync(join(root, "stopped", beside)).length === 0) return;
          clearInterval(looks);
          process.kill(pid, "SIGINT");
        }, 1);
      },
    });
    expect([code, signal]).toEqual([130, null]);
    expect(err.split("\n").at(-2)).toBe(`${out}: stopped; nothing was changed there`);
    expect(set(out)).toEqual(OLD);
    expect(readdirSync(join(root, "stopped"))).toEqual(["cards"]);
  }, 60_000);
});
