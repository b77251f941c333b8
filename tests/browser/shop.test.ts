import { readFileSync } from "node:fs";
import { createServer, request } from "node:http";
import type { AddressInfo } from "node:net";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it, onTestFinished } from "vitest";
import { WebSocket as Client } from "ws";
import type { App } from "../../src/app/model/state/state.ts";
import { BLUNDER, shellJob } from "../support/shell-job.ts";
import { answer, button, pick, takeBar, type } from "./hands.ts";
import {
  codeFrom,
  type Device,
  deviceOf,
  documentOf,
  keptWords,
  openJob,
  openShop,
  pair,
  type Shop,
  toPage,
} from "./shop-hands.ts";

type Json = Record<string, unknown>;

/** A car read by tape, with two bars that begin and end at points that were read. */
function carJob(): string {
  const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Record<"tubes" | "dies", Json>;
  const { readings, ...shell } = shellJob();
  return JSON.stringify({
    ...shell,
    name: "Kelling road cage",
    tubes: { "40x2": demo.tubes["40x2"] },
    dies: { d40: demo.dies.d40 },
    bars: {
      brace: {
        label: "Roof brace",
        tube: "40x2",
        die: "d40",
        path: [{ point: "sill-left" }, [350, 500, 1000], { point: "roof-middle" }],
      },
      strut: { label: "Turret strut", tube: "40x2", path: [{ point: "turret" }, { point: "pillar-right" }] },
    },
    readings: readings.filter((r) => !("tape" in r && BLUNDER.every((p) => r.tape?.includes(p)))),
  });
}

/** How long what is changed on one device may take to be seen on another (ms). */
const SECOND = 1000;
const KELLING = /^Kelling/;
const PC = "Shop PC";
const TABLET = "Tablet, bender";
const PHONE = "Phone, car";

// one shop and its day: each test goes on where the one before it ended
let shop: Shop;
let pc: Device;
let tablet: Device;
let phone: Device;

beforeAll(async () => {
  shop = await openShop({
    "kelling.json": carJob(),
    "sandling.json": readFileSync("demo/sandling.json", "utf8"),
  });
}, 180_000);
afterAll(() => shop?.close(), 60_000);

const alerts = ({ page }: Device) => page.getByRole("alert");
const present = ({ page }: Device) =>
  page.getByRole("list", { name: "Other devices in this job" }).getByRole("listitem").allTextContents();
const is = (device: Device, words: string | RegExp, timeout = 10_000) =>
  expect.poll(() => keptWords(device.page), { timeout }).toMatch(words);
const inShop = /^in the shop, at \d/;

/** What the bar in hand is called; nothing where there is none. */
const inHand = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const { inHand, job } = (window as unknown as { tubewright: App }).tubewright.state.getState();
    const bars = (job?.document as { bars?: Record<string, { label?: string }> } | undefined)?.bars;
    return inHand === null ? "" : (bars?.[inHand]?.label ?? inHand);
  });
const at = async ({ page }: Device, station: string, bar?: RegExp): Promise<void> => {
  await toPage(page, "");
  if (bar && !bar.test(await inHand(page))) await takeBar(page, bar);
  await button(page, station).click();
};
const rename = async (device: Device, from: RegExp, to: string): Promise<void> => {
  await at(device, "Wall", from);
  await answer(device.page, "Rename", to, "Rename");
};
const bars = async (device: Device) => (await documentOf(device.page)).bars as Record<string, Json>;
const label = async (device: Device, bar: string) => (await bars(device))[bar]?.label;

/** The pictures of docs/running-a-shop.md are taken where TUBEWRIGHT_PICTURES names a folder for them. */
async function picture({ page }: Device, name: string): Promise<void> {
  const { TUBEWRIGHT_PICTURES: folder } = process.env;
  if (folder === undefined) return;
  await page.waitForTimeout(500);
  await page.screenshot({ path: `${folder}/${name}.png` });
}

/** All of them hold one and the same job. */
async function equal(...devices: readonly Device[]): Promise<Json> {
  await expect
    .poll(async () => new Set((await Promise.all(devices.map((d) => documentOf(d.page)))).map(sorted)).size, {
      timeout: 15_000,
    })
    .toBe(1);
  return documentOf(devices[0]!.page);
}
const sorted = (document: Json): string => JSON.stringify(document);

