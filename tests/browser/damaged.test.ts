import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { launch, ready, served } from "./chromium.ts";
import { stateOf, tamper } from "./failing.ts";
import { button, handedOut } from "./hands.ts";

type Window = typeof globalThis & { tubewright: App };

const newJob = (page: Page, document: object) =>
  page.evaluate(
    (job) => (window as unknown as Window).tubewright.do.newJob(job as never),
    document as Record<string, unknown>,
  );
const small = { format: "tubewright job", version: 1, name: "Second", tubes: {}, bars: {} };
const jobRow = (page: Page, name: string) => page.locator(".jobs-open").filter({ hasText: name });

async function demoPage(): Promise<Page> {
  const server = await served();
  const context = await (await launch()).newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  page.on("pageerror", (error) => expect.fail(`the page threw: ${error.message}`));
  await page.goto(`${server.url}#jobs`);
  await ready(page);
  return page;
}

it("one damaged record hides no other, says what is wrong, and hands out what can be read and itself", async () => {
  const page = await demoPage();
  const { id, name } = await stateOf(page);
  await newJob(page, small);
  // the demo's last change becomes rubbish, and two entries of the list as well
  await tamper(page, { store: "updates", put: { job: id, update: new Uint8Array([9, 9]) } });
  await tamper(page, { store: "jobs", put: { id: "rubbish", name: { a: 1 }, changed: "never" } });
  await tamper(page, { store: "jobs", del: id! });
  await tamper(page, { store: "device", key: "where", put: { job: id, station: "wall", inHand: null } });
  await page.reload();
  // it was the last one open: the start says so, and the page is there
  const alert = page.getByRole("alert");
  await alert.filter({ hasText: "is damaged on this device" }).waitFor({ timeout: 60_000 });
  expect(await alert.textContent()).toContain("Change 2 of 2 in its record cannot be read");
  expect((await stateOf(page)).jobs.map((job) => job.id).sort()).toEqual(
    [id!, "rubbish", (await stateOf(page)).jobs.find((job) => job.name === "Second")!.id].sort(),
  );

  const raw = await handedOut(page, () => button(page, "Save the raw record").click());
  expect(raw.name).toMatch(/-record\.json$/);
  const record = JSON.parse(readFileSync(raw.path, "utf8"));
  expect(record).toMatchObject({ format: "tubewright raw record", updates: [expect.any(String), "CQk="] });
  const rest = await handedOut(page, () => button(page, "Save what can be read").click());
  expect(JSON.parse(readFileSync(rest.path, "utf8"))).toEqual(
    JSON.parse(readFileSync("demo/sandling.json", "utf8")),
  );
  await button(page, "Open what can be read").click();
  await expect.poll(async () => (await stateOf(page)).name).toBe(`${name} (recovered)`);
  expect(await stateOf(page)).toMatchObject({ kept: "kept", damaged: undefined });

  await button(page, "Jobs").click();
  await jobRow(page, "Second").click();
  await expect.poll(async () => (await stateOf(page)).name).toBe("Second");
  await button(page, "Jobs").click();
  await button(page, "Delete Job without a name").first().click();
  await button(page.getByRole("dialog"), "Delete the job").click();
  await expect.poll(async () => (await stateOf(page)).jobs.length).toBe(3);
}, 180_000);

it("whatever the document holds, the page is there and says what is wrong", async () => {
  const page = await demoPage();
  for (const rubbish of [
    { name: 5 },
    { ...small, name: { of: "things" } },
    { ...small, bars: 7 },
    { ...small, bars: { a: null, b: "x", c: { path: "y", tube: 3 }, d: { path: [{ on: 4 }, null] } } },
    { ...small, tubes: [1, 2], dies: "none", plates: { p: 1 }, points: { q: 2 }, show: null },
    { ...small, readings: {}, made: 3, body: [], bender: "x", notcher: 1, shop: null, order: {} },
  ]) {
    await newJob(page, rubbish);
    await page.evaluate(() => {
      location.hash = "";
    });
    for (const station of ["Car", "Bender", "Trestles", "Notcher", "Wall"]) {
      await button(page, station).click();
      await expect
        .poll(() => page.getByRole("alert").count(), { message: JSON.stringify(rubbish) })
        .toBeGreaterThan(0);
      expect(await page.locator("main").textContent()).not.toBe("");
    }
  }
}, 180_000);

it("a part of the program that does not come is said in its place, and the rest stays", async () => {
  const page = await demoPage();
  await page.route(/notcher-[^/]*\.js$/, (route) => route.abort());
  // what the device keeps of the program would come in its place
  await page.evaluate(async () => {
    const all = await navigator.serviceWorker.getRegistrations();
    await Promise.all(all.map((one) => one.unregister()));
  });
  await button(page, "Go to the job").click();
  await button(page, "Notcher").click();
  await page.getByRole("alert").filter({ hasText: "This page cannot be shown" }).waitFor();
  const { name } = await handedOut(page, () => button(page, "Save to a file").click());
  expect(name).toContain("sandling");
  await button(page, "Wall").click();
  await expect.poll(() => page.getByRole("alert").filter({ hasNotText: "DANGER" }).count()).toBe(0);
}, 120_000);
