import { describe, expect, it } from "vitest";
import { readJob } from "../core/job/index.ts";
import { planJob } from "../core/plan/index.ts";
import { record } from "../draw/sinks/record.ts";
import { cardFiles, cardFindings, markStrip, wrapCard } from "./files.ts";
import { MOST_SHEETS } from "./sheet-limit.ts";

const planOf = (bars: object, more: object = {}) => {
  const read = readJob({
    format: "tubewright job",
    version: 1,
    tubes: { t: { od: 40, wall: 2 } },
    dies: { d: { od: 40, clr: 120 } },
    bars,
    ...more,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job);
};

/** A bar that leaves its host at so few degrees. */
const shallow = (degrees: number) => {
  const [x, z] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return planOf({
    host: {
      tube: "t",
      path: [
        [0, 0, 0],
        [60_000, 0, 0],
      ],
    },
    b: { tube: "t", path: [{ on: "host", along: 5000 }, [5000 + 50_000 * x, 0, 50_000 * z]] },
  });
};
const long = (length: number) =>
  planOf({
    b: {
      tube: "t",
      die: "d",
      path: [
        [0, 0, 0],
        [length, 0, 0],
        [length, 500, 0],
      ],
    },
  });

const told = (plan: ReturnType<typeof planOf>) =>
  cardFindings(plan, { paper: "A4" }).map(({ code, bar, values }) => ({ code, bar, sheets: values.sheets }));
const saidOn = (document: { sheets: readonly Parameters<typeof record>[0][] } | undefined): string =>
  document!.sheets
    .flatMap((s) => record(s))
    .map((m) => (m.kind === "text" ? m.text : ""))
    .join(" ");

/** A bar between two that run side by side, off both by so few degrees. */
const between = (degrees: number) => {
  const z = 40_000 * Math.tan((degrees * Math.PI) / 180);
  const at = (height: number) => ({
    tube: "t",
    path: [
      [0, 0, height],
      [60_000, 0, height],
    ],
  });
  return planOf({
    low: at(0),
    high: at(z),
    b: {
      tube: "t",
      path: [
        { on: "low", along: 5000 },
        { on: "high", along: 45_000 },
      ],
    },
  });
};

describe("more sheets than anybody joins", () => {
  it("counts both ends' wraps together, for they are one print: the second is left out where it is too many", () => {
    // 18 and 18 sheets, then 22 and 22, of 40
    expect(told(between(1.2))).toEqual([]);
    expect(told(between(1))).toMatchObject([{ code: "sheets-many", bar: "b", sheets: { count: 22 } }]);
  });

  it("a wrap of a shallow joint is left out, with the number, on the card and as a finding", () => {
    const plan = shallow(0.2);
    const [finding] = told(plan);
    expect(finding).toMatchObject({ code: "sheets-many", bar: "b" });
    const { count } = finding!.sheets as { count: number };
    expect(count).toBeGreaterThan(MOST_SHEETS);
    const card = wrapCard(plan, "b", "A")!;
    expect(card.sheets).toHaveLength(1);
    expect(saidOn(card)).toContain(`takes ${count} sheets`);
    // the file for a roll of paper is there
    expect(cardFiles(plan, { paper: "A4" }).map((f) => f.name)).toContain("wraps/b-A.svg");
  });

  it("a mark strip of hundreds of metres is left out too", () => {
    const plan = long(300_000);
    expect(told(plan)).toMatchObject([{ code: "sheets-many", bar: "b" }]);
    expect(saidOn(markStrip(plan, "b"))).toContain("mark the bends with a tape");
  });

  it("what a shop meets is printed whole: a wrap at 5°, a strip of a stick", () => {
    expect(told(shallow(5))).toEqual([]);
    expect(wrapCard(shallow(5), "b", "A")!.sheets.length).toBeGreaterThan(3);
    expect(told(long(6000))).toEqual([]);
    expect(markStrip(long(6000), "b")!.sheets.length).toBeGreaterThan(2);
  });

  it("no bar's cards pass it, whatever leans: each part by itself may be under it", async () => {
    for (const degrees of [0.3, 0.45, 0.6, 0.8]) {
      const [x, z] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      const plan = planOf({
        host: {
          tube: "t",
          path: [
            [0, 0, 0],
            [60_000, 0, 0],
          ],
        },
        other: {
          tube: "t",
          path: [
            [0, 0, 100 * z],
            [60_000, 0, 100 * z],
          ],
        },
        b: {
          tube: "t",
          path: [
            { on: "host", along: 5000 },
            [5000 + 5000 * x, 0, 5000 * z + 2000],
            { on: "other", along: 50_000 },
          ],
          die: "d",
        },
        c: { tube: "t", path: [{ on: "host", along: 5000 }, [5000 + 50_000 * x, 0, 50_000 * z]] },
      });
      for (const file of cardFiles(plan, { paper: "A4" }).filter((f) => f.name === "bars/c.pdf")) {
        const { readFonts } = await import("../cli/fonts.ts");
        const pdf = Buffer.from((await file.make(readFonts())) as Uint8Array).toString("latin1");
        const pages = Number(
          /\/Type \/Pages\s*\/Count (\d+)/.exec(pdf)?.[1] ?? /\/Count (\d+)/.exec(pdf)![1],
        );
        expect(pages).toBeLessThanOrEqual(MOST_SHEETS + 3);
      }
    }
  });
});
