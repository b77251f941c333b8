/** What a draughtsman looks for first: nothing runs off the sheet, no words over words. Over every card there is. */
import { describe, expect, test } from "vitest";
import { demo, HARD, planOf } from "../../tests/support/cards.ts";
import type { Plan } from "../core/plan/index.ts";
import { A4, LETTER, type Point, record, type Sheet, textWidth } from "../draw/index.ts";
import { benderSheets } from "./bender-card.ts";
import { needsStrip, stripSheets } from "./mark-strip.ts";
import { notcherSheets } from "./notcher-card.ts";
import { overviewSheets } from "./overview.ts";
import { subjectOf } from "./subject.ts";
import { wrapSheets } from "./wrap-sheets.ts";

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
  test.each([A4, LETTER])("every card on $name keeps to its sheet, and no words lie on others", (paper) => {
    const all = plan.bars.flatMap((bar) => {
      const s = subjectOf(plan, bar.id)!;
      return [
        ...benderSheets(s, paper),
        ...notcherSheets(s, paper),
        ...wrapSheets(s, "A", paper),
        ...wrapSheets(s, "B", paper),
        ...(needsStrip(s) ? stripSheets(s, paper) : []),
      ];
    });
    const sheets = [...overviewSheets(plan, paper), ...all];
    expect(sheets.length).toBeGreaterThan(2 * plan.bars.length);
    expect(sheets.flatMap(outside)).toEqual([]);
    expect(sheets.flatMap(clashes)).toEqual([]);
  });
});
