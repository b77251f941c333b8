import { readFileSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { trap } from "../../src/app/order/testing.ts";
import { shellJob } from "../support/shell-job.ts";
import { faultsOf } from "../words/wording.ts";
import { builtApp } from "./built.ts";
import { ready } from "./chromium.ts";
import { blank, button, opened } from "./hands.ts";
import { DRAWN, namesAsBars, textsOf } from "./texts.ts";

beforeAll(async () => {
  await builtApp();
}, 120_000);

type Json = Record<string, unknown>;
const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Json & { bars: Json };
/** What files and the command line call the demo's bars. */
const IDS = Object.keys(demo.bars).filter((id) => id.includes("-"));
/** Waits until no part of the page is still being fetched, and what is asked is in its dialog. */
async function isThere(page: Page): Promise<void> {
  await opened(page);
  await page.waitForFunction(() => {
    const { asked, again } = (window as unknown as { tubewright: App }).tubewright.state.getState();
    return (asked === undefined && again === undefined) || document.querySelector("dialog[open]") !== null;
  });
}

/** What is wrong with the texts of the pages gone through, each once, with the place where it was first seen. */
function reader(page: Page, presses: boolean) {
  const read = new Set<string>();
  const faults: string[] = [];
  return {
    faults,
    presses,
    count: () => read.size,
    async look(where: string): Promise<void> {
      await isThere(page);
      for (const text of await textsOf(page)) {
        if (read.has(text)) continue;
        read.add(text);
        const ids = IDS.filter((id) => new RegExp(`(?<![\\w-])${id}(?![\\w-])`).test(text));
        // how many steps there are is no chance
        const steps = text.replace(/\bStep \d+ of \d+\b/, "Step");
        const plain = namesAsBars(steps);
        const isDrawn = plain.startsWith(DRAWN);
        const worded = faultsOf(isDrawn ? plain.slice(DRAWN.length) : plain);
        const wrong = [
          ...worded.filter((w) => !isDrawn || !w.startsWith("ends in")),
          ...ids.map((id) => `ID of a bar: ${id}`),
        ];
        for (const why of wrong) faults.push(`${where}: ${why} — ${text}`);
      }
    },
  };
}
type Reader = ReturnType<typeof reader>;

async function open(page: Page, job: unknown): Promise<void> {
  await page.evaluate(async (text) => {
    await (window as unknown as { tubewright: App }).tubewright.do.openFile("words.json", text);
    location.hash = "";
  }, JSON.stringify(job));
  await ready(page);
}

/** What leaves the page, or hands a file out, is not pressed. */
const LEAVES = /^(Print|Save|Reload|Restart|Open|Delete all)\b/;

const dialogOf = (page: Page): Locator => page.locator("dialog[open]");

/** One of a kind is pressed: "Wall 2.50 mm" opens what "Wall 2.00 mm" opens, and each bar of a list what the others open. */
const kindOf = (name: string): string => namesAsBars(name).replace(/[\d./\s]+/g, " ");

/** Presses each button of a part of the page; reads what opens, and what that opens; takes back what it changed. */
async function press(page: Page, reading: Reader, part: Locator, where: string): Promise<void> {
  if (!reading.presses) return;
  const before = await placeOf(page);
  const names = await part
    .getByRole("button")
    .evaluateAll((all) =>
      all.map((b) =>
        b.checkVisibility() && !(b as HTMLButtonElement).disabled ? (b.ariaLabel ?? b.textContent) : null,
      ),
    );
  const pressed = new Set<string>();
  for (const [i, name] of names.entries()) {
    if (name === null || LEAVES.test(name)) continue;
    const kind = kindOf(name);
    if (pressed.has(kind)) continue;
    pressed.add(kind);
    const at = part.getByRole("button").nth(i);
    await at.click({ timeout: 1500 }).catch(() => undefined);
    await reading.look(`${where} › ${name}`);
    const hasChoices = (await dialogOf(page).getByRole("list").count()) > 0;
    const inside = hasChoices ? await choicesIn(page) : [];
    const opened = new Set<string>();
    for (const [k, choice] of inside.entries()) {
      if (LEAVES.test(choice) || opened.has(kindOf(choice))) continue;
      opened.add(kindOf(choice));
      await dialogOf(page)
        .getByRole("listitem")
        .getByRole("button")
        .nth(k)
        .click({ timeout: 1500 })
        .catch(() => undefined);
      if ((await dialogOf(page).count()) > 0) await reading.look(`${where} › ${name} › ${choice}`);
      await back(page, before);
      await at.click({ timeout: 1500 }).catch(() => undefined);
    }
    await back(page, before);
  }
}

const choicesIn = (page: Page): Promise<readonly string[]> =>
  dialogOf(page)
    .getByRole("listitem")
    .getByRole("button")
    .evaluateAll((all) => all.slice(0, 8).map((b) => b.textContent ?? ""));

interface Place {
  readonly station: Parameters<App["do"]["goTo"]>[0];
  readonly inHand: string | null;
  readonly steps: Readonly<Record<string, number>>;
  readonly undo: string | undefined;
  readonly hash: string;
}

const placeOf = (page: Page): Promise<Place> =>
  page.evaluate(() => {
    const { station, inHand, steps, job } = (
      window as unknown as { tubewright: App }
    ).tubewright.state.getState();
    return { station, inHand, steps, undo: job?.undo, hash: location.hash };
  });

/** Closes what is open and goes back to where one was, with the job as it was. */
async function back(page: Page, place: Place): Promise<void> {
  for (let i = 0; i < 4 && (await dialogOf(page).count()) > 0; i++) await page.keyboard.press("Escape");
  await page.evaluate((was) => {
    const app = (window as unknown as { tubewright: App }).tubewright;
    for (let i = 0; i < 5 && app.state.getState().job?.undo !== was.undo; i++) app.do.undo();
    app.do.dismiss();
    if (location.hash !== was.hash) location.hash = was.hash;
    const { station, inHand, steps } = app.state.getState();
    if (station !== was.station) app.do.goTo(was.station);
    if (inHand !== was.inHand) app.do.take(was.inHand);
    for (const [key, step] of Object.entries(steps))
      if (step !== (was.steps[key] ?? 0)) app.do.setStep(key, was.steps[key] ?? 0);
  }, place);
}

const act = (page: Page, take: string | null, goTo: Place["station"]): Promise<void> =>
  page.evaluate(
    ([bar, station]) => {
      const { do: actions } = (window as unknown as { tubewright: App }).tubewright;
      actions.take(bar);
      actions.goTo(station);
    },
    [take, goTo] as const,
  );

/** The answers to what a page asked of the plan. */
const settled = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => document.querySelectorAll('main [aria-busy="true"]').length === 0);

