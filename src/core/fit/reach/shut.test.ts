import { expect, test } from "vitest";
import { fittingFor, jobOf } from "../../../../tests/support/fit.ts";
import { landsOnOf } from "../stuff/index.ts";
import { shutOf, weldReach } from "./index.ts";

/** A post with a bar on it, and a tube that stands close by the joint: with that in first, part of the ring is shut. */
const bars = {
  post: [
    [0, 0, 20],
    [0, 0, 800],
  ],
  beside: [
    [41, 41, 20],
    [41, 41, 800],
  ],
  bar: [{ on: "post", z: 400 }, [0, 400, 400]],
};

test("what a bar finds shut: only by what it does not stand on, and only what is open without that", () => {
  const fitting = fittingFor(jobOf(bars));
  const shut = shutOf(fitting, landsOnOf(fitting.bars));
  expect(shut("bar", ["post"])).toBe(0);
  const places = shut("bar", ["post", "beside"]);
  expect(places).toBeGreaterThan(3);
  expect(shut("beside", ["post", "bar"])).toBe(0);
  // The same by the report of an order, which looks at the rings its own way.
  const first = (order: readonly string[]) =>
    weldReach(fitting, order).find((r) => r.bar === "bar" && r.end === "A")!.first;
  const lost = first(["post", "bar", "beside"]) - first(["post", "beside", "bar"]);
  expect(lost * 36).toBeCloseTo(places, 9);
});
