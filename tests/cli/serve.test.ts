import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it, onTestFinished } from "vitest";
import { freePort } from "../support/port.ts";

/** The built program with a page beside it, and a stand-in for what opens a browser, which writes down what for. */
let folder = "";
const opened = () => join(folder, "opened");
beforeAll(() => {
  mkdirSync("dist", { recursive: true });
  folder = mkdtempSync("dist/try-");
  execFileSync("node", ["tools/build.mjs", folder]);
  for (const name of ["app", "jobs", "others", "bin"]) mkdirSync(join(folder, name));
  writeFileSync(join(folder, "app", "index.html"), "<!doctype html>");
  writeFileSync(join(folder, "jobs", "frame.json"), "{}");
  for (const name of ["xdg-open", "open"]) {
    writeFileSync(join(folder, "bin", name), `#!/bin/sh\necho "$1" > "${process.cwd()}/${opened()}"\n`);
    chmodSync(join(folder, "bin", name), 0o755);
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function serve(...args: string[]): {
  child: ChildProcess;
  said: (what: RegExp) => Promise<void>;
  ended: Promise<Ended>;
} {
  const path = `${process.cwd()}/${join(folder, "bin")}:${process.env.PATH}`;
  const child = spawn("node", [join(folder, "cli.mjs"), "serve", ...args], {
    env: { ...process.env, PATH: path },
  });
  onTestFinished(() => void child.kill("SIGKILL"));
  let [out, err] = ["", ""];
  child.stdout!.on("data", (bytes) => {
    out += bytes;
  });
  child.stderr!.on("data", (bytes) => {
    err += bytes;
  });
  const ended = new Promise<Ended>((resolve) => child.once("close", (code) => resolve({ code, out, err })));
  const said = (what: RegExp) => expect.poll(() => out, { timeout: 20_000 }).toMatch(what);
  return { child, said, ended };
}

it("started again for the same folder says where it is, opens the page and is done", async () => {
  const port = await freePort();
  const first = serve(join(folder, "jobs"), "--port", `${port}`);
  await first.said(new RegExp(`http://127\\.0\\.0\\.1:${port}/`));
  const again = await serve(join(folder, "jobs", "frame.json"), "--port", `${port}`).ended;
  expect(again).toMatchObject({ code: 0, err: "" });
  const url = `http://127.0.0.1:${port}/?open=frame.json`;
  expect(again.out).toContain(url);
  await expect.poll(() => existsSync(opened()) && readFileSync(opened(), "utf8")).toBe(`${url}\n`);
  // the first one goes on
  expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(200);

  const other = await serve(join(folder, "others"), "--port", `${port}`).ended;
  expect([other.code, other.out]).toEqual([2, ""]);
  expect(other.err).toBe(
    `name a free port with --port and keep to it: Tubewright serves another folder at port ${port}. A browser keeps jobs by port\n`,
  );
  first.child.kill("SIGINT");
  expect((await first.ended).code).toBe(0);
});

it("two that start at the same moment end up as one", async () => {
  const port = await freePort();
  const both = [
    serve(join(folder, "jobs"), "--port", `${port}`),
    serve(join(folder, "jobs"), "--port", `${port}`),
  ];
  const { code, out } = await Promise.race(both.map((one) => one.ended));
  expect(code).toBe(0);
  expect(out).toContain(`http://127.0.0.1:${port}/`);
  expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(200);
});

it("a port that something else holds is never exchanged for another", async () => {
  const other = createServer(() => {}).listen(0, "127.0.0.1");
  onTestFinished(() => void other.close());
  await new Promise((resolve) => other.once("listening", resolve));
  const { port } = other.address() as { port: number };
  const refused = await serve(join(folder, "jobs"), "--port", `${port}`).ended;
  expect(refused).toEqual({
    code: 2,
    out: "",
    err: `name a free port with --port and keep to it: another program holds port ${port}. A browser keeps jobs by port\n`,
  });
  expect((await serve(join(folder, "jobs"), "--port", "80.5").ended).code).toBe(2);
});