it("PC, tablet and phone come in by the printed address and by codes, and have the job", async () => {
  pc = await deviceOf(shop, "here", { viewport: { width: 1280, height: 800 } });
  await pair(pc, shop.first, PC);
  await openJob(pc.page, KELLING);
  tablet = await deviceOf(shop, "https", { viewport: { width: 800, height: 1280 }, hasTouch: true });
  const code = await codeFrom(pc, "all", tablet.base);
  await pc.page.getByRole("img").first().scrollIntoViewIfNeeded();
  await picture(pc, "1-code-on-the-shop-pc");
  await tablet.page.goto(code);
  await tablet.page.getByLabel("Name of this device").fill(TABLET);
  await picture(tablet, "2-tablet-joins");
  await pair(tablet, code, TABLET);
  await picture(pc, "3-tablet-has-joined");
  phone = await deviceOf(shop, "https", { viewport: { width: 390, height: 844 }, hasTouch: true });
  await pair(phone, await codeFrom(pc, "all", phone.base), PHONE);
  for (const device of [tablet, phone]) {
    await openJob(device.page, KELLING);
    await is(device, inShop);
    expect(await device.page.evaluate(() => isSecureContext)).toBe(true);
    await device.page.evaluate(() => navigator.serviceWorker.ready);
  }
  await at(pc, "Wall");
  await is(pc, inShop);
  await equal(pc, tablet, phone);
}, 180_000);

it("whoever is in the job is seen, with the bar in hand and the station", async () => {
  await at(tablet, "Bender", /^Roof brace/);
  await at(phone, "Car");
  await expect
    .poll(() => present(pc))
    .toEqual([`${TABLET} has Roof brace in hand, Bender`, `${PHONE} is at the Car`]);
  await expect.poll(() => present(tablet)).toContain(`${PC} is at the Wall`);
  await picture(tablet, "4-tablet-at-the-bender");
});

it("a reading in the car changes the card at the bender within a second", async () => {
  const figure = tablet.page.locator(".stage-huge");
  await figure.waitFor();
  await phone.page.evaluate(() => {
    addEventListener(
      "click",
      (event) => {
        if ((event.target as Element).closest("button")?.textContent === "Keep this reading")
          Object.assign(window, { kept: Date.now() });
      },
      true,
    );
  });
  const took: number[] = [];
  await phone.page.getByText("Any other reading").click();
  for (const length of [1354, 1353, 1352.5]) {
    const before = await figure.textContent();
    await tablet.page.evaluate(() => {
      const huge = document.querySelector(".stage-huge");
      const was = huge?.textContent;
      const seen = new MutationObserver(() => {
        if (document.querySelector(".stage-huge")?.textContent === was) return;
        seen.disconnect();
        Object.assign(window, { changed: Date.now() });
      });
      Object.assign(window, { changed: undefined });
      seen.observe(document.body, { subtree: true, childList: true, characterData: true });
    });
    await pick(phone.page, /^From:/, /^Origin mark/);
    await pick(phone.page, /^To:/, /^Roof middle/);
    await type(phone.page, /^Reading:/, String(length));
    if (took.length === 0) await picture(phone, "5-reading-in-the-car");
    await button(phone.page, "Keep this reading").click();
    await expect.poll(() => figure.textContent(), { timeout: 10_000 }).not.toBe(before);
    const time = (page: Page, key: string) =>
      page.evaluate((k) => (window as unknown as Record<string, number>)[k] ?? 0, key);
    took.push((await time(tablet.page, "changed")) - (await time(phone.page, "kept")));
  }
  console.log(`a reading on the phone to the card on the tablet: ${took.join(", ")} ms`);
  expect(Math.min(...took)).toBeGreaterThan(0);
  expect(Math.max(...took)).toBeLessThan(SECOND);
  await equal(pc, tablet, phone);
});

it("with the cable out both work on; back again nothing is lost and all are equal", async () => {
  await tablet.cable.cut();
  await is(tablet, "on this device only");
  await expect.poll(() => present(pc), { timeout: 5000 }).toEqual([`${PHONE} is at the Car`]);
  await rename(tablet, /^Roof brace/, "Brace to the roof");
  await rename(phone, /^Turret strut/, "Strut to the turret");
  await is(phone, inShop);
  // the page comes back without the shop, with what was changed
  await tablet.page.reload();
  await expect.poll(() => label(tablet, "brace"), { timeout: 15_000 }).toBe("Brace to the roof");
  await is(tablet, "on this device only");
  expect(await label(tablet, "strut")).toBe("Turret strut");
  await at(tablet, "Bender");
  await tablet.cable.mend();
  await is(tablet, inShop, 15_000);
  const job = await equal(pc, tablet, phone);
  expect(job.bars).toMatchObject({
    brace: { label: "Brace to the roof" },
    strut: { label: "Strut to the turret" },
  });
  expect(await alerts(tablet).filter({ hasText: "that change counts" }).count()).toBe(0);
});