const main = (page: Page): Locator => page.getByRole("main");

/** The demo as a shop works on it: a bar read when it was bent, one read when it was tacked. */
const worked = (length: "mm" | "in"): Json => ({
  ...demo,
  show: { length, fraction: 16 },
  made: {
    "pillar-bar-left": {
      bent: [
        { what: "end-to-end", size: 1500 },
        { what: "leg", end: "B", size: 616 },
        { what: "angle", bend: 1, angle: 27.4, struck: true, note: "read again" },
      ],
    },
    "main-hoop": {
      tacked: [{ what: "height", of: { bar: "main-hoop", along: 1300 }, over: "outside", size: 1111.5 }],
    },
  },
});

/** One part of the program, read in one unit: `go` takes the page through it. */
function reads(
  what: string,
  least: number,
  go: (page: Page, reading: Reader, unit: "mm" | "in") => Promise<void>,
): void {
  for (const unit of ["mm", "in"] as const)
    it(`${what} in ${unit}: worded by the lists, and no bar by its ID`, async () => {
      const page = await blank({ viewport: { width: 1440, height: 1000 } });
      page.setDefaultTimeout(15_000);
      // inches are written by one writer: what opens behind a button is read once, in millimetres
      const reading = reader(page, unit === "mm");
      await go(page, reading, unit);
      expect(reading.count()).toBeGreaterThan(unit === "mm" ? least : least / 4);
      expect(reading.faults).toEqual([]);
    }, 400_000);
}

reads("jobs and between two tubes", 60, async (page, reading, unit) => {
  await reading.look("Jobs");
  await press(page, reading, main(page), "Jobs");
  await page.evaluate(() => {
    location.hash = "between";
  });
  const units = main(page).getByRole("group", { name: "Units" });
  await units
    .getByRole("button")
    .nth(unit === "mm" ? 0 : 1)
    .click();
  await main(page).locator("summary").first().waitFor();
  await page.waitForTimeout(500);
  for (const more of await main(page).locator("summary").all()) await more.click();
  await reading.look("Between");
  await press(page, reading, main(page), "Between");
});

