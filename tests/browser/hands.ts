import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { BrowserContextOptions, Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { run } from "../cli/run.ts";
import { launch, served, temporary } from "./chromium.ts";

/** A device that has never seen the app, at the page where one begins. Everything is done by role and visible words. */
export async function blank(options: BrowserContextOptions = {}): Promise<Page> {
  const server = await served();
  const context = await (await launch()).newContext({ viewport: { width: 1400, height: 900 }, ...options });
  const page = await context.newPage();
  page.on("pageerror", (error) => expect.fail(`the page threw: ${error.message}`));
  await page.goto(server.url);
  await page.getByRole("button", { name: "Go to the job" }).waitFor();
  return page;
}

/** The same, gone on to the demo car. */
export async function atDemo(options: BrowserContextOptions = {}): Promise<Page> {
  const page = await blank(options);
  await button(page, "Go to the job").click();
  await page.getByRole("navigation", { name: "Bars" }).waitFor();
  return page;
}

export const button = (at: Page | Locator, name: string | RegExp): Locator =>
  at.getByRole("button", typeof name === "string" ? { name, exact: true } : { name });

/** Takes a bar in hand by the rail: on a phone it is found in the sheet of all bars. */
export async function takeBar(page: Page, name: RegExp): Promise<void> {
  const isPhone = (page.viewportSize()?.width ?? 0) < 600;
  if (isPhone) await button(page, /^Find/).click();
  await button(
    isPhone ? page.getByRole("dialog") : page.getByRole("navigation", { name: "Bars" }),
    name,
  ).click();
}

/** Waits until no part of the page is still being fetched: each says so in its place. */
export const opened = (page: Page): Promise<void> =>
  expect.poll(() => page.getByText("One moment…").count(), { timeout: 30_000 }).toBe(0);

/** Types one figure into the keypad that a button opens; `side`: which way it goes. */
export async function type(page: Page, name: string | RegExp, text: string, side?: string): Promise<void> {
  await button(page, name).click();
  const pad = page.getByRole("dialog");
  await pad.getByRole("textbox").fill(text);
  if (side) await button(pad, side).click();
  await button(pad, "OK").click();
  await pad.waitFor({ state: "detached" });
}

/** Picks from the list that a button opens. */
export async function pick(
  page: Page,
  name: string | RegExp,
  ...choices: (string | RegExp)[]
): Promise<void> {
  await button(page, name).click();
  for (const choice of choices) await button(page.getByRole("dialog"), choice).click();
  await page.getByRole("dialog").waitFor({ state: "detached" });
}

/** Answers the one question that a button asks. */
export async function answer(page: Page, name: string | RegExp, text: string, done: string): Promise<void> {
  await button(page, name).click();
  const asked = page.getByRole("dialog");
  await asked.getByRole("textbox").fill(text);
  await button(asked, done).click();
  await asked.waitFor({ state: "detached" });
}

/** What a button hands out as a file: its name and where it lies. */
export async function handedOut(
  page: Page,
  act: () => Promise<void>,
): Promise<{ name: string; path: string }> {
  const [download] = await Promise.all([page.waitForEvent("download"), act()]);
  const path = join(await temporary(), download.suggestedFilename());
  await download.saveAs(path);
  return { name: download.suggestedFilename(), path };
}

/** The job in hand as its user saves it to a file; the page is the shop again afterwards. */
export async function savedJob(page: Page): Promise<string> {
  await button(page, "Jobs").click();
  const { path } = await handedOut(page, () => button(page, "Save as a file").click());
  await button(page, "Go to the job").click();
  return readFileSync(path, "utf8");
}

/** What the command line answers, as JSON. */
export async function told<T>(args: readonly string[], job: string): Promise<T> {
  const { code, out, err } = await run([args[0]!, "job", ...args.slice(1), "--json"], { job });
  expect(code, err).toBeLessThan(2);
  return JSON.parse(out) as T;
}

export interface Bent {
  readonly bars: readonly {
    readonly id: string;
    readonly length: number;
    readonly blank: number;
    readonly bends: readonly Readonly<Record<string, number>>[];
  }[];
}

/** As the page writes it. */
export const mm = (x: number): string => `${x.toFixed(1)} mm`;
