import { describe, expect, it } from "vitest";
import { readJob } from "../../core/job/index.ts";
import { standsIn } from "../model/compute/index.ts";
import { at, type Command, type JobDocument, type Json, setValue } from "../model/document/index.ts";
import { demo } from "../model/document/testing.ts";
import { followBar, unfollow } from "./following.ts";
import { resultsOf } from "./testing.ts";

function did(document: JobDocument, command: Command): JobDocument {
  const edit = command.edit(document);
  if (!edit.ok) throw new Error(edit.lines.join("\n"));
  const read = readJob(edit.document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return edit.document;
}

const FOLLOWER = "pillar-follower-left";
const cornersOf = (document: JobDocument, bar = FOLLOWER) => {
  const results = resultsOf(document);
  const found = standsIn({ byId: results.bars }, bar)?.corners;
  return found ?? expect.fail(JSON.stringify(results.without.find((w) => w.id === bar)?.findings));
};
const follow = (document: JobDocument, followed: string, bar = FOLLOWER): JobDocument =>
  did(document, followBar(document, bar, followed, resultsOf(document).bars));

function expectNear(document: JobDocument, other: JobDocument, within: number, bar = FOLLOWER): void {
  const [is, was] = [cornersOf(document, bar), cornersOf(other, bar)];
  expect(is.length).toBe(was.length);
  is.forEach((p, i) => {
    expect(Math.hypot(...p.map((x, k) => x - was[i]![k]!))).toBeLessThan(within);
  });
}

/** A tie across the hoop's feet. */
const tie = (): JobDocument =>
  did(
    demo(),
    setValue(
      ["bars", FOLLOWER, "path"],
      [
        { on: "main-hoop", along: 60 },
        { on: "main-hoop", along: -60 },
      ],
    ),
  );

describe("a bar that is told to follow another", () => {
  it("stays where it stands where it runs beside that one already", () => {
    const before = demo();
    const following = follow(before, "pillar-bar-left");
    // worked into the demo: 60 mm between the faces along the pillar run
    expect(at(following, ["bars", FOLLOWER, "follow", "gap"])).toBeCloseTo(60, 0);
    expect(at(following, ["bars", FOLLOWER, "follow", "bar"])).toBe("pillar-bar-left");
    expectNear(following, before, 0.5);
  });

  it("whatever its gap, side and run were, of what it followed before it finds the same place again", () => {
    const ways: readonly Json[] = [
      { gap: 30, side: "inside", from: 180, to: -180 },
      { gap: 41.3, side: [1, 0, 0], from: 200, to: -260 },
      { gap: 55, side: [-1, 0.2, 0], from: 700, to: -700 },
      { gap: 25, side: "inside", from: -250, to: 200 },
    ];
    for (const way of ways) {
      const feet = [60, -60].map((along): Json => ({ on: "main-hoop", along }));
      const first = did(
        tie(),
        setValue(["bars", FOLLOWER], {
          tube: "30x2",
          die: "d30",
          path: (way as { from: number }).from < 0 ? feet.reverse() : feet,
          follow: { bar: "main-hoop", ...(way as object) },
        }),
      );
      const own = did(first, unfollow(first, FOLLOWER, cornersOf(first)));
      expect(at(own, ["bars", FOLLOWER, "follow"])).toBeUndefined();
      expectNear(own, first, 1e-3);
      const again = follow(own, "main-hoop");
      expectNear(again, first, 0.5);
      expect(typeof at(again, ["bars", FOLLOWER, "follow", "side"]), JSON.stringify(way)).toBe(
        typeof (way as { side: unknown }).side,
      );
    }
  });

  it("takes the mean of its gaps where it runs only nearly beside", () => {
    const before = did(demo(), setValue(["bars", FOLLOWER, "path", 2, 0], 955));
    const following = follow(before, "pillar-bar-left");
    expectNear(following, before, 6);
  });

  it("without a corner yet begins a hand's breadth inside", () => {
    const following = follow(tie(), "main-hoop");
    expect(at(following, ["bars", FOLLOWER, "follow"])).toEqual({
      bar: "main-hoop",
      gap: 60,
      side: "inside",
      from: 180,
      to: expect.any(Number),
    });
    expect(cornersOf(following).length).toBeGreaterThan(3);
  });
});
