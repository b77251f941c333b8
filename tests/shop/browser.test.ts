import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:https";
import { createRequire } from "node:module";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { AxeResults } from "axe-core";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { expect, it, onTestFinished } from "vitest";
import { makeLeaf } from "../../src/server/gate/certify.ts";
import { CHROMIUM, FLAGS } from "../browser/built.ts";
import { LAN, type Served, served } from "./served.ts";

/** NSS's own tool (Debian: libnss3-tools): it puts an authority among those that Chromium trusts. */
const canTrust = spawnSync("certutil", ["-H"]).error === undefined;

const temporary = (): string => {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }));
  return folder;
};

/** A browser of its own, in which names and addresses of the shop lead to this machine. */
async function browser(home = temporary()): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(join(home, "profile"), {
    executablePath: CHROMIUM,
    args: [
      ...FLAGS,
      "--disable-gpu",
      `--host-resolver-rules=MAP ${LAN} 127.0.0.1, MAP shop-pc.local 127.0.0.1, MAP bank.example 127.0.0.1`,
    ],
    env: { ...process.env, HOME: home },
    viewport: { width: 360, height: 740 },
  });
  onTestFinished(() => context.close());
  return context;
}

async function trusted(shop: Served): Promise<BrowserContext> {
  const home = temporary();
  const store = `sql:${join(home, ".pki/nssdb")}`;
  mkdirSync(join(home, ".pki/nssdb"), { recursive: true });
  writeFileSync(join(home, "authority.crt"), (await shop.ask("/authority.crt")).bytes);
  execFileSync("certutil", ["-N", "-d", store, "--empty-password"]);
  execFileSync("certutil", ["-A", "-d", store, "-t", "C,,", "-n", "shop", "-i", join(home, "authority.crt")]);
  return browser(home);
}

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What axe finds on a page: labels, contrast, structure. */
async function barriers(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(): Promise<AxeResults> } };
    return (await axe.run()).violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.html}`));
  });
}

it("a person pairs a phone on the page, without a script; it fits the phone and its targets are large", async () => {
  const shop = await served();
  const context = await browser();
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  await page.goto((await shop.gate.firstCode()).url);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  for (const target of await page.locator("a, button, input:not([type=hidden])").all())
    expect((await target.boundingBox())?.height).toBeGreaterThanOrEqual(48);
  await page.getByLabel("Name of this device").fill("tablet, bender");
  await page.getByRole("button", { name: "Join the shop" }).click();
  await page.waitForURL(/\/$/);
  expect(await page.title()).toBe("the app");
  const [cookie] = await context.cookies();
  expect(cookie).toMatchObject({ httpOnly: true, sameSite: "Strict", name: "tubewright", path: "/" });
  expect(faults).toEqual([]);
  // the app's own requests carry the cookie and, where they change something, the origin
  const made = await page.evaluate(async () => {
    const headers = { "Content-Type": "application/json" };
    return (await fetch("/shop/codes", { method: "POST", headers, body: '{"rights":"marks"}' })).status;
  });
  expect(made).toBe(200);
});

it("over plain http from elsewhere the page leads to the secure address, and fits", async () => {
  const shop = await served();
  const page = await (await browser()).newPage();
  await page.goto(`http://shop-pc.local:${shop.ports.http}/`);
  expect(new URL(page.url()).pathname).toBe("/join");
  const text = await page.locator("main").textContent();
  expect(text).toContain(shop.gate.fingerprint());
  expect(text).toContain(`https://shop-pc.local:${shop.ports.https}/join`);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  expect(await barriers(page)).toEqual([]);
  await page.getByLabel("Code", { exact: true }).fill("WRONG");
  await page.getByLabel("Name of this device").fill("phone");
  await page.getByRole("button", { name: "Join the shop" }).click();
  expect(await page.getByRole("alert").textContent()).toContain("Check the code");
  expect(await barriers(page)).toEqual([]);
  expect(await page.getByLabel("Name of this device").inputValue()).toBe("phone");
});

it.skipIf(!canTrust)(
  "a browser that trusts the authority has a secure context by name and address, and takes nothing outside the shop from it",
  async () => {
    const shop = await served();
    const context = await trusted(shop);
    const page = await context.newPage();
    for (const host of [LAN, "shop-pc.local", "127.0.0.1"]) {
      await page.goto(`https://${host}:${shop.ports.https}/join`);
      expect(await page.evaluate(() => [isSecureContext, "serviceWorker" in navigator])).toEqual([
        true,
        true,
      ]);
    }
    const root = JSON.parse(shop.store.records.get("secret")?.get("authority") ?? "");
    const asked = { now: Date.now(), random: (n: number) => new Uint8Array(n).fill(7) };
    const elsewhere = createServer({}, (_, answer) => answer.end("in"));
    await new Promise<void>((resolve) => elsewhere.listen(0, "127.0.0.1", resolve));
    onTestFinished(() => {
      elsewhere.close();
      elsewhere.closeAllConnections();
    });
    const { port } = elsewhere.address() as AddressInfo;
    const visit = async (name: string) => {
      elsewhere.setSecureContext(await makeLeaf(root, { ips: [], names: [name] }, asked));
      return page.goto(`https://${name}:${port}/`);
    };
    expect((await visit("shop-pc.local"))?.status()).toBe(200);
    await expect(visit("bank.example")).rejects.toThrow("ERR_CERT_INVALID");
  },
);
