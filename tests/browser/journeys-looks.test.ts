import { expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { blank, button, opened, takeBar } from "./hands.ts";
import { looked } from "./looked.ts";

for (const [device, width, height] of [
  ["phone", 390, 844],
  ["tablet", 800, 1280],
  ["desktop", 1400, 900],
] as const)
  it(`${device}: nothing serious on any page, light or dark, and figures that stand out`, async () => {
    const page = await blank({
      viewport: { width, height },
      colorScheme: "light",
      hasTouch: device !== "desktop",
    });
    const found: string[] = [];
    let strong = 0;
    const look = async (where: string): Promise<void> => {
      await opened(page);
      for (const [colorScheme, rules] of [
        ["dark", "contrast"],
        ["light", "all"],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        const { bad, strong: good } = await looked(page, rules);
        strong += good;
        for (const line of bad) found.push(`${where}, ${colorScheme}: ${line}`);
      }
    };
    await look("jobs");
    await button(page, /^Between two tubes/).click();
    await page.getByText("Net length", { exact: true }).waitFor();
    await look("between two tubes");
    await button(page, "Jobs").click();
    await button(page, "Go to the job").click();
    await page.getByRole("main").getByRole("heading").first().waitFor();
    await look("wall, no bar");
    await takeBar(page, /^Pillar bar, left/);
    const stations = page.getByRole("navigation", { name: "Stations" }).getByRole("button");
    for (const name of await stations.allTextContents()) {
      await button(page, name).click();
      await page.getByRole("main").getByRole("button").first().waitFor();
      // an end that is cut to its wrap has fewer steps than one that is sawn
      const next = button(page, /^Next/);
      for (let i = 0; i < 5 && (await next.isVisible()); i++) await next.click();
      await look(name);
    }
    await button(page, "Wall").click();
    await button(page, /^Corner 1: distance up/).click();
    await look("keypad");
    await page.keyboard.press("Escape");
    await button(page, /^Views/).click();
    await look("views");
    await page.keyboard.press("Escape");
    await button(page, /^\? Keys/).click();
    await look("keys");
    await page.keyboard.press("Escape");
    if (device !== "desktop") {
      await button(page, /^Find/).click();
      await look("list of bars");
      await page.keyboard.press("Escape");
    }
    await page.evaluate(() => {
      const { tubewright } = window as unknown as { tubewright: App };
      tubewright.do.run({
        name: "the harness bar up",
        edit(document) {
          const copy = JSON.parse(JSON.stringify(document));
          copy.bars["harness-bar"].path[0].along = 600;
          return { ok: true, document: copy };
        },
      });
    });
    await button(page, "Show each").click();
    await look("what a change did, bar by bar");
    await page.evaluate(() => {
      location.hash = "print";
    });
    await page.getByRole("heading", { name: /^\d+ pages$/ }).waitFor();
    await look("print");
    await page.evaluate(async () => {
      const { tubewright } = window as unknown as { tubewright: App };
      await tubewright.do.newJob({ format: "tubewright job", version: 2, name: "Empty" });
      location.hash = "";
    });
    for (const name of await stations.allTextContents()) {
      await button(page, name).click();
      await page.getByRole("main").getByRole("button").first().waitFor();
      await look(`${name}, empty`);
    }
    expect(found).toEqual([]);
    expect(strong).toBeGreaterThan(20);
  }, 120_000);

it("no state is told by colour alone: words stand beside it, or the line is another", async () => {
  const page = await blank();
  await button(page, "Go to the job").click();
  const bars = page.getByRole("navigation", { name: "Bars" }).getByRole("button");
  const words = /(laid out|sawn|bent|notched|fitted|tacked|welded)(, look)?$|has no place yet$/;
  for (const text of await bars.allTextContents()) expect(text).toMatch(words);
  await button(page, /^Main hoop/).click();
  await page.getByRole("main").getByRole("heading", { name: "Main hoop" }).waitFor();
  await opened(page);
  // what is chosen has another edge than what is not
  const edges = await page.evaluate(() => {
    const edge = (e: Element): string => {
      const s = getComputedStyle(e);
      return `${s.fontWeight} ${s.borderTopWidth} ${s.borderLeftWidth} ${s.borderLeftStyle}`;
    };
    const all = [...document.querySelectorAll("button[aria-pressed='true'], button[aria-current='page']")];
    return all.map((on) => {
      const off = [...on.closest("nav, ul, [role=group], [role=toolbar]")!.querySelectorAll("button")].find(
        (b) => b.getAttribute("aria-pressed") !== "true" && b.getAttribute("aria-current") !== "page",
      )!;
      return [on.textContent, edge(on), edge(off)];
    });
  });
  expect(edges.length).toBeGreaterThan(1);
  for (const [name, on, off] of edges) expect(on, name!).not.toBe(off);
  for (const finding of await page
    .getByRole("list", { name: "Findings" })
    .getByRole("listitem")
    .allTextContents())
    expect(finding).toMatch(/^(note|warning|error|danger) /);
});
