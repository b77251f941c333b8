import { describe, expect, test } from "vitest";
import { cureOf, findOrder } from "../../src/core/fit/index.ts";
import { contactsOf, mobilityOf } from "../../src/core/fit/joint/index.ts";
import { sweep } from "../../src/core/fit/way/index.ts";
import { sayDirection, sayWhy } from "../../src/words/index.ts";
import { barOf, EFFORT, fittingFor, jobOf, judgedLast, judgeOrder, TRAP } from "../support/fit.ts";

/** Pegs and slots whose answer is known by how they are made; nothing here was computed by what it checks. */

const mobility = (document: object, id = "bar") => {
  const own = barOf(fittingFor(document), id);
  return mobilityOf(own.bar, contactsOf(own.bar, own.copes, own.hosts));
};

const between = (lean: number, od = 40) =>
  jobOf(
    {
      // The hosts come together toward the top by `lean` a side over 1000.
      left: [
        [0, 300 + lean / 2, -500],
        [0, 300 - lean / 2, 500],
      ],
      right: [
        [0, -300 - lean / 2, -500],
        [0, -300 + lean / 2, 500],
      ],
      bar: [
        { on: "left", z: 0 },
        { on: "right", z: 0 },
      ],
    },
    od,
  );

describe("first-order mobility", () => {
  test("parallel hosts: both ways along them, no other", () => {
    const { slides, locked } = mobility(between(0));
    expect(locked).toBe(false);
    expect(slides.map(sayDirection).sort()).toEqual(["down", "up"]);
    for (const d of slides) expect(Math.abs(d[2])).toBeGreaterThan(0.9999);
  });

  test.each([20, 60, 200])("hosts that come together upward by %i: down only", (lean) => {
    const { slides } = mobility(between(lean));
    expect(slides.length).toBeGreaterThan(0);
    for (const d of slides) expect(sayDirection(d)).toBe("down");
  });

  test.each([20, 60, 200])("the same upside down (%i): up only", (lean) => {
    for (const d of mobility(between(-lean)).slides) expect(sayDirection(d)).toBe("up");
  });

  test("hosts that lean across each other hold it: locked, with the lips named", () => {
    const { slides, locked, lips } = mobility(
      jobOf({
        left: [
          [-100, 300, -500],
          [100, 300, 500],
        ],
        right: [
          [100, -260, -500],
          [-100, -340, 500],
        ],
        bar: [
          { on: "left", z: 0 },
          { on: "right", z: 0 },
        ],
      }),
    );
    expect(slides).toEqual([]);
    expect(locked || lips.length > 0).toBe(true);
  });

  test("one end free: straight out along the bar", () => {
    const { slides, open } = mobility(
      jobOf({
        host: [
          [0, 0, -500],
          [0, 0, 500],
        ],
        bar: [{ on: "host", z: 0 }, [0, 400, 0]],
      }),
    );
    expect(open).toEqual(["B"]);
    expect(sayDirection(slides[0]!)).toBe("to the left");
  });
});

describe("a peg and the hole that it must leave by", () => {
  /** A bar on a post inside a closed box; the only way out is a square hole of side `hole`, `off` to one side. */
  const box = (hole: number, off: number) => {
    const [y0, y1, x, z] = [-100, 420, 200, 200];
    const sheet = (edge: readonly (readonly number[])[], openings: readonly string[] = []) => ({
      edge,
      openings,
    });
    return jobOf(
      {
        post: [
          [0, 0, 20],
          [0, 0, 380],
        ],
        bar: [{ on: "post", z: 200 }, [0, 300, 200]],
      },
      40,
      {
        body: {
          openings: {
            hole: [
              [off - hole / 2, y1, z - hole / 2],
              [off + hole / 2, y1, z - hole / 2],
              [off + hole / 2, y1, z + hole / 2],
              [off - hole / 2, y1, z + hole / 2],
            ],
          },
          panels: {
            front: sheet([
              [x, y0, 0],
              [x, y1, 0],
              [x, y1, 400],
              [x, y0, 400],
            ]),
            rear: sheet([
              [-x, y0, 0],
              [-x, y1, 0],
              [-x, y1, 400],
              [-x, y0, 400],
            ]),
            near: sheet([
              [-x, y0, 0],
              [x, y0, 0],
              [x, y0, 400],
              [-x, y0, 400],
            ]),
            far: sheet(
              [
                [-x, y1, 0],
                [x, y1, 0],
                [x, y1, 400],
                [-x, y1, 400],
              ],
              ["hole"],
            ),
            low: sheet([
              [-x, y0, 0],
              [x, y0, 0],
              [x, y1, 0],
              [-x, y1, 0],
            ]),
            top: sheet([
              [-x, y0, 400],
              [x, y0, 400],
              [x, y1, 400],
              [-x, y1, 400],
            ]),
          },
        },
      },
    );
  };

  test("just large enough, straight ahead: out by it", () => {
    const judged = judgedLast(box(41.5, 0), "bar");
    expect(judged.goesIn).toBe("free");
    expect(judged.clearance).toBeCloseTo(0.75, 1);
  });

  test("just too small: not, and the box is named", () => {
    const judged = judgedLast(box(38.5, 0), "bar", { ...EFFORT, nodes: 300 });
    expect(judged.goesIn).toBe("no");
    expect(judged.proved).toBe(false);
    expect(sayWhy(judged.why, String)).toContain("not a proof");
    expect(judged.blockedBy.some((id) => ["far", "hole"].includes(id))).toBe(true);
  });

  test("off to one side and wide enough: found by search", () => {
    expect(judgedLast(box(110, 90), "bar").goesIn).toBe("free");
  });

  test("no hole at all: not", () => {
    const closed = box(60, 0) as { body: { panels: { far: { openings: string[] } } } };
    closed.body.panels.far.openings = [];
    expect(judgedLast(closed, "bar", { ...EFFORT, nodes: 300 }).goesIn).toBe("no");
  });
});

