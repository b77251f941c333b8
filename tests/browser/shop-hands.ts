import {
  type ChildProcess,
  type ChildProcessWithoutNullStreams,
  execFileSync,
  spawn,
} from "node:child_process";
import { createHash, X509Certificate } from "node:crypto";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { connect, createServer, type Server, type Socket } from "node:net";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import type { App } from "../../src/app/model/state/state.ts";
import { freePort } from "../support/port.ts";
import { builtApp, CHROMIUM, FLAGS } from "./built.ts";
import { ready } from "./chromium.ts";
import { button } from "./hands.ts";

/** This machine's name on its network, as a tablet asks for it (multicast DNS). */
const NAME = `${hostname().toLowerCase().split(".")[0]}.local`;

/** Another one of its names: another address of the same shop, and so another place for a browser's jobs. */
export const OTHER_NAME = NAME.slice(0, -".local".length);

/** The real command, started as a process on a folder of its own. */
export interface Shop {
  readonly folder: string;
  readonly ports: { readonly http: number; readonly https: number };
  /** The address that the terminal prints for the shop PC's own browser. */
  readonly first: string;
  /** Stops the command as Ctrl-C does; how long that took (ms). */
  stop(): Promise<number>;
  /** Devices, the last of them first, then the command and its folders. */
  close(): Promise<void>;
  readonly closing: (() => void | Promise<void>)[];
}

export async function openShop(jobs: Readonly<Record<string, string>>): Promise<Shop> {
  mkdirSync("dist", { recursive: true });
  // the command line as it is built now, with the app as it is built now beside it
  const program = mkdtempSync("dist/try-");
  const folder = mkdtempSync(join(tmpdir(), "tubewright-shop-"));
  const closing: Shop["closing"][number][] = [
    () => rmSync(program, { recursive: true, force: true }),
    () => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }),
  ];
  execFileSync("node", ["tools/build.mjs", program]);
  cpSync(await builtApp(), join(program, "app"), { recursive: true });
  for (const [name, text] of Object.entries(jobs)) writeFileSync(join(folder, name), text);
  const ports = { http: await freePort(), https: await freePort() };
  const where = ["--port", String(ports.http), "--secure-port", String(ports.https), "--name", "Weld & Bend"];
  const child = spawn("node", [join(program, "cli.mjs"), "serve", folder, "--shop", ...where]);
  closing.push(() => ended(child));
  const first = await printed(child);
  return {
    folder,
    ports,
    first,
    closing,
    async stop() {
      const before = Date.now();
      await ended(child);
      return Date.now() - before;
    },
    async close() {
      for (const close of closing.splice(0).reverse()) await close();
    },
  };
}

/** The address that the command prints once it serves; rejects with what it said where it ends instead. */
const printed = (child: ChildProcessWithoutNullStreams): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = "";
    for (const stream of [child.stdout, child.stderr])
      stream.on("data", (bytes) => {
        said += bytes;
        const [, address] = /(http:\S+\/join\?code=\S+)\s/.exec(said) ?? [];
        if (address !== undefined) resolve(address);
      });
    child.once("close", () => reject(new Error(`the shop ended: ${said}`)));
  });

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    if (child.exitCode !== null) return resolve();
    child.once("close", () => resolve());
    child.kill("SIGTERM");
  });

/** The wire between a device and the shop. */
export interface Cable {
  /** From now on the shop may be silent, and a browser may say that in its console. */
  expectCut(): void;
  cut(): Promise<void>;
  mend(): Promise<void>;
  /** The shop has no longer the address of `base`; the network itself is there. */
  lose(): Promise<void>;
}

interface Wire {
  readonly port: number;
  cut(): Promise<void>;
  mend(): Promise<void>;
  close(): Promise<void>;
}

/** Passes bytes on to a port of the shop, until it is cut: then nobody answers, and what was open is gone. */
async function wireTo(port: number): Promise<Wire> {
  const ends = new Set<Socket>();
  const own = await freePort();
  let server: Server | undefined;
  const mend = (): Promise<void> =>
    new Promise((resolve) => {
      server = createServer((near) => {
        const far = connect(port, "127.0.0.1");
        for (const [end, other] of [
          [near, far],
          [far, near],
        ] as const) {
          ends.add(end);
          end.pipe(other);
          end.on("error", () => other.destroy());
          end.on("close", () => {
            ends.delete(end);
            other.destroy();
          });
        }
      }).listen(own, "127.0.0.1", () => resolve());
    });
  const cut = (): Promise<void> =>
    new Promise((resolve) => {
      server?.close(() => resolve());
      for (const end of ends) end.destroy();
    });
  await mend();
  return { port: own, cut, mend, close: cut };
}

