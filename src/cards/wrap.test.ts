import { describe, expect, test } from "vitest";
import { demo, HARD, lettering, planOf, said } from "../../tests/support/cards.ts";
import type { Plan } from "../core/plan/index.ts";
import { girth } from "../core/tube/index.ts";
import type { Drawing, Point, Sheet } from "../draw/index.ts";
import { record } from "../draw/sinks/record.ts";
import { wrapCard } from "./files.ts";
import { printJob } from "./print.ts";
import { type BarSheet, TO_MAKE } from "./sheets.ts";
import { type Subject, subjectOf } from "./subject.ts";
import { wrapDrawing } from "./wrap.ts";
import { curveOf, wrapKinds } from "./wrap-curve.ts";

const plan = demo();
const hard = planOf(HARD);
const of = (id: string): Subject => subjectOf(plan, id)!;

const cutEdge = (drawing: Drawing): (readonly Point[])[] =>
  record(drawing).flatMap((mark) => (mark.kind === "polyline" && mark.line === "cut" ? [mark.points] : []));

test("paper of no thickness goes once round the tube; thick paper needs π t more", () => {
  expect(girth({ od: 40 })).toBeCloseTo(125.6637, 4);
  expect(girth({ od: 40 }, 0.1) - girth({ od: 40 })).toBeCloseTo(0.31416, 5);
});

test("a square end, and one flat on the tube's own square, need no wrap; a saddle whose walls differ needs two", () => {
  expect(wrapKinds(subjectOf(hard, "post")!, "A")).toEqual([]);
  expect(wrapCard(hard, "post", "A")).toBeUndefined();
  expect(wrapKinds(of("seat-bar-front-left"), "B")).toEqual([]);
  expect(wrapKinds(of("pillar-bar-left"), "A")).toEqual(["outside", "square"]);
});

describe("the cut edge", () => {
  test.each(["pillar-bar-left", "header-bar", "harness-bar", "door-bar-front-upper-half-left"])(
    "%s A: the outside wrap is the cope's outside, degree by degree, up from the base line",
    (id) => {
      const s = of(id);
      const { cope } = s.bar.copes.A;
      const drawing = wrapDrawing(s, "A", "outside", 0.1);
      const [edge, ...more] = cutEdge(drawing);
      expect(more).toEqual([]);
      expect(edge).toHaveLength(721);
      const wide = girth(s.bar.bar.tube, 0.1);
      for (let phi = 0; phi < 360; phi++) {
        const [x, y] = edge![2 * phi]!;
        expect(x).toBeCloseTo((phi / 360) * wide, 9);
        expect(y - 12).toBeCloseTo(cope.outer[phi]! - cope.least, 9);
      }
      expect(edge![720]![0]).toBeCloseTo(wide, 9);
      expect(edge![720]![1]).toBe(edge![0]![1]);
    },
  );

  test("the base line stands as far from the tube's long point as the words say", () => {
    const s = of("pillar-bar-left");
    const drawing = wrapDrawing(s, "A", "outside");
    const stated = /Base line (\d+)\.0 mm in from the tube's long point/.exec(lettering(drawing).join(" "));
    expect(Number(stated![1])).toBe(drawing.height - 12);
  });

  test("a cut square to the wall clears every radius through it (slow twin: 101 radii), and is nowhere deeper than needed", () => {
    for (const [id, end] of [
      ["pillar-bar-left", "A"],
      ["roof-cross-through-bar", "B"],
      ["column-bar", "B"],
    ] as const) {
      const made = plan.byId.get(id)!.copes[end];
      const { cope, joint } = made;
      const square = curveOf(made, "square")!;
      for (let i = 0; i < 720; i += 7) {
        const a = (i * Math.PI) / 360;
        let most = -Infinity;
        for (let k = 0; k <= 100; k++) {
          const rho = cope.boreRadius + ((cope.outerRadius - cope.boreRadius) * k) / 100;
          const b = joint!.back(rho, Math.cos(a), Math.sin(a));
          if (b > most) most = b;
        }
        expect(square[i]! - most).toBeGreaterThan(-0.02);
        expect(square[i]! - most).toBeLessThan(1e-9);
      }
    }
  });

  test("equal 40 × 2 tubes square on: outside ears reach 0 where the bore wants 8.72 (trade checks, “no wall at the joint”)", () => {
    const job = {
      ...HARD,
      bars: {
        host: {
          label: "Host",
          tube: "t40",
          path: [
            [0, 0, 0],
            [0, 0, 1000],
          ],
        },
        bar: { label: "Bar", tube: "t40", path: [{ on: "host", along: 500 }, [500, 0, 500]] },
      },
    };
    const made = planOf(job).byId.get("bar")!.copes.A;
    const ears = (kind: "outside" | "square"): number => Math.min(...curveOf(made, kind)!);
    expect(ears("outside")).toBeCloseTo(0, 6);
    expect(ears("square")).toBeCloseTo(8.718, 3);
  });

  test("twins have mirrored wraps: φ becomes −φ", () => {
    const left = curveOf(plan.byId.get("pillar-bar-left")!.copes.A, "square")!;
    const right = curveOf(plan.byId.get("pillar-bar-right")!.copes.A, "square")!;
    for (let i = 0; i < 720; i++) expect(right[i]!).toBeCloseTo(left[(720 - i) % 720]!, 6);
  });

  test("where lines miss the edge is left open and says so", () => {
    const s = subjectOf(hard, "misses")!;
    const drawing = wrapDrawing(s, "A", "outside");
    const { cope, joint } = s.bar.copes.A;
    expect(cope.misses.length).toBeGreaterThan(0);
    expect(lettering(drawing)).toContain("misses");
    const runs = cutEdge(drawing);
    const drawn = runs.flat().length;
    // every line that is drawn meets the host, and every one that meets is drawn
    let meets = 0;
    for (let i = 0; i <= 720; i++) {
      const a = (i * Math.PI) / 360;
      if (!Number.isNaN(joint!.back(20, Math.cos(a), Math.sin(a)))) meets++;
    }
    expect(drawn).toBe(meets);
    expect(drawn).toBeLessThan(500);
  });
});

