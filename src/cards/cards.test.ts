/** What must be on a card: its numbers are the plan's own, in words that a person can act on. */
import { describe, expect, test } from "vitest";
import { demo, HARD, planOf, said } from "../../tests/support/cards.ts";
import { checksAfter, turnsOf } from "../core/bend/index.ts";
import { deg } from "../core/numeric/index.ts";
import { notchAt } from "../core/plan/index.ts";
import { cautionOn, sayTurn, written } from "../words/index.ts";
import { endOf, turnOfEnds } from "./ends.ts";
import { benderCard, cardFiles, markStrip, notcherCard, overview, wrapCard } from "./files.ts";
import { handOf } from "./hand.ts";
import { pieces } from "./mark-strip.ts";
import { calledIn } from "./names.ts";
import { sawnLength, subjectOf } from "./subject.ts";

const plan = demo();
const hard = planOf(HARD);
const plain = (words: string): string => words.replaceAll("\u00a0", " ");

describe("bender card", () => {
  const s = subjectOf(plan, "pillar-bar-left")!;
  const words = said(benderCard(plan, "pillar-bar-left")!.sheets);

  test("sawn length, marks, angles to set, turns in words and check sizes are on it", () => {
    expect(words).toContain(plain(s.write.length(sawnLength(s.bar))));
    for (const bend of s.bar.bend.bends) {
      expect(words).toContain(plain(s.write.length(bend.mark)));
      expect(words).toContain(s.write.angle(deg(bend.angle)));
      expect(words).toContain(s.write.angle(deg(bend.set!.set)));
    }
    for (const turn of turnsOf(s.bar.bar, "left"))
      expect(words).toContain(plain(sayTurn(turn, s.write)).slice(1));
    for (const after of checksAfter(s.bar.bar, s.bar.leastBack))
      for (const check of after.checks)
        expect(words).toContain(
          `${plain(s.write.length(check.value))} ${written(check.across, s.write, s.names)}`,
        );
  });

  test("it carries its number in the job, hand, card, tube, die, what it was figured from, and cautions, and no ID of a bar", () => {
    for (const part of [
      "Pillar bar, left",
      "Bar in the overview 11 of 36",
      "Hand left, twin of the right one",
      `Card 1, not issued · ${s.card.code}`,
      "Ø 40.0 mm × 2.00 mm",
      "d40",
      "on Main hoop, 1064.0 mm along from end A",
      cautionOn("bender card"),
      "scale 1 :",
    ])
      expect(words).toContain(part);
    expect(words).not.toMatch(/pillar-bar-(left|right)(?!-foot)|main-hoop/);
  });

  test("once issued it has its number and day, and the next number when a figure changes", () => {
    const issued = {
      ...plan.job,
      cards: { "pillar-bar-left": { n: 3, code: s.card.code, on: "2026-11-29" } },
    };
    const id = "pillar-bar-left";
    const after = { ...plan, job: issued };
    const card = `3 · 2026-11-29 · ${s.card.code}`;
    for (const { sheets } of [benderCard(after, id)!, notcherCard(after, id)!, wrapCard(after, id, "A")!])
      expect(said(sheets)).toContain(`Card ${card}`);
    expect(said(wrapCard(after, id, "A")!.sheets)).toContain(`left · card ${card}`);
    expect(said(markStrip(after, id)!.sheets)).toContain(`left · card ${card}`);
    expect(said(overview(after).sheets)).toContain(`card ${card}`);
    const old = { ...plan, job: { ...plan.job, cards: { [id]: { n: 3, code: "0000", on: "2026-11-29" } } } };
    expect(said(benderCard(old, id)!.sheets)).toContain(`Card 4, not issued · ${s.card.code}`);
  });

  test("a measured point is on it where the readings put it, with what they leave open", () => {
    const line = { tube: "t", path: [{ point: "foot" }, [0, 500, 900]] };
    const measured = planOf({
      format: "tubewright job",
      version: 2,
      tubes: { t: { od: 40, wall: 2 } },
      points: { datum: [0, 0, 0], foot: { at: [10, 500, 0], sd: [4, 4, 0] } },
      readings: [{ fore: "foot", x: 2, sd: 3 }],
      bars: { line },
    });
    // weighed by 1/sd²: (10/16 + 2/9)/(1/16 + 1/9) = 4.88, and 1/√(1/16 + 1/9) = 2.4
    const card = said(benderCard(measured, "line")!.sheets);
    expect(card).toContain("point Foot (4.9 mm, 500.0 mm, 0.0 mm) ± 2.40 mm, 4.00 mm, 0.00 mm");
  });

  test("fed from B, the list runs from B and its marks are from that end", () => {
    const of = subjectOf(hard, "fromB")!;
    const card = said(benderCard(hard, "fromB")!.sheets);
    const [one, two] = of.bar.bend.bends;
    const first = card.indexOf(`MARK ${plain(of.write.length(two!.markB))} from sawn end B`);
    const second = card.indexOf(`MARK ${plain(of.write.length(one!.markB))} from sawn end B`);
    expect(first).toBeGreaterThan(0);
    expect(second).toBeGreaterThan(first);
    expect(card).toContain("Die not calibrated: bend short, measure");
    expect(card).not.toContain("SET ");
  });

  test("two bends may be marked from their own ends", () => {
    const of = subjectOf(hard, "tested")!;
    const card = said(benderCard(hard, "tested")!.sheets);
    const [one, two] = of.bar.bend.bends;
    expect(card).toContain(
      `Mark bend 1: ${plain(of.write.length(one!.mark))} from sawn end A. Mark bend 2: ${plain(of.write.length(two!.markB))} from sawn end B.`,
    );
    expect(said(benderCard(plan, "pillar-bar-left")!.sheets)).not.toContain("turn the tube round");
  });

  test("a straight bar has a saw card", () => {
    const card = said(benderCard(plan, "harness-bar")!.sheets);
    expect(card).toContain("Saw card");
    expect(card).toContain("SAW TO 1192.3 mm");
    expect(card).not.toContain("FED FIRST");
  });

  test("inches where the job shows inches, and no millimetre but the paper's and the check's", () => {
    const card = said(benderCard(demo("in"), "pillar-bar-left")!.sheets);
    expect(card).toContain("SAW TO 76 7/8 + in");
    expect(card).not.toMatch(/\d mm/);
  });
});

