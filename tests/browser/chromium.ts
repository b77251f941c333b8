import { type ChildProcess, execFile, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdtemp, readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { onTestFinished } from "vitest";
import type { App } from "../../src/app/state.ts";
import { type Served, type ServeOptions, serveJobs } from "../../src/server/index.ts";

/** The system's Chromium (Debian's package chromium). */
const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";

/** Nothing of the browser's own goes out: a closed network must not slow it, and a test of ours counts requests. */
const FLAGS = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-dev-shm-usage",
];

/** The graphics of a machine without a card. */
const SOFTWARE_GL = ["--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"];

/** A browser for one test. `gl`: with a software renderer, for the 3D view. */
export async function launch(options: { readonly gl?: boolean } = {}): Promise<Browser> {
  const args = [...FLAGS, ...(options.gl ? SOFTWARE_GL : ["--disable-gpu"])];
  const browser = await chromium.launch({ executablePath: CHROMIUM, args });
  onTestFinished(() => browser.close());
  return browser;
}

/** A browser on a profile folder that outlives it, and a way to end it as a dead battery does. */
export interface Mortal {
  readonly context: BrowserContext;
  kill(): Promise<void>;
}

export async function launchMortal(profile: string): Promise<Mortal> {
  const args = [
    ...FLAGS,
    "--disable-gpu",
    "--headless",
    "--remote-debugging-port=0",
    `--user-data-dir=${profile}`,
  ];
  // A group of its own, so that the kill takes its children along.
  const child = spawn(CHROMIUM, [...args, "about:blank"], {
    detached: true,
    stdio: ["ignore", "ignore", "pipe"],
  });
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  const kill = async (): Promise<void> => {
    if (child.exitCode === null && child.signalCode === null && child.pid !== undefined)
      process.kill(-child.pid, "SIGKILL");
    await ended;
  };
  onTestFinished(kill);
  const browser = await chromium.connectOverCDP(await devToolsOf(child));
  return { context: browser.contexts()[0]!, kill };
}

function devToolsOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    child.stderr!.on("data", (bytes: Buffer) => {
      said += bytes.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (found) resolve(found[1]!);
    });
    child.once("exit", () => reject(new Error(`the browser ended: ${said}`)));
  });
}

/** A folder that is gone after the test. */
export async function temporary(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true, maxRetries: 5 }));
  return folder;
}

let built: Promise<string> | undefined;

/** The built app, built again whenever a source of it changed; test files that run at once may share it. */
export function builtApp(): Promise<string> {
  built ??= build();
  return built;
}

async function build(): Promise<string> {
  const out = `out/app-${await fingerprint(["src", "demo", "vite.config.ts", "package-lock.json"])}`;
  if (!existsSync(out)) {
    const making = `${out}-${process.pid}`;
    // As a release is built: within a test run the libraries would come in their versions for tests.
    const vite = join(process.cwd(), "node_modules/vite/bin/vite.js");
    const args = [vite, "build", "--logLevel", "error", "--outDir", join(process.cwd(), making)];
    await promisify(execFile)(process.execPath, args, { env: { ...process.env, NODE_ENV: "production" } });
    // Another test file may have been quicker; one of the two is as good as the other.
    await rename(making, out).catch(() => rm(making, { recursive: true }));
  }
  return join(process.cwd(), out);
}

async function fingerprint(roots: readonly string[]): Promise<string> {
  const hash = createHash("sha256");
  for (const root of roots) {
    const inside = (await stat(root)).isDirectory()
      ? (await readdir(root, { recursive: true })).sort()
      : [""];
    for (const name of inside) {
      const path = join(root, name);
      if (!/\.test\.tsx?$/.test(name) && (await stat(path)).isFile())
        hash.update(name).update(await readFile(path));
    }
  }
  return hash.digest("hex").slice(0, 16);
}

/** Serves the built app and a folder of jobs (the demo's) until the test is over. */
export async function served(options: Partial<ServeOptions> = {}): Promise<Served> {
  const server = await serveJobs({ folder: "demo", port: 0, app: await builtApp(), ...options });
  onTestFinished(() => server.close().catch(() => {}));
  return server;
}

/** What a page must never do, gathered while a test runs. */
export interface Watch {
  /** Requests to anything but the server. */
  readonly outside: string[];
  /** Violations of the content security policy, errors, and what the console calls an error. */
  readonly faults: string[];
}

/** Watches all pages of a context from now on. */
export async function watch(context: BrowserContext, origin: string): Promise<Watch> {
  const seen: Watch = { outside: [], faults: [] };
  context.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(`${origin}/`) && !/^(blob|data):/.test(url)) seen.outside.push(url);
  });
  context.on("weberror", (error) => seen.faults.push(String(error.error())));
  context.on("console", (message) => {
    if (message.type() === "error") seen.faults.push(message.text());
  });
  await context.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (e) => {
      console.error(`policy: ${e.violatedDirective} ${e.blockedURI} ${e.sample}`);
    });
  });
  return seen;
}

/** Waits until the app stands with a job whose results are there. */
export async function ready(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const state = (window as unknown as { tubewright?: App }).tubewright?.state.getState();
    return (
      state?.job !== undefined && state.results.document === state.job.document && !state.results.computing
    );
  });
}
