import { expect, it, vi } from "vitest";
import { sayMade } from "../../words/index.ts";
import { readJob } from "../job/index.ts";
import { changeOf, planJob, reuseOf } from "../plan/index.ts";
import { shopWriterFor } from "../units/index.ts";
import * as seat from "./seat.ts";

/** Two upright posts and a notched tie between them; a second tie, laid out, that it could become. */
function portal(span: number) {
  const post = (x: number) => ({
    tube: "t",
    path: [
      [x, 0, 0],
      [x, 0, 800],
    ],
  });
  const tie = (z: number) => ({
    tube: "t",
    path: [
      { on: "left", z },
      { on: "right", z },
    ],
  });
  const bars = {
    left: post(0),
    right: post(span),
    tie: { ...tie(400), progress: "notched" },
    other: tie(500),
  };
  const read = readJob({
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 } },
    shop: { trim: 10, gap: 1 },
    bars,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
}

it("where the search for a bar's place finds none, it can't be told: it is not made again for that", () => {
  const before = planJob(portal(600));
  expect(reuseOf(before, "tie").map((m) => m.of.id)).toEqual(["other"]);
  const search = vi.spyOn(seat, "seated").mockReturnValue(undefined);
  const [judged] = changeOf(before, portal(601)).bars;
  expect(judged).toEqual({
    bar: "tie",
    step: "notched",
    verdict: "unknown",
    reason: "not-found",
    short: 0,
  });
  expect(sayMade(judged!, shopWriterFor({ length: "mm", fraction: 16 }))).toBe(
    "Check it in its place: the search found no place for it, and whether it fits is unknown.",
  );
  expect(reuseOf(before, "tie")).toEqual([]);
  search.mockRestore();
});
