import { expect, it } from "vitest";
import { shopWriterFor } from "../core/units/index.ts";
import { TACKED_ANSWER } from "./answers.ts";
import { sayTooWide } from "./cards-notcher.ts";
import { NOTCHER_SAYS } from "./notcher.ts";
import { TACKED } from "./page-car.ts";
import { GAP, GAPS } from "./page-notcher.ts";
import { MOVED, QUESTIONS } from "./page-wall.ts";

const mm = shopWriterFor({ length: "mm", fraction: 16 });

it("sizes that are compared are written with digits enough to differ", () => {
  expect(MOVED.bar({ how: "changed", before: 1200, after: 1200.04 }, mm)).toBe(
    "net length 1200.000 mm → 1200.040 mm, 0.04 mm longer",
  );
  expect(MOVED.bar({ how: "changed", before: 1200, after: 1204 }, mm)).toContain("1200.0 mm → 1204.0 mm");
  expect(NOTCHER_SAYS.byGap("Hoop", 1.004, 90, 1, mm)).toMatch(/1\.004 mm at .*accepted is 1\.000 mm/);
  expect(sayTooWide({ gap: 1.004, gapAt: 90 }, 1, true, mm)).toMatch(/1\.004 mm at .*accepted: 1\.000 mm/);
  expect(GAP.label({ most: 1.004, at: 90, accepted: 1 }, mm)).toMatch(/1\.004 mm at .*accepted 1\.000 mm/);
  expect(GAPS.again({ at: 0, read: 0.5, others: 0.504, leftOut: false }, mm)).toMatch(/0\.500 mm.*0\.504 mm/);
  expect(TACKED_ANSWER.again(1, 1111.5, 1111.52, mm)).toMatch(/1111\.500 mm.*1111\.520 mm/);
});

it("a reading of a tacked bar is held against a whole size, not its difference from the plan", () => {
  expect(TACKED.again("4.0 mm higher than planned", 1111.5, 1107.6, mm)).toBe(
    "4.0 mm higher than planned. Read it again: it was read 1111.5 mm, the shop's usual errors allow about 1107.6 mm",
  );
});

it("within a sentence a step keeps its capitals but the first", () => {
  expect(QUESTIONS.nextStep("A", "Hole saw, outside Ø")).toBe("end A: hole saw, outside Ø");
});
