import { mkdtempSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { launch, servePage } from "./harness/serve.ts";
import type {} from "./harness/view.ts";

const folder = mkdtempSync(join(tmpdir(), "view-"));
let browser: Browser;
let site: Awaited<ReturnType<typeof servePage>>;
let page: Page;

beforeAll(async () => {
  site = await servePage("tests/browser/harness/view.ts");
  browser = await launch();
});
afterEach(() => page.close());
afterAll(async () => {
  await browser.close();
  await site.close();
});

const errors: string[] = [];
async function open(width = 900, height = 700, query = ""): Promise<Page> {
  page = await browser.newPage({
    viewport: { width, height },
    hasTouch: true,
    reducedMotion: query === "?still" ? "reduce" : "no-preference",
  });
  errors.length = 0;
  page.on("pageerror", (e) => errors.push(e.message));
  page.on("console", (m) => {
    if (m.type() === "error" && !m.text().includes("404")) errors.push(m.text());
  });
  await page.goto(site.url + query);
  await page.waitForFunction(() => window.harness !== undefined);
  return page;
}
const settle = (): Promise<void> => page.evaluate(() => window.harness.settle());
const shot = async (name: string): Promise<Buffer> => {
  await settle();
  const path = join(folder, `${name}.png`);
  const bytes = await page.screenshot({ path });
  expect(statSync(path).size).toBeGreaterThan(5000);
  return bytes;
};

/** Share of the picture's pixels that are near a colour; `within`: how far the sum of its three parts may be off. */
const share = (colour: readonly [number, number, number], within = 30): Promise<number> =>
  page.evaluate(
    async ([r, g, b, within]) => {
      const { viewer } = window.harness;
      const canvas = document.querySelector("canvas")!;
      const gl = canvas.getContext("webgl2")!;
      // A picture lasts until the frame is over, so it is read in the frame that draws it.
      viewer.zoom(1.000001);
      for (let i = 0; i < 30; i++) {
        const before = viewer.drawn().frames;
        await new Promise(requestAnimationFrame);
        if (viewer.drawn().frames === before) break;
        const { width, height } = canvas;
        const data = new Uint8Array(4 * width * height);
        gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, data);
        let n = 0;
        for (let k = 0; k < data.length; k += 4) {
          if (Math.abs(data[k]! - r) + Math.abs(data[k + 1]! - g) + Math.abs(data[k + 2]! - b) < within) n++;
        }
        if (n > 0 || i > 20) return n / (width * height);
      }
      return 0;
    },
    [...colour, within] as const,
  );

/** Lightness (0 to 255) at places of the picture as it is shown. */
async function lightness(places: readonly { readonly x: number; readonly y: number }[]): Promise<number[]> {
  const png = (await page.screenshot()).toString("base64");
  return page.evaluate(
    async ([data, at]) => {
      const bytes = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
      const bitmap = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d")!;
      context.drawImage(bitmap, 0, 0);
      const { data: all } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      return at.map(({ x, y }) => {
        const i = 4 * (Math.round(y) * bitmap.width + Math.round(x));
        return 0.2126 * all[i]! + 0.7152 * all[i + 1]! + 0.0722 * all[i + 2]!;
      });
    },
    [png, places] as const,
  );
}

/** Lightness across a bar at places where nothing is in front of it: above, below and in its middle. */
async function acrossBar(id: string, from: number, to: number, count: number) {
  const REACH = 16;
  const spots = await page.evaluate(
    ([bar, a, b, n]) => {
      const { harness } = window;
      return harness.along(bar, a, b, n).flatMap((p) => {
        const { x, y } = harness.seen(p)!;
        // clear of others: no end of another, nothing nearer
        const isClear = [-4, 0, 4].every((d) => harness.viewer.barAt(x + d, y) === bar);
        return isClear ? [{ x, y }] : [];
      });
    },
    [id, from, to, count] as const,
  );
  const rows = spots.flatMap(({ x, y }) =>
    Array.from({ length: 2 * REACH + 1 }, (_, k) => ({ x, y: y - REACH + k })),
  );
  const read = await lightness(rows);
  return spots.map((_, i) => {
    const row = read.slice(i * (2 * REACH + 1), (i + 1) * (2 * REACH + 1));
    return { above: row.slice(0, REACH), below: row.slice(REACH + 1), middle: row[REACH]! };
  });
}