test("a wrap says what it is for, which way round it goes, and whose it is", () => {
  const s = of("pillar-bar-left");
  for (const [kind, cut] of [
    ["outside", "CUT ALONG THE HOST"],
    ["square", "CUT SQUARE TO THE WALL"],
  ] as const) {
    const words = lettering(wrapDrawing(s, "A", kind)).join(" ");
    for (const part of [
      cut,
      "The outside of the tube faces you",
      "Pillar bar, left · end A · left",
      `card 1, not issued · ${s.card.code}`,
      "outside of bend 1",
      "inside of bend 1",
      "waste",
      "long point",
      "CUT EDGE",
      "0.10 mm paper",
    ])
      expect(words.replaceAll("- ", "-")).toContain(part);
  }
});

describe("a print's wraps", () => {
  const groups = (sheet: Sheet): Set<string> =>
    new Set(record(sheet).flatMap((mark) => mark.within.split("/")));
  const printed = (of: Plan, bars: readonly string[], sheets = TO_MAKE, paper: "A4" | "Letter" = "A4") =>
    printJob(of, { paper, job: [], bars, sheets }).document.sheets;

  test("have one check square, and each page says on which page it is; what is laid over several has rules", () => {
    for (const of of [plan, hard])
      for (const bars of [of.bars.map((b) => b.id), ...of.bars.map((b) => [b.id])]) {
        const sheets = printed(of, bars);
        const used = sheets.filter((sheet) => sheet.isTrueSize);
        const framed = used.filter((sheet) => !groups(sheet).has("joins"));
        const square = sheets.flatMap((sheet, i) => (groups(sheet).has("check square") ? [i + 1] : []));
        expect(square).toHaveLength(framed.length > 0 ? 1 : 0);
        for (const sheet of used) {
          const at = sheets.indexOf(sheet) + 1;
          const says = said([sheet]);
          if (!framed.includes(sheet)) expect(groups(sheet)).toContain("check rule");
          else if (at !== square[0]) expect(says).toContain(`Check square: page ${square[0]}.`);
          else expect(says).toContain("100 mm to the far side");
        }
      }
  });

  test("are of both ends on one page where they fit, one cutter a page, 10 mm apart, and nothing of another bar", () => {
    const pages = printed(
      plan,
      plan.bars.map((b) => b.id),
      ["saw wraps", "torch wraps"],
    );
    const wrapsOn = (sheet: Sheet) =>
      record(sheet).filter(
        (m) => m.kind === "polyline" && m.within.endsWith("/wrap") && m.closed && m.line === "narrow",
      );
    const both = pages.filter((sheet) => wrapsOn(sheet).length === 2);
    expect(both.length).toBeGreaterThan(40);
    for (const sheet of both) {
      const [a, b] = wrapsOn(sheet).map((m) => (m.kind === "polyline" ? m.points.map(([, y]) => y) : []));
      expect(Math.min(...b!) - Math.max(...a!)).toBeGreaterThan(9.99);
      expect(sheet.name).toMatch(/^Wraps (for .*)?— .*, ends A and B$/);
      expect(said([sheet])).toMatch(/End A — .* End B — /);
    }
    for (const sheet of pages)
      expect(new Set(said([sheet]).match(/CUT (ALONG|SQUARE)/g) ?? []).size).toBeLessThan(2);
  });

  test("of one cutter alone are asked for alone; a wrap for any cutter comes with either", () => {
    const of = (sheets: readonly BarSheet[]) => printed(plan, ["pillar-bar-left"], sheets).map((s) => s.name);
    const [name] = ["Pillar bar, left, ends A and B"];
    expect(of(["saw wraps"])).toContain(`Wraps for a hole saw or mill — ${name}`);
    expect(of(["saw wraps"]).join()).not.toContain("torch");
    expect(of(["torch wraps"])).toContain(`Wraps for a torch or grinder — ${name}`);
    for (const sheets of [["saw wraps"], ["torch wraps"]] as const)
      expect(
        printed(hard, ["misses"], sheets)
          .map((s) => s.name)
          .join(),
      ).toContain("any cutter");
  });
});

