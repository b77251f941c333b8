import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { launch, ready, served } from "./chromium.ts";
import { FAILURES, stateOf } from "./failing.ts";
import { button, handedOut } from "./hands.ts";

/** Nothing of the start takes longer than this, the steps behind each other and a slow machine included (ms). */
const SOON = 30_000;

async function start(
  failure: keyof typeof FAILURES,
  options: { readonly path?: string } = {},
): Promise<{ page: Page; errors: string[] }> {
  const server = await served();
  const context = await (await launch()).newContext({ viewport: { width: 1280, height: 800 } });
  await context.addInitScript(FAILURES[failure]);
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  await page.goto(new URL(options.path ?? "/", server.url).href);
  return { page, errors };
}

const alerts = (page: Page) => page.getByRole("alert").allTextContents();
const keptWord = (page: Page) => page.locator(".top-kept").textContent();
/** The colour of attention, as the style sheet has it. */
const isInAttention = (page: Page, selector: string) =>
  page.locator(selector).evaluate((e) => {
    const probe = document.createElement("i");
    probe.style.color = "var(--look)";
    document.body.append(probe);
    const wanted = getComputedStyle(probe).color;
    probe.remove();
    return getComputedStyle(e).color === wanted;
  });

describe("memory alone", () => {
  it.each([
    ["no database", /nothing is saved on this device now.*no database/],
    ["a database that may not be looked at", /nothing is saved on this device now.*\(SecurityError\)/],
    [
      "a database that never opens",
      /nothing is saved on this device now.*Close the other windows.*did not open within 5 seconds/,
    ],
    [
      "a database that cannot be opened on a full disk",
      /nothing is saved on this device now.*the disk of this device is full/,
    ],
  ] as const)("says so all the time: %s", async (failure, sentence) => {
    const { page, errors } = await start(failure);
    await button(page, "Go to the job").click({ timeout: SOON });
    await ready(page);
    for (const station of ["Notcher", "Wall"]) {
      await button(page, station).click();
      expect(await keptWord(page)).toBe("NOT SAVED: IN THIS PAGE ONLY");
      expect(await isInAttention(page, ".top-kept")).toBe(true);
      expect((await alerts(page)).filter((text) => sentence.test(text))).toHaveLength(1);
    }
    const { name, path } = await handedOut(page, () => button(page, "Save to a file").click());
    expect([name, path.length > 0]).toEqual(["sandling-3-door-hill-climb-cage-invented.json", true]);
    await button(page, "Jobs").click();
    expect(await page.getByRole("heading", { name: "In this page only" }).count()).toBe(1);
    expect(await page.getByText("On this device", { exact: true }).count()).toBe(0);
    expect((await alerts(page)).filter((text) => sentence.test(text))).toHaveLength(1);
    expect(errors).toEqual([]);
  });

  it("a database of a newer version is named as that, and stays as it is", async () => {
    const server = await served();
    const page = await (await launch()).newPage();
    await page.goto(new URL("/jobs", server.url).href);
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const request = indexedDB.open("tubewright", 9);
          request.onupgradeneeded = () => request.result.createObjectStore("jobs").put("theirs", "key");
          request.onsuccess = () => {
            request.result.close();
            resolve();
          };
        }),
    );
    await page.goto(server.url);
    await ready(page);
    expect((await alerts(page)).join()).toContain("it wrote the jobs here, and this one cannot read them");
    expect((await stateOf(page)).kept).toBe("memory");
    const theirs = await page.evaluate(
      () =>
        new Promise((resolve) => {
          const request = indexedDB.open("tubewright");
          request.onsuccess = () => {
            const get = request.result.transaction("jobs").objectStore("jobs").get("key");
            get.onsuccess = () => resolve([request.result.version, get.result]);
          };
        }),
    );
    expect(theirs).toEqual([9, "theirs"]);
  });
});

describe("what the browser lacks", () => {
  it.each([
    ["no worker", "This browser started no worker"],
    ["a worker that never answers", "This browser started no worker"],
    [
      "no channel between windows",
      "Work on a job in one window at a time: this browser does not connect its windows.",
    ],
  ] as const)("is said, and the page works: %s", async (failure, sentence) => {
    const { page, errors } = await start(failure);
    await button(page, "Go to the job").click({ timeout: SOON });
    await page.getByRole("alert").filter({ hasText: sentence }).waitFor({ timeout: SOON });
    await ready(page);
    expect((await stateOf(page)).bars).toBeGreaterThan(30);
    expect(await keptWord(page)).toBe("saved on this device");
    await button(page.getByRole("alert"), "OK").click();
    expect(await page.getByRole("alert").filter({ hasNotText: "DANGER" }).count()).toBe(0);
    expect(errors).toEqual([]);
  });

  it.each(["locks that are never granted", "no locks", "no storage manager", "no digests"] as const)(
    "is done without: %s",
    async (failure) => {
      const { page, errors } = await start(failure);
      await button(page, "Go to the job").click({ timeout: SOON });
      await ready(page);
      expect((await stateOf(page)).kept).toBe("kept");
      expect(errors).toEqual([]);
    },
  );

  it("the demo is named where it does not come, and one may begin without it", async () => {
    const server = await served();
    const page = await (await launch()).newPage();
    await page.route(/sandling.*\.json/, (route) => route.abort());
    await page.goto(server.url);
    await page.getByRole("alert").filter({ hasText: "demo car" }).waitFor({ timeout: SOON });
    await button(page, /^New job/).click();
    await button(page.getByRole("dialog"), "Create the job").click();
    await expect.poll(async () => (await stateOf(page)).kept).toBe("kept");
  });

  it("a file that the address asks for and that does not come is named", async () => {
    const { page } = await start("no locks", { path: "/?open=nowhere.json" });
    await page.getByRole("alert").filter({ hasText: "nowhere.json" }).waitFor({ timeout: SOON });
    await ready(page);
  });
});

describe("the browser's promise to keep the jobs", () => {
  it.each([
    [true, 0],
    [false, 1],
  ] as const)("is asked for; granted: %s", async (granted, told) => {
    const server = await served();
    const context = await (await launch()).newContext();
    await context.addInitScript((answer) => {
      Object.assign(window, { asked: 0 });
      StorageManager.prototype.persist = async () => {
        (window as unknown as { asked: number }).asked++;
        return answer;
      };
    }, granted);
    const page = await context.newPage();
    await page.goto(server.url);
    await ready(page);
    await expect.poll(() => page.evaluate("window.asked")).toBe(1);
    await expect.poll(() => page.getByText("the browser refused to protect these jobs").count()).toBe(told);
    if (told) expect(await isInAttention(page, ".jobs-unprotected")).toBe(true);
  });
});

describe("one address", () => {
  it("localhost leads to the jobs of 127.0.0.1", async () => {
    const server = await served();
    const page = await (await launch()).newPage();
    await page.goto(server.url);
    await ready(page);
    const { id } = await stateOf(page);
    const other = new URL(server.url);
    other.hostname = "localhost";
    await page.goto(`${other.href}#jobs`);
    await ready(page);
    expect(page.url()).toBe(`${server.url}#jobs`);
    expect(await stateOf(page)).toMatchObject({ id, jobs: [{ id }] });
  });
});