describe("notcher card", () => {
  test("an exact cut: saw, angle, clock in degrees and round the tube, hole centre, no gap", () => {
    const words = said(notcherCard(plan, "harness-bar")!.sheets);
    const { saw, hole } = notchAt(plan, "harness-bar", "A")!;
    for (const part of [
      "HOLE SAW, OUTSIDE Ø 45.0 mm",
      `NOTCH ANGLE ${deg(saw!.cut.notch).toFixed(1)}°`,
      `CLOCK OF THE HEEL ${Math.abs(deg(saw!.cut.clock)).toFixed(1)}° clockwise from the zero line`,
      `${Math.abs(saw!.cut.clock * 20).toFixed(1)} mm round the tube`,
      `HOLE CENTRE ${hole!.beyondLong.toFixed(1)} mm beyond the long point`,
      `${hole!.fromSawn.toFixed(1)} mm in from the sawn end`,
      "Gap: none",
      "Zero line: top of the tube in the car",
    ])
      expect(words).toContain(part);
    expect(words).not.toContain("USE THE WRAP");
  });

  test("beyond the gap accepted it says first to use the wrap, with the gap and where", () => {
    const words = said(notcherCard(plan, "header-bar")!.sheets);
    const { saw } = notchAt(plan, "header-bar", "A")!;
    expect(words).toContain(
      `USE THE WRAP — the best hole saw cut leaves a gap of ${saw!.gap.toFixed(2)} mm at ${saw!.gapAt.toFixed(1)}°`,
    );
    expect(words.indexOf("USE THE WRAP")).toBeLessThan(words.indexOf("NOTCH ANGLE"));
  });

  test("of one method: beside the wrap the saw only roughs out, and has no steps", () => {
    const words = said(notcherCard(plan, "header-bar")!.sheets);
    expect(words).toContain("1. Print at 100 %");
    expect(words).toContain("Rough out with this one hole saw cut: it stays inside the final shape");
    expect(words).not.toContain("Toward the final angle");
    expect(said(notcherCard(plan, "harness-bar")!.sheets)).not.toContain("Rough out");
  });

  test("the steps' hole centres move outboard by the over-cut, and the rule of thumb is judged", () => {
    const { steps, hole } = notchAt(plan, "hoop-diagonal-upper-half", "B")!;
    const words = said(notcherCard(plan, "hoop-diagonal-upper-half")!.sheets);
    expect(words).toContain(
      `${deg(steps!.steps[0]!.notch).toFixed(1)}° ${(hole!.fromSawn - steps!.steps[0]!.outboard).toFixed(1)} mm`,
    );
    expect(words).toContain("Start shallow and deepen. Coming back");
    expect(words).toContain("Start at the likeliest angle: starting shallow saves little here");
    expect(words).toContain("touches at the heel");
  });

  test("a crowded end lists one exact cut for each host; one partly past says where it misses; a hole off the tube says so", () => {
    const crowded = said(notcherCard(hard, "crowded")!.sheets);
    expect(crowded).toContain("Crowded end: make one exact cut for each host");
    expect(crowded.indexOf("OR ONE CUT FOR EACH HOST BELOW")).toBeLessThan(crowded.indexOf("NOTCH ANGLE"));
    expect(crowded).toContain("off the sawn end: leave more allowance");
    const misses = said(notcherCard(hard, "misses")!.sheets);
    expect(misses).toContain("the rim passes Post without touching");
    expect(misses).toContain("The joint stays open there");
    expect(misses).not.toMatch(/one cut seats exactly|seats on every line|final seated /);
  });

  test("a plate: the flat's angle off square and the clock of its long point", () => {
    const words = said(notcherCard(plan, "rear-stay-left")!.sheets);
    const e = endOf(subjectOf(plan, "rear-stay-left")!, "B");
    expect(words).toContain(`SAW ANGLE ${deg(e.tilt).toFixed(1)}°`);
    // the long point found by search is the one that the plate's normal gives
    expect(deg(e.heel!)).toBeCloseTo(e.cope.leastAt, 1);
    expect(said(notcherCard(plan, "rear-stay-right")!.sheets)).toContain(
      "the mirror image of plate rear-stay-left-foot-b",
    );
  });
});

