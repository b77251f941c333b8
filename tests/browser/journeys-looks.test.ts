import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults, RunOptions } from "axe-core";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { blank, button } from "./hands.ts";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

type Axe = { run(where: unknown, how: RunOptions): Promise<AxeResults> };

/** What axe finds serious or worse, each with its place, and how many places it looked at and found good. */
async function looked(
  page: Page,
  only: readonly string[],
  options: RunOptions,
): Promise<{ bad: string[]; good: number }> {
  await page.evaluate(AXE);
  const { violations, passes } = await page.evaluate(
    ([include, how]) =>
      (window as unknown as { axe: Axe }).axe.run({ include: include.map((one) => [one]) }, how),
    [only, options] as const,
  );
  const bad = violations
    .filter((v) => v.impact === "serious" || v.impact === "critical")
    .flatMap((v) =>
      v.nodes.map((n) => `${v.id}: ${n.target.join(" ")} ${n.failureSummary?.split("\n")[1]?.trim() ?? ""}`),
    );
  return { bad, good: passes.reduce((sum, p) => sum + p.nodes.length, 0) };
}

/** WCAG 2.2, 1.4.3: 4.5 : 1, and 3 : 1 for large print. Here 4.5 : 1 however large. */
const contrast = (id: "color-contrast" | "color-contrast-enhanced", ratio: number) =>
  ({
    runOnly: [id],
    checks: {
      [id]: { options: { contrastRatio: { normal: { expected: ratio }, large: { expected: ratio } } } },
    },
  }) as RunOptions;

/** Figures and step words stand out 7 : 1 in the light of an open door. */
const STRONG = [".huge", ".does", ".step-says", ".figure", ".end-figure"];

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
      const all = await looked(page, ["body"], {});
      for (const line of all.bad) found.push(`${where}: ${line}`);
      const there = await page.evaluate((list) => list.filter((one) => document.querySelector(one)), STRONG);
      for (const colorScheme of ["dark", "light"] as const) {
        await page.emulateMedia({ colorScheme });
        const plain = await looked(page, ["body"], contrast("color-contrast", 4.5));
        const figures =
          there.length > 0
            ? await looked(page, there, contrast("color-contrast-enhanced", 7))
            : { bad: [], good: 0 };
        strong += figures.good;
        expect(plain.good, where).toBeGreaterThan(3);
        for (const line of [...plain.bad, ...figures.bad]) found.push(`${where}, ${colorScheme}: ${line}`);
      }
    };
    await look("jobs");
    await button(page, /^Between two tubes/).click();
    await page.getByText("How long?").waitFor();
    await look("between two tubes");
    await button(page, "Jobs").click();
    await button(page, "Go to it").click();
    await look("wall, no bar");
    await button(page, /^Pillar bar, left/).click();
    const stations = page.getByRole("navigation", { name: "Stations" }).getByRole("button");
    for (const name of await stations.allTextContents()) {
      await button(page, name).click();
      await page.getByRole("main").getByRole("heading").first().waitFor();
      if (await button(page, /^Next/).isVisible())
        for (let i = 0; i < 5; i++) await button(page, /^Next/).click();
      await look(name);
    }
    await button(page, "Wall").click();
    await button(page, /^Corner 1: how far up/).click();
    await look("keypad");
    expect(found).toEqual([]);
    expect(strong).toBeGreaterThan(20);
  });

it("no state is told by colour alone: words stand beside it, or the line is another", async () => {
  const page = await blank();
  await button(page, "Go to it").click();
  const bars = page.getByRole("navigation", { name: "Bars" }).getByRole("button");
  const words = /(laid out|sawn|bent|notched|fitted|tacked|welded)(, look)?$|has no place yet$/;
  for (const text of await bars.allTextContents()) expect(text).toMatch(words);
  await button(page, /^Main hoop/).click();
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
    .getByRole("list", { name: "To look at" })
    .getByRole("listitem")
    .allTextContents())
    expect(finding).toMatch(/^(note|warning|error|danger) /);
});
