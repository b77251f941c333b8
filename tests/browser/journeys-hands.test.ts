import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { atDemo, blank, button, takeBar } from "./hands.ts";

/** What has the focus, in words, and whether one sees that it has. */
const focus = (page: Page) =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (!at || at === document.body) return { name: "nothing", seen: false };
    const style = getComputedStyle(at);
    const box = at.getBoundingClientRect();
    const inside = box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth;
    return {
      name: at.getAttribute("aria-label") ?? at.textContent ?? "",
      seen:
        at.matches(":focus-visible") &&
        Number.parseFloat(style.outlineWidth) >= 3 &&
        style.outlineStyle !== "none" &&
        inside,
    };
  });

/** One key, after which the focus is on something that is seen. */
async function press(page: Page, key: string): Promise<string> {
  await page.keyboard.press(key);
  let now = await focus(page);
  if (!now.seen) {
    await page.waitForTimeout(200);
    now = await focus(page);
  }
  expect(now, `after ${key}`).toMatchObject({ seen: true });
  return now.name;
}

/** Tab, or another key, until what is wanted has the focus. */
async function tabTo(
  page: Page,
  wanted: RegExp,
  key: "Tab" | "Shift+Tab" | "ArrowDown" = "Tab",
): Promise<void> {
  for (let i = 0; i < 120; i++) if (wanted.test(await press(page, key))) return;
  expect.fail(`${wanted} is not reached by ${key}`);
}

it("by keys alone: the demo, a bar in hand, every step at the bender, bent", async () => {
  const page = await blank({ viewport: { width: 1000, height: 700 } });
  await tabTo(page, /^Go to the job$/);
  await press(page, "Enter");
  await page.getByRole("navigation", { name: "Bars" }).waitFor();
  await tabTo(page, /^Main hoop/, "Shift+Tab");
  await tabTo(page, /^Pillar bar, left/, "ArrowDown");
  await press(page, "Enter");
  await page.getByRole("heading", { name: "Pillar bar, left", exact: true }).waitFor();
  await tabTo(page, /^Bender$/, "Shift+Tab");
  await press(page, "Enter");
  const step = page.getByText(/^Step \d+ of \d+$/);
  const count = Number(/of (\d+)/.exec((await step.textContent())!)![1]);
  expect(count).toBeGreaterThan(10);
  await tabTo(page, /^Print or save$/);
  // a sheet opened and left: the focus is where it was
  await press(page, "Enter");
  await page.getByRole("dialog").waitFor();
  expect(await press(page, "Escape")).toBe("Print or save");
  await tabTo(page, /^Next/);
  const does: string[] = [];
  for (let n = 1; n < count; n++) {
    expect(await step.textContent()).toBe(`Step ${n} of ${count}`);
    does.push(...(await page.getByRole("heading", { level: 2 }).allTextContents()).slice(-1));
    // by the button that has the focus, and by the arrows
    await press(page, n % 2 ? "Enter" : "ArrowRight");
  }
  const bend = (n: number): string[] => [`Bend ${n}, angle to set`, `Check bend ${n}`];
  expect(does).toEqual([
    "Saw to",
    ...[1, 2, 3].map((n) => `Mark bend ${n}`),
    "Set mark 1 at the die",
    ...bend(1),
    "Turn before bend 2",
    ...bend(2),
    "Turn before bend 3",
    "Bend 3, angle to set",
  ]);
  expect((await focus(page)).name).toBe("Mark as bent");
  await press(page, "Enter");
  await page.getByRole("heading", { name: "Pillar bar, left on the trestles" }).waitFor();
  await button(page, /^Pillar bar, left bent$/).waitFor();
});

it("by keys alone: the focus stays in the page while the next station is still being loaded", async () => {
  const page = await atDemo({ serviceWorkers: "block" });
  await button(page, /^Harness bar/).click();
  await button(page, "Bender").click();
  await page.getByText(/^Step 1 of \d+$/).waitFor();
  // whatever the page asks for from here on is a while on its way
  await page.route(/\/assets\//, async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 1500));
    await route.continue();
  });
  const finish = button(page, "Mark as sawn");
  for (let n = 0; n < 20 && (await finish.count()) === 0; n++) await page.keyboard.press("ArrowRight");
  await finish.focus();
  await page.keyboard.press("Enter");
  await page.getByText("One moment…").waitFor();
  expect((await focus(page)).name).not.toBe("nothing");
  await page.getByRole("heading", { name: /^Harness bar, end/ }).waitFor();
  expect((await focus(page)).name).not.toBe("nothing");
});

/** A finger of a glove: its tip covers 18 mm, 68 CSS pixels at 96 to the inch. */
const GLOVE = 68;

for (const [device, width, height] of [
  ["tablet", 800, 1280],
  ["phone", 390, 844],
] as const)
  it(`by taps alone on a ${device}: a bar in hand, every step at the notcher, notched; each target a glove wide`, async () => {
    const page = await atDemo({ viewport: { width, height }, hasTouch: true, isMobile: true });
    await takeBar(page, /^Front turret bar, left/);
    // a figure by the keypad on the screen, and back
    await button(page, /^End A: distance along Pillar bar, left: 1281.2 mm/).tap();
    const pad = page.getByRole("dialog");
    for (const key of ["5", "0", " ", "7", "/", "1", "6", "in"]) {
      const target = button(pad, key === " " ? "Space" : key);
      const box = (await target.boundingBox())!;
      expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(GLOVE);
      await target.tap();
    }
    await pad.getByText("= 1281.1 mm").waitFor();
    await button(pad, "OK").tap();
    await button(page, /^End A: distance along Pillar bar, left: 50 7\/16 in from its end A$/).waitFor();
    await button(page, /^Undo: Front turret bar, left: end A/).tap();
    await button(page, "Notcher").tap();
    const stage = page.getByRole("region", { name: /^Step \d+ of \d+$/ });
    await stage.waitFor();
    const count = Number(/of (\d+)/.exec((await stage.getAttribute("aria-label"))!)![1]);
    expect(count).toBeGreaterThan(4);
    for (let n = 1; n <= count; n++) {
      await page.getByRole("region", { name: `Step ${n} of ${count}` }).waitFor();
      const small: string[] = [];
      for (const target of await stage.getByRole("button").all()) {
        const box = (await target.boundingBox())!;
        if (Math.min(box.width, box.height) < GLOVE)
          small.push(`${await target.textContent()} ${box.width} × ${box.height}`);
      }
      expect(small).toEqual([]);
      // nothing runs out of the page sideways, and the button is in sight without scrolling
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      const next = button(stage, n < count ? /^Next/ : "Mark Front turret bar, left notched");
      const box = (await next.boundingBox())!;
      expect(box.y + box.height).toBeLessThanOrEqual(height);
      await next.tap();
    }
    await page
      .getByRole("navigation", { name: "Bars" })
      .filter({ hasText: /Front turret bar, left.{0,20} notched/ })
      .waitFor();
  });
