import { describe, expect, it } from "vitest";
import type { DoorGap } from "../job/types.ts";
import { normal, seeded } from "../numeric/index.ts";
import { DOOR_GAP, doorGapFindings, doorGapPairs } from "./index.ts";

const gap = (at: string, when: DoorGap["when"], size: number, struck = false): DoorGap => ({
  at,
  when,
  gap: size,
  ...(struck ? { struck } : {}),
});
const found = (...doorGaps: DoorGap[]) => doorGapFindings({ setUp: { done: [], doorGaps } });

describe("door gaps before and after", () => {
  it("are a finding when they changed by more than two readings of ± 0.5 mm differ by", () => {
    expect(DOOR_GAP).toBeCloseTo(1.386, 3);
    expect(found(gap("left, lock", "before", 4), gap("left, lock", "after", 5.3))).toEqual([]);
    expect(found(gap("left, lock", "before", 4), gap("left, lock", "after", 5.5))).toMatchObject([
      {
        code: "door-gap-changed",
        place: "setUp.doorGaps[1]",
        values: { before: { mm: 4 }, after: { mm: 5.5 } },
      },
    ]);
    expect(found(gap("left, lock", "before", 4), gap("left, lock", "after", 2.5))).toHaveLength(1);
  });

  it("of a shell that did not move are one in 20 times (10 000 pairs drawn)", () => {
    const random = seeded(14);
    const trials = Array.from({ length: 10_000 }, () => {
      const [a, b] = [5 + 0.5 * normal(random), 5 + 0.5 * normal(random)];
      return found(gap("x", "before", a), gap("x", "after", b)).length;
    });
    expect(trials.reduce((sum, n) => sum + n, 0) / 10_000).toBeCloseTo(0.05, 2);
  });

  it("compare the last readings of one place that are not struck", () => {
    const all = [
      gap("left, lock", "before", 9, true),
      gap("left, lock", "before", 4),
      gap("right, lock", "after", 9),
      gap("left, lock", "after", 9),
      gap("left, lock", "after", 4.5),
    ];
    expect(found(...all)).toEqual([]);
    expect(doorGapPairs(all)).toMatchObject([
      { at: "left, lock", before: { index: 1 }, after: { index: 4 }, change: 0.5, moved: false },
      { at: "right, lock", after: { index: 2 }, moved: false },
    ]);
  });
});
