import { expect, test } from "vitest";
import { fittingFor, jobOf, SHADED } from "../../../../tests/support/fit.ts";
import { landsOnOf } from "../scene/index.ts";
import { shutOf, weldReach } from "./index.ts";

test("what a bar finds shut: only by what it does not stand on, and only what is open without that", () => {
  const fitting = fittingFor(jobOf(SHADED));
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
