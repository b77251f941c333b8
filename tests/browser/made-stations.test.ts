import type { Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import { builtApp } from "./built.ts";
import { atDemo, button, savedJob, takeBar, type } from "./hands.ts";

beforeAll(async () => {
  await builtApp();
}, 120_000);

const DEVICES = [
  ["phone", 390, 844],
  ["tablet", 800, 1280],
  ["desktop", 1280, 800],
] as const;

const BAR = /^Pillar bar, left/;

/** What is only read where a step is to be done. */
const SAW = /Saw to\b|Saw both ends|Mark as sawn/;
const BEND = /Mark bend \d|Set mark|angle to set|Measure from sawn end|Mark as bent/;
const NOTCH =
  /Cut \d of|Cut, off square|Set the hole saw|Turn the tube|Saw square|Saw flat|Use the wrap|Mark .* notched/;

const text = (page: Page): Promise<string> =>
  page
    .getByRole("main")
    .allInnerTexts()
    .then((all) => all.join("\n"));

/** Every step from the one in sight on: what it does, and its figure. */
async function steps(page: Page): Promise<Map<string, string>> {
  const found = new Map<string, string>();
  const next = button(page, /^Next/);
  for (;;) {
    const does = (await page.locator(".stage-does").textContent()) ?? "";
    const figure = page.locator(".stage-huge");
    const huge = (await figure.count()) > 0 ? ((await figure.textContent()) ?? "") : "";
    found.set(does, huge.replace(/(\d)(mm|in)$/, "$1 $2"));
    if (!(await next.isVisible())) return found;
    await next.click();
  }
}

/** The figures of a record, by what they are. */
async function record(page: Page, heading: string): Promise<Map<string, string>> {
  const section = page.getByRole("region", { name: heading });
  await section.waitFor();
  const rows = await section
    .locator("dl > div")
    .evaluateAll((all) =>
      all.map((e) => [e.querySelector("dt"), e.querySelector("strong")].map((x) => x?.textContent)),
    );
  return new Map(rows as [string, string][]);
}

const at = (page: Page, station: string): Promise<void> => button(page, station).click();

for (const [device, width, height] of DEVICES)
  it(`${device}: a bar from laid out to welded; what is done is a record, never a step again`, async () => {
    const page = await atDemo({ viewport: { width, height }, hasTouch: device !== "desktop" });
    await takeBar(page, BAR);

    // the saw
    await at(page, "Bender");
    await page.locator(".stage-does", { hasText: "Saw to" }).waitFor();
    const sawTo = (await page.locator(".stage-huge").textContent())?.replace(/mm$/, " mm");
    await button(page, "Mark as sawn").click();
    await page.getByRole("region", { name: "As sawn" }).waitFor();
    expect(await text(page)).not.toMatch(SAW);
    expect((await record(page, "As sawn")).get("Sawn length")).toBe(sawTo);

    // the bender
    expect(await page.locator(".stage-does").textContent()).toBe("Mark bend 1");
    const bends = await steps(page);
    expect(bends.size).toBeGreaterThan(4);
    await button(page, "Mark as bent").click();
    await page.getByRole("region", { name: "Bent to these figures" }).waitFor();
    expect(await text(page)).not.toMatch(SAW);
    expect(await button(page, "Mark as bent").count()).toBe(0);
    const atTrestles = await record(page, "Bent to these figures");
    await at(page, "Bender");
    const bent = await record(page, "As bent");
    expect(bent).toEqual(atTrestles);
    for (const pattern of [SAW, BEND]) expect(await text(page)).not.toMatch(pattern);
    expect(await page.locator(".stage-does").count()).toBe(0);
    expect((await record(page, "As sawn")).get("Sawn length")).toBe(sawTo);
    const from = [...bent.keys()].find((k) => k.startsWith("Mark of bend 1,"))?.slice(-1);
    for (const [does, figure] of bends) {
      const [, marked] = /^Mark bend (\d)/.exec(does) ?? [];
      const [, set] = /^Bend (\d), angle to set/.exec(does) ?? [];
      if (marked) expect(bent.get(`Mark of bend ${marked}, from sawn end ${from}`), does).toBe(figure);
      if (set) expect(bent.get(`Angle set, bend ${set}`), does).toBe(figure);
    }

    // the notcher, one end after the other
    await at(page, "Notcher");
    await page.locator(".stage-does").waitFor();
    const first: Map<string, string> = new Map();
    const next = button(page, /^Next/);
    while (!(await button(page, "Mark end A notched").isVisible())) {
      first.set((await page.locator(".stage-does").textContent())!, await huge(page));
      await next.click();
    }
    first.set((await page.locator(".stage-does").textContent())!, await huge(page));
    await button(page, "Mark end A notched").click();
    await page.getByRole("heading", { name: /, end B$/ }).waitFor();
    await button(page, "End A").click();
    sameNotch(first, await record(page, "End A as notched"));
    expect(await text(page)).not.toMatch(NOTCH);
    await button(page, "End B").click();
    await page.locator(".stage-does").waitFor();
    const second = await steps(page);
    await button(page, /^Mark .* notched$/).click();
    await at(page, "Notcher");
    await button(page, "End B").click();
    sameNotch(second, await record(page, "End B as notched"));

    // on to the car: each page stays a record
    for (const step of ["fitted", "tacked", "welded"]) {
      await at(page, "Wall");
      await mark(page, step);
      for (const [station, region] of [
        ["Bender", "As bent"],
        ["Trestles", "Bent to these figures"],
        ["Notcher", "End A as notched"],
      ] as const) {
        await at(page, station);
        await page.getByRole("region", { name: region }).waitFor();
        const seen = await text(page);
        for (const pattern of station === "Trestles" ? [SAW] : [SAW, BEND, NOTCH])
          expect(seen, `${step}, ${station}`).not.toMatch(pattern);
      }
      await at(page, "Bender");
      expect(await record(page, "As bent")).toEqual(bent);
    }

    // made again, the steps are back
    await at(page, "Bender");
    await button(page, "Make again").click();
    await button(page.getByRole("dialog"), "Make it again").click();
    await page.locator(".stage-does", { hasText: "Saw to" }).waitFor();
    expect((await page.locator(".stage-huge").textContent())?.replace(/mm$/, " mm")).toBe(sawTo);
  }, 240_000);

it("the Wall tells what a record says, however the lengths are typed in it", async () => {
  const page = await atDemo();
  const job = JSON.parse(await savedJob(page));
  const [straight, bent] = ["header-bar", "pillar-bar-left"];
  const die = { od: 45, clr: "150 mm", mark: 0, arcFactor: 1 };
  const bends = [{ n: 1, mark: "16 in", angle: 30, turn: 0 }];
  job.bars[straight].progress = "sawn";
  job.bars[bent].progress = "bent";
  job.made = {
    [straight]: { to: { sawn: { tube: { od: 45, wall: 2.5 }, length: "1.2345 m" } } },
    [bent]: {
      to: {
        sawn: { tube: { od: 45, wall: 2.5 }, length: "2 m" },
        bent: { die, fed: "B", zero: "", bends },
      },
    },
  };
  await button(page, "Jobs").click();
  await page.locator("input[type=file]").setInputFiles({
    name: "typed.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(job)),
  });
  const asked = (question: string) => page.locator("summary", { hasText: question });
  await button(page, /^Header bar/).click();
  await asked("How long?").filter({ hasText: "it was sawn to this" }).waitFor();
  expect(await asked("How long?").textContent()).toContain("1234.5");
  await takeBar(page, BAR);
  await asked("Where do I mark?").filter({ hasText: "it was bent at 1 mark, from sawn end B" }).waitFor();
  expect(await asked("How long?").textContent()).toContain("2000.0");
  expect(await asked("Where do I mark?").textContent()).toContain("406.4");
}, 120_000);

const huge = async (page: Page): Promise<string> => {
  const figure = page.locator(".stage-huge");
  return (await figure.count()) > 0
    ? ((await figure.textContent()) ?? "").replace(/(\d)(mm|in)$/, "$1 $2")
    : "";
};

/** The final cut of the steps against the record's. */
function sameNotch(done: ReadonlyMap<string, string>, as: ReadonlyMap<string, string>): void {
  expect(as.size).toBeGreaterThan(1);
  const saw = done.get("Hole saw, outside Ø");
  if (saw !== undefined) {
    expect(as.get("Hole saw, outside Ø")).toBe(saw);
    const cuts = [...done].filter(([does]) => does.startsWith("Cut"));
    expect(as.get("Notch angle, off square")).toBe(cuts[cuts.length - 1]![1]);
    const clock = done.get("Turn the tube: clock of the heel")!;
    const kept = as.get("Clock of the heel")!;
    expect(kept.startsWith(clock) || /on the zero line|opposite/.test(kept)).toBe(true);
  } else if (done.has("Use the wrap")) expect(as.get("Method")).toBe("to its wrap");
  else
    expect(as.get("Flat cut")).toBe(
      done.has("Saw square") ? "square" : `${done.get("Saw flat, off square")} off square`,
    );
}

/** On the wall, where its progress is what a button says. */
async function mark(page: Page, step: string): Promise<void> {
  await button(page, /^(laid out|sawn|bent|notched|fitted|tacked)$/)
    .first()
    .click();
  await button(page.getByRole("dialog"), new RegExp(`^${step}`)).click();
  await page.getByRole("dialog").waitFor({ state: "detached" });
}

it("at the bender: the turn as the card's clock; what is read after a bend is judged at once and is a reading at the trestles", async () => {
  const page = await atDemo({ viewport: { width: 1280, height: 800 } });
  await takeBar(page, BAR);
  await at(page, "Bender");
  const does = page.locator(".stage-does");
  const on = async (to: string): Promise<void> => {
    while ((await does.textContent()) !== to) await button(page, /^Next/).click();
  };
  await on("Turn before bend 2");
  const clock = page.getByRole("img", { name: /Looking along the tube toward the die/ });
  const turn = await huge(page);
  expect(await clock.getAttribute("aria-label")).toContain(`Turn the tube ${turn} clockwise`);
  expect(await clock.locator("text").allTextContents()).toEqual(
    expect.arrayContaining(["L", "R", "1", "bend 2", "toward the die"]),
  );

  await on("Check bend 2");
  const planned = Number.parseFloat(await huge(page));
  const list = page.getByRole("list", { name: "Check bend 2" });
  expect(await list.textContent()).toMatch(new RegExp(`${planned.toFixed(1)}° ± 0\\.\\d°`));
  await type(page, "Angle of bend 2: enter reading", planned.toFixed(1));
  await list.getByText(/^Within ± 0\.\d°\.$/).waitFor();
  await button(page, /^Undo/).click();
  await button(page, "Angle of bend 2: enter reading").waitFor();
  const over = (planned + 1.6).toFixed(1);
  await type(page, "Angle of bend 2: enter reading", over);
  await list.getByText("Off by 1.6° (over): read it at the trestles.").waitFor();
  await on("Check bend 3");
  await type(page, "Leg at end B: enter reading", "26 7/16 in");
  await page.getByText("Within ± 1.8 mm.").waitFor();
  const saved = JSON.parse(await savedJob(page));
  expect(saved.made["pillar-bar-left"]).toEqual({
    bent: [
      { what: "angle", bend: 2, angle: Number(over) },
      { what: "leg", end: "B", size: "26 7/16 in" },
    ],
  });

  await button(page, "Go to the trestles").click();
  const readings = page.getByRole("list", { name: "Readings, the newest first" });
  await readings.waitFor();
  expect(await readings.locator("p:first-child").allInnerTexts()).toEqual([
    expect.stringMatching(/^Leg at end B\s*26 7\/16 in$/),
    expect.stringContaining(`${over}°`),
  ]);
  // its answer goes by them
  await expect
    .poll(async () =>
      Number(/\+(\d\.\d)°$/.exec((await page.getByRole("row", { name: /^bend 2/ }).textContent())!)?.[1]),
    )
    .toBeGreaterThan(1);
}, 120_000);
