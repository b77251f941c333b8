import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { run } from "../programs.ts";
import { PX, picture } from "../rendering.ts";
import { answer, type Bent, blank, button, handedOut, mm, pick, savedJob, told, type } from "./hands.ts";
import { uprights } from "./paper.ts";

const rad = (degrees: number): number => (degrees * Math.PI) / 180;

/** Two tubes and the bar between them, laid out by hand: tube 1 at y > 0, both chalked upward. */
function byHand(r: {
  ods: [number, number, number];
  walls: [number, number, number];
  angles: [number, number];
  over: number;
}): string {
  const [a, b] = r.angles.map(rad) as [number, number];
  const half = (r.over - r.ods[0] / 2 / Math.sin(a) - r.ods[1] / 2 / Math.sin(b)) / 2;
  const host = (y: number, along: number, up: number) => [-400, 400].map((t) => [0, y + t * along, t * up]);
  return JSON.stringify({
    format: "tubewright job",
    version: 2,
    name: "by hand",
    tubes: Object.fromEntries(r.ods.map((od, i) => [`t${i + 1}`, { od, wall: r.walls[i] }])),
    bars: {
      one: { tube: "t1", path: host(half, -Math.cos(a), Math.sin(a)) },
      two: { tube: "t2", path: host(-half, Math.cos(b), Math.sin(b)) },
      between: {
        tube: "t3",
        path: [
          { on: "one", along: 400 },
          { on: "two", along: 400 },
        ],
      },
    },
  });
}

interface Coped {
  readonly copes: readonly {
    readonly end: string;
    readonly saw: { readonly offSquare: number; readonly diameter: number };
  }[];
}

async function figures(page: Page): Promise<string> {
  await expect
    .poll(() => page.getByRole("region", { name: "The bar between them" }).getAttribute("aria-busy"))
    .toBe("false");
  return (await page.getByRole("region", { name: "The bar between them" }).textContent()) ?? "";
}

it("the first five minutes: two tubes, a tape, an angle finder; length, notches, two wraps true to size", async () => {
  const page = await blank();
  await button(page, /^Between two tubes/).click();
  await type(page, /^Tube 1, outside diameter/, "48.3");
  await type(page, /^Tube 1, wall/, "2.6");
  await type(page, /^Reading at tube 1/, "74");
  await type(page, /^Tube 2, outside diameter/, "1 1/2 in");
  await type(page, /^Tube 2, wall/, "0.095 in");
  await type(page, /^Reading at tube 2/, "99.5");
  await button(page, "outside to outside").click();
  await type(page, /^Distance along the string, outside to outside/, "1250");
  await type(page, /^New bar, outside diameter/, "40");
  await type(page, /^New bar, wall/, "2");

  const job = byHand({ ods: [48.3, 38.1, 40], walls: [2.6, 2.413, 2], angles: [74, 99.5], over: 1250 });
  const bar = (await told<Bent>(["bend", "--bar", "between"], job)).bars[0]!;
  const { copes } = await told<Coped>(["cope", "--bar", "between", "--steps"], job);
  await expect.poll(() => figures(page)).toContain(`Net length${mm(bar.blank)}`);
  const shown = await figures(page);
  expect(copes.map((c) => c.end)).toEqual(["A", "B"]);
  for (const { end, saw } of copes)
    expect(await page.getByRole("region", { name: `End ${end}` }).textContent()).toContain(
      `${saw.offSquare.toFixed(1)}° off square, hole saw ${mm(saw.diameter)}`,
    );
  expect(shown).toMatch(/Allowance\d/);

  for (const [paper, end, sides] of [
    ["A4", "A", [210, 297]],
    ["Letter", "B", [215.9, 279.4]],
  ] as const) {
    await button(page, paper).click();
    const { path, name } = await handedOut(page, () =>
      button(page, new RegExp(`^Save Wrap, end ${end}`)).click(),
    );
    expect(name).toBe(`wrap-${end}.pdf`);
    const size = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(run("pdfinfo", path).toString())!;
    for (const [i, side] of sides.entries())
      expect(Math.abs((Number(size[i + 1]) * 25.4) / 72 - side)).toBeLessThan(0.01);
    measure(path);
  }

  await button(page, "Add it to a job").click();
  await button(page.getByRole("dialog"), /^A new job/).click();
  await page.getByRole("heading", { name: "New bar, end A" }).waitFor();
  const kept = await told<Bent>(["bend", "--bar", "new-bar"], await savedJob(page));
  expect(kept.bars[0]!.blank).toBeCloseTo(bar.blank, 3);

  // once more, now into the job in hand: of the tubes that it has
  await button(page, "Jobs").click();
  await button(page, /^Between two tubes/)
    .first()
    .click();
  await button(page, "Add it to a job").click();
  await button(page.getByRole("dialog"), /^This job: Between two tubes/).click();
  await page.getByRole("heading", { name: "New bar 2, end A" }).waitFor();
  const twice = await savedJob(page);
  expect(Object.keys(JSON.parse(twice).tubes)).toHaveLength(3);
  const lengths = (await told<Bent>(["bend"], twice)).bars.map((b) => b.blank.toFixed(3));
  expect(lengths.slice(3)).toEqual(lengths.slice(0, 3));
});