/** `away` has its cable out while both rename one bar; which of them reads that its name gave way. */
async function bothRename(
  away: Device,
  other: Device,
  names: readonly [away: string, other: string],
  meanwhile?: () => Promise<void>,
): Promise<Device> {
  const was = (await label(away, "strut")) as string;
  await away.cable.cut();
  await is(away, "on this device only");
  await rename(away, new RegExp(`^${was}`), names[0]);
  await rename(other, new RegExp(`^${was}`), names[1]);
  await is(other, inShop);
  await meanwhile?.();
  await away.cable.mend();
  await is(away, inShop, 15_000);
  await is(other, inShop);
  const job = await equal(pc, tablet, phone);
  const counts = (job.bars as Record<string, Json>).strut?.label as string;
  expect(names).toContain(counts);
  const loser = counts === names[1] ? away : other;
  await alerts(loser).filter({ hasText: "that change counts" }).waitFor();
  for (const device of [pc, tablet, phone].filter((d) => d !== loser))
    expect(await alerts(device).filter({ hasText: "that change counts" }).count()).toBe(0);
  const [winner, mine] =
    loser === tablet ? [PHONE, names[loser === away ? 0 : 1]] : [TABLET, names[loser === away ? 0 : 1]];
  expect(await alerts(loser).filter({ hasText: "that change counts" }).locator("summary").textContent()).toBe(
    `Look at ${counts}, its label: ${winner} changed it at the same time, and that change counts.`,
  );
  await button(alerts(loser), "Put mine back").click();
  await expect.poll(() => label(other, "strut")).toBe(mine);
  await equal(pc, tablet, phone);
  expect(await alerts(loser).filter({ hasText: "that change counts" }).count()).toBe(0);
  return loser;
}

it("of one thing changed by two, one change counts, and whoever made the other is told by name and puts it back", async () => {
  const loser = await bothRename(tablet, phone, ["Strut, tablet", "Strut, phone"]);
  const winner = loser === tablet ? phone : tablet;
  // the same two again, now the other one was away: the one that reads it is the same, wherever it was
  expect(await bothRename(winner, loser, ["Strut one", "Strut two"])).toBe(loser);
  // and it reads it too where its page was closed in between
  const again = await bothRename(loser, winner, ["Strut three", "Strut four"], async () => {
    await loser.page.reload();
    await expect.poll(() => label(loser, "strut"), { timeout: 15_000 }).toBe("Strut three");
  });
  expect(again).toBe(loser);
}, 180_000);

it("a state has a name, a bar has its history, and an hour is brought back as a new change", async () => {
  const { page } = pc;
  await toPage(page, "history");
  await answer(page, "Name the state of now", "As quoted", "Keep the name");
  const states = page.getByRole("region", { name: "Named states" });
  await states.getByText("As quoted", { exact: true }).waitFor();
  const quoted = (await bars(pc)).strut;
  await rename(phone, /^Strut/, "Strut after the quote");
  await equal(pc, tablet, phone);
  await toPage(page, "history");
  const entries = page.getByRole("region", { name: "History" }).getByRole("listitem");
  // what came while the page was open is in it
  await entries.first().filter({ hasText: PHONE }).getByText("Strut after the quote, its label").waitFor();
  // what was made of one bar, and by which device
  await page.getByLabel("Show one bar").selectOption({ label: "Strut after the quote" });
  await entries.filter({ hasText: PHONE }).filter({ hasText: "its label" }).first().waitFor();
  expect((await entries.allTextContents()).join()).not.toContain("Brace to the roof");
  await page.getByLabel("Show one bar").selectOption({ index: 0 });
  await entries
    .filter({ hasText: "The shop's folder" })
    .filter({ hasText: "The job came into the shop." })
    .waitFor();
  await picture(pc, "6-history");
  // the named state
  await button(states, "Look at this state").click();
  const look = page.getByRole("dialog");
  await look.getByText("Strut after the quote, its label").waitFor();
  await button(look, "Bring this state back").click();
  await expect.poll(() => label(phone, "strut")).toBe(quoted?.label);
  await equal(pc, tablet, phone);
  // the job as it came into the shop
  await toPage(page, "history");
  await button(entries.filter({ hasText: "The job came into the shop." }), "Look at this state").click();
  await button(look, "Bring this state back").click();
  await expect.poll(() => label(tablet, "strut")).toBe("Turret strut");
  const back = await equal(pc, tablet, phone);
  expect(back).toEqual(JSON.parse(carJob()));
  await at(pc, "Wall");
  await button(page, /^Undo: bring back the job/).click();
  await expect.poll(() => label(tablet, "strut")).toBe(quoted?.label);
  await toPage(page, "history");
  await button(states, "Take the name As quoted away").click();
  await states.getByText("As quoted", { exact: true }).waitFor({ state: "detached" });
}, 120_000);