test("the two ends against each other (trade checks C26: 85.55°, 29.86 mm round a 40; notches 12.94° and 37.30°)", () => {
  const job = {
    ...HARD,
    notcher: {},
    bars: {
      a: {
        label: "Host A",
        tube: "t40",
        path: [
          [-50, -200, -1000],
          [50, 200, 1000],
        ],
      },
      b: {
        label: "Host B",
        tube: "t40",
        path: [
          [800, -1620, -150],
          [800, 380, -150],
        ],
      },
      bar: {
        label: "Bar",
        tube: "t40",
        path: [
          { on: "a", x: 0 },
          { on: "b", y: -620 },
        ],
      },
    },
  };
  const c26 = planOf(job);
  const s = subjectOf(c26, "bar")!;
  const angle = turnOfEnds(s, endOf(s, "A"), endOf(s, "B"))!;
  // of each host's two directions the notch takes the one of the heel, which may be the other one
  const between = Math.min(Math.abs(deg(angle)), 180 - Math.abs(deg(angle)));
  expect(between).toBeCloseTo(85.55, 2);
  expect((between * Math.PI * 20) / 180).toBeCloseTo(29.86, 2);
  expect(deg(notchAt(c26, "bar", "A")!.saw!.cut.notch)).toBeCloseTo(12.94, 2);
  expect(deg(notchAt(c26, "bar", "B")!.saw!.cut.notch)).toBeCloseTo(37.3, 2);
  const way = angle > 0 ? "clockwise" : "counter-clockwise";
  expect(said(notcherCard(c26, "bar")!.sheets)).toContain(
    `Looking from A toward B, end B's heel is ${Math.abs(deg(angle)).toFixed(1)}° ${way} of end A's heel`,
  );
});

test("twins are turned the other way round", () => {
  for (const id of ["pillar-follower", "rear-stay", "door-bar-through"]) {
    const angle = (hand: string): number => {
      const s = subjectOf(plan, `${id}-${hand}`)!;
      return turnOfEnds(s, endOf(s, "A"), endOf(s, "B"))!;
    };
    expect(Math.sin(angle("right"))).toBeCloseTo(-Math.sin(angle("left")), 6);
    expect(Math.cos(angle("right"))).toBeCloseTo(Math.cos(angle("left")), 6);
  }
});