test("each kind of wrap has a title and a count of its own; one that serves both cuts says so", () => {
  const titles = (of: Plan, id: string, end: "A" | "B"): string[] =>
    wrapCard(of, id, end)!
      .sheets.map((s) => s.name)
      .filter((name) => name !== "Printer check");
  expect(titles(plan, "pillar-bar-left", "A")).toEqual([
    "Wrap for a hole saw or mill — Pillar bar, left, end A",
    "Wrap for a torch or grinder — Pillar bar, left, end A",
  ]);
  const both = subjectOf(hard, "misses")!;
  expect(titles(hard, "misses", "A")).toEqual([`Wrap for any cutter — ${both.label}, end A`]);
  for (const sheet of wrapCard(plan, "pillar-bar-left", "A")!.sheets)
    expect(said([sheet])).toContain(`${sheet.name} Sheet 1 of 1`);
  // a wrap of several sheets counts its own
  const [large] = hard.bars.filter((b) => b.bar.label === "Large onto large");
  const names = titles(hard, large!.id, "A");
  for (const kind of ["a hole saw or mill", "a torch or grinder"]) {
    const own = names.filter((name) => name.startsWith(`Wrap for ${kind}`));
    expect(own.length).toBeGreaterThan(1);
    own.forEach((name, i) => {
      expect(name).toMatch(new RegExp(`, sheet ${i + 1} of ${own.length}$`));
    });
  }
});

test("a bar that is bent within its joint says what the wrap is worth there", () => {
  const s = subjectOf(hard, "swept")!;
  expect(s.bar.copes.A.cope.bentInJoint).toBe(true);
  const words = lettering(wrapDrawing(s, "A", "outside")).join(" ");
  expect(words).toContain("the bend runs into this joint");
  expect(words).toMatch(/into bend 1: shorten the paper/);
});
