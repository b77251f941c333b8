import { describe, expect, it } from "vitest";
import type { Judged } from "../../core/fit/index.ts";
import {
  comesFrom,
  type FitWords,
  goesIn,
  goesInReasons,
  goesInSays,
  lastWay,
  packingSays,
  partSays,
  sayForce,
} from "../../words/index.ts";
import type { Look } from "./looking.ts";
import type { Tag } from "./row.ts";
import { rowSays } from "./row-says.ts";
import { answerSays, cureSays, tagSays } from "./says.ts";

const w: FitWords = {
  called: (id) => id.toUpperCase(),
  length: (mm) => `${mm.toFixed(1)} mm`,
  fine: (mm) => `${mm.toFixed(2)} mm`,
};
const SEAT = { at: [0, 0, 0], turn: [0, 0, 0, 1] } as const;
const free: Judged = {
  bar: "bar",
  after: [],
  goesIn: "free",
  past: ["bars", "plates"],
  joint: "slides",
  proved: false,
  way: [{ at: [0, 0, -900], turn: SEAT.turn }, SEAT],
  clearance: 6,
  nearest: "low",
  spring: 0,
  leaving: 0,
  pushes: [],
  lips: [],
  blockedBy: [],
  fouls: [],
  through: [],
  why: [],
};
const sprung: Judged = { ...free, goesIn: "spring", spring: 0.8, force: 41.6, joint: "locked" };
const no: Judged = { ...free, goesIn: "no", way: [], blockedBy: ["low", "dash"], joint: "slides" };
const tag = (state: Tag["state"], judged?: Judged, more: Partial<Tag> = {}): Tag => ({
  id: "bar",
  n: 3,
  label: "Bar",
  state,
  ...(judged ? { judged } : {}),
  missing: [],
  weld: [],
  ...more,
});

describe("a bar that goes in", () => {
  it("says what was there to go past, and on its tag where no body was", () => {
    expect(tagSays(tag("free", free), w)).toEqual({ word: "goes in free", marks: ["no body entered"] });
    const all: Judged = { ...free, past: ["bars", "plates", "body", "driver", "floor"] };
    expect(tagSays(tag("free", all), w).marks).toEqual([]);
    expect(goesInSays(all, [], w)).toMatch(
      / Past bars, plates, the body, the driver's room and the floor\.$/,
    );
    expect(goesInSays({ ...free, past: ["floor"] }, [], w)).toMatch(
      / Nothing to go past; no body entered\.$/,
    );
  });

  it("that touches by hundredths says by how much and on what, and is no sprung one", () => {
    const touching: Judged = { ...free, goesIn: "touches", touches: { id: "low", by: 0.034 } };
    expect(goesIn(touching, w)).toBe("goes in, touching 0.03 mm");
    expect(goesInSays(touching, [], w)).toContain("It touches LOW by 0.03 mm: a stroke of a file.");
    expect(answerSays(tag("touches", touching), w)).toMatchObject({
      figure: "0.03 mm",
      says: expect.stringMatching(/^Touching: straight in, up;/),
    });
    expect(rowSays({ row: [tag("touches", touching)], reach: [], isOn: false })).toBe("all 1 go in");
    expect(goesInReasons(touching, w).join(" ")).not.toMatch(/sprung|dress/);
  });

  it("that nobody looked at to the end is neither in nor out", () => {
    const unknown: Judged = { ...free, goesIn: "unknown", way: [], stopped: true };
    expect(goesIn(unknown, w)).toBe("not checked");
    expect(goesInSays(unknown, [], w)).toBe("It was not checked to the end.");
  });

  it("says by which way, and what it passes closest", () => {
    expect(goesIn(free, w)).toBe("goes in free");
    expect([comesFrom(free), lastWay(free)]).toEqual(["from below", "up"]);
    expect(goesInSays(free, [], w)).toBe(
      "Straight in, up; 6.00 mm clear of LOW at the closest. Past only bars and plates; no body entered.",
    );
    const round = {
      ...free,
      way: [
        { at: [900, 900, 0], turn: SEAT.turn } as const,
        { at: [0, 0, -9], turn: SEAT.turn } as const,
        SEAT,
      ],
    };
    expect(goesInSays({ ...round, through: ["door"] }, [], w)).toContain("In through door, at the last up;");
    expect(comesFrom(round)).toBe("from the front and from the left");
  });

  it("sprung says how far and with what force, and that it may be less", () => {
    expect(goesIn(sprung, w)).toBe("goes in sprung 0.80 mm, 42 N");
    expect([0.3, 7.4, 512, 1234].map(sayForce)).toEqual([
      "less than 1 N",
      "7 N",
      "510 N",
      "over 1000 N: more than two hands",
    ]);
    expect(answerSays(tag("spring", sprung), w)).toMatchObject({
      figure: "0.80 mm",
      says: "Sprung, 42 N: straight in, up; 6.00 mm clear of LOW at the closest.",
    });
    expect(goesInReasons({ ...sprung, gap: 0.9 }, w)).toEqual(
      expect.arrayContaining([
        "Its hosts are sprung 0.80 mm a side, or less; that takes about 42 N. The force is by a linear model of the frame as it is by then, for comparison.",
        "Or with a gap of 0.90 mm at each joint, nothing sprung.",
      ]),
    );
  });
});