describe("the 3D view in a browser", () => {
  it("draws the demo, and draws nothing while nothing changes", async () => {
    await open();
    await shot("demo");
    const frames = await page.evaluate(() => window.harness.viewer.drawn().frames);
    expect(frames).toBeGreaterThan(0);
    await page.waitForTimeout(400);
    expect(await page.evaluate(() => window.harness.viewer.drawn().frames)).toBe(frames);
    expect(await share([21, 23, 26], 250)).toBeGreaterThan(0.004);
    expect(errors).toEqual([]);
  });

  it("six straight views differ and say where they are seen from", async () => {
    await open();
    const seen = new Map<string, Buffer>();
    for (const view of ["left", "right", "front", "rear", "top", "bottom"] as const) {
      await page.evaluate((v) => window.harness.viewer.look(v), view);
      const bytes = await shot(view);
      for (const [other, before] of seen) expect(bytes.equals(before), `${view} as ${other}`).toBe(false);
      seen.set(view, bytes);
      const stand = await page.evaluate(() => window.harness.viewer.camera());
      expect(stand.perspective).toBe(0);
    }
    const said = await page.evaluate(() => window.harness.stands);
    expect(said.slice(-6)).toEqual([
      "seen from the left",
      "seen from the right",
      "seen from the front",
      "seen from the rear",
      "seen from above",
      "seen from below",
    ]);
  });

  it("a tap in the middle takes the bar there; one beside everything takes nothing", async () => {
    await open();
    await page.evaluate(() => {
      window.harness.viewer.look("left");
      window.harness.viewer.fit(["pillar-bar-left"]);
    });
    await settle();
    await page.evaluate(() => {
      window.harness.viewer.look("front");
      window.harness.viewer.fit(["dash-bar"]);
    });
    await settle();
    await page.touchscreen.tap(450, 350);
    await page.mouse.click(450, 350);
    await page.mouse.click(450, 40);
    const taps = await page.evaluate(() => window.harness.taps);
    expect(taps.map((t) => t.id).slice(0, 2)).toEqual(["dash-bar", "dash-bar"]);
    // what is pointed at is told without a tap, and drawn with stronger edges until it is let go
    const under = (x: number, y: number) =>
      page.evaluate(([px, py]) => window.harness.viewer.barAt(px, py), [x, y] as const);
    expect(await under(450, 350)).toBe("dash-bar");
    const ink = [21, 23, 26] as const;
    const plain = await share(ink, 250);
    await page.evaluate(() => window.harness.viewer.setPointed("dash-bar"));
    expect(await share(ink, 250)).toBeGreaterThan(plain * 1.02);
    await page.evaluate(() => window.harness.viewer.setPointed(null));
    expect(await share(ink, 250)).toBeCloseTo(plain, 4);
    expect(taps[0]!.along).toBeGreaterThan(300);
    expect(taps.length).toBe(3);
    await page.evaluate(() => window.harness.viewer.look("left"));
    await settle();
    await page.mouse.click(5, 5);
    expect(await under(5, 5)).toBeNull();
    expect(await page.evaluate(() => window.harness.taps.at(-1)?.id)).toBeNull();
  });

  it("the bar in hand and what needs attention stand out in line, mark and colour", async () => {
    await open();
    const accent = [10, 87, 184] as const;
    expect(await share(accent)).toBe(0);
    await page.evaluate(() => window.harness.viewer.setInHand("main-hoop"));
    expect(await share(accent)).toBeGreaterThan(0.0005);
    await page.evaluate(() => {
      window.harness.viewer.setInHand(null);
      window.harness.show({ attention: ["dash-bar"] });
    });
    expect(await share(accent)).toBe(0);
    expect(await share([179, 38, 30])).toBeGreaterThan(0.0003);
  });

  it("edges are unbroken whatever the progress; a mark at each end tells it", async () => {
    await open(900, 700, "?still");
    await page.evaluate(() => {
      window.harness.viewer.look("front");
      window.harness.viewer.fit(["dash-bar"]);
    });
    for (const stage of ["laid out", "bent", "welded"] as const) {
      await page.evaluate((s) => window.harness.show({ stages: s, extras: false }), stage);
      await settle();
      const across = await acrossBar("dash-bar", 0.1, 0.9, 60);
      expect(across.length).toBeGreaterThan(30);
      // Ink above and below it at every place, and the pale tube between.
      for (const { above, below, middle } of across) {
        expect(Math.min(...above), stage).toBeLessThan(110);
        expect(Math.min(...below), stage).toBeLessThan(110);
        expect(middle, stage).toBeGreaterThan(180);
      }
      // The left and the right half of the mark at an end of the dash bar.
      const { x, y } = await page.evaluate(() => window.harness.seen(window.harness.marks("dash-bar")[1]!)!);
      const halves = await lightness([
        { x: x - 1.5, y },
        { x: x + 1.5, y },
      ]);
      const ink = { "laid out": [false, false], bent: [true, false], welded: [true, true] }[stage];
      expect(
        halves.map((l) => l < 110),
        stage,
      ).toEqual(ink);
    }
    expect(errors).toEqual([]);
  });

  it("near bars are strong, far ones pale, in both themes; the bar in hand and its hosts are plain at once", async () => {
    await open(900, 700, "?still");
    await page.evaluate(() => window.harness.show({ stages: "welded", extras: false }));
    for (const [theme, ground] of [
      ["lightTheme", 243],
      ["darkTheme", 22],
    ] as const) {
      await page.evaluate((name) => window.harness.viewer.setTheme(window.harness[name]), theme);
      await settle();
      const strength = async (id: string): Promise<number> => {
        const across = await acrossBar(id, 0.2, 0.8, 30);
        expect(across.length, id).toBeGreaterThan(4);
        const off = across.map(({ above }) => Math.max(...above.map((l) => Math.abs(l - ground))));
        return off.sort((a, b) => a - b)[Math.floor(off.length / 2)]!;
      };
      const near = await strength("front-turret-bar-left");
      const far = await strength("rear-stay-left");
      expect(near).toBeGreaterThan(150);
      expect(far).toBeLessThan(near * 0.75);
      // still to be made out: 3 : 1 would be 96 of the light theme's 222
      expect(far).toBeGreaterThan(60);
    }
    await page.evaluate(() => {
      window.harness.viewer.setTheme(window.harness.lightTheme);
      window.harness.viewer.setInHand("header-bar");
    });
    expect(await share([10, 87, 184])).toBeGreaterThan(0.0005);
    expect(await share([192, 213, 242])).toBeGreaterThan(0.001);
    // the pillars that it lands on, in their own colour
    const host = [47, 111, 192] as const;
    expect(await share(host, 40)).toBeGreaterThan(0.0005);
    await page.evaluate(() => window.harness.viewer.setInHand(null));
    expect(await share(host, 40)).toBe(0);
  });

  it("a section takes away the viewer's side, and comes off again", async () => {
    await open(900, 700, "?still");
    await page.evaluate(() => window.harness.show({ stages: "welded" }));
    const whole = await shot("whole");
    await page.evaluate(() => window.harness.viewer.setSection({ axis: "y", at: 200 }));
    const cut = await shot("section");
    expect(cut.equals(whole)).toBe(false);
    await page.evaluate(() => {
      window.harness.viewer.look("left");
      window.harness.viewer.fit(["door-bar-through-left"]);
    });
    await settle();
    // The left door bars are cut away: only the right ones can be tapped.
    const box = { x: 450, y: 350 };
    await page.mouse.click(box.x, box.y);
    const id = await page.evaluate(() => window.harness.taps.at(-1)?.id ?? "");
    expect(id).toMatch(/right$/);
    await page.evaluate(() => {
      window.harness.viewer.setSection(null);
      window.harness.viewer.look("three-quarter");
    });
    const back = await shot("whole again");
    expect(back.equals(whole)).toBe(true);
  });

  it("names stand beside their points and give way; a ring is as large as the error; a tap takes the point", async () => {
    await open(900, 700, "?still");
    const words = () =>
      page.evaluate(() =>
        [...document.querySelectorAll(".names > :not([data-away]) > span")].map((e) => {
          const { x, y, width } = e.getBoundingClientRect();
          return { says: e.textContent!, x, y, width };
        }),
      );
    await page.evaluate(() => {
      const { viewer, show } = window.harness;
      // 20 mm and 10 mm to be seen from the left, where the other three lie behind this one
      const covariance = [
        [400, 0, 0],
        [0, 0, 0],
        [0, 0, 100],
      ] as const;
      const points = {
        near: { at: [0, 600, 600], covariance },
        "far-1": { at: [0, 0, 600] },
        "far-2": { at: [0, -5, 600] },
        "far-3": { at: [0, -10, 600] },
        alone: { at: [900, 0, 1000] },
      } as const;
      show({ points });
      viewer.look("left");
    });
    await settle();
    expect(await words()).toEqual([]);
    await page.evaluate(() => window.harness.viewer.setNames(true));
    await settle();
    const shown = (await words()).map((w) => w.says);
    expect(shown).toEqual(expect.arrayContaining(["Near", "Far 1", "Alone"]));
    // those behind find a place farther off, with a leader
    expect(await page.evaluate(() => window.harness.names().bad)).toEqual([]);
    const ring = (await page.locator(".names > i").boundingBox())!;
    const pixel = await page.evaluate(() => window.harness.viewer.camera().height / innerHeight);
    // 95 of 100 lie within 2.80 standard deviations in space: √7.815, the 95 % point of chi square with three freedoms
    expect(ring.width).toBeCloseTo((2 * 2.7955 * 20) / pixel, 0);
    expect(ring.height).toBeCloseTo((2 * 2.7955 * 10) / pixel, 0);

    await page.evaluate(() => window.harness.viewer.setInHand("main-hoop", ["far-3"]));
    await settle();
    expect((await words()).map((w) => w.says)).toEqual(expect.arrayContaining(["Far 3", "Main hoop"]));

    const alone = (await words()).find((w) => w.says === "Alone")!;
    await page.mouse.click(alone.x + alone.width - 2, alone.y + 4);
    await page.mouse.click(ring.x + ring.width / 2 + 6, ring.y + ring.height / 2 - 6);
    const { points, bars } = await page.evaluate(() => ({
      points: window.harness.tappedPoints,
      bars: window.harness.taps.length,
    }));
    expect(points).toEqual(["alone", expect.stringMatching(/^(near|far-\d)$/)]);
    expect(bars).toBe(0);
    expect(errors).toEqual([]);
  });

  it("at 36 bars and at 120 names lie on no other, on no leader and not on what they name, from all round", async () => {
    await open(1280, 800, "?still");
    await page.evaluate(() => window.harness.viewer.setNames(true));
    for (const [copies, least] of [
      [1, 18],
      [4, 18],
    ] as const) {
      if (copies > 1) await page.evaluate((n) => window.harness.many(n), copies);
      await page.evaluate(() => window.harness.viewer.setInHand("pillar-bar-left"));
      for (let k = 0; k < 12; k++) {
        await page.evaluate(
          (az) => window.harness.viewer.lookFrom({ az, el: az % 60 === 0 ? 10 : 30 }),
          30 * k,
        );
        await settle();
        const found = await page.evaluate(() => window.harness.names());
        const { bad, shown } = found;
        expect(bad, `${copies} times, from ${30 * k}`).toEqual([]);
        if (copies === 1) expect(shown, `from ${30 * k}`).toContain("Pillar bar, left");
        expect(shown.length, `${copies} times, from ${30 * k}`).toBeGreaterThan(least);
      }
    }
    expect(errors).toEqual([]);
  });

  it("names keep to what they name while the picture turns, and each is there or not without a flicker", async () => {
    await open(1280, 800, "?still");
    await page.evaluate(() => {
      window.harness.viewer.setNames(true);
      window.harness.viewer.setInHand("pillar-bar-left");
    });
    await settle();
    const seen = await page.evaluate(async () => {
      const read = () =>
        new Map(
          [...document.querySelectorAll<HTMLElement>(".names > div")].map((e) => [
            e.textContent,
            { isThere: !("away" in e.dataset), at: (e.lastChild as HTMLElement).style.transform },
          ]),
        );
      const before = read();
      const flips = new Map<string, number>();
      const moved: string[] = [];
      let last = before;
      for (let i = 0; i < 12; i++) {
        window.harness.viewer.turn(1, 0);
        await new Promise(requestAnimationFrame);
        await new Promise(requestAnimationFrame);
        const now = read();
        for (const [name, { isThere, at }] of now) {
          const was = last.get(name);
          if (was && was.isThere !== isThere) flips.set(name!, (flips.get(name!) ?? 0) + 1);
          if (was?.isThere && isThere && was.at !== at) moved.push(name!);
        }
        last = now;
      }
      return {
        most: Math.max(0, ...flips.values()),
        moved,
        count: [...before.values()].filter((v) => v.isThere).length,
      };
    });
    expect(seen.count).toBeGreaterThan(20);
    expect(seen.moved).toEqual([]);
    expect(seen.most).toBeLessThan(3);
  });

  it("a joint looked at closely names both tubes, with all names off; corners of the bar in hand have their numbers", async () => {
    await open(900, 700, "?still");
    const shown = () => page.evaluate(() => window.harness.names().shown);
    await settle();
    expect(await shown()).toEqual([]);
    await page.evaluate(() => window.harness.viewer.setInHand("pillar-bar-left"));
    await settle();
    expect((await shown()).toSorted()).toEqual(["1", "2", "3"]);
    const apart = await page.evaluate(() =>
      window.harness.corners("pillar-bar-left").map(({ n, corner }) => {
        const at = window.harness.seen(corner)!;
        const box = [...document.querySelectorAll(".names > [data-kind=corner]")]
          .find((e) => e.textContent === `${n}`)!
          .lastElementChild!.getBoundingClientRect();
        return Math.hypot(at.x - box.x - box.width / 2, at.y - box.y - box.height / 2);
      }),
    );
    for (const off of apart) expect(off).toBeLessThan(40);
    await page.evaluate(() => window.harness.viewer.setInHand(null));
    for (let i = 0; i < 12; i++) {
      const { x, y } = await page.evaluate(
        () => window.harness.seen(window.harness.marks("header-bar")[0]!)!,
      );
      await page.mouse.move(x, y);
      await page.mouse.wheel(0, -250);
      await settle();
      if (await page.evaluate(() => window.harness.viewer.camera().height < 260)) break;
    }
    await shot("joint");
    expect(await shown()).toEqual(expect.arrayContaining(["Header bar", "Pillar bar, left"]));
    expect((await page.evaluate(() => window.harness.names())).bad).toEqual([]);
  });

  it("one finger turns, the wheel and keys zoom and turn, and a drag is no tap", async () => {
    await open(900, 700, "?still");
    const stand = () => page.evaluate(() => window.harness.viewer.camera());
    const before = await stand();
    await page.mouse.move(450, 350);
    await page.mouse.down();
    await page.mouse.move(550, 380, { steps: 4 });
    await page.mouse.up();
    const turned = await stand();
    expect(turned.az).not.toBeCloseTo(before.az, 1);
    expect(turned.el).toBeGreaterThan(before.el);
    expect(await page.evaluate(() => window.harness.taps.length)).toBe(0);
    await page.mouse.wheel(0, -300);
    await settle();
    const closer = await stand();
    expect(closer.height).toBeLessThan(turned.height);
    await page.keyboard.press("ArrowLeft");
    expect((await stand()).az).not.toBeCloseTo(closer.az, 1);
    await page.keyboard.press("-");
    expect((await stand()).height).toBeGreaterThan(closer.height);
    await page.keyboard.press("Shift+ArrowUp");
    expect((await stand()).target).not.toEqual(closer.target);
    await page.keyboard.press("Home");
    await settle();
    expect((await stand()).height).toBeGreaterThan(closer.height);
  });

  it("two fingers zoom about the place between them", async () => {
    await open(900, 700, "?still");
    const before = await page.evaluate(() => window.harness.viewer.camera());
    const after = await page.evaluate(() => {
      const canvas = document.querySelector("canvas")!;
      canvas.setPointerCapture = () => {};
      const send = (type: string, pointerId: number, x: number, y: number) =>
        canvas.dispatchEvent(
          new PointerEvent(type, { pointerId, pointerType: "touch", clientX: x, clientY: y, bubbles: true }),
        );
      send("pointerdown", 11, 400, 350);
      send("pointerdown", 12, 500, 350);
      for (let i = 1; i <= 5; i++) {
        send("pointermove", 11, 400 - 10 * i, 350);
        send("pointermove", 12, 500 + 10 * i, 350);
      }
      send("pointerup", 11, 350, 350);
      send("pointerup", 12, 550, 350);
      return { stand: window.harness.viewer.camera(), taps: window.harness.taps.length };
    });
    expect(before.height / after.stand.height).toBeCloseTo(2, 1);
    expect(after.stand.az).toBe(before.az);
    expect(after.taps).toBe(0);
    const moved = Math.hypot(...after.stand.target.map((v, i) => v - before.target[i]!));
    expect(moved).toBeLessThan(before.height * 0.02);
  });

  it("keeps drawing after the graphics context was lost", async () => {
    await open(900, 700, "?still");
    const before = await shot("before loss");
    await page.evaluate(async () => {
      const gl = document.querySelector("canvas")!.getContext("webgl2")!;
      const lose = gl.getExtension("WEBGL_lose_context")!;
      lose.loseContext();
      await new Promise((done) => setTimeout(done, 100));
      lose.restoreContext();
      await new Promise((done) => setTimeout(done, 100));
    });
    const after = await shot("after loss");
    expect(await page.evaluate(() => window.harness.contexts)).toEqual([false, true]);
    expect(after.equals(before)).toBe(true);
  });

  it("follows its canvas's size and another theme", async () => {
    await open(900, 700);
    await page.setViewportSize({ width: 390, height: 700 });
    await settle();
    const size = await page.evaluate(() => {
      const c = document.querySelector("canvas")!;
      return [c.width, c.height];
    });
    expect(size).toEqual([390, 700]);
    await page.evaluate(() => {
      window.harness.viewer.look("three-quarter");
      window.harness.viewer.setTheme(window.harness.darkTheme);
    });
    await shot("dark");
    expect(await share([20, 23, 26])).toBeGreaterThan(0.5);
  });

  it("a step of a drag draws anew only the part in which something moved, pixel for pixel as the whole", async () => {
    await open();
    await settle();
    const [first, ...steps] = await page.evaluate(() => window.harness.drawnInPart([2, 2, -3, 15, -16, 0.5]));
    // the picture before was a smooth one
    expect(first!.isPart).toBe(false);
    for (const { isPart, wrong, moved } of steps) {
      expect(isPart).toBe(true);
      expect(wrong).toBe(0);
      expect(moved).toBeGreaterThan(20);
    }
    expect(errors).toEqual([]);
  });

  it("an edit builds only the bars that it changed", async () => {
    await open();
    const { changed, ms } = await page.evaluate(() => window.harness.moveHoop(10));
    expect(changed).toBeGreaterThan(5);
    // Meshes and buffers together; a loose bound for a loaded machine, `bench/view.ts` measures.
    expect(ms).toBeLessThan(1000);
    expect(errors).toEqual([]);
  });
});
