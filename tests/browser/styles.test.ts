import { appendFile, cp, readdir } from "node:fs/promises";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { builtApp } from "./built.ts";
import { launch, ready, served, temporary } from "./chromium.ts";

const PLACES = ["wall", "car", "bender", "trestles", "notcher", "jobs", "between", "print"] as const;
type Place = (typeof PLACES)[number];

/** What is first seen of every place: a heading or a button that it has and no other. */
async function walkTo(page: Page, place: Place): Promise<void> {
  await page.evaluate((to) => {
    const { tubewright } = window as unknown as { tubewright: App };
    // what is printed is of the bar in hand
    if (to === "print") tubewright.do.take("harness-bar");
    if (to === "jobs" || to === "between" || to === "print") {
      location.hash = `#${to}`;
      return;
    }
    location.hash = "#shop";
    tubewright.do.take("harness-bar");
    tubewright.do.goTo(to);
  }, place);
  await page.waitForLoadState("networkidle");
  await page.getByRole("main").getByRole("button").first().waitFor();
  // its pages are counted once all are drawn
  if (place === "print") await page.getByRole("heading", { name: /^\d+ pages?$/ }).waitFor();
  await settled(page);
}

/** Waits until nothing is on its way any more: no figure is awaited, and three readings one after the other are the same. */
async function settled(page: Page): Promise<void> {
  const read = (): Promise<string> => page.locator("body").innerHTML();
  const awaited = page.locator("summary", { hasText: "…" }).or(page.getByText("One moment…"));
  for (let [before, same] = ["", 0]; same < 3; ) {
    const now = await read();
    same = now === before && (await awaited.count()) === 0 ? same + 1 : 0;
    before = now;
    await page.waitForTimeout(350);
  }
}

/**
 * The computed style of every element that a person sees: its own name, then all properties but the few that follow from
 * the moment and not from a rule. The 3D picture draws itself, and the names over it move with it.
 */
const looks = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const skip = new Set(["perspective-origin", "transform-origin", "animation-name", "transform"]);
    const all = [...document.querySelectorAll("body *")].filter(
      (e) => !e.closest("script, [aria-hidden=true][class*=names]") && e.tagName !== "CANVAS",
    );
    return all.map((e) => {
      const style = getComputedStyle(e);
      // their order is the browser's own affair
      const rows = [...style]
        .sort()
        .filter((name) => !skip.has(name))
        .map((name) => `${name}: ${style.getPropertyValue(name)}`);
      return `${e.tagName.toLowerCase()}.${e.getAttribute("class") ?? ""} | ${rows.join("; ")}`;
    });
  });

async function fresh(browser: Browser, url: string): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  await page.goto(url);
  await ready(page);
  return page;
}

/** The first thing in which two looks differ, short enough to read. */
function difference(first: readonly string[], last: readonly string[]): string | undefined {
  for (const [i, was] of first.entries()) {
    const is = last[i] ?? "";
    if (was === is) continue;
    const [name, before = ""] = was.split(" | ");
    const [other, after = ""] = is.split(" | ");
    if (name !== other) return `${name}, then ${other} (element ${i} of ${first.length})`;
    const only = (rows: string, others: string): string =>
      rows
        .split("; ")
        .filter((row) => !others.split("; ").includes(row))
        .slice(0, 3)
        .join("; ");
    return `${name}: ${only(before, after)} → ${only(after, before)}`;
  }
  return first.length === last.length ? undefined : `${first.length} elements, then ${last.length}`;
}

/** Opens each place first in a fresh page, and again last, after all others; what looks another way, by place. */
async function differences(
  browser: Browser,
  url: string,
  places: readonly Place[] = PLACES,
): Promise<Readonly<Record<string, string>>> {
  const found: Record<string, string> = {};
  const firsts = new Map<Place, readonly string[]>();
  for (const place of places) {
    const page = await fresh(browser, url);
    await walkTo(page, place);
    firsts.set(place, await looks(page));
    await page.context().close();
  }
  const page = await fresh(browser, url);
  for (const place of places) await walkTo(page, place);
  for (const place of places) {
    await walkTo(page, place);
    const differs = difference(firsts.get(place) ?? [], await looks(page));
    if (differs !== undefined) found[place] = differs;
  }
  await page.context().close();
  return found;
}

/** A copy of the built app, in whose notcher's styles a rule reaches beyond its module (`:global(.parts-row)`). */
async function planted(): Promise<string> {
  const app = await temporary();
  await cp(await builtApp(), app, { recursive: true });
  const assets = join(app, "assets");
  const sheets = (await readdir(assets)).filter((name) => /^notcher-.*\.css$/.test(name));
  expect(sheets).toHaveLength(1);
  for (const sheet of sheets) await appendFile(join(assets, sheet), ".parts-row{gap:1px}");
  return app;
}

describe("styles", () => {
  it("are the same whichever station was opened first", async () => {
    const server = await served();
    expect(await differences(await launch(), server.url)).toEqual({});
  }, 600_000);

  it("that reach beyond their module are found", async () => {
    const server = await served({ app: await planted() });
    const found = await differences(await launch(), server.url, ["wall", "notcher"]);
    expect(found.wall).toMatch(/parts-row: .*gap/);
  }, 300_000);
});
