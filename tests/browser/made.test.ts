import { readFileSync } from "node:fs";
import type { Locator, Page } from "playwright-core";
import { beforeAll, expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { WHO_DECIDES } from "../../src/words/index.ts";
import { run } from "../cli/run.ts";
import { easedJob } from "../support/eased.ts";
import { faultsOf } from "../words/wording.ts";
import { builtApp } from "./built.ts";
import { ready } from "./chromium.ts";
import { atDemo, button, savedJob, type } from "./hands.ts";

beforeAll(async () => {
  await builtApp();
}, 120_000);

type Json = Record<string, unknown>;
const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as Json & {
  bars: Record<string, Json & { label: string }>;
};
const label = (id: string): string => demo.bars[id]!.label;

/** The demo with its bars as far as said; `others`: all that are not named. */
const half = (progress: Readonly<Record<string, string>>, others?: string): Json => ({
  ...demo,
  bars: Object.fromEntries(
    Object.entries(demo.bars).map(([id, bar]) => {
      const step = progress[id] ?? others;
      return [id, step === undefined ? bar : { ...bar, progress: step }];
    }),
  ),
});

async function open(page: Page, job: Json): Promise<void> {
  await page.evaluate(async (text) => {
    await (window as unknown as { tubewright: App }).tubewright.do.openFile("half.json", text);
    location.hash = "";
  }, JSON.stringify(job));
  await ready(page);
}

const dialog = (page: Page) => page.getByRole("dialog");
const rail = (page: Page, bar: string) =>
  page.getByRole("navigation", { name: "Bars" }).getByRole("button", { name: new RegExp(`^${bar}`) });
const listed = (page: Page) =>
  page.getByRole("region", { name: "What the last change did to bars that are made" });

async function hoopBack(page: Page): Promise<void> {
  await button(page, "Move").click();
  await button(dialog(page), "forward or back").click();
  await dialog(page).getByRole("textbox").fill("25");
  await button(dialog(page), "back").click();
  await button(dialog(page), "OK").click();
}

interface Changed {
  readonly bars: readonly {
    readonly bar: string;
    readonly step: string;
    readonly verdict: string;
    readonly why: string;
  }[];
}

/** What the command line says of the same change, each as the page writes it. */
async function byCommand(before: unknown, after: unknown, ...loose: string[]): Promise<readonly string[]> {
  const files = { old: JSON.stringify(before), new: JSON.stringify(after) };
  const args = ["change", "old", "new", "--json", ...(loose.length > 0 ? ["--loose", loose.join()] : [])];
  const { out, err, code } = await run(args, files);
  expect(code, err).toBe(0);
  return (JSON.parse(out) as Changed).bars.map((b) => `${label(b.bar)}, ${b.step}${b.why}`);
}

/** What the command line says that a bar could become: the ends of the page's lines. */
async function couldBecome(job: unknown, bar: string) {
  const { out } = await run(["reuse", "job", "--bar", bar, "--json"], { job: JSON.stringify(job) });
  const { matches } = JSON.parse(out) as { matches: readonly { readonly says: string }[] };
  return matches.map((m) => expect.stringMatching(new RegExp(`${m.says.replace(/[.()]/g, "\\$&")}$`)));
}

/** The job in hand, with a dialog open. */
const stored = (page: Page): Promise<string> =>
  page.evaluate(() =>
    JSON.stringify((window as unknown as { tubewright: App }).tubewright.state.getState().job?.document),
  );

/** Every block of text is worded by the lists, each label one word. */
async function expectWorded(part: Locator): Promise<void> {
  const texts = await part.locator("h2, h3, p, span, button:not(:has(span))").allTextContents();
  const labels = Object.values(demo.bars).map((b) => b.label);
  const plain = texts.map((text) => labels.reduce((t, one) => t.replaceAll(one, "Bar"), text));
  expect(plain.flatMap((text) => faultsOf(text).map((why) => `${why} — ${text}`))).toEqual([]);
}

const CASE_2 = half({
  "main-hoop": "tacked",
  "pillar-bar-left": "notched",
  "pillar-bar-right": "bent",
  "header-bar": "notched",
});

it("hoop 25 back with the hoop tacked: asks; cancelled, left in place, or cut loose, as the command line says", async () => {
  const page = await atDemo();
  await open(page, CASE_2);
  await rail(page, "Main hoop").click();
  const before = await savedJob(page);
  await hoopBack(page);
  await dialog(page).getByRole("heading", { name: "Check the bars that are made" }).waitFor();
  await button(dialog(page), "Cancel").click();
  await dialog(page).waitFor({ state: "detached" });
  expect(await savedJob(page)).toBe(before);

  await hoopBack(page);
  const left = dialog(page).getByRole("region", { name: "If Main hoop stays in place" });
  await left.getByText("No bar that is made changes.").waitFor();
  expect(await left.getByRole("listitem").count()).toBe(0);
  await button(dialog(page), "Leave Main hoop in place and apply").click();
  await rail(page, "Main hoop").getByText("tacked, not as planned").waitFor();
  expect(await listed(page).count()).toBe(0);
  const after = await savedJob(page);
  expect(await byCommand(JSON.parse(before), JSON.parse(after))).toEqual([]);

  await button(page, /^Undo: /).click();
  await expect.poll(async () => await savedJob(page)).toBe(before);
  await hoopBack(page);
  await dialog(page).getByRole("heading", { name: "Check the bars that are made" }).waitFor();
  // what cutting loose does is figured beside the question
  const ifLoose = dialog(page).getByRole("region", { name: "If Main hoop is cut loose and moved" });
  await ifLoose.getByRole("listitem").first().waitFor();
  const lines = await ifLoose.getByRole("listitem").allTextContents();
  await expectWorded(dialog(page));
  await button(dialog(page), "Cut Main hoop loose and apply").click();
  await listed(page).getByRole("heading", { name: "The last change touched 3 bars that are made" }).waitFor();
  expect(await listed(page).getByRole("listitem").getByRole("button").first().textContent()).toBe(
    lines[0]!.replace(/Make again$/, ""),
  );
  const loose = JSON.parse(await savedJob(page)) as typeof demo;
  expect(loose.bars["main-hoop"]).toMatchObject({ progress: "notched" });
  const said = await byCommand(JSON.parse(before), loose, "main-hoop");
  expect(lines).toEqual(said);
  expect(said.map((s) => s.split(/, (?:notched|bent)/)[0]).sort()).toEqual(
    ["header-bar", "pillar-bar-left", "pillar-bar-right"].map(label).sort(),
  );
  // its notches enter the new hosts, which is told with its figure, and not a gap that would pass
  expect(said.find((s) => s.startsWith(label("header-bar")))).toMatch(/enter the hosts by \d+\.\d mm/);
  await expectWorded(listed(page));
  // each line takes its bar in hand
  await listed(page)
    .getByRole("button", { name: /^Header bar/ })
    .click();
  await page.getByRole("heading", { level: 2, name: "Header bar" }).waitFor();
});

it("all but one tacked, that one sawn, its tube changed: that one alone is listed, and made again with a question", async () => {
  const page = await atDemo();
  const job = half({ "harness-bar": "sawn" }, "tacked");
  await open(page, job);
  await rail(page, "Harness bar").click();
  await pick2(page);
  const lines = await dialog(page).getByRole("listitem").allTextContents();
  expect(lines).toEqual(["Harness bar, sawnMake it again: another tube is wanted."]);
  await button(dialog(page), "Apply the change").click();
  await rail(page, "Harness bar").getByText("sawn: make again").waitFor();
  await button(listed(page), "Make again").click();
  await dialog(page).getByRole("heading", { name: "Make Harness bar again?" }).waitFor();
  await expect
    .poll(() => dialog(page).getByRole("listitem").allTextContents())
    .toEqual(await couldBecome(JSON.parse(await stored(page)), "harness-bar"));
  await expectWorded(dialog(page));
  await button(dialog(page), "Cancel").click();
  await rail(page, "Harness bar").getByText("sawn: make again").waitFor();
  await button(listed(page), "Make again").click();
  await button(dialog(page), "Make it again").click();
  await rail(page, "Harness bar").getByText("laid out").waitFor();
  const saved = JSON.parse(await savedJob(page)) as { made: Record<string, Json> };
  expect(saved.made["harness-bar"]).toMatchObject({ past: [{ progress: "sawn", to: { sawn: {} } }] });

  async function pick2(at: Page): Promise<void> {
    await button(at, /^Tube/).first().click();
    await button(dialog(at), /^45x2\.5/).click();
    await dialog(at).getByRole("heading", { name: "Check the bars that are made" }).waitFor();
  }
});

it("the die's radius corrected after three bars were bent on it: those three are judged as they were made", async () => {
  const page = await atDemo();
  const bent = Object.keys(demo.bars)
    .filter((id) => demo.bars[id]!.die === "d40")
    .slice(0, 3);
  const job = half(Object.fromEntries(bent.map((id) => [id, "bent"])));
  await open(page, job);
  await button(page, "Dies").click();
  const d40 = page.getByRole("article").filter({ has: page.getByRole("button", { name: /d40/ }).first() });
  await d40
    .getByRole("button", { name: /^Radius|120/ })
    .first()
    .click();
  await dialog(page).getByRole("textbox").fill("123");
  await button(dialog(page), "OK").click();
  await dialog(page).getByRole("heading", { name: "Check the bars that are made" }).waitFor();
  const lines = await dialog(page).getByRole("listitem").allTextContents();
  await button(dialog(page), "Apply the change").click();
  await dialog(page).waitFor({ state: "detached" });
  const after = JSON.parse(await savedJob(page)) as { dies: Record<string, { clr: number }> };
  expect(after.dies.d40!.clr).toBe(123);
  expect(lines).toEqual(await byCommand(job, after));
  expect(lines.map((l) => l.split(", bent")[0]).sort()).toEqual(bent.map(label).sort());
});

it("a bent bar that is to be eased: on the Wall and at the Trestles who decides is beside it", async () => {
  const page = await atDemo();
  await open(page, easedJob());
  await rail(page, label("pillar-bar-left")).click();
  const easing = /Ease bend 2 by .* never heat it\./;
  const wall = page.getByRole("region", { name: "The bar in hand" });
  await wall.getByText(easing).first().waitFor();
  await wall.getByText(WHO_DECIDES).waitFor();
  await button(page, "Trestles").click();
  const note = page.getByRole("note", { name: "The plan has changed since" });
  await note.getByText(easing).waitFor();
  await page.locator("[role=note] + p").getByText(WHO_DECIDES).waitFor();
});

it("a job half done, changed, undone, redone and reloaded loses nothing of what was made", async () => {
  const page = await atDemo();
  await rail(page, "Pillar bar, left").click();
  for (const step of ["sawn", "bent", "notched"]) {
    await button(page, /^(laid out|sawn|bent)$/)
      .first()
      .click();
    await button(dialog(page), step).click();
    await rail(page, "Pillar bar, left").getByText(step).waitFor();
  }
  await rail(page, "Main hoop").click();
  await button(page, "laid out").click();
  await button(dialog(page), "tacked").click();
  await rail(page, "Main hoop").getByText("tacked").waitFor();
  const made = JSON.parse(await savedJob(page)) as { made: Json };
  expect(made.made).toMatchObject({
    "pillar-bar-left": { to: { sawn: {}, bent: {}, notched: { A: {}, B: {} } } },
    "main-hoop": { to: { sawn: {}, tacked: {} } },
  });
  // elsewhere: nothing is asked
  await button(page, "Deselect").click();
  await button(page, "Dies").click();
  await type(page, /^die d30, straight for the clamp/, "61");
  await button(page, /^die d30, straight for the clamp: 61/).waitFor();
  expect(await dialog(page).count()).toBe(0);
  await rail(page, "Main hoop").click();
  const before = await savedJob(page);
  await hoopBack(page);
  await button(dialog(page), "Leave Main hoop in place and apply").click();
  await rail(page, "Main hoop").getByText("not as planned").waitFor();
  const after = await savedJob(page);
  expect((JSON.parse(after) as typeof made).made).toEqual((JSON.parse(before) as typeof made).made);
  await button(page, /^Undo: /).click();
  await expect.poll(async () => await savedJob(page)).toBe(before);
  await button(page, /^Redo: /).click();
  await expect.poll(async () => await savedJob(page)).toBe(after);
  await page.reload();
  await ready(page);
  expect(await savedJob(page)).toBe(after);
  await rail(page, "Main hoop").getByText("not as planned").waitFor();
});
