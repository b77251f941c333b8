import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { trap } from "../../src/app/order/testing.ts";
import { launch, ready, served, temporary, watch } from "./chromium.ts";

const orderOf = (page: Page): Promise<unknown> =>
  page.evaluate(
    () => (window as unknown as { tubewright: App }).tubewright.state.getState().job?.document.order,
  );

/** The tags alone, without the cures beneath them. */
const tags = (page: Page) =>
  page.getByRole("list", { name: "Tags, in the order of fitting" }).getByRole("button", { name: /^\d+ / });

/** Every tag's number, name and what it says, by what a reader of the page is told. */
const tagsOf = (page: Page): Promise<readonly string[]> => tags(page).allInnerTexts();

/** Whether the tag at a place of the row is turned as it hangs. */
const askew = (page: Page, place: number): Promise<boolean> =>
  tags(page)
    .nth(place)
    .evaluate((tag) => new DOMMatrix(getComputedStyle(tag).transform).b !== 0);

it("the row of tags: what cannot go in hangs askew and says why; cured, taken back, gone along, printed", async () => {
  const folder = await temporary();
  await writeFile(join(folder, "trap.json"), JSON.stringify(trap()));
  const server = await served({ folder, open: "trap.json" });
  const context = await (await launch({ gl: true })).newContext({
    viewport: { width: 800, height: 1280 },
    acceptDownloads: true,
  });
  const seen = await watch(context, new URL(server.url).origin);
  const page = await context.newPage();
  await page.goto(server.url);
  await ready(page);

  await page.getByRole("button", { name: /^Order of fitting/ }).click();
  await tags(page).first().waitFor();
  expect(await tagsOf(page)).toHaveLength(4);
  expect((await tagsOf(page)).every((t) => t.includes("not checked"))).toBe(true);
  await page.getByRole("button", { name: "Check all bars" }).click();
  const cure = page.getByRole("button", { name: "Move it before Lower bar" });
  await cure.waitFor({ timeout: 30_000 });
  expect((await tagsOf(page))[3]).toMatch(/^4\s+Upper bar\s+does not go in\s+Lower bar is in its way\.$/);
  await expect.poll(() => askew(page, 3)).toBe(true);
  expect(await askew(page, 2)).toBe(false);

  await cure.click();
  expect(await orderOf(page)).toEqual(["left", "right", "high", "low"]);
  const status = page.getByRole("region", { name: "Order of fitting" }).getByRole("status");
  await expect.poll(() => status.textContent(), { timeout: 30_000 }).toBe("all 4 go in");
  expect((await tagsOf(page))[2]).toMatch(/^3\s+Upper bar\s+goes in free/);
  expect(await askew(page, 2)).toBe(false);

  // Taken back, the answer is there again without looking.
  await page.getByRole("button", { name: /^(Take back|Undo): move Upper bar before Lower bar/ }).click();
  expect(await orderOf(page)).toEqual(["left", "right", "low", "high"]);
  await expect.poll(() => status.textContent()).toBe("1 of 4 does not go in");
  await page.getByRole("button", { name: /^(Do again|Redo): move Upper bar before Lower bar/ }).click();
  await expect.poll(() => status.textContent()).toBe("all 4 go in");

  // In hand, by the two big buttons.
  await tags(page).nth(2).click();
  await page.getByRole("button", { name: "Move earlier" }).click();
  expect(await orderOf(page)).toEqual(["left", "high", "right", "low"]);
  await expect
    .poll(async () => (await tagsOf(page))[1], { timeout: 30_000 })
    .toContain("lands on Post, right");
  await page.getByRole("button", { name: "Move later" }).click();
  await expect.poll(() => status.textContent(), { timeout: 30_000 }).toBe("all 4 go in");

  // The sheet, on paper.
  await page.getByRole("button", { name: "Print the order" }).click();
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save Order of fitting" }).click(),
  ]);
  expect(file.suggestedFilename()).toBe("order-of-fitting.pdf");
  await page.keyboard.press("Escape");

  // The way in, at the car.
  await page.getByRole("button", { name: "Show its way in" }).click();
  const slider = page.getByRole("slider", { name: /Along the way/ });
  const left = async (): Promise<number> =>
    Number(/([\d.]+) mm to go/.exec((await slider.getAttribute("aria-valuetext")) ?? "")?.[1] ?? "0");
  const whole = await left();
  expect(whole).toBeGreaterThan(500);
  await page.getByRole("button", { name: "Next step" }).click();
  const less = await left();
  expect(less).toBeLessThan(whole);
  expect(whole - less).toBeLessThanOrEqual(60.1);
  await page.getByText("seen from the front left").waitFor();
  expect(
    await page.getByRole("region", { name: "Along the way" }).locator("p[aria-live]").textContent(),
  ).toContain("Up.");
  await page.getByRole("button", { name: "Previous step" }).click();
  expect(await left()).toBe(whole);
  await slider.fill("1000");
  expect(await slider.getAttribute("aria-valuetext")).toBe("seated");
  expect(await page.getByRole("button", { name: "Next step" }).isDisabled()).toBe(true);
  await page.getByRole("heading", { name: /3\. Upper bar/ }).click();
  await page.keyboard.press("ArrowLeft");
  expect(await left()).toBeGreaterThan(0);

  // The fourth question.
  await page.getByRole("button", { name: "Wall", exact: true }).click();
  await page.getByRole("region", { name: "Order of fitting" }).getByRole("button", { name: "Close" }).click();
  const fourth = page.locator(".answer-answer", { hasText: "Will it go in?" });
  await expect.poll(() => fourth.textContent()).toMatch(/free[\s\S]*Straight in, up/);
  expect(seen).toEqual({ outside: [], faults: [] });
}, 120_000);
