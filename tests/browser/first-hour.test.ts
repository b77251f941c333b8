/** What one meets first: both demos, a job without bars, figures that are examples, one unit on a page. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { answer, blank, button, opened, pick } from "./hands.ts";
import { textsOf } from "./texts.ts";

interface AtWork {
  readonly tubewright: {
    readonly state: {
      getState(): {
        readonly jobs: readonly object[];
        readonly results: { readonly bars: ReadonlyMap<string, object> };
      };
    };
    readonly do: { take(bar: string | null): void; goTo(station: string): void };
  };
}

const STATIONS = ["Wall", "Car", "Bender", "Trestles", "Notcher"] as const;
const FIRST = "Measure the car, or lay out the first bar";

/** What was read in millimetres stays as it was read, whatever the page shows: no other size may be in millimetres. */
const AS_READ = (() => {
  const sizes = new Set<number>();
  const walk = (value: unknown): void => {
    if (typeof value === "number") sizes.add(Math.abs(value));
    else if (typeof value === "object" && value !== null) for (const one of Object.values(value)) walk(one);
  };
  const { readings, made } = JSON.parse(readFileSync("demo/sandling-half-built.json", "utf8"));
  walk(readings);
  for (const { to: _, ...read } of Object.values(made as Record<string, { to?: object }>)) walk(read);
  return sizes;
})();

const openDemo = async (page: Page, name: RegExp): Promise<void> => {
  await button(page, name).click();
  await button(page, /^Main hoop/).waitFor();
  await expect
    .poll(() =>
      page.evaluate(() => (window as unknown as AtWork).tubewright.state.getState().results.bars.size),
    )
    .toBe(36);
};
const jobs = (page: Page): Promise<number> =>
  page.evaluate(() => (window as unknown as AtWork).tubewright.state.getState().jobs.length);
const at = async (page: Page, station: string, bar: string | null): Promise<void> => {
  await page.evaluate(
    ([to, id]) => {
      const act = (window as unknown as AtWork).tubewright.do;
      act.take(id ?? null);
      act.goTo(String(to).toLowerCase());
    },
    [station, bar] as const,
  );
  await opened(page);
};

it("both demos are offered and opened as they were left; a new job says what to do first; examples stay marked; inches alone", async () => {
  const page = await blank();
  await openDemo(page, /^Open the demo car half built/);
  await at(page, "Trestles", "pillar-bar-left");
  await page
    .getByRole("heading", { name: /^Good if end A landed/ })
    .or(page.getByText(/^Good if end A landed/))
    .first()
    .waitFor();
  await button(page, /^Rear stay, left.*make again/).waitFor();
  await at(page, "Car", "main-hoop");
  await button(page, "Points").click();
  await page.getByText("1 of 36 readings does not fit; the rest agree.").waitFor();
  await button(page, "Tacked").click();
  await page
    .getByText(/^3\.\d mm forward$|^4\.\d mm forward$/)
    .first()
    .waitFor();

  // all in inches but what was read in millimetres, and stays as it was read
  await pick(page, "Units: Millimetres, mm", "Inches, to 1/16");
  const left: string[] = [];
  for (const [station, bar] of [
    ["Wall", "rear-stay-left"],
    ["Car", "main-hoop"],
    ["Bender", "door-bar-through-left"],
    ["Trestles", "pillar-bar-left"],
    ["Notcher", "hoop-diagonal-lower-half"],
  ] as const) {
    await at(page, station, bar);
    const texts = await textsOf(page);
    for (const text of texts)
      for (const [, size] of text.matchAll(/([\d.]+)\s?mm\b/g))
        if (!AS_READ.has(Number(size))) left.push(`${station}: ${text}`);
  }
  expect(left).toEqual([]);
  await pick(page, "Units: Inches, to 1/16, in", "Millimetres");

  await button(page, "Jobs").click();
  const before = await jobs(page);
  await openDemo(page, /^Open the demo car half built/);
  expect(await jobs(page)).toBe(before);
  await button(page, "Jobs").click();
  await openDemo(page, /^Open the demo car(?! half)/);
  expect(await page.getByText("tacked", { exact: true }).count()).toBe(0);

  await button(page, "Jobs").click();
  await answer(page, /^New job/, "Empty", "Create the job");
  for (const station of STATIONS) {
    await at(page, station, null);
    if (station === "Car") {
      await button(page, "Set a datum").waitFor();
      await button(page, "Errors").click();
    }
    await page.getByRole("heading", { name: FIRST }).waitFor();
    await button(page, "Between two tubes").waitFor();
  }
  await at(page, "Wall", null);
  await button(page, "Dies").click();
  await answer(page, "New die", "d40", "Add the die");
  const examples = page.getByText("example, replace by your own");
  expect(await examples.count()).toBe(2);
  await button(page, "centreline radius of die d40 is right").click();
  await expect.poll(() => examples.count()).toBe(1);
  await page.waitForTimeout(1500);
  await page.reload();
  await button(page, "Dies").click();
  await expect.poll(() => examples.count()).toBe(1);
}, 240_000);