/** A browser of its own: a device of the shop. */
export interface Device {
  readonly page: Page;
  readonly cable: Cable;
  /** What its console called an error, beside what a cut cable makes a browser say. */
  readonly faults: string[];
  /** The address under which it reaches the shop. */
  readonly base: string;
}

/** What Chromium itself says of a server that does not answer. */
const CUT = /^(WebSocket connection to .* failed|Failed to load resource: net::ERR_)/;

/** `at`: on the shop PC itself, or elsewhere over one of the two addresses. */
export async function deviceOf(
  shop: Shop,
  at: "here" | "https" | "http",
  options: BrowserContextOptions,
): Promise<Device> {
  const wire = await wireTo(at === "https" ? shop.ports.https : shop.ports.http);
  shop.closing.push(wire.close);
  const elsewhere =
    at === "here"
      ? []
      : [
          `--host-resolver-rules=MAP ${NAME} 127.0.0.1:${wire.port}, MAP ${OTHER_NAME} 127.0.0.1:${shop.ports[at]}`,
          // as a device on which the shop's authority is installed
          `--ignore-certificate-errors-spki-list=${await authorityOf(shop)}`,
        ];
  const browser: Browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: [...FLAGS, "--disable-gpu", ...elsewhere],
  });
  shop.closing.push(() => browser.close());
  const context = await browser.newContext(options);
  const faults: string[] = [];
  let isCut = false;
  context.on("weberror", (error) => faults.push(String(error.error())));
  context.on("console", (message) => {
    if (message.type() === "error" && !(isCut && CUT.test(message.text()))) faults.push(message.text());
  });
  const cable: Cable = {
    expectCut() {
      isCut = true;
    },
    async cut() {
      isCut = true;
      await Promise.all([context.setOffline(true), wire.cut()]);
    },
    async lose() {
      isCut = true;
      await wire.cut();
    },
    async mend() {
      await wire.mend();
      await context.setOffline(false);
      isCut = false;
    },
  };
  const base = at === "here" ? `http://127.0.0.1:${shop.ports.http}` : `${at}://${NAME}:${shop.ports[at]}`;
  return { page: await context.newPage(), cable, faults, base };
}

/** SHA-256 of the public key of the shop's authority, in base64. */
async function authorityOf({ ports }: Shop): Promise<string> {
  const answer = await fetch(`http://127.0.0.1:${ports.http}/authority.crt`);
  const { publicKey } = new X509Certificate(Buffer.from(await answer.arrayBuffer()));
  return createHash("sha256")
    .update(publicKey.export({ type: "spki", format: "der" }))
    .digest("base64");
}

/** Opens the address of a code, gives the device its name, and comes to the app. */
export async function pair({ page }: Device, url: string, name: string): Promise<void> {
  await page.goto(url);
  await page.getByLabel("Name of this device").fill(name);
  await button(page, "Join the shop").click();
  await page.waitForURL(/\/(#.*)?$/);
  await button(page, "Jobs").waitFor();
}

/** A new code, made on the page of devices; the address at which the device will ask. */
export async function codeFrom({ page }: Device, of: "all" | "marks", base: string): Promise<string> {
  await toPage(page, "devices");
  const ways = page.getByText("/join?code=");
  const before = await ways.allTextContents();
  await button(page, /^Code for a device that /)
    .nth(of === "all" ? 0 : 1)
    .click();
  for (;;) {
    const made = (await ways.allTextContents()).find((url) => url.startsWith(base) && !before.includes(url));
    if (made !== undefined) return made;
    await page.waitForTimeout(50);
  }
}

export const toPage = (
  page: Page,
  hash: "" | "jobs" | "devices" | "history" | "photographs",
): Promise<void> =>
  page.evaluate((to) => {
    location.hash = to;
  }, hash);

/** Opens a job of the list of jobs, wherever it is kept. */
export async function openJob(page: Page, name: RegExp): Promise<void> {
  await toPage(page, "jobs");
  await button(page, name).first().click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
  await ready(page);
}

type Window = typeof globalThis & { tubewright: App };

/** The job in hand of a page, as it would be saved. */
export const documentOf = (page: Page): Promise<Record<string, unknown>> =>
  page.evaluate(
    () =>
      JSON.parse(
        JSON.stringify((window as unknown as Window).tubewright.state.getState().job?.document ?? null),
      ) as Record<string, unknown>,
  );

/** What stands under the job's name. */
export const keptWords = (page: Page): Promise<string> =>
  page
    .getByRole("banner")
    .getByRole("status")
    .textContent()
    .then((text) => text ?? "");
