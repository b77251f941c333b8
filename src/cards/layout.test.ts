/** What a draughtsman looks for first: nothing runs off the sheet, no words over words. Over every card there is. */
import { describe, expect, test } from "vitest";
import { demo, HARD, planOf } from "../../tests/support/cards.ts";
import { shellJob } from "../../tests/support/shell-job.ts";
import type { Plan } from "../core/plan/index.ts";
import { type Point, type Sheet, textWidth } from "../draw/index.ts";
import { record } from "../draw/sinks/record.ts";
import { measuringPlan, readingList } from "./files.ts";
import { printJob } from "./print.ts";
import { TO_MAKE } from "./sheets.ts";

type Text = Extract<ReturnType<typeof record>[number], { kind: "text" }>;

/** The box of a line of lettering (level or turned a quarter), a hair inside its outline. */
function box(mark: Text): { left: number; top: number; right: number; foot: number } {
  const width = textWidth(mark.text, mark.size, mark.bold);
  const start = mark.anchor === "middle" ? -width / 2 : mark.anchor === "end" ? -width : 0;
  const [x, y] = mark.at;
  if ((mark.rotate ?? 0) === 0)
    return { left: x + start, top: y - mark.size, right: x + start + width, foot: y };
  expect(mark.rotate).toBe(-90);
  return { left: x - mark.size, top: y - start - width, right: x, foot: y - start };
}

function clashes(sheet: Sheet): string[] {
  const texts = record(sheet).flatMap((mark) =>
    mark.kind === "text" && mark.text.trim() !== "" ? [mark] : [],
  );
  const out: string[] = [];
  texts.forEach((a, i) => {
    const p = box(a);
    for (const b of texts.slice(i + 1)) {
      const q = box(b);
      const over = Math.min(p.right, q.right) - Math.max(p.left, q.left);
      const down = Math.min(p.foot, q.foot) - Math.max(p.top, q.top);
      if (over > 0.1 && down > 0.1) out.push(`${sheet.name}: “${a.text}” and “${b.text}”`);
    }
  });
  return out;
}

/** Everything must lie within what printers reach. */
function outside(sheet: Sheet): string[] {
  const off = ([x, y]: Point): boolean =>
    x < 9.6 || y < 9.6 || x > sheet.width - 9.6 || y > sheet.height - 9.6;
  return record(sheet).flatMap((mark) => {
    const points: Point[] =
      mark.kind === "text"
        ? [
            [box(mark).left, box(mark).top],
            [box(mark).right, box(mark).foot],
          ]
        : mark.kind === "polyline"
          ? [...mark.points]
          : [
              [mark.centre[0] - mark.radius, mark.centre[1] - mark.radius],
              [mark.centre[0] + mark.radius, mark.centre[1] + mark.radius],
            ];
    return points.some(off)
      ? [`${sheet.name}: ${mark.kind === "text" ? mark.text : mark.kind} in ${mark.within}`]
      : [];
  });
}

const PLANS: readonly (readonly [string, () => Plan])[] = [
  ["demo, mm", () => demo()],
  ["demo, in", () => demo("in")],
  ["hard ends, mm", () => planOf(HARD)],
  ["hard ends, in", () => planOf(HARD, "in")],
];

describe.each(PLANS)("%s", (_, make) => {
  const plan = make();
  test.each(["A4", "Letter"] as const)(
    "every card on %s keeps to its sheet, and no words lie on others",
    (paper) => {
      const bars = plan.bars.map((bar) => bar.id);
      const print = (ids: readonly string[]) =>
        printJob(plan, { paper, job: ["overview"], bars: ids, sheets: TO_MAKE }).document.sheets;
      // all of them together, and some by themselves: numbers of pages and the check square are in other places
      const sheets = [...print(bars), ...bars.slice(0, 4).flatMap((id) => print([id]))];
      expect(sheets.length).toBeGreaterThan(2 * plan.bars.length);
      expect(sheets.flatMap(outside)).toEqual([]);
      expect(sheets.flatMap(clashes)).toEqual([]);
    },
  );
});

describe.each(["mm", "in"] as const)("readings, %s", (length) => {
  const whole = shellJob();
  const job = {
    ...whole,
    points: { ...whole.points, "a-point-with-quite-a-long-name-of-its-own": {} },
    readings: [
      ...whole.readings,
      { tape: ["turret", "a-point-with-quite-a-long-name-of-its-own"], length: "40 5/16 in" },
      {
        tape: ["turret", "sill-left"],
        length: 1063,
        struck: true,
        note: "the tape hung on a bolt that was in its way",
      },
      { lean: "along", angle: -0.4 },
      { slope: ["sill-left", "roof-middle"], angle: 54 },
    ],
  };
  const plan = planOf(job, length);
  test.each(["A4", "Letter"] as const)(
    "the list and the plan on %s keep to their sheets, and no words lie on others",
    (paper) => {
      const sheets = [
        ...readingList(plan, job, paper).sheets,
        ...measuringPlan(plan, paper).sheets,
        ...measuringPlan(demo(length), paper, "pillar-bar-left").sheets,
        ...measuringPlan(demo(length), paper, "dash-bar").sheets,
        ...measuringPlan(demo(length), paper).sheets,
      ];
      expect(sheets.length).toBeGreaterThan(6);
      expect(sheets.flatMap(outside)).toEqual([]);
      expect(sheets.flatMap(clashes)).toEqual([]);
    },
  );

  test("the list says every size as it was typed, strikes what is struck, and names what does not fit", () => {
    const words = readingList(plan, job, "A4").sheets.flatMap((s) =>
      record(s).flatMap((m) => (m.kind === "text" ? [m.text] : [])),
    );
    const all = words.join(" ");
    expect(words).toContain("40 5/16 in");
    expect(words).toContain("1063 mm");
    expect(all).toContain("struck: the tape hung on");
    expect(all).toMatch(/1 of \d+ readings does not fit/);
    expect(all).toContain("Tape, Sill left to Roof middle");
    expect(all).toContain("is not fixed yet");
  });

  test("the plan asks first for what fixes a point, for the misread one again, with room to write", () => {
    const words = measuringPlan(plan, "A4").sheets.flatMap((s) =>
      record(s).flatMap((m) => (m.kind === "text" ? [m.text] : [])),
    );
    const all = words.join(" ");
    expect(all).toContain("Fixes A point with quite a long name of its own.");
    expect(all).toContain("Read it once more");
    expect(words.filter((w) => w === "mm").length).toBeGreaterThan(2);
  });
});
