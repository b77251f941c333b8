import { describe, expect, it } from "vitest";
import { readJob } from "../core/job/index.ts";
import { planJob } from "../core/plan/index.ts";
import type { Mark, Sheet } from "../draw/index.ts";
import { dieCard } from "./index.ts";

const job = (die: object, show: object = { length: "mm" }) => {
  const read = readJob({ format: "tubewright job", version: 2, name: "Dies", show, dies: { d45: die } });
  if (!read.ok) throw new Error("a die is a job");
  return planJob(read.job);
};
const texts = (marks: readonly Mark[]): string[] =>
  marks.flatMap((m) => (m.kind === "text" ? [m.text] : m.kind === "group" ? texts(m.marks) : []));
const said = (sheets: readonly Sheet[]): string =>
  sheets
    .flatMap((s) => texts(s.marks))
    .join(" ")
    .replace(/\s+/g, " ");

/** Two bends: 30 set for 27.6; 94 set for 90.0 with A = B = 330 to the centreline's corner, 600 before bending. */
const TESTED = {
  od: 45,
  clr: 135,
  clamp: 90,
  tests: [
    { set: 30, got: 27.6 },
    { set: 94, got: 90, legs: [352.5, 352.5], stick: 600 },
  ],
};

describe("the die's card, as it is read", () => {
  it.each(["A4", "Letter"] as const)(
    "is one %s sheet with springback, radius and what to set, each with its ±",
    (paper) => {
      const card = dieCard(job(TESTED), "d45", paper)!;
      expect(card.sheets).toHaveLength(1);
      const all = said(card.sheets);
      // k = (90 − 27.6)/(94 − 30) = 0.975, c = 27.6 − 0.975·30 = −1.65; R = 60/(2 − π/2) = 139.79
      expect(all).toContain("0.975 × set − 1.65°");
      expect(all).toContain("139.8 mm");
      expect(all).toContain("taken as 1, not measured");
      // 90 wanted: 94 set; 45: (45 + 1.65)/0.975 = 47.846
      expect(all).toMatch(/90\.0° 94\.0° 0\.5° 139\.8 mm 219\.6 mm 60\.0 mm/);
      expect(all).toMatch(/45\.0° 47\.8°/);
      expect(all).toContain("Test bend 2: set 94.0°, measured 90.0°; outside legs 352.5 mm and 352.5 mm");
      expect(all).toContain("Straight for the clamp: 90.0 mm. Between bends: not set.");
      expect(all).toContain("± is one standard deviation");
    },
  );

  it("in inches where the job is", () => {
    const all = said(
      dieCard(job({ ...TESTED, od: "1 3/4 in" }, { length: "in", fraction: 16 }), "d45")!.sheets,
    );
    expect(all).not.toMatch(/\d mm/);
    // of 1 3/4 in tube: (105 − 44.45)/(2 − π/2) = 141.07 mm
    expect(all).toContain("5 9/16 − in");
  });

  it("says what to do where nothing is known, and prints no setting", () => {
    const all = said(dieCard(job({ od: 45, clr: 135 }), "d45")!.sheets);
    expect(all).toContain("Make two test bends, 30° and 90° or more");
    expect(all).toMatch(/90\.0° not known 135\.0 mm 212\.1 mm 57\.9 mm/);
    expect(dieCard(job({ od: 45, clr: 135 }), "d40")).toBeUndefined();
  });

  it("prints neither radius nor arc factor of legs that no tube can give", () => {
    const wrong = {
      ...TESTED,
      tests: [TESTED.tests[1], { set: 125, got: 120.2, legs: [402, 402], stick: 594 }],
    };
    const all = said(dieCard(job(wrong), "d45")!.sheets);
    expect(all).toContain("the legs of the test bends can't be true");
    expect(all).toContain("135.0 mm");
    expect(all).not.toMatch(/0\.6\d\d/);
  });

  it("goes by the springback that is given, where one is", () => {
    const all = said(dieCard(job({ ...TESTED, springback: { k: 0.9, c: 0 } }), "d45")!.sheets);
    expect(all).toContain("0.900 × set");
    expect(all).toMatch(/90\.0° 100\.0°/);
  });
});
