import { readFileSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { faultsOf } from "../words/wording.ts";
import { answer, button, opened, takeBar } from "./hands.ts";
import { looked } from "./looked.ts";
import { codeFrom, type Device, deviceOf, openJob, openShop, pair, type Shop, toPage } from "./shop-hands.ts";
import { DRAWN, namesAsBars, textsOf } from "./texts.ts";

type Window = typeof globalThis & { tubewright: App };
const DEMO = readFileSync("demo/sandling.json", "utf8");
const SIZES = [
  ["phone", 390, 844],
  ["tablet", 800, 1280],
  ["desktop", 1280, 800],
] as const;
/** Least size of what is tapped (px). */
const TARGET = 48;

let shop: Shop;
let pc: Device;
let plain: Device;

/** A shop of some days: devices, a named state, a job put away, a file that was not taken in, something that gave way. */
beforeAll(async () => {
  const small = JSON.stringify({ ...JSON.parse(DEMO), name: "Old frame" });
  shop = await openShop({
    "sandling.json": DEMO,
    "old.json": small,
    "third.json": small.replace("Old", "Third"),
  });
  pc = await deviceOf(shop, "here", { viewport: { width: 1280, height: 800 } });
  await pair(pc, shop.first, "Shop PC");
  plain = await deviceOf(shop, "http", { viewport: { width: 390, height: 844 }, hasTouch: true });
  await pair(plain, await codeFrom(pc, "marks", plain.base), "Phone, car");
  await openJob(plain.page, /^Sandling/);
  const { page } = pc;
  await openJob(page, /^Old frame/);
  await toPage(page, "jobs");
  await button(page, "Delete Old frame").click();
  await button(page.getByRole("dialog"), /^Delete/).click();
  await button(page, "Bring Old frame back").waitFor();
  await openJob(page, /^Sandling/);
  await takeBar(page, /^Harness bar/);
  await answer(page, "Rename", "Belt bar", "Rename");
  await toPage(page, "history");
  await answer(page, "Name the state of now", "As quoted", "Keep the name");
  await toPage(page, "photographs");
  await page.locator("input[type=file]").setInputFiles("src/app/public/icon-192.png");
  await page.getByRole("img", { name: /^Belt bar, / }).waitFor();
  writeFileSync(`${shop.folder}/third.json`, "{ not a job");
  await page.getByRole("alert").filter({ hasText: "third.json" }).waitFor({ timeout: 20_000 });
  await page.evaluate(() => {
    const { state } = (window as unknown as Window).tubewright;
    const gave = { id: 1, path: ["bars", "main-hoop", "path"], by: "Tablet, bender", mine: [], theirs: [] };
    state.setState(({ shop: now }) => (now ? { shop: { ...now, gave: [gave] } } : {}));
  });
}, 180_000);
afterAll(() => shop?.close(), 60_000);

/** What is too small to be tapped, and whether the page is wider than its window. */
const tight = (page: Page): Promise<readonly string[]> =>
  page.evaluate((least) => {
    const within = document.querySelector("dialog[open]") ?? document.body;
    const small = [...within.querySelectorAll("button, a[href], select, input:not([type=hidden], [hidden])")]
      .filter((e) => e.checkVisibility())
      .flatMap((e) => {
        const { width, height } = e.getBoundingClientRect();
        // to the tenth of what a screen of fractions of a pixel rounds
        return Math.min(width, height) < least - 0.1 ? [`${e.textContent}: ${width} × ${height}`] : [];
      });
    const over = document.documentElement.scrollWidth - innerWidth;
    return over > 0 ? [...small, `${over} px too wide`] : small;
  }, TARGET);

/** Goes through the pages of the shop; `look` is called at each. */
async function walk(page: Page, look: (where: string) => Promise<void>): Promise<void> {
  await toPage(page, "jobs");
  await button(page, "Bring Old frame back").waitFor();
  await look("jobs");
  await toPage(page, "devices");
  await button(page, "Put Phone, car out").waitFor();
  await look("devices");
  await button(page, "Code for a device that changes everything").click();
  await page.getByRole("img").first().waitFor();
  await look("devices, a code");
  for (const opens of ["Put Phone, car out", "What it may do", "Rename"]) {
    await button(page, opens).first().click();
    await look(`devices, ${opens}`);
    await page.keyboard.press("Escape");
  }
  await toPage(page, "history");
  await page.getByText("The job came into the shop.").waitFor();
  await look("history");
  await button(page.getByRole("region", { name: "History" }), "Look at this state")
    .last()
    .click();
  await page.getByRole("dialog").getByText("Belt bar, its label").waitFor();
  await look("history, a state");
  await page.keyboard.press("Escape");
  await button(page, "Name the state of now").click();
  await look("history, a name");
  await page.keyboard.press("Escape");
  await toPage(page, "photographs");
  await page.getByRole("img", { name: /^Belt bar, / }).waitFor();
  await look("photographs");
  await toPage(page, "");
  await page.getByRole("list", { name: "Other devices in this job" }).waitFor();
  await page.getByRole("alert").filter({ hasText: "that change counts" }).waitFor();
  await look("notices");
}

for (const [device, width, height] of SIZES)
  it(`${device}: the pages of the shop have nothing serious, light or dark, and targets for a glove`, async () => {
    const { page } = pc;
    await page.setViewportSize({ width, height });
    const found: string[] = [];
    const look = async (where: string): Promise<void> => {
      await opened(page);
      for (const [colorScheme, rules] of [
        ["dark", "contrast"],
        ["light", "all"],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        const { bad } = await looked(page, rules);
        for (const line of bad) found.push(`${where}, ${colorScheme}: ${line}`);
        const { TUBEWRIGHT_LOOKS: shots } = process.env;
        if (shots !== undefined)
          await page.screenshot({
            path: `${shots}/${device}-${where.replaceAll(/\W+/g, "-")}-${colorScheme}.png`,
            fullPage: where !== "notices",
          });
      }
      if (where !== "notices") for (const line of await tight(page)) found.push(`${where}: ${line}`);
    };
    await walk(page, look);
    expect(found).toEqual([]);
  }, 180_000);

it("the Jobs page says where each job is", async () => {
  const tablet = await deviceOf(shop, "https", { viewport: { width: 800, height: 1280 } });
  await pair(tablet, await codeFrom(pc, "all", tablet.base), "Tablet, bender");
  const { page } = tablet;
  await openJob(page, /^Sandling/);
  await toPage(page, "jobs");
  const jobs = page.getByRole("region", { name: "Jobs on this device" });
  await jobs.getByRole("button", { name: /^Sandling.* · on this device and in the shop$/ }).waitFor();
  await tablet.cable.cut();
  await page.evaluate(() => {
    const { do: actions } = (window as unknown as Window).tubewright;
    actions.run({
      name: "edit",
      edit: (now) => ({ ok: true, document: { ...now, name: "Sandling, changed" } }),
    });
  });
  await jobs
    .getByRole("button", {
      name: /^Sandling.* · on this device; its last changes are not in the shop yet$/,
    })
    .waitFor();
  await tablet.cable.mend();
  await jobs.getByRole("button", { name: /^Sandling.* · on this device and in the shop$/ }).waitFor();
}, 60_000);

it("every sentence on them is worded by the lists", async () => {
  const read = new Set<string>();
  const found: string[] = [];
  const look = async (page: Page, where: string): Promise<void> => {
    for (const text of await textsOf(page)) {
      if (read.has(text)) continue;
      read.add(text);
      for (const why of faultsOf(namesAsBars(text.replace(DRAWN, ""))))
        found.push(`${where}: ${why} — ${text}`);
    }
  };
  await walk(pc.page, (where) => look(pc.page, where));
  await toPage(plain.page, "");
  await plain.page.getByText("Open the shop's secure address").waitFor();
  await look(plain.page, "over http");
  expect(read.size).toBeGreaterThan(60);
  expect(found).toEqual([]);
}, 120_000);
