import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { fittingFor, jobOf, SHADED, TRAP } from "../../../../tests/support/fit.ts";
import { findOrder, weldReach } from "../index.ts";
import { shutOf } from "../reach/index.ts";
import { landsOnOf } from "../scene/index.ts";

test("of two orders that both go in, the one found shuts no joint, however the job lists them", () => {
  for (const ids of [
    ["post", "beside", "bar"],
    ["post", "bar", "beside"],
    ["beside", "post", "bar"],
  ] as const) {
    const fitting = fittingFor(jobOf(Object.fromEntries(ids.map((id) => [id, SHADED[id]]))));
    const found = findOrder(fitting);
    expect(found.bars.map((j) => j.goesIn)).toEqual(["free", "free", "free"]);
    expect(found.order.indexOf("bar")).toBeLessThan(found.order.indexOf("beside"));
    for (const r of weldReach(fitting, found.order)) expect(r.first).toBe(1);
  }
});

test("a pair stays together where it costs nothing, and is parted where a ring would be shut", () => {
  const both = (beside: readonly (readonly number[])[]) => {
    const job = jobOf({ post: SHADED.post.map(([x, , z]) => [x!, 300, z!]), beside }) as { bars: object };
    const lander = { tube: "t", path: [{ on: "post", z: 400 }, [0, 700, 400]] };
    const all = { ...job.bars, other: { mirrorOf: "post" }, bar: lander, twin: { mirrorOf: "bar" } };
    return findOrder(fittingFor({ ...job, bars: all })).order;
  };
  const parted = both([
    [41, 341, 20],
    [41, 341, 800],
  ]);
  expect(parted.indexOf("bar")).toBeLessThan(parted.indexOf("beside"));
  const far = both([
    [900, 341, 20],
    [900, 341, 800],
  ]);
  expect(Math.abs(far.indexOf("bar") - far.indexOf("twin"))).toBe(1);
  expect(far.indexOf("beside")).toBeLessThan(far.indexOf("bar"));
});

test("where only one order goes in, it is found though it shuts a ring", () => {
  // Hosts that come together upward: low, just under high, would shut it out; high, in first, shuts part of low's ring.
  const lean = fittingFor(jobOf(TRAP));
  const shut = shutOf(lean, landsOnOf(lean.bars));
  expect(shut("low", ["left", "right", "high"])).toBeGreaterThan(0);
  const found = findOrder(lean);
  expect(found.bars.every((j) => j.goesIn === "free")).toBe(true);
  expect(found.order.indexOf("high")).toBeLessThan(found.order.indexOf("low"));
});

test("one that would have to be sprung waits till what is in its way is out, and its twin waits for it", () => {
  // Of the demo car: the hoop diagonal stands on the right foot of the hoop, where the right sill bar would roll out.
  const demo = fittingFor(JSON.parse(readFileSync("demo/sandling.json", "utf8")) as object);
  const ids = ["main-hoop", "harness-bar", "hoop-diagonal-lower-half", "pillar-bar-left", "pillar-bar-right"];
  const some = [...ids, "sill-bar-left", "sill-bar-right"];
  const asked: string[] = [];
  const found = findOrder({
    ...demo,
    bars: demo.bars.filter((b) => some.includes(b.bar.id)),
    onSearch: (id) => asked.push(id),
  });
  expect(found.bars.map((j) => j.goesIn)).toEqual(some.map(() => "free"));
  const at = (id: string): number => found.order.indexOf(id);
  expect(Math.abs(at("sill-bar-left") - at("sill-bar-right"))).toBe(1);
  expect(at("sill-bar-right")).toBeLessThan(at("hoop-diagonal-lower-half"));
  // Searched for once, when it would have to be sprung; free by the way of its twin then, which did not take over that.
  expect(asked.filter((id) => id === "sill-bar-right")).toHaveLength(1);
});
