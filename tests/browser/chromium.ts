import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, onTestFinished } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { type Served, type ServeOptions, serveJobs } from "../../src/server/index.ts";
import { builtApp, CHROMIUM, FLAGS, SOFTWARE_GL } from "./built.ts";

/** The browsers of this file's tests, by what they draw with: to start one takes as long as many a test. */
const started = new Map<boolean, Browser>();
afterAll(async () => {
  for (const browser of started.values()) await browser.close();
});

/**
 * A browser without a page: what a test opens in it is gone with the test, and no other sees anything of it. `gl`: with a
 * software renderer, for the 3D view.
 */
export async function launch({ gl = false }: { readonly gl?: boolean } = {}): Promise<Browser> {
  const running = started.get(gl);
  const args = [...FLAGS, ...(gl ? SOFTWARE_GL : ["--disable-gpu"])];
  const browser = running?.isConnected()
    ? running
    : await chromium.launch({ executablePath: CHROMIUM, args });
  started.set(gl, browser);
  onTestFinished(async () => {
    for (const context of browser.contexts()) await context.close();
  });
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