/** The check square both ways, and once round the wrapped tube of 40 mm with paper of 0.1 mm, to 0.2 mm. */
function measure(path: string): void {
  const grey = picture(path, join(path, "..", "wrap"));
  for (const way of ["across", "down"] as const) {
    const sides = uprights(grey, way).filter((line) => line.length / PX > 99 && line.length / PX < 104);
    expect(sides).toHaveLength(2);
    expect(Math.abs((sides[1]!.at - sides[0]!.at) / PX - 100)).toBeLessThan(0.2);
  }
  const edges = uprights(grey, "across").filter((line) => line.from / PX < 40 && line.length / PX < 100);
  const [zero, round] = edges;
  expect(Math.abs((round!.at - zero!.at) / PX - Math.PI * 40.1)).toBeLessThan(0.2);
}

/** The frame as a fabricator would type it into a file. */
const FRAME = {
  format: "tubewright job",
  version: 2,
  name: "Five bars",
  tubes: { "45x2.5": { od: 45, wall: 2.5 }, "38x2": { od: 38, wall: 2 } },
  dies: { d45: { od: 45, clr: 135, clamp: 90, between: 60, tail: 120 } },
  plates: {
    "foot-left": { at: [0, 600, 0], normal: [0, 0, 1] },
    "foot-right": { at: [0, -600, 0], normal: [0, 0, 1] },
  },
  bars: {
    "main-hoop": {
      label: "Main hoop",
      tube: "45x2.5",
      die: "d45",
      path: [{ plate: "foot-left" }, [-40, 600, 900], [-40, -600, 900], { plate: "foot-right" }],
    },
    "shoulder-bar": {
      label: "Shoulder bar",
      tube: "38x2",
      path: [
        { on: "main-hoop", z: 620, near: "left" },
        { on: "main-hoop", z: 620, near: "right" },
      ],
    },
    "knee-bar": {
      label: "Knee bar",
      tube: "38x2",
      path: [
        { on: "main-hoop", z: 262.5, near: "left" },
        { on: "main-hoop", z: "10 3/8 in", near: "right" },
      ],
    },
    "rear-stay-left": {
      label: "Rear stay, left",
      tube: "38x2",
      trim: { B: 25 },
      path: [{ on: "main-hoop", along: 790 }, [-900, 520, 300]],
    },
    "rear-stay-right": { label: "Rear stay, right", mirrorOf: "rear-stay-left" },
  },
};