it("the job's file in the folder is written a few seconds later", async () => {
  await at(tablet, "Bender");
  const file = () => JSON.parse(readFileSync(`${shop.folder}/kelling.json`, "utf8")) as Json;
  await expect.poll(file, { timeout: 20_000 }).toEqual(await documentOf(tablet.page));
});

it("a job that is deleted is gone everywhere, and is brought back", async () => {
  await toPage(pc.page, "jobs");
  await button(pc.page, /^Delete Kelling road cage/).click();
  await button(pc.page.getByRole("dialog"), /^Delete/).click();
  await alerts(tablet).filter({ hasText: "it was deleted in the shop" }).waitFor();
  await is(tablet, "NOT IN THE SHOP");
  expect(await label(tablet, "brace")).toBe("Brace to the roof");
  await button(pc.page, /^Bring Kelling road cage back/).click();
  await openJob(pc.page, KELLING);
  await is(pc, inShop);
  for (const device of [tablet, phone]) {
    await is(device, inShop, 15_000);
    expect(await alerts(device).filter({ hasText: "it was deleted in the shop" }).count()).toBe(0);
  }
  await equal(pc, tablet, phone);
}, 60_000);

it("over plain http a device marks progress, and is refused an edit in one line", async () => {
  const plain = await deviceOf(shop, "http", { viewport: { width: 390, height: 844 }, hasTouch: true });
  await pair(plain, await codeFrom(pc, "all", plain.base), "Old phone");
  await openJob(plain.page, KELLING);
  await is(plain, /^in the shop, at .*; read-only but for progress$/);
  await plain.page.getByText("Open the shop's secure address to change the job").waitFor();
  await rename(plain, /^Strut/, "Not mine to name");
  await alerts(plain).filter({ hasText: "this one shows the job and marks progress" }).waitFor();
  await at(plain, "Bender", /^Strut/);
  await button(plain.page, "Mark as sawn").click();
  await expect.poll(async () => (await bars(pc)).strut?.progress).toBe("sawn");
  expect(await label(pc, "strut")).not.toBe("Not mine to name");
  // Chromium says so wherever a page comes over plain http; it is the policy of the secure address
  expect(plain.faults.filter((line) => !/Cross-Origin-Opener-Policy/.test(line))).toEqual([]);
}, 60_000);

/** What an answer of the shop is to a request that a browser would not let a page make. */
const ask = (path: string, headers: Readonly<Record<string, string>>, method = "GET"): Promise<number> =>
  new Promise((resolve, reject) => {
    const sent = request({ host: "127.0.0.1", port: shop.ports.http, path, method, headers }, (got) => {
      got.resume();
      resolve(got.statusCode ?? 0);
    });
    sent.on("error", reject);
    sent.end();
  });

const socket = (headers: Readonly<Record<string, string>>): Promise<string> =>
  new Promise((resolve) => {
    const one = new Client(`ws://127.0.0.1:${shop.ports.http}/shop/line`, { headers });
    one.on("unexpected-response", (_, got) => resolve(String(got.statusCode)));
    one.on("open", () => resolve("open"));
    one.on("error", () => {});
  });