reads("the wall", 150, async (page, reading, unit) => {
  await open(page, worked(unit));
  await act(page, null, "wall");
  await reading.look("Wall, no bar");
  await press(page, reading, main(page), "Wall, no bar");
  // come from the device once, the list of keys opens at once
  await button(page, /^\? Keys/).click();
  await dialogOf(page).waitFor();
  await page.keyboard.press("Escape");
  await press(page, reading, page.getByRole("banner"), "Top");
  for (const bar of ["main-hoop", "door-bar-through-left"]) {
    await act(page, bar, "wall");
    await page.getByRole("region", { name: "The bar in hand" }).locator("summary").first().waitFor();
    await isThere(page);
    for (const more of await main(page).locator("summary").all()) await more.click();
    await reading.look(`Wall, ${bar}`);
    await press(page, reading, main(page), `Wall, ${bar}`);
  }
});

reads("bender and notcher, every step", 80, async (page, reading, unit) => {
  await open(page, worked(unit));
  for (const bar of ["pillar-bar-left", "header-bar", "harness-bar"])
    for (const station of ["bender", "notcher"] as const) {
      await act(page, bar, station);
      await main(page)
        .getByText(/^Step 1 of/)
        .waitFor();
      for (let step = 1; ; step++) {
        await reading.look(`${station}, ${bar}, step ${step}`);
        const next = button(main(page), /^Next/);
        if (!(await next.isVisible())) break;
        await next.click();
      }
      if (bar !== "header-bar") await press(page, reading, main(page), `${station}, ${bar}, the last step`);
    }
});

reads("the trestles", 60, async (page, reading, unit) => {
  await open(page, worked(unit));
  for (const bar of ["pillar-bar-left", "main-hoop", "harness-bar"]) {
    await act(page, bar, "trestles");
    await main(page).getByRole("heading").first().waitFor();
    await settled(page);
    await reading.look(`Trestles, ${bar}`);
    if (bar === "pillar-bar-left") await press(page, reading, main(page), `Trestles, ${bar}`);
  }
});

const carParts = (page: Page): Locator =>
  main(page).getByRole("group", { name: "At the car" }).getByRole("button");

reads("the car", 100, async (page, reading, unit) => {
  for (const [job, bar, parts] of [
    [worked(unit), "main-hoop", [0, 1, 2, 3, 4]],
    [{ ...shellJob(), show: { length: unit, fraction: 16 } }, null, [0, 1]],
  ] as const) {
    await open(page, job);
    await act(page, bar, "car");
    for (const k of parts) {
      await carParts(page).nth(k).click();
      await settled(page);
      const where = `Car, ${(await carParts(page).nth(k).textContent()) ?? ""}`;
      if (k === 3) await button(main(page), "Calculate").click();
      if (k === 3) await main(page).getByRole("listitem").nth(2).waitFor({ timeout: 120_000 });
      await reading.look(where);
      await press(page, reading, main(page), where);
    }
  }
});

reads("the order of fitting and the ways in", 60, async (page, reading, unit) => {
  await open(page, { ...trap(), show: { length: unit, fraction: 16 } });
  await act(page, "high", "wall");
  await button(main(page), /^Order of fitting/).click();
  await page.getByRole("heading", { name: "Order of fitting" }).waitFor();
  await reading.look("Order");
  await press(page, reading, page.getByRole("region", { name: "Order of fitting" }), "Order");
  const cure = button(main(page), /^Move it before/);
  if (!(await cure.isVisible())) await button(main(page), "Check all bars").click();
  await cure.waitFor({ timeout: 120_000 });
  await reading.look("Order, checked");
  await button(main(page), "Find an order").click();
  await page.getByRole("region", { name: "The order found" }).waitFor({ timeout: 120_000 });
  await reading.look("Order, found");
  for (const bar of ["high", "low"]) {
    await act(page, bar, "car");
    await carParts(page).nth(4).click();
    await reading.look(`Way in, ${bar}`);
    await press(page, reading, main(page), `Way in, ${bar}`);
  }
});