it("a frame of five bars, all of it typed: its file gives what one typed by hand gives", async () => {
  const page = await blank();
  await answer(page, /^New job/, "Five bars", "Create the job");
  for (const [name, od, wall] of [
    ["45x2.5", "45", "2.5"],
    ["38x2", "38", "2"],
  ] as const) {
    await answer(page, "New tube", name, "Add the tube");
    // its name says both sizes
    await button(page, `tube ${name}, outside diameter: ${od}.0 mm`).waitFor();
    await button(page, `tube ${name}, wall: ${Number(wall).toFixed(2)} mm`).waitFor();
  }
  // the example of a new job; the frame was written without
  await button(page, "Shop").click();
  await pick(page, /^Saw and joints, allowance at each end/, "none");
  await button(page, "Dies").click();
  await answer(page, "New die", "d45", "Add the die");
  for (const [what, size] of [
    ["diameter of its tube", "45"],
    ["centreline radius", "135"],
    ["straight for the clamp", "90"],
    ["least straight between bends", "60"],
    ["least tube behind the last bend", "120"],
  ] as const)
    await type(page, new RegExp(`^die d45, ${what}`), size);
  await button(page, "Plates").click();
  for (const side of ["left", "right"] as const) {
    await answer(page, "New plate", `Foot, ${side}`, "Add the plate");
    await type(page, new RegExp(`^plate foot-${side}, left`), "600", side);
  }

  const newBar = async (name: string, tube: string): Promise<void> => {
    await button(page, "New bar").click();
    const asked = page.getByRole("dialog");
    await asked.getByRole("textbox").fill(name);
    await button(asked, "Next").click();
    await button(asked, tube).click();
    await page.getByRole("heading", { name, exact: true }).waitFor();
  };
  const place = async (who: string, ...ways: (readonly [text: string, side: string])[]): Promise<void> => {
    const axes = ["forward", "left", "up"];
    for (const [i, [text, side]] of ways.entries())
      await type(page, new RegExp(`^${who}: distance ${axes[i]}`), text, side);
  };
  const landing = (end: "A" | "B", ...how: string[]): Promise<void> =>
    pick(page, `More for End ${end}`, "Change how it is placed", ...how);

  await newBar("Main hoop", "45x2.5");
  await landing("A", "stands on a plate", "foot-left");
  await landing("B", "stands on a plate", "foot-right");
  await pick(page, "Die: none", "d45");
  await pick(page, "More for End A", "Add a corner after end A");
  await place("Corner 1", ["40", "back"], ["600", "left"], ["900", "up"]);
  await pick(page, "More for Corner 1", "Add a corner after corner 1");
  await place("Corner 2", ["40", "back"], ["600", "right"], ["900", "up"]);

  await newBar("Shoulder bar", "38x2");
  await landing("A", "lands on a bar, at a height", "Main hoop");
  await landing("B", "lands on a bar, at a height", "Main hoop");
  for (const end of ["A", "B"] as const) await type(page, new RegExp(`^End ${end}: distance .* on `), "620");
  await newBar("Knee bar", "38x2");
  await landing("A", "lands on a bar, at a height", "Main hoop");
  await landing("B", "lands on a bar, at a height", "Main hoop");
  await type(page, /^End A: distance .* on /, "262.5");
  await type(page, /^End B: distance .* on /, "10 3/8 in");
  await newBar("Rear stay, left", "38x2");
  await landing("A", "lands on a bar, at a distance along it", "Main hoop");
  await type(page, /^End A: distance along Main hoop/, "790");
  await place("End B", ["900", "back"], ["520", "left"], ["300", "up"]);
  await type(page, /^Allowance at end B/, "25");
  await button(page, "Mirror").click();
  await page.getByRole("heading", { name: "Rear stay, right" }).waitFor();

  const saved = await savedJob(page);
  expect(Object.keys(JSON.parse(saved).bars)).toEqual(Object.keys(FRAME.bars));
  const [typed, byHand] = await Promise.all(
    [saved, JSON.stringify(FRAME)].map((job) => told<Bent>(["bend"], job)),
  );
  expect(byHand!.bars).toHaveLength(5);
  expect(typed).toEqual(byHand);
  const copes = await Promise.all([saved, JSON.stringify(FRAME)].map((job) => told(["cope"], job)));
  expect(copes[0]).toEqual(copes[1]);
  await button(page, /^Rear stay, left/).click();
  await page
    .getByRole("region", { name: "The bar in hand" })
    .getByText(mm(byHand!.bars[3]!.blank + 25))
    .first()
    .waitFor();
});
