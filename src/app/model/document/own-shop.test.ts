import { describe, expect, it } from "vitest";
import { readJob } from "../../../core/job/index.ts";
import { countsOf, isBare, newJobOf, shopAfter, shopOf } from "./own-shop.ts";
import { demo } from "./testing.ts";

const MM = { length: "mm", fraction: 16 } as const;

describe("the shop in a job", () => {
  it("is its tubes, dies, bender, notcher and figures, and no bar, point or name; and is a job itself", () => {
    const shop = shopOf(demo());
    const { tubes, dies, bender, notcher, shop: figures, show } = demo();
    expect(shop).toEqual({
      format: "tubewright job",
      version: 2,
      tubes,
      dies,
      bender,
      notcher,
      shop: figures,
      ...(show === undefined ? {} : { show }),
    });
    expect(readJob(shop).ok).toBe(true);
    expect(countsOf(shop)).toMatchObject({ tubes: Object.keys(tubes as object).length, saws: 4 });
  });

  it("goes into a new job as it is; without one there is an example allowance and nothing else", () => {
    const shop = shopOf(demo());
    const job = newJobOf("New", MM, shop);
    expect(readJob(job).ok).toBe(true);
    expect(shopOf(job)).toEqual(shop);
    expect([job.name, job.bars]).toEqual(["New", {}]);
    const bare = newJobOf("New", MM);
    expect(bare).toEqual({
      format: "tubewright job",
      version: 2,
      name: "New",
      show: MM,
      tubes: {},
      bars: {},
      shop: { trim: 30, example: ["trim"] },
    });
    expect([isBare(shopOf(bare)), isBare(shop)]).toEqual([true, false]);
    expect(newJobOf("New", { length: "in", fraction: 16 }).shop).toMatchObject({ trim: "1 1/4 in" });
    // a shop that says no allowance gets the example too, in its own unit
    expect(newJobOf("New", MM, { dies: {}, show: { length: "in" } }).shop).toMatchObject({
      trim: "1 1/4 in",
    });
  });
});

describe("what is kept after a step", () => {
  const kept = shopOf({
    tubes: { a: { od: 40, wall: 2 } },
    dies: { d: { od: 40, clr: 120 } },
    shop: { trim: 30 },
  });

  it("has what the step set, and all else as it was", () => {
    const before = { dies: { d: { od: 40, clr: 120 } }, shop: { gap: 1 } };
    const tests = [{ set: 30, got: 27.6 }];
    const after = { dies: { d: { od: 40, clr: 121, tests } }, shop: { gap: 1, kerf: 2 } };
    expect(shopAfter(kept, before, after)).toEqual({
      ...kept,
      dies: { d: { od: 40, clr: 121, tests } },
      shop: { trim: 30, kerf: 2 },
    });
  });

  it("keeps a die that a car does without, follows a new name, and loses what was taken back", () => {
    const die = { od: 40, clr: 120 };
    expect(shopAfter(kept, { dies: { d: die } }, { dies: {} })).toEqual(kept);
    expect(shopAfter(kept, { dies: { d: die } }, { dies: { d40: die } }).dies).toEqual({ d40: die });
    expect(shopAfter(kept, { dies: { d: die } }, { dies: {} }, true).dies).toEqual({});
    expect(shopAfter(kept, { shop: { trim: 30 } }, { shop: {} }).shop).toEqual({});
  });
});