test("hands: as the label says, else by the side of the centre plane; none without a twin to be taken for", () => {
  expect(handOf(plan, "pillar-bar-right")).toBe("right");
  expect(handOf(plan, "main-hoop")).toBeUndefined();
  expect(handOf(plan, "column-bar")).toBeUndefined();
  expect(said(benderCard(plan, "column-bar")!.sheets)).not.toMatch(/Hand|· left ·/);
  const stay = (id: string, mirrorOf?: string) => ({
    [id]: {
      label: "Stay",
      ...(mirrorOf
        ? { mirrorOf }
        : {
            tube: "t",
            path: [
              [0, 500, 0],
              [0, 300, 900],
            ],
          }),
    },
  });
  const pair = planOf({
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 } },
    bars: { ...stay("a"), ...stay("b", "a"), ...stay("c") },
  });
  expect(["a", "b", "c"].map((id) => handOf(pair, id))).toEqual(["left", "right", undefined]);
  // three bars of one label: by their hand, and by their number where that does not part them
  expect(["a", "b", "c"].map(calledIn(pair))).toEqual(["Stay, left", "Stay, right", "Stay"]);
});

test("the strip's pieces cover it, none too long, no join through a mark's words", () => {
  for (const marks of [[229, 713.3, 1247.3], [250], [240, 500, 760, 1020], [30, 35, 40, 45]]) {
    const total = marks.at(-1)! + 100;
    const cuts = pieces(marks, total, 250);
    expect(cuts[0]).toBe(0);
    expect(cuts.at(-1)).toBe(total);
    cuts.slice(1).forEach((cut, i) => {
      expect(cut - cuts[i]!).toBeGreaterThan(0);
      expect(cut - cuts[i]!).toBeLessThanOrEqual(250 + 1e-9);
    });
    for (const cut of cuts.slice(1, -1))
      for (const mark of marks) expect(cut > mark - 11 && cut < mark + 62).toBe(false);
  }
  expect(markStrip(plan, "pillar-bar-left")!.sheets.length).toBeGreaterThan(0);
  expect(markStrip(plan, "harness-bar")).toBeUndefined();
});

test("the overview has every bar, its number, the three views with their viewer, every finding", () => {
  const words = said(overview(plan).sheets);
  for (const bar of plan.bars) expect(words).toContain(bar.bar.label);
  for (const view of ["Seen from the left", "Seen from in front", "Seen from above"])
    expect(words).toContain(view);
  expect(words).toContain("Header bar end B");
  expect(words).toContain("The rule book in force");
  const empty = planOf({ format: "tubewright job", version: 2, name: "Nothing yet" });
  expect(said(overview(empty).sheets)).toContain("No bar of this job can be figured yet");
});

describe("files", () => {
  const files = cardFiles(hard, { paper: "A4", csv: true });
  const names = files.map((file) => file.name);

  test("each bar has its PDF, each shaped end its wraps; names are safe and unique", () => {
    expect(new Set(names.map((n) => n.toLowerCase())).size).toBe(names.length);
    expect(names).toEqual(
      expect.arrayContaining([
        "overview.pdf",
        "bars/crowded.pdf",
        "bars/wide-onto-wide.pdf",
        "wraps/crowded-A.svg",
        "wraps/crowded-A.dxf",
        "wraps/crowded-A-square.svg",
        "bars.csv",
        "bends.csv",
        "copes.csv",
      ]),
    );
    expect(names.filter((name) => name.startsWith("wraps/post"))).toEqual([]);
    for (const name of names) expect(name).toMatch(/^[\w./-]+$/);
  });

  test("some bars alone keep their names; none means none", () => {
    const some = cardFiles(hard, { paper: "Letter", bars: ["wide/onto:wide"] }).map((file) => file.name);
    expect(some).toContain("bars/wide-onto-wide.pdf");
    expect(some.filter((name) => name.startsWith("bars/"))).toHaveLength(1);
    expect(cardFiles(hard, { paper: "A4", bars: [] }).map((file) => file.name)).toEqual(["overview.pdf"]);
  });

  test("a bar without geometry has no cards", () => {
    expect(benderCard(hard, "nobody")).toBeUndefined();
    expect(notcherCard(hard, "nobody")).toBeUndefined();
    expect(wrapCard(hard, "post", "A")).toBeUndefined();
  });
});
