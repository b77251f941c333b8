import type { CDPSession, Page } from "playwright-core";
import { expect, it, onTestFinished } from "vitest";
import { launch, ready, served } from "./chromium.ts";
import { button, opened, pick } from "./hands.ts";
import { servePage } from "./harness/serve.ts";
import type {} from "./harness/view.ts";

type At = readonly [x: number, y: number];

/** Fingers on the glass, as the browser gets them from the hardware. */
function fingers(cdp: CDPSession) {
  const send = (type: string, at: readonly At[]) =>
    cdp.send("Input.dispatchTouchEvent", {
      type: type as "touchStart",
      touchPoints: at.map(([x, y], id) => ({ x, y, id })),
    });
  return {
    async drag(...[first, ...then]: readonly (readonly At[])[]): Promise<void> {
      await send("touchStart", first!);
      for (const at of then) await send("touchMove", at);
      await send("touchEnd", []);
    },
    async tap(at: At): Promise<void> {
      await send("touchStart", [at]);
      await send("touchEnd", []);
    },
  };
}

it("one finger turns, two pan and zoom, two taps centre, and a mouse does the same", async () => {
  const site = await servePage("tests/browser/harness/view.ts");
  onTestFinished(() => site.close());
  const browser = await launch({ gl: true });
  const page = await browser.newPage({
    viewport: { width: 900, height: 700 },
    hasTouch: true,
    reducedMotion: "reduce",
  });
  await page.goto(`${site.url}?still`);
  await page.waitForFunction(() => window.harness !== undefined);
  const hand = fingers(await page.context().newCDPSession(page));
  const settle = () => page.evaluate(() => window.harness.settle());
  const camera = () => page.evaluate(() => window.harness.viewer.camera());
  const taps = () => page.evaluate(() => window.harness.taps.map((t) => t.id));
  const barAt = ([x, y]: At) => page.evaluate(([a, b]) => window.harness.viewer.barAt(a, b), [x, y] as const);
  await settle();
  const home = await camera();

  await hand.drag([[300, 300]], [[340, 300]], [[400, 330]]);
  const turned = await camera();
  expect(turned.az).toBeLessThan(home.az - 20);
  expect(turned.el).toBeGreaterThan(home.el + 5);
  expect([turned.target, turned.height]).toEqual([home.target, home.height]);

  await hand.drag(
    [
      [400, 350],
      [500, 350],
    ],
    [
      [375, 350],
      [525, 350],
    ],
    [
      [350, 350],
      [550, 350],
    ],
  );
  const closer = await camera();
  expect(turned.height / closer.height).toBeCloseTo(2, 1);
  expect([closer.az, closer.el]).toEqual([turned.az, turned.el]);

  await hand.drag(
    [
      [400, 350],
      [500, 350],
    ],
    [
      [440, 380],
      [540, 380],
    ],
    [
      [480, 410],
      [580, 410],
    ],
  );
  const panned = await camera();
  expect(panned.height / closer.height).toBeCloseTo(1, 2);
  expect([panned.az, panned.el]).toEqual([closer.az, closer.el]);
  const went = Math.hypot(...panned.target.map((v, i) => v - closer.target[i]!));
  expect(went / (closer.height / 700)).toBeCloseTo(Math.hypot(80, 60), -1);
  expect(await taps()).toEqual([]);

  // two taps on a bar beside the middle: the first takes it at once, the second brings the place to the middle
  await page.evaluate(() => window.harness.viewer.look("top"));
  await settle();
  const before = await camera();
  let place: At | undefined;
  for (let x = 200; x < 420 && !place; x += 7)
    for (let y = 200; y < 500 && !place; y += 7) if (await barAt([x, y])) place = [x, y];
  const bar = await barAt(place!);
  await hand.tap(place!);
  expect(await taps()).toEqual([bar]);
  await hand.tap(place!);
  await settle();
  expect(await taps()).toEqual([bar]);
  const centred = await camera();
  expect([centred.az, centred.el, centred.height]).toEqual([before.az, before.el, before.height]);
  expect(centred.target).not.toEqual(before.target);
  expect(await barAt([450, 350])).toBe(bar);
  // on nothing: all is shown, as far and from where the key shows it
  for (const _ of [1, 2]) await hand.tap([4, 4]);
  await settle();
  expect(await taps()).toEqual([bar, null]);
  expect(await camera()).toEqual(before);
  // two taps apart from each other are two
  await hand.tap([4, 4]);
  await hand.tap([880, 4]);
  expect(await taps()).toEqual([bar, null, null, null]);

  // the mouse: with shift, and with another button, a drag pans; the wheel keeps what is under it; two clicks centre
  const panBy = async (
    press: () => Promise<void>,
    lift: () => Promise<void>,
    b?: "middle" | "right",
  ): Promise<number> => {
    const was = await camera();
    await page.mouse.move(300, 300);
    await press();
    await page.mouse.down(b ? { button: b } : {});
    await page.mouse.move(360, 380, { steps: 3 });
    await page.mouse.up(b ? { button: b } : {});
    await lift();
    const is = await camera();
    expect([is.az, is.el, is.height]).toEqual([was.az, was.el, was.height]);
    return Math.hypot(...is.target.map((v, i) => v - was.target[i]!)) / (was.height / 700);
  };
  const none = async (): Promise<void> => {};
  expect(
    await panBy(
      () => page.keyboard.down("Shift"),
      () => page.keyboard.up("Shift"),
    ),
  ).toBeCloseTo(100, 3);
  expect(await panBy(none, none, "right")).toBeCloseTo(100, 3);
  expect(await panBy(none, none, "middle")).toBeCloseTo(100, 3);
  await page.keyboard.press("Home");
  await settle();
  await page.mouse.move(...(place as [number, number]));
  await page.mouse.wheel(0, -400);
  await settle();
  expect((await camera()).height).toBeLessThan(before.height * 0.7);
  expect(await barAt(place!)).toBe(bar);
  await page.keyboard.press("Home");
  await settle();
  await page.mouse.dblclick(...(place as [number, number]));
  await settle();
  expect((await camera()).target.map(Math.round)).toEqual(centred.target.map(Math.round));
  expect(await taps()).toEqual([bar, null, null, null, bar]);
}, 120_000);