describe("a trap built on purpose", () => {
  // The hosts come together upward, so both bars go in from below; `low`, just under `high`, shuts it out.
  const trap = fittingFor(jobOf(TRAP));
  const wrong = ["left", "right", "low", "high"];

  test("the user's order: the bar that is shut out, what shuts it out, the smallest change", () => {
    const judged = judgeOrder(trap, wrong);
    expect(judged.map((j) => j.goesIn)).toEqual(["free", "free", "free", "no"]);
    expect(judged[3]!.blockedBy).toEqual(["low"]);
    expect(sayWhy(judged[3]!.why, String)).toContain("low stood in the way");
    expect(cureOf(trap, wrong, "high")).toMatchObject({ before: "low", judged: { goesIn: "free" } });
  });

  test("the order proposed cures it, and every way of it stands its sweep", () => {
    const found = findOrder(trap);
    expect(found.order.indexOf("high")).toBeLessThan(found.order.indexOf("low"));
    expect(found.bars.every((j) => j.goesIn === "free")).toBe(true);
    expect(found.untacked).toEqual([]);
    for (const j of found.bars) {
      const own = barOf(trap, j.bar);
      const tacked = j.after.map((id) => barOf(trap, id).bar);
      const swept = sweep(own.bar, own.copes, j.way, tacked, trap.parts(false), { step: 0.25 });
      expect(swept.overlap).toBeLessThan(0.01);
      expect(j.way[j.way.length - 1]).toEqual({ at: [0, 0, 0], turn: [0, 0, 0, 1] });
    }
  });

  test("a bar before what it lands on is said so", () => {
    const [first] = judgeOrder(trap, ["high", "left", "right", "low"]);
    expect(first).toMatchObject({ goesIn: "no", proved: true });
    expect(sayWhy(first!.why, String)).toBe("lands on left and right, which are not in yet");
  });
});

describe("roof on and off", () => {
  // A lid over a bar that stands on a plate and can only go up; the floor is under it.
  const lid = (needs: string | undefined) => {
    const walls = [
      [-60, -60],
      [60, -60],
      [60, 60],
      [-60, 60],
    ] as const;
    const side = (a: readonly [number, number], b: readonly [number, number]) => ({
      edge: [
        [...a, 0],
        [...b, 0],
        [...b, 500],
        [...a, 500],
      ],
    });
    return {
      format: "tubewright job",
      version: 2,
      tubes: { t: { od: 40, wall: 2 } },
      plates: { foot: { at: [0, 0, 20], normal: [0, 0, 1], size: [60, 60] } },
      body: {
        panels: {
          lid: { edge: walls.map((w) => [...w, 500]) },
          ...Object.fromEntries(walls.map((w, i) => [`side ${i}`, side(w, walls[(i + 1) % 4]!)])),
        },
        roof: ["lid"],
      },
      bars: { bar: { tube: "t", path: [{ plate: "foot" }, [0, 0, 400]], ...(needs ? { needs } : {}) } },
    };
  };

  test("under the lid it does not go in; with the roof off it does", () => {
    const judge = (needs?: string) =>
      judgeOrder(fittingFor(lid(needs), { ...EFFORT, nodes: 200 }), ["bar"])[0]!;
    expect(judge().goesIn).toBe("no");
    expect(judge("body on").goesIn).toBe("no");
    expect(judge("roof off").goesIn).toBe("free");
  });
});
