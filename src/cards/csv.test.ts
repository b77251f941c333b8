import { expect, test } from "vitest";
import { demo, HARD, planOf } from "../../tests/support/cards.ts";
import { barsCsv, bendsCsv, copesCsv, csv } from "./csv.ts";

/** RFC 4180, section 2, read character by character. */
function parse(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let cell = "";
  for (let i = 0; i < text.length; i++) {
    if (text[i] === '"') {
      for (i++; text[i] !== '"' || text[i + 1] === '"'; i++) {
        if (text[i] === '"') i++;
        cell += text[i];
      }
    } else if (text[i] === ",") {
      row.push(cell);
      cell = "";
    } else if (text[i] === "\r" && text[i + 1] === "\n") {
      rows.push([...row, cell]);
      [row, cell] = [[], ""];
      i++;
    } else cell += text[i];
  }
  expect([row, cell]).toEqual([[], ""]);
  return rows;
}

const records = (text: string): Record<string, string>[] => {
  const [head, ...rows] = parse(text);
  return rows.map((row) => {
    expect(row).toHaveLength(head!.length);
    return Object.fromEntries(head!.map((name, i) => [name, row[i]!]));
  });
};

test("quotes, commas and line ends come back; what a spreadsheet would run stays words", () => {
  const cells = ['a "b", c', "two\r\nlines", "plain", 1.5, undefined] as const;
  expect(parse(csv([cells]))).toEqual([['a "b", c', "two\r\nlines", "plain", "1.5", ""]]);
  expect(parse(csv([["=1+1", -3]]))).toEqual([["'=1+1", "-3"]]);
});

test("the demo: 36 bars, their bends and 72 ends, the plan's own numbers", () => {
  const plan = demo();
  const ids = plan.bars.map((bar) => bar.id);
  const bars = records(barsCsv(plan, ids));
  expect(bars).toHaveLength(36);
  const hoop = bars.find((row) => row.bar === "main-hoop")!;
  const own = plan.byId.get("main-hoop")!;
  expect(Number(hoop["net length, long point to long point, before bending (mm)"])).toBeCloseTo(
    own.bend.blank,
    3,
  );
  expect(Number(hoop["saw to (mm)"])).toBeCloseTo(own.bend.blank + 60, 3);
  expect(hoop).toMatchObject({
    card: "1, not issued",
    code: expect.stringMatching(/^[0-9a-f]{4}$/),
    date: "",
    hand: "",
  });
  const issued = { ...plan.job, cards: { "main-hoop": { n: 2, code: hoop.code!, on: "2026-11-29" } } };
  const [after] = records(barsCsv({ ...plan, job: issued }, ["main-hoop"]));
  expect(after).toMatchObject({ card: "2", code: hoop.code, date: "2026-11-29" });
  const bends = records(bendsCsv(plan, ids));
  expect(bends).toHaveLength(plan.bars.reduce((sum, bar) => sum + bar.bend.bends.length, 0));
  const third = bends.find((row) => row.bar === "pillar-bar-left" && row.bend === "3")!;
  expect(Number(third["mark from sawn end A (mm)"])).toBeCloseTo(
    plan.byId.get("pillar-bar-left")!.bend.bends[2]!.mark,
    3,
  );
  const copes = records(copesCsv(plan, ids));
  expect(copes).toHaveLength(72);
  const harness = copes.find((row) => row.bar === "harness-bar" && row.end === "A")!;
  expect(harness).toMatchObject({
    "hole saw diameter (mm)": "45",
    "one cut seats exactly": "yes",
    "use the wrap": "no",
    host: "main-hoop",
  });
});

test("in inches the heads and the numbers are inches; an unknown ID is passed over", () => {
  const plan = planOf(HARD, "in");
  const [post] = records(barsCsv(plan, ["post", "nobody"]));
  expect(post!["length on centreline (in)"]).toBe((1000 / 25.4).toFixed(4));
});