it("a stranger's page, host name, cookie and socket get nothing", async () => {
  const own = `127.0.0.1:${shop.ports.http}`;
  const [cookie] = await pc.page.context().cookies();
  const Cookie = `${cookie?.name}=${cookie?.value}`;
  expect(await ask("/shop", { Host: own, Cookie })).toBe(200);
  expect(await ask("/shop", { Host: own })).toBe(401);
  expect(await ask("/shop/jobs", { Host: own, Cookie: `${Cookie}x` })).toBe(401);
  expect(await ask("/shop", { Host: `cage.example:${shop.ports.http}`, Cookie })).toBe(403);
  expect(await ask("/shop", { Host: own, Cookie, Origin: "http://cage.example" })).toBe(403);
  expect(await ask("/jobs/kelling.json", { Host: own })).toBe(401);
  const json = { "Content-Type": "application/json" };
  expect(await ask("/shop/codes", { Host: own, Cookie, ...json }, "POST")).toBe(403);
  expect(await ask("/shop/codes", { Host: own, Cookie, ...json, Origin: "http://127.0.0.1:1" }, "POST")).toBe(
    403,
  );
  const Origin = `http://${own}`;
  expect(await socket({ Origin })).toBe("401");
  expect(await socket({ Cookie })).toBe("403");
  expect(await socket({ Cookie, Origin: "http://127.0.0.1:1" })).toBe("403");
  expect(await socket({ Cookie, Origin })).toBe("open");

  // a page from another port of this machine: to the browser the same site, so that the cookie goes along
  const stranger = createServer((_, answer) =>
    answer.setHeader("Content-Type", "text/html").end('<!doctype html><link rel="icon" href="data:,">'),
  );
  await new Promise<void>((resolve) => stranger.listen(0, "127.0.0.1", resolve));
  onTestFinished(() => {
    stranger.closeAllConnections();
    stranger.close();
  });
  const page = await pc.page.context().newPage();
  onTestFinished(() => page.close());
  await page.goto(`http://127.0.0.1:${(stranger.address() as AddressInfo).port}/`);
  const said = pc.faults.length;
  let refused = 0;
  page.on("requestfailed", () => {
    refused++;
  });
  const got = await page.evaluate(async (address) => {
    const tried = async (path: string, init?: RequestInit): Promise<string> =>
      fetch(`http://${address}${path}`, { credentials: "include", ...init }).then(
        (a) => a.text(),
        () => "",
      );
    const body = JSON.stringify({ rights: "all" });
    const line = new WebSocket(`ws://${address}/shop/line`);
    const how = await new Promise((resolve) => {
      line.onopen = () => resolve("open");
      line.onclose = () => resolve("closed");
    });
    return [
      how,
      await tried("/shop/jobs"),
      await tried("/shop/jobs", { mode: "no-cors" }),
      await tried("/shop/codes", { method: "POST", body, mode: "no-cors" }),
      await tried("/shop/codes", { method: "POST", body, headers: { "Content-Type": "application/json" } }),
    ];
  }, own);
  expect(got).toEqual(["closed", "", "", "", ""]);
  expect(refused).toBe(4);
  // what the stranger's page is told in its console
  pc.faults.splice(said);
});

it("a device that is put out is out at once: its page says so, and its edits go nowhere", async () => {
  await toPage(pc.page, "devices");
  await button(pc.page, `Put ${PHONE} out`).click();
  const before = Date.now();
  await button(pc.page.getByRole("dialog"), "Put it out").click();
  await alerts(phone).filter({ hasText: "this device was put out of the shop" }).waitFor();
  expect(Date.now() - before).toBeLessThan(2 * SECOND);
  const device = pc.page.getByRole("listitem").filter({ hasText: PHONE });
  await device.waitFor({ state: "detached" });
  await rename(phone, /^Strut/, "From outside");
  await is(phone, "on this device only");
  await phone.page.waitForTimeout(1500);
  for (const one of [pc, tablet]) expect(await label(one, "strut")).not.toBe("From outside");
  expect(await label(phone, "strut")).toBe("From outside");
  const said = phone.faults.splice(0);
  expect(said.filter((line) => !/status of 401|WebSocket connection to .* failed/.test(line))).toEqual([]);
  await phone.page.reload();
  await alerts(phone).filter({ hasText: "this device was put out of the shop" }).waitFor({ timeout: 15_000 });
  phone.faults.length = 0;
}, 60_000);

it("the shop stops at once, whoever is connected, and the devices say that they are on their own", async () => {
  await at(tablet, "Bender");
  await is(tablet, inShop);
  tablet.cable.expectCut();
  pc.cable.expectCut();
  expect(await shop.stop()).toBeLessThan(5000);
  await is(tablet, "on this device only");
});

it("no console of the three said that anything was wrong", () => {
  expect({ pc: pc.faults, tablet: tablet.faults, phone: phone.faults }).toEqual({
    pc: [],
    tablet: [],
    phone: [],
  });
});
