import { describe, expect, test } from "vitest";
import type { Mark, Point, Primitive } from "../index.ts";
import { A4, hatch, LETTER, paragraph, sheetFrame, table, textWidth } from "../index.ts";
import { onCircle } from "../place.ts";
import { record } from "../sinks/record.ts";
import { wrap } from "./paragraph.ts";

const texts = (marks: readonly Mark[]) => record({ marks }).filter((mark) => mark.kind === "text");
const lines = (marks: readonly Mark[]) =>
  record({ marks }).flatMap((mark) => (mark.kind === "polyline" && mark.line ? [mark.points] : []));

describe("hatch", () => {
  const star = Array.from({ length: 10 }, (_, i) => onCircle([7, 3], i % 2 ? 10 : 30, 36 * i + 5));
  const area = (ring: readonly Point[]): number =>
    Math.abs(
      ring.reduce((sum, b, i) => sum + (ring.at(i - 1)![0] * b[1] - b[0] * ring.at(i - 1)![1]) / 2, 0),
    );

  test.each([-45, 0, 30, 90])("at %i°: length times spacing is the area", (angle) => {
    const length = lines(hatch(star, 0.1, angle)).reduce(
      (sum, [a, b]) => sum + Math.hypot(a![0] - b![0], a![1] - b![1]),
      0,
    );
    expect((length * 0.1) / area(star)).toBeCloseTo(1, 3);
  });

  test("neighbours line up, and the slope is the one asked for", () => {
    const [a, b] = lines(
      hatch(
        [
          [0, 0],
          [10, 0],
          [10, 10],
          [0, 10],
        ],
        3,
        -45,
      ),
    )[1]!;
    expect(Math.abs((b![1] - a![1]) / (b![0] - a![0]) + 1)).toBeLessThan(1e-9);
    expect(() => hatch(star, 0)).toThrow("spacing above 0");
  });
});

describe("words in a column", () => {
  const story =
    "Set the pointer to 63.5° and pull until the finder reads 12-5/16″, then\u00a0check. Extraordinarily-long-word-here";

  test("law: no line is wider than the column, and no word is lost", () => {
    for (const width of [12, 20, 33, 70, 200]) {
      const found = wrap(story, width, { size: 3.5 });
      for (const run of found) expect(textWidth(run, 3.5)).toBeLessThanOrEqual(width + 1e-9);
      expect(found.join("").replaceAll(" ", "")).toBe(story.replaceAll(" ", ""));
    }
  });

  test("law: greedy — the next word would not have fitted", () => {
    const found = wrap(story, 60, { size: 3.5 });
    found.slice(1).forEach((run, i) => {
      expect(textWidth(`${found[i]} ${run.split(" ")[0]}`, 3.5)).toBeGreaterThan(60);
    });
  });

  test("empty lines stay, the height counts them", () => {
    expect(wrap("a\n\nb", 50)).toEqual(["a", "", "b"]);
    expect(paragraph([0, 0], 50, "a\n\nb", { size: 2 }).height).toBeCloseTo(3 * 3.4, 12);
  });

  test("a column narrower than one character still ends", () => {
    expect(wrap("abc", 0.1)).toEqual(["a", "b", "c"]);
  });
});

test("a table's words stay in their cells, and its height is where its frame ends", () => {
  const columns = [
    { title: "Bend", width: 14 },
    { title: "Mark", width: 26, anchor: "end" as const },
    { title: "Then", width: 30, anchor: "middle" as const },
  ];
  const { marks, height } = table([5, 7], columns, [
    ["1", "312.5 mm", "turn 35° to the left and check with the finder"],
    ["2"],
  ]);
  const edges = [5, 19, 45, 75];
  for (const mark of texts(marks) as (Primitive & { kind: "text" })[]) {
    const width = textWidth(mark.text, mark.size, mark.bold);
    const start = mark.at[0] - (mark.anchor === "end" ? width : mark.anchor === "middle" ? width / 2 : 0);
    const cell = edges.findLastIndex((edge) => edge <= start);
    expect(start + width).toBeLessThanOrEqual(edges[cell + 1]!);
    expect(mark.at[1]).toBeLessThan(7 + height);
    expect(mark.at[1] - mark.size).toBeGreaterThan(7);
  }
  expect(
    Math.max(
      ...lines(marks)
        .flat()
        .map(([, y]) => y),
    ),
  ).toBeCloseTo(7 + height, 12);
});

test.each([A4, LETTER])("$name: the frame keeps off the edge, and the words stay in it", (paper) => {
  const { marks, inside } = sheetFrame(paper, {
    title: "Bender card",
    fields: [
      ["Bar", "Harness"],
      ["Figured from", "a value so long that it has to go on to a second line of its own, and then some"],
    ],
    note: "The rule book in force decides.",
  });
  for (const mark of record({ marks })) {
    if (mark.kind !== "text") continue;
    expect(mark.at[0]).toBeGreaterThan(10);
    expect(mark.at[0] + textWidth(mark.text, mark.size, mark.bold)).toBeLessThan(paper.width - 10);
    expect(mark.at[1]).toBeGreaterThan(inside.y + inside.height);
    expect(mark.at[1]).toBeLessThan(paper.height - 10);
  }
  expect(texts(marks).map((mark) => mark.kind === "text" && mark.text)).toContain("Harness");
  expect(inside.height).toBeGreaterThan(200);
});
