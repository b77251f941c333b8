import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { COMMANDS } from "../../src/words/index.ts";
import { run } from "./run.ts";

const NAMES = Object.keys(COMMANDS);

/** The words of a call as a shell parts them, the program's own name apart. */
const wordsOf = (call: string): string[] =>
  [...call.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!).slice(1);

describe("tubewright help", () => {
  it("lists every command in a line, and says how one is explained", async () => {
    const { code, out, err } = await run(["help"]);
    expect([code, err]).toEqual([0, ""]);
    for (const name of NAMES) expect(out).toMatch(new RegExp(`^ {2}${name} +\\S`, "m"));
    expect(out).toContain("tubewright help COMMAND");
    expect((await run(["--help"])).out).toBe(out);
    expect((await run([])).code).toBe(2);
  });

  it.each(NAMES)("explains %s: usage, every option, units, exit codes and an example", async (name) => {
    const { code, out } = await run(["help", name]);
    expect(code).toBe(0);
    expect((await run([name, "--help"])).out).toBe(out);
    const { usage, example } = COMMANDS[name as keyof typeof COMMANDS];
    for (const part of [usage, example, "Units:", "Exit code 0: "]) expect(out).toContain(part);
    // what the usage names is explained below it
    const below = out.slice(out.indexOf(usage) + usage.length);
    for (const [option] of usage.matchAll(/--[a-z-]+/g)) expect(below).toContain(option);
  });

  it.each([
    [["help", "bned"], 'there is no command "bned" — did you mean "bend"?\n'],
    [["wrpas"], /^there is no command "wrpas"[^\n]*\n$/],
  ])("%j is one line with the nearest name", async (call, line) => {
    const { code, out, err } = await run(call);
    expect([code, out]).toEqual([2, ""]);
    if (typeof line === "string") expect(err).toBe(line);
    else expect(err).toMatch(line);
  });

  it.each(NAMES.filter((name) => name !== "serve"))(
    "%s: its example runs on the demo",
    async (name) => {
      const folder = mkdtempSync(join(tmpdir(), "tubewright-example-"));
      const { example } = COMMANDS[name as keyof typeof COMMANDS];
      const call = wordsOf(example).map((word) => (word === "out" ? join(folder, "out") : word));
      const { code, out } = await run(call);
      expect(code).toBe(0);
      expect(out.length).toBeGreaterThan(10);
      if (name === "cards") expect(existsSync(join(folder, "out", "bars", "harness-bar.pdf"))).toBe(true);
      rmSync(folder, { recursive: true, force: true });
    },
    120_000,
  );

  it("serve: its example names a job that is there", () => {
    expect(existsSync(wordsOf(COMMANDS.serve.example).at(-1)!)).toBe(true);
  });
});
