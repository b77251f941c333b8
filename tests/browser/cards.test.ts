import { expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { launch, ready, served } from "./chromium.ts";
import { atDemo, button, savedJob } from "./hands.ts";

it("a wrap on the screen keeps its lettering to size, in millimetres of its sheet", async () => {
  const server = await served({ folder: "demo", open: "sandling.json" });
  const page = await (await launch()).newPage({ viewport: { width: 800, height: 1280 } });
  await page.goto(server.url);
  await ready(page);
  await page.evaluate(() => {
    const { tubewright } = window as unknown as { tubewright: App };
    tubewright.do.take("pillar-bar-left");
    tubewright.do.goTo("notcher");
  });
  await page.locator(".picture-drawn svg text").first().waitFor();
  const texts = await page.locator(".picture-drawn svg text").evaluateAll((all) =>
    all.map((text) => ({
      asked: Number(text.getAttribute("font-size")),
      got: getComputedStyle(text).fontSize,
    })),
  );
  expect(texts.length).toBeGreaterThan(10);
  for (const { asked, got } of texts) expect(Number.parseFloat(got)).toBeCloseTo(asked, 3);
});

it("a bar put in hand and a job left for the list of jobs: the page goes on", async () => {
  const server = await served({ folder: "demo", open: "sandling.json" });
  const page = await (await launch()).newPage({ viewport: { width: 800, height: 1280 } });
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  await page.goto(server.url);
  await ready(page);
  await page.getByText("Pillar bar, left", { exact: true }).first().click();
  await page.getByText("Dash bar", { exact: true }).first().click();
  await page.getByText("Jobs", { exact: true }).first().click();
  await page.getByText("Between two tubes").first().waitFor();
  expect(faults).toEqual([]);
});

it("a card is counted once its first step is done", async () => {
  const page = await atDemo();
  const cards = async () => JSON.parse(await savedJob(page)).cards;
  await button(page, /^Pillar bar, left/).click();
  await button(page, "Bender").click();
  await button(page, /^Next/).waitFor();
  expect(await cards()).toBeUndefined();
  await button(page, "Bender").click();
  await button(page, /^Next/).click();
  await expect.poll(cards, { timeout: 20_000 }).toEqual({
    "pillar-bar-left": {
      n: 1,
      code: expect.stringMatching(/^[0-9a-f]{4}$/),
      on: expect.stringMatching(/^\d{4}-\d\d-\d\d$/),
    },
  });
});
