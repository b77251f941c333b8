import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { expect, it } from "vitest";
import { CAUTIONS } from "../../src/words/cautions.ts";
import { cautionFor, type Step, WHO_DECIDES } from "../../src/words/index.ts";
import { DANGER } from "../support/danger.ts";
import { launch, ready, served, temporary } from "./chromium.ts";
import { atDemo, button, opened, takeBar } from "./hands.ts";

const STEPS = Object.keys(CAUTIONS) as readonly Step[];

/** The steps of an end that is cut to its wrap. */
const BY_WRAP = /^(Use the wrap|Close the wrap|Scribe|Cut to the line)/;

const DEVICES = [
  ["phone", 390, 844],
  ["tablet", 800, 1280],
  ["desktop", 1280, 800],
] as const;

/** What a person sees of a caution without touching anything: every line of it, nothing over it. */
async function seen(caution: Locator): Promise<readonly string[]> {
  return caution.evaluate((p) => {
    const range = document.createRange();
    range.selectNodeContents(p);
    const faults: string[] = [];
    const lines = [...range.getClientRects()];
    if (lines.length === 0) faults.push("no line is drawn");
    for (const { left, right, top, bottom, width } of lines) {
      if (width === 0) continue;
      const where = `${Math.round(left)}–${Math.round(right)} × ${Math.round(top)}–${Math.round(bottom)}`;
      if (left < 0 || top < 0 || right > innerWidth + 0.5 || bottom > innerHeight + 0.5)
        faults.push(`a line is outside the window: ${where}`);
      for (const x of [left + 2, (left + right) / 2, right - 2]) {
        const on = document.elementFromPoint(x, (top + bottom) / 2);
        if (!on || !(on === p || p.contains(on)))
          faults.push(`a line is covered by ${on?.className || on?.tagName}: ${where}`);
      }
    }
    return faults;
  });
}

/** The steps whose cautions are in full sight now. */
async function cautioned(page: Page, where: string): Promise<readonly Step[]> {
  const found: Step[] = [];
  const all = page.locator("p.caution-caution:visible");
  for (let i = 0; i < (await all.count()); i++) {
    const one = all.nth(i);
    const words = (await one.textContent()) ?? "";
    const steps = STEPS.filter((step) => words.includes(cautionFor(step)));
    expect(words, `${where}: only the table's words`).toBe(
      cautionFor(...steps.sort((a, b) => words.indexOf(cautionFor(a)) - words.indexOf(cautionFor(b)))),
    );
    expect(await seen(one), where).toEqual([]);
    found.push(...steps);
  }
  return found;
}

for (const [device, width, height] of DEVICES)
  it(`${device}: every step of every station has its caution in full sight, without a touch`, async () => {
    const page = await atDemo({ viewport: { width, height }, hasTouch: device !== "desktop" });
    await takeBar(page, /^Pillar bar, left/);

    await button(page, "Bender").click();
    const next = button(page, /^Next/);
    for (let step = 1; ; step++) {
      const does = (await page.locator(".stage-does").textContent()) ?? "";
      const steps = await cautioned(page, `bender, step ${step} (${does})`);
      expect(steps, does).toContain(step === 1 ? "saw" : "bender");
      if (!(await next.isVisible())) {
        expect(steps).toContain("lifting");
        break;
      }
      await next.click();
    }

    const kinds = new Set<string>();
    for (const bar of [/^Pillar bar, left/, /^Header bar/]) {
      if (bar.source !== "^Pillar bar, left") await takeBar(page, bar);
      await button(page, "Notcher").click();
      await page.locator(".stage-does").waitFor();
      for (let step = 1; ; step++) {
        const does = (await page.locator(".stage-does").textContent()) ?? "";
        const steps = await cautioned(page, `notcher, step ${step} (${does})`);
        kinds.add(does.replace(/\d+/g, "n"));
        if (BY_WRAP.test(does)) expect(steps).toEqual(["hot cutting", "grinding", "fire watch"]);
        else if (does.startsWith("Saw")) expect(steps).toEqual(["saw"]);
        else if (does.startsWith("Gap")) expect(steps).toEqual(["grinding"]);
        else expect(steps, does).toEqual(["notcher"]);
        if (!(await next.isVisible())) break;
        await next.click();
      }
    }
    expect([...kinds]).toContain("Use the wrap");
    expect(kinds.size).toBeGreaterThan(3);

    await takeBar(page, /^Pillar bar, left/);
    await button(page, "Trestles").click();
    await page.getByRole("heading", { name: /on the trestles/ }).waitFor();
    expect(await cautioned(page, "trestles")).toEqual(["lifting"]);

    await button(page, "Car").click();
    for (const [part, steps] of [
      ["Read", ["axle stands"]],
      ["Points", ["axle stands"]],
      ["Tacked", ["airbags", "tank", "fire watch"]],
      ["Errors", ["axle stands"]],
      ["Way in", ["lifting", "open body"]],
    ] as const) {
      await button(page, part).click();
      await opened(page);
      expect(await cautioned(page, `car, ${part}`)).toEqual(steps);
    }

    await button(page, "Wall").click();
    await button(page, /^Order of fitting/).click();
    await page.getByRole("heading", { name: "Order of fitting" }).waitFor();
    expect(await cautioned(page, "order of fitting")).toEqual(["lifting", "open body"]);
    await page.getByText(WHO_DECIDES).waitFor();

    await button(page, "Jobs").click();
    expect(await page.getByText(WHO_DECIDES).isVisible()).toBe(true);
    await button(page, /^Between two tubes/).click();
    await page.getByText("Net length", { exact: true }).waitFor();
    expect(await cautioned(page, "between two tubes")).toEqual(["saw", "notcher", "hot cutting"]);
  }, 240_000);