const canvas = async (page: Page) => (await page.locator("canvas").first().boundingBox())!;

it("the picture has its room at every size; its menu goes by keys; what a change did is walked through", async () => {
  const server = await served();
  const context = await (await launch({ gl: true })).newContext({
    viewport: { width: 800, height: 1280 },
    hasTouch: true,
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  page.on("pageerror", (error) => expect.fail(`the page threw: ${error.message}`));
  await page.goto(server.url);
  await button(page, "Go to the job").click();
  await ready(page);
  await opened(page);
  const rail = page.getByRole("navigation", { name: "Bars" });

  // a tablet: more than half of its height, without a bar and with one
  expect((await canvas(page)).height / 1280).toBeGreaterThan(0.55);
  await rail.getByRole("button", { name: /^Main hoop/ }).click();
  const answers = page.getByRole("region", { name: "The bar in hand" }).locator("section").first();
  await answers.getByText("How long?").waitFor();
  expect((await canvas(page)).height / 1280).toBeGreaterThan(0.55);
  // the four answers are two beside two, the first two in sight without a touch
  const places = await Promise.all(
    ["How long?", "Where do I mark?", "What do I cut next?", "Will it go in?"].map((q) =>
      answers.getByText(q).boundingBox(),
    ),
  );
  expect(places[0]!.y).toBe(places[1]!.y);
  expect(places[2]!.y).toBe(places[3]!.y);
  expect(places[0]!.x).toBe(places[2]!.x);
  expect(places[0]!.y + 60).toBeLessThan((await rail.boundingBox())!.y);

  // the menu of views, by keys alone
  const views = button(page, /^Views/);
  const focused = () => page.evaluate(() => document.activeElement?.textContent);
  await views.focus();
  await page.keyboard.press("ArrowDown");
  const menu = page.getByRole("menu", { name: "Views" });
  await menu.waitFor();
  expect((await menu.getByRole("menuitem").allTextContents()).join()).toBe(
    "Show all,Three-quarter,Left,Right,Front,Rear,Top,Bottom,Turn left,Turn right,Zoom in,Zoom out",
  );
  expect(await focused()).toBe("Show all");
  await page.keyboard.press("ArrowUp");
  expect(await focused()).toBe("Zoom out");
  await page.keyboard.press("Home");
  await page.keyboard.press("ArrowDown");
  expect(await focused()).toBe("Three-quarter");
  await page.keyboard.press("Escape");
  await menu.waitFor({ state: "detached" });
  expect(await focused()).toMatch(/^Views/);
  await page.keyboard.press("Enter");
  await menu.waitFor();
  await page.keyboard.press("l");
  expect(await focused()).toBe("Left");
  await page.keyboard.press("Enter");
  await page.getByText("seen from the left", { exact: true }).waitFor();
  expect(await menu.count()).toBe(0);
  expect(await focused()).toMatch(/^Views/);
  // steps are taken again and again: it stays
  await views.click();
  await menu.getByRole("menuitem", { name: "Turn left" }).click();
  await menu.getByRole("menuitem", { name: "Turn left" }).click();
  await page.getByText(/seen from the (front|rear) left$/).waitFor();
  await page.keyboard.press("Escape");

  // the keys point at bars, one line says what is to be known, Enter takes
  const line = page.locator(".view-pointed");
  await page.locator("canvas").first().focus();
  await page.keyboard.press(".");
  await page.keyboard.press(".");
  await expect
    .poll(() => line.textContent(), { timeout: 10_000 })
    .toMatch(/^Harness bar · saw to [\d.]+ mm · mark .+ · cut next: .+ · goes in: .+$/);
  await page.keyboard.press(",");
  await expect.poll(() => line.textContent()).toMatch(/^Main hoop/);
  await page.keyboard.press(".");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Harness bar" }).waitFor();
  await page.keyboard.press("Escape");
  expect(await line.textContent()).toBe("");
  // so does a mouse that hovers
  const box = await canvas(page);
  for (let y = box.y + 120; y < box.y + box.height - 100; y += 20) {
    await page.mouse.move(box.x + box.width / 2, y);
    await page.waitForTimeout(30);
    if (((await line.textContent()) ?? "") !== "") break;
  }
  expect(await line.textContent()).not.toBe("");

  // what a change did: over the picture, and bar by bar
  const band = page.getByRole("region", { name: "The last change", exact: true });
  const move = async (axis: string, way: string, mm: string): Promise<void> => {
    await button(page, "Move").click();
    const dialog = page.getByRole("dialog");
    await button(dialog, axis).click();
    await dialog.getByRole("textbox").fill(mm);
    await button(dialog, way).click();
    await button(dialog, "OK").click();
    await dialog.waitFor({ state: "detached" });
  };
  await rail.getByRole("button", { name: /^Main hoop/ }).click();
  await move("up or down", "up", "5");
  await band.getByText("Main hoop: 5.0 mm up:").waitFor();
  await move("forward or back", "forward", "10");
  await band.getByText("Main hoop: 10.0 mm forward:").waitFor();
  const said = (await band.textContent())!;
  const count = Number(/(\d+) bars? changes?/.exec(said)![1]);
  expect(count).toBeGreaterThan(0);
  const at = (await band.boundingBox())!;
  expect(at.y + at.height).toBeLessThan((await canvas(page)).y + (await canvas(page)).height);
  await button(band, "Show each").click();
  const names = new Set<string>();
  const walked = Math.min(count, 6);
  for (let n = 1; n <= walked; n++) {
    await band.getByText(`Bar ${n} of ${count}`).waitFor();
    const name = (await band.locator("strong").textContent())!.replace(/:$/, "");
    names.add(name);
    expect(await band.textContent()).toMatch(/moved [\d.]+ mm|net length/);
    await page.getByRole("heading", { name, exact: true }).waitFor();
    if (n < walked) await button(band, "The next bar").click();
  }
  expect(names.size).toBe(walked);
  await page.keyboard.press("Escape");
  await expect.poll(focused).toBe("Show each");

  // other units are no step; undo tells of nothing, not of the change before either
  const undo = button(page, /^Undo: Main hoop: 10.0 mm forward$/);
  await pick(page, /^Units/, /thousandths/);
  await undo.waitFor();
  await band.getByText("Main hoop: 10.0 mm forward:").waitFor();
  await button(band, "Undo").click();
  await button(page, /^Undo: Main hoop: 5.0 mm up$/).waitFor();
  await ready(page);
  expect(await band.count()).toBe(0);
  expect(await page.getByRole("region", { name: "What the last change moved" }).count()).toBe(0);
  await button(page, /^Redo/).click();
  await band.getByText("Main hoop: 10.0 mm forward:").waitFor();

  // a phone: the picture on the first screen, and in the Car a strip in which a tap takes a bar
  await page.setViewportSize({ width: 390, height: 844 });
  const first = await canvas(page);
  expect(first.height / 844).toBeGreaterThan(0.38);
  expect(first.y + first.height).toBeLessThan(844);
  expect(await button(band, "Show each").isVisible()).toBe(true);
  await button(page, "Deselect").click();
  await button(page, "Car").click();
  await page.getByRole("region", { name: "The car" }).locator("canvas").waitFor();
  const strip = await canvas(page);
  expect(strip.height / 844).toBeCloseTo(0.3, 1);
  expect(strip.y + strip.height).toBeLessThan(844);
  // beside the ways to the bars next to it a phone says which one is in hand
  const held = page.getByText(/\bbar \d+ of \d+\b/);
  expect(await held.count()).toBe(0);
  // names of points come before bars: from the right, where none are
  for (let x = 330; x > 60 && (await held.count()) === 0; x -= 25) {
    await page.touchscreen.tap(x, strip.y + strip.height * 0.62);
    await page.waitForTimeout(150);
  }
  await expect.poll(() => held.count()).toBeGreaterThan(0);
}, 180_000);