describe("a bar that would have to be sprung by more than hands give, but goes in with a gap", () => {
  const wide: Judged = { ...sprung, spring: 1.94, gap: 2.9, force: 1.75e6 };

  it("leads with the gap", () => {
    expect(goesIn(wide, w)).toBe("goes in with 2.90 mm of gap");
    expect(answerSays(tag("spring", wide), w)).toMatchObject({
      figure: "2.90 mm",
      says: "With a gap at each joint: straight in, up; 6.00 mm clear of LOW at the closest.",
    });
    expect(goesInReasons(wide, w)[1]).toBe(
      "It goes in with 2.90 mm of gap at each joint, nothing sprung. Springing it 1.94 mm a side or less would take over 1000 N: more than two hands. The force is by a linear model of the frame as it is by then, for comparison.",
    );
  });

  it("a force within hands, or no gap that helps, stays sprung", () => {
    expect(goesIn({ ...wide, force: 900 }, w)).toBe("goes in sprung 1.94 mm, 900 N");
    const { gap: _, ...without } = wide;
    expect(goesIn(without, w)).toBe("goes in sprung 1.94 mm, over 1000 N: more than two hands");
  });
});

describe("a bar that does not go in", () => {
  it.each([
    [
      "what it lands on is not in",
      no,
      ["left", "right"],
      "It lands on LEFT and RIGHT, which are not in yet.",
    ],
    ["others stand in the way", no, [], "LOW and DASH are in its way."],
    ["one stands in the way", { ...no, blockedBy: ["low"] }, [], "LOW is in its way."],
    [
      "its own seat is taken",
      { ...no, fouls: [{ id: "low", by: 7.2 }] },
      [],
      "At its own seat it runs 7.20 mm into LOW.",
    ],
    [
      "its joints hold it, by proof",
      { ...no, blockedBy: [], joint: "locked", proved: true },
      [],
      "Held by its joints (hosts taken as rigid): it cannot be brought into its seat.",
    ],
    [
      "the roof is off by then",
      { ...no, blockedBy: [], why: [{ phrase: "fit-roof-off" }] },
      [],
      "It is set by the body with its roof on, and the roof is off by then.",
    ],
  ] as const)("%s", (_, judged, missing, says) => {
    expect(goesInSays(judged as Judged, missing, w)).toBe(says);
  });

  it("never claims more than a search can, and never less than a proof", () => {
    expect(goesInReasons(no, w).join(" ")).toContain("a search result, not a proof");
    expect(goesInReasons({ ...no, proved: true }, w).join(" ")).toContain(
      "This is proved, with hosts taken as rigid",
    );
    expect(answerSays(tag("no", no, { cure: null }), w).reasons.join(" ")).toContain(
      "No earlier place in this order lets it in (a search result",
    );
    expect(answerSays(tag("no", no), w).reasons.join(" ")).toContain("is not known yet");
  });

  it("its tag says why, and its cure by name", () => {
    expect(tagSays(tag("no", no), w)).toMatchObject({
      word: "does not go in",
      why: "LOW and DASH are in its way.",
    });
    expect(cureSays({ before: "low" }, w)).toBe("Move it before LOW");
    expect(cureSays({ before: null }, w)).toBe("Move it last");
  });
});