for (const [device, width, height] of DEVICES)
  it(`${device}: a danger is over every station, by word and line; it folds to one line and nothing puts it away`, async () => {
    const folder = await temporary();
    await writeFile(join(folder, "low.json"), JSON.stringify(DANGER));
    const server = await served({ folder, open: "low.json" });
    const context = await (await launch()).newContext({ viewport: { width, height } });
    const page = await context.newPage();
    await page.goto(server.url);
    // what is new is read out, in full
    await page.getByRole("alert").filter({ hasText: "DANGER" }).waitFor({ timeout: 20_000 });
    await ready(page);
    const band = page.getByRole("region", { name: "Danger" });
    const line = band.locator(".dangers-line p");
    // folded it is one line, in full sight, with how many and of which bars
    await expect
      .poll(() => line.textContent())
      .toBe("⚠ DANGER 2 Narrow hoop: bent part comes back at you; 1 more");
    expect(await seen(line)).toEqual([]);
    expect((await band.boundingBox())!.height).toBeLessThan(device === "desktop" ? 62 : 86);
    await button(band, "Show").click();
    // no bar in hand: the whole job's, each with its bar
    expect(await band.getByRole("listitem").allTextContents()).toEqual([
      expect.stringMatching(/DANGER Narrow hoop: keep out of the swing at bend 2\. .* mm back past the die/),
      expect.stringMatching(
        /DANGER Hanging leg: raise the bender: at bend 2 the bent part swings into the floor/,
      ),
    ]);
    await takeBar(page, /^Hanging leg.*DANGER/);
    for (const station of ["Wall", "Car", "Bender", "Trestles", "Notcher"]) {
      await button(page, station).click();
      await page.getByRole("main").getByRole("button").first().waitFor();
      await opened(page);
      // it stays open, or folded, from station to station
      const said = band.getByRole("listitem");
      expect(await said.count(), station).toBe(1);
      expect(await seen(said), station).toEqual([]);
      expect(await said.textContent()).toContain("DANGER");
      await expect(band.getByText(WHO_DECIDES).count()).resolves.toBe(1);
      // no key closes it (Esc puts the bar down: then it is the whole job's again); one button folds it to a line, the
      // other leads to what mends it
      await page.keyboard.press("Escape");
      await expect.poll(() => said.count(), { message: station }).toBe(2);
      expect(await said.first().isVisible()).toBe(true);
      await takeBar(page, /^Hanging leg.*DANGER/);
      await expect.poll(() => said.count(), { message: station }).toBe(1);
      expect(await band.getByRole("button").allTextContents()).toEqual([
        "Hide",
        expect.stringMatching(/^Height and side of the bender/),
      ]);
      expect(await band.locator("details, summary, input, a").count()).toBe(0);
      await button(band, "Hide").click();
      expect(await line.textContent()).toBe("⚠ DANGER bent part swings into the floor");
      expect(await seen(line), station).toEqual([]);
      if (station === "Bender" || station === "Notcher") await cautioned(page, `${station} with a danger`);
      await button(band, "Show").click();
    }
    expect(await band.evaluate((e) => getComputedStyle(e).borderBottomStyle)).toBe("double");
    await takeBar(page, /^Cross/);
    expect(await band.count()).toBe(0);
    await button(page, "Wall").click();
    await button(page, /^Order of fitting/).click();
    await page
      .getByRole("list", { name: "Tags, in the order of fitting" })
      .getByRole("button", { name: /Hanging leg/ })
      .getByText("DANGER")
      .waitFor();
  }, 120_000);
