import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { atDemo, button, opened } from "./hands.ts";
import { looked } from "./looked.ts";

type Window = typeof globalThis & { tubewright: App };

/** Answers come from the worker, and parts of the page from the disk. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 30_000 });
const rail = (page: Page) => page.getByRole("navigation", { name: "Bars" });
const inHand = (page: Page) =>
  page.evaluate(() => (window as unknown as Window).tubewright.state.getState().inHand);
const names = (page: Page) => rail(page).locator("button[data-bar] .rail-name").allTextContents();
const focused = (page: Page) =>
  page.evaluate(() => document.activeElement?.querySelector(".rail-name")?.textContent);
const progress = (page: Page) =>
  page.evaluate(() => {
    const { job } = (window as unknown as Window).tubewright.state.getState();
    const bars = Object.entries(job!.document.bars as Record<string, { progress?: string }>);
    return Object.fromEntries(bars.flatMap(([id, bar]) => (bar.progress ? [[id, bar.progress]] : [])));
  });

it("at a desk: found by keys, sorted, several marked done at once and taken back at once", async () => {
  const page = await atDemo();
  await opened(page);
  const all = await names(page);
  expect(all.length).toBe(36);

  // find: the key goes to the field, and no key of the page fires while one types
  await page.keyboard.press("/");
  await page.keyboard.type("2 hoop [");
  await soon(() => names(page)).toEqual([]);
  expect(await inHand(page)).toBeNull();
  await page.getByRole("searchbox", { name: "Find a bar" }).fill("low hoop");
  await soon(() => names(page).then((n) => n[0])).toBe("Hoop diagonal, lower half");
  await page.getByText(/^\d+ of 36 found$/).waitFor();
  await page.keyboard.press("Enter");
  await soon(() => inHand(page)).toBe("hoop-diagonal-lower-half");
  await soon(() => focused(page)).toBe("Hoop diagonal, lower half");
  expect(await names(page)).toEqual(all);

  // along the rail, and the bar beside
  await page.keyboard.press("ArrowDown");
  expect(await focused(page)).toBe(all[4]);
  await page.keyboard.press("End");
  expect(await focused(page)).toBe(all[35]);
  await page.keyboard.press("Home");
  await page.keyboard.press("Enter");
  await soon(() => inHand(page)).toBe("main-hoop");
  await page.keyboard.press("]");
  await soon(() => inHand(page)).toBe("harness-bar");
  await page.keyboard.press("Escape");
  await soon(() => inHand(page)).toBeNull();
  await page.keyboard.press("3");
  await page.getByRole("heading", { name: /^Take a bar in hand/ }).waitFor();
  await page.keyboard.press("1");

  // sorted by place; the choice is the device's
  await button(page, /^Sort/).click();
  await button(page.getByRole("dialog"), /^Place in the car/).click();
  await soon(() => rail(page).getByRole("heading").allTextContents()).toEqual([
    expect.stringMatching(/^Front \d+$/),
    expect.stringMatching(/^Middle \d+$/),
    expect.stringMatching(/^Rear \d+$/),
  ]);
  const byPlace = await names(page);
  expect([...byPlace].sort()).toEqual([...all].sort());
  await page.reload();
  await soon(() => names(page)).toEqual(byPlace);
  await button(page, /^Sort/).click();
  await button(page.getByRole("dialog"), /^Order of fitting/).click();
  await button(page.getByRole("region", { name: "Bars of the job" }), "Order of fitting").waitFor();
  await button(page, /^Sort/).click();
  await button(page.getByRole("dialog"), /^As in the job/).click();

  // three bars by mouse and keys; all sawn at once, and back
  await rail(page)
    .locator("[data-bar=main-hoop]")
    .click({ modifiers: ["Control"] });
  await rail(page)
    .locator("[data-bar=hoop-diagonal-upper-half]")
    .click({ modifiers: ["Shift"] });
  await page.getByText("3 marked of 36").waitFor();
  expect(await inHand(page)).toBeNull();
  await button(page, "Mark done…").click();
  expect((await looked(page, "all")).bad).toEqual([]);
  await button(page.getByRole("dialog"), "Sawn").click();
  await soon(() => progress(page)).toEqual({
    "main-hoop": "sawn",
    "harness-bar": "sawn",
    "hoop-diagonal-upper-half": "sawn",
  });
  await button(page, "Undo: 3 bars: sawn").waitFor();
  await button(page, "Mark done…").click();
  await button(page.getByRole("dialog"), "Bent").click();
  await page.getByText(/^Left as they are: .*Harness bar \(no bends\)/).waitFor();
  await soon(() => progress(page).then((p) => p["main-hoop"])).toBe("bent");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await soon(() => progress(page)).toEqual({});
  await page.keyboard.press("Control+Shift+z");
  await soon(() => progress(page).then((p) => p["main-hoop"])).toBe("sawn");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Escape");
  await soon(() => page.getByText(/marked of 36$/).count()).toBe(0);

  // the list of keys; under it the page has none; print is our own page
  await page.keyboard.press("?");
  const list = page.getByRole("dialog", { name: "Keys and stations" });
  await list.getByText("Ctrl+Shift+Z").waitFor();
  expect((await looked(page, "all")).bad).toEqual([]);
  await page.keyboard.press("]");
  expect(await inHand(page)).toBeNull();
  await page.keyboard.press("Escape");
  await list.waitFor({ state: "detached" });
  await page.keyboard.press("Control+p");
  await soon(() => page.evaluate(() => location.hash)).toBe("#print");
});

it("a drag draws no row of the rail again, and what changes in one bar's words only that one", async () => {
  const page = await atDemo();
  await opened(page);
  // the demo's dangers need the whole job, and come after its bars
  await page.getByText(/^36 bars · .*to check$/).waitFor();
  const drawn = await page.evaluate(async () => {
    const { tubewright: app } = window as unknown as Window;
    const rows = (): HTMLElement[] => [...document.querySelectorAll<HTMLElement>("button[data-bar]")];
    // what React was last given for a row is another object whenever the row was drawn again
    const given = (row: HTMLElement): unknown =>
      (row as unknown as Record<string, unknown>)[
        Object.keys(row).find((key) => key.startsWith("__reactProps"))!
      ];
    const settled = async (): Promise<void> => {
      await app.computer.settled();
      await new Promise((done) => setTimeout(done, 300));
    };
    const edit = (to: (bar: Record<string, unknown>) => Record<string, unknown>, id: string) =>
      app.do.run(
        {
          name: "edit",
          edit: (document) => {
            const bars = document.bars as Record<string, Record<string, unknown>>;
            return { ok: true, document: { ...document, bars: { ...bars, [id]: to(bars[id]!) } } as never };
          },
        },
        "drag",
      );
    const counted = async (act: () => void): Promise<number> => {
      await settled();
      const before = rows().map(given);
      act();
      await settled();
      return rows().filter((row, i) => given(row) !== before[i]).length;
    };
    let drag = 0;
    for (let step = 1; step <= 4; step++)
      drag += await counted(() => edit((bar) => ({ ...bar, trim: { A: 20 + step, B: 30 } }), "harness-bar"));
    const moved = app.state.getState().results.bars.get("harness-bar")!.bend.trim;
    const name = await counted(() => edit((bar) => ({ ...bar, label: "Belt bar" }), "harness-bar"));
    return { drag, name, moved };
  });
  expect(drawn.moved).toMatchObject({ A: 24 });
  expect(drawn.drag).toBe(0);
  expect(drawn.name).toBe(1);
});

it("on a phone: one bar and the ways to those beside it; all of them in a sheet, found and marked", async () => {
  const page = await atDemo({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await opened(page);
  await page.getByText(/^36 bars/).waitFor();
  await button(page, "Take the next bar").tap();
  await page.getByText("bar 1 of 36").waitFor();
  await button(page, "Take the next bar").tap();
  expect(await inHand(page)).toBe("harness-bar");
  await button(page, /^Find/).tap();
  const sheet = page.getByRole("dialog", { name: "Bars" });
  await sheet.getByRole("searchbox").fill("turret left");
  await soon(() => names(page)).toContain("Front turret bar, left");
  await button(sheet, "Mark several").tap();
  await button(sheet, "Mark all found").tap();
  await sheet.getByText(/^[1-9]\d* marked of 36$/).waitFor();
  expect((await looked(page, "all")).bad).toEqual([]);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("dialog button, dialog label")]
      .map((e) => ({ name: e.textContent, box: e.getBoundingClientRect() }))
      .filter(({ box }) => Math.min(box.width, box.height) < 68)
      .map(({ name, box }) => `${name} ${box.width} × ${box.height}`),
  );
  expect(small.filter((s) => !s.startsWith(" "))).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await rail(page).locator("[data-bar^=front-turret]").first().tap();
  await sheet.waitFor({ state: "detached" });
  expect(await inHand(page)).toMatch(/^front-turret/);
  await button(page, /^Find.*marked/).waitFor();
  await button(page, "? Keys and stations").tap();
  await page.getByRole("dialog").getByText("One finger turns it.").waitFor();
  await button(page.getByRole("dialog"), "Use dark colours").tap();
  expect((await looked(page, "all")).bad).toEqual([]);
});
