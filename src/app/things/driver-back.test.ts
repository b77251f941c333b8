import { expect, it } from "vitest";
import { alongBack } from "./driver-back.ts";

it("a seat laid back from 66° to 54° moves a place 700 along the back 126.7 rearward and 73.2 down (trade's figures)", () => {
  const hip = [400, 340, 235] as const;
  const [before, after] = [alongBack(hip, 66, 700), alongBack(hip, 54, 700)];
  expect(before[0] - after[0]).toBeCloseTo(126.7, 1);
  expect(before[2] - after[2]).toBeCloseTo(73.2, 1);
  expect([before[1], after[1]]).toEqual([340, 340]);
  expect(alongBack(hip, 90, 500)).toEqual([400, 340, 735]);
});
