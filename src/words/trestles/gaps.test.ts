import { expect, it } from "vitest";
import { rad } from "../../core/numeric/index.ts";
import type { GapsRead, NextCut } from "../../core/trestles/index.ts";
import { writerFor } from "../../core/units/index.ts";
import { sayGapProblem, sayNextCut } from "./gaps.ts";

const write = writerFor({ length: "mm", fraction: 16 });
const read = { joint: { notch: rad(40) }, sd: { notch: rad(0.3) } } as GapsRead;
const next = (steeper: number) =>
  ({
    cut: { notch: rad(40), clock: 0 },
    steeper: rad(steeper),
    roll: 0,
    rollRound: 0,
    aside: 0,
    inboard: 0,
    takes: 1,
    short: { gap: 1.2, along: 3, phi: 180, side: "toe" },
    heldBack: 0,
    final: true,
  }) as unknown as NextCut;
const codes = (steeper: number) => sayNextCut(read, next(steeper), 0, write).map((line) => line.code);

it("a cut that went past the joint's angle is said to have gone too far, and by how much", () => {
  const [, far] = sayNextCut(read, next(-5), 0, write);
  expect(far?.says).toBe("the cut just made went too far: it is 5.0° steeper than the joint");
  // shallower than the joint, and within what the readings can be wrong by
  expect([codes(5), codes(-0.5)].flat()).not.toContain("cut-too-far");
});

it("asks for more marks as the page has them: from the zero line", () => {
  const says = sayGapProblem({ why: "loose", free: ["notch"] }, write);
  expect(says).toBe("read at all eight marks, every 45° from the zero line. These leave the angle open");
});