describe("a tag", () => {
  it("strikes what was found before the last change, and claims nothing of it", () => {
    expect(tagSays(tag("unseen", free), w)).toEqual({
      word: "not checked",
      was: "goes in free",
      marks: [],
    });
    expect(answerSays(tag("unseen", free), w)).toMatchObject({
      figure: "?",
      says: "not checked since the last change",
    });
    expect(answerSays(tag("unseen"), w).says).toBe("not checked in this order");
    expect(tagSays(tag("placeless"), w).word).toBe("has no place yet");
  });

  it("marks the roof and what must be welded first", () => {
    const weld = [
      { end: "A", before: "low", share: 0.4 },
      { end: "A", before: "dash", share: 0.1 },
      { end: "B", before: "low", share: 0.4 },
    ] as const;
    expect(
      tagSays(tag("free", { ...free, past: ["bars", "body"] }, { needs: "roof off", weld }), w).marks,
    ).toEqual(["only with the roof off", "weld A and B before LOW"]);
    expect(tagSays(tag("free", { ...free, past: ["body"] }, { weld: weld.slice(1) }), w).marks).toEqual([
      "weld A before DASH",
      "weld B before LOW",
    ]);
  });
});

describe("the row in one line", () => {
  const look = (states: readonly Tag["state"][], more: Partial<Look> = {}): Look => ({
    row: states.map((s) => tag(s, s === "unseen" ? undefined : free)),
    reach: [],
    isOn: false,
    ...more,
  });
  it.each([
    [look([]), "no bars yet"],
    [look(["unseen", "unseen"]), "not checked yet"],
    [look(["free", "unseen"]), "1 of 2 checked"],
    [look(["free", "free", "placeless"]), "all 2 go in"],
    [look(["free", "spring"]), "all 2 go in, 1 of them sprung"],
    [
      { ...look([]), row: [tag("spring", sprung), tag("spring", { ...sprung, force: 1e6 })] },
      "all 2 go in, 2 of them sprung, 1 by over 1000 N: more than two hands",
    ],
    [
      { ...look(["free"]), row: [tag("spring", sprung), tag("spring", { ...sprung, force: 1e6, gap: 2.9 })] },
      "all 2 go in, 1 of them sprung, 1 of them with a gap",
    ],
    [look(["free", "no"]), "1 of 2 does not go in"],
    [look(["no", "no", "free"]), "2 of 3 do not go in"],
    [
      look(["free", "unseen"], { isOn: true, run: { what: "look", at: "Dash bar", share: 0.5 } }),
      "1 of 2 checked; checking Dash bar",
    ],
    [
      look(["unseen"], { run: { what: "find", at: "Dash bar", share: 0 } }),
      "finding an order: taking out Dash bar",
    ],
  ])("%#: %s", (shown, says) => expect(rowSays(shown)).toBe(says));
});

describe("packing", () => {
  const packing = (a: number, b: number) =>
    packingSays({ on: { A: "left", B: "right" }, flat: { A: a, B: b }, angle: { A: 0, B: 0 }, shim: 0 }, w);
  it("goes on the bar where the bar is the thinner, under the edge where it is the thicker", () => {
    expect(packing(0, 0)).toBe("Lay a straight edge across LEFT and RIGHT: the bar just touches it.");
    expect(packing(3.5, -2)).toBe(
      "Lay a straight edge across LEFT and RIGHT: pack 3.50 mm on the bar at A, pack the edge up 2.00 mm off RIGHT at B.",
    );
    expect(packingSays(undefined, w)).toBeUndefined();
  });
  it("what is no bar is named for what it is", () => {
    expect([
      partSays("floor", {}),
      partSays("foot, other side", { foot: {} }),
      partSays("sill seam", {}),
    ]).toEqual(["the floor", "plate foot, other side", "sill seam"]);
  });
});
