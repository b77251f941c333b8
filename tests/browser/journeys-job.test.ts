import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { run as call } from "../cli/run.ts";
import { run } from "../programs.ts";
import { launch, served } from "./chromium.ts";
import { atDemo, type Bent, button, handedOut, mm, pick, savedJob, told, type } from "./hands.ts";

const DEMO = readFileSync("demo/sandling.json", "utf8");
const inHand = (page: Page) => page.getByRole("region", { name: "The bar in hand", exact: true }).first();

it("the hoop moved 10 mm: what hangs on it comes along, to the command line's values, and is listed", async () => {
  const page = await atDemo();
  await button(page, /^Main hoop/).click();
  await button(page, "Move").click();
  await button(page.getByRole("dialog"), "forward or back").click();
  await page.getByRole("dialog").getByRole("textbox").fill("10");
  await button(page.getByRole("dialog"), "forward").click();
  await button(page.getByRole("dialog"), "OK").click();
  const list = page.getByRole("region", { name: "What the last change moved" });
  await list.getByText("Main hoop: 10.0 mm forward").waitFor();
  const lines = await list.getByRole("button").allTextContents();

  const saved = await savedJob(page);
  expect(saved).not.toBe(DEMO);
  const [before, after] = await Promise.all([DEMO, saved].map((job) => told<Bent>(["bend"], job)));
  const copes = await Promise.all([DEMO, saved].map((job) => told<Copes>(["cope"], job)));
  const labels: Readonly<Record<string, { readonly label: string }>> = JSON.parse(DEMO).bars;
  let longer = 0;
  for (const [i, was] of before!.bars.entries()) {
    const is = after!.bars[i]!;
    const { label } = labels[was.id]!;
    const line = lines.find((x) => x.startsWith(label) && /^(net length|moved)/.test(x.slice(label.length)));
    const by = is.blank - was.blank;
    if (Math.abs(by) >= 0.005) {
      longer++;
      // two lengths that would read alike are said with digits enough to differ
      const written = mm(was.blank) === mm(is.blank) ? (x: number) => `${x.toFixed(3)} mm` : mm;
      expect(line, was.id).toContain(
        `net length ${written(was.blank)} → ${written(is.blank)}, ${Math.abs(by).toFixed(2)} mm ${by > 0 ? "longer" : "shorter"}`,
      );
    } else {
      // without a word, or with the word that it only moved, a bar is made as before: bends and ends
      if (line?.includes("marks or ends changed"))
        expect(line).toContain(`net length as before, ${mm(is.blank)}`);
      else if (line !== undefined)
        expect(line).toMatch(/moved; marks and ends as before, net length [\d.]+ mm$/);
      else expect([is, endsOf(copes[1]!, was.id)]).toEqual([was, endsOf(copes[0]!, was.id)]);
      if (line?.includes("moved; marks")) expectClose(is.bends, was.bends);
    }
  }
  expect(longer).toBeGreaterThan(5);
  await button(page, /^Undo: Main hoop: 10.0 mm forward/).click();
  expect(JSON.parse(await savedJob(page))).toEqual(JSON.parse(DEMO));
});

/** The same figures of every bend, to a hundredth of a tape's and an angle finder's. */
function expectClose(is: Bent["bars"][number]["bends"], was: Bent["bars"][number]["bends"]): void {
  expect(is.length).toBe(was.length);
  for (const [i, bend] of is.entries())
    for (const key of ["mark", "markB", "angle", "rotation"]) expect(bend[key]).toBeCloseTo(was[i]![key]!, 2);
}

interface Copes {
  readonly copes: readonly { readonly bar: string; readonly outer: unknown }[];
}
const endsOf = ({ copes }: Copes, bar: string) => copes.filter((c) => c.bar === bar).map((c) => c.outer);

it("a broken file: the place is named, its text can be had again, the job in hand stays", async () => {
  const page = await atDemo();
  const broken = DEMO.replace(/("harness-bar": \{[^}]*"tube": )"40x2"/, '$1"40x3"');
  await button(page, "Jobs").click();
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    button(page, /^Open a job file/).click(),
  ]);
  await chooser.setFiles({ name: "broken.json", mimeType: "application/json", buffer: Buffer.from(broken) });
  const alert = page.getByRole("alert").filter({ hasText: "broken.json" });
  await alert.getByText("Mend one thing in broken.json, then open it again:").waitFor();
  expect(await alert.getByRole("listitem").allTextContents()).toEqual([
    expect.stringMatching(
      /^bars\.harness-bar\.tube: no tube is called "40x3" — did you mean "40x2"\? \(line \d+, column \d+\)$/,
    ),
  ]);
  const { path, name } = await handedOut(page, () => button(alert, "Save its text").click());
  expect([name, readFileSync(path, "utf8")]).toEqual(["broken.json", broken]);
  await page.getByRole("heading", { level: 1, name: /^Sandling 3-door/ }).waitFor();
  await button(page, /^Main hoop/).click();
  await inHand(page)
    .getByText(mm((await told<Bent>(["bend", "--bar", "main-hoop"], DEMO)).bars[0]!.blank + 60))
    .waitFor();
  await button(alert, "Close").click();
  await alert.waitFor({ state: "detached" });
  expect(JSON.parse(await savedJob(page))).toEqual(JSON.parse(DEMO));
});

it("inches in a job of millimetres stay as typed; the job in inches says the same lengths", async () => {
  const page = await atDemo();
  await button(page, /^Harness bar/).click();
  await type(page, /^End A: distance along Main hoop/, "24 5/16 in");
  const typed = button(page, /^End A: distance along Main hoop: 24 5\/16 in from its end A$/);
  await typed.waitFor();
  const saved = await savedJob(page);
  expect(JSON.parse(saved).bars["harness-bar"].path[0].along).toBe("24 5/16 in");
  const { blank: length } = (await told<Bent>(["bend", "--bar", "harness-bar"], saved)).bars[0]!;
  const sawn = inHand(page)
    .getByText(mm(length + 60))
    .first();
  await sawn.waitFor();
  await pick(page, "Units: Millimetres, mm", "Inches, to 1/16");
  await sawn.waitFor({ state: "detached" });
  const said = await inHand(page).locator("summary", { hasText: "How long?" }).textContent();
  const [, whole, over, under] = /How long\?(\d+)(?: (\d+)\/(\d+))?(?: [−+])? in/.exec(said!)!;
  // to the nearest sixteenth
  const inches = Number(whole) + (over ? Number(over) / Number(under) : 0);
  expect(Math.abs(inches * 25.4 - (length + 60))).toBeLessThanOrEqual(25.4 / 32);
  await typed.waitFor();
  // other parts of an inch, which the job keeps
  for (const [now, part] of [
    [16, 8],
    [8, 32],
    [32, 64],
  ] as const) {
    await pick(page, `Units: Inches, to 1/${now}, in`, `Inches, to 1/${part}`);
    expect(JSON.parse(await savedJob(page)).show).toEqual({ length: "in", fraction: part });
    await pick(page, `Units: Inches, to 1/${part}, in`, `Inches, to 1/${part}`);
  }
  const fine = await inHand(page).locator("summary", { hasText: "How long?" }).textContent();
  const [, inch, n, of] = /How long\?(\d+)(?: (\d+)\/(\d+))?(?: [−+])? in/.exec(fine ?? "") ?? [];
  const sixtyFourths = Number(inch) + (n ? Number(n) / Number(of) : 0);
  expect(Math.abs(sixtyFourths * 25.4 - (length + 60))).toBeLessThanOrEqual(25.4 / 128 + 1e-9);
  // decimals, to the thousandth
  await pick(page, "Units: Inches, to 1/64, in", "Inches, decimal (thousandths)");
  const decimal = await savedJob(page);
  expect(JSON.parse(decimal).show).toEqual({ length: "in", fraction: 1000 });
  const thousandths = await inHand(page).locator("summary", { hasText: "How long?" }).textContent();
  const [, written] = /How long\?(\d+\.\d{3}) in/.exec(thousandths ?? "") ?? [];
  expect(Math.abs(Number(written) * 25.4 - (length + 60))).toBeLessThanOrEqual(25.4 / 2000 + 1e-9);
  // the command line reads that job, and writes decimals too
  const { out } = await call(["bend", "job", "--bar", "harness-bar"], { job: decimal });
  expect(out).toContain(`saw to ${written} in`);
  await pick(page, "Units: Inches, decimal (thousandths), in", "Millimetres");
  await sawn.waitFor();
  expect(JSON.parse(await savedJob(page)).bars).toEqual(JSON.parse(saved).bars);
});

/** The page stands before its job does: until the jobs or the rail of bars are there it has not started. */
const started = (page: Page): Promise<void> =>
  page
    .getByRole("button", { name: /^Go to the job$|^Main hoop/ })
    .first()
    .waitFor();

it("two windows that start at once on an empty device bring one demo, and stay in step", async () => {
  const server = await served();
  const context = await (await launch()).newContext({ viewport: { width: 1400, height: 900 } });
  const pages = await Promise.all([1, 2].map(() => context.newPage()));
  await Promise.all(pages.map((page) => page.goto(server.url)));
  for (const page of pages) {
    await started(page);
    // the second to see the app goes straight on to the job
    if (!(await button(page, "Go to the job").isVisible())) await button(page, "Jobs").click();
    await button(page, "Go to the job").waitFor();
    expect(
      await page.getByRole("region", { name: "Jobs on this device" }).getByRole("listitem").count(),
    ).toBe(1);
    await button(page, "Go to the job").click();
    await button(page, /^Dash bar/).click();
  }
  const [here, there] = pages as [Page, Page];
  await type(here, /^End A: distance along Pillar bar, left/, "1301");
  await button(there, /^End A: distance along Pillar bar, left: 1301.0 mm/).waitFor();
  await pick(there, "laid out", "sawn");
  await button(here, /^Dash bar.*sawn/).waitFor();
  await button(here, /^Undo: Dash bar/).click();
  // it is sawn by now: what becomes of it is asked first
  await button(here, "Apply the change").click();
  await button(there, /^End A: distance along Pillar bar, left: 1339.3 mm/).waitFor();
});

it("with the network cable out the app starts, and prints what it never printed before", async () => {
  const server = await served();
  const context = await (await launch()).newContext({ viewport: { width: 1400, height: 900 } });
  const page = await context.newPage();
  await page.goto(server.url);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await server.close();
  await context.setOffline(true);
  await page.reload();
  await started(page);
  if (await button(page, "Go to the job").isVisible()) await button(page, "Go to the job").click();
  await button(page, /^Header bar/).click();
  await button(page, "Notcher").click();
  await button(page, "Print or save").click();
  const { path, name } = await handedOut(page, () => button(page, "Save Wrap, end B").click());
  expect(name).toBe("header-bar-wrap-B.pdf");
  const words = run("pdftotext", "-layout", path, "-").toString();
  expect(words).toContain("CUT EDGE · Header bar · end B");
  expect(words).toContain("100 mm →");
});
