import { describe, expect, test } from "vitest";
import { seeded } from "../core/numeric/index.ts";
import type { Paper, Point, Primitive, Sheet } from "./index.ts";
import { A4, circle, type Drawing, LETTER, landscape, line, polyline, text, tile } from "./index.ts";
import { SAFE_MARGIN } from "./paper.ts";
import { record } from "./sinks/record.ts";

const MARK: Point = [1, 2];

const wave = (width: number, height: number): Drawing => ({
  width,
  height,
  marks: [
    // a marked point, so that a shift cannot hide
    circle(MARK, 0.5, "cut"),
    polyline(
      Array.from(
        { length: 200 },
        (_, i): Point => [(i * width) / 199, height / 2 + 0.45 * height * Math.sin(i / 9)],
      ),
      "cut",
    ),
    ...Array.from({ length: 12 }, (_, i) => text([((i + 0.3) * width) / 12, height / 2], `word ${i}`, 5)),
  ],
});

const within = (sheet: Sheet, name: string): Primitive[] =>
  record(sheet).filter((mark) => mark.within === name);
const words = (sheet: Sheet): string =>
  record(sheet)
    .flatMap((mark) => (mark.kind === "text" ? [mark.text] : []))
    .join(" | ");

/** Length of all "cut" lines. */
const inked = (marks: readonly Primitive[]): number =>
  marks.reduce((sum, mark) => {
    if (mark.kind !== "polyline" || mark.line !== "cut") return sum;
    return (
      sum +
      mark.points
        .slice(1)
        .reduce((s, p, i) => s + Math.hypot(p[0] - mark.points[i]![0], p[1] - mark.points[i]![1]), 0)
    );
  }, 0);

describe("tiling", () => {
  test("a drawing that fits is one sheet, at its true size, without joins", () => {
    const sheets = tile({ width: 100, height: 50, marks: [line([0, 0], [100, 50], "cut")] }, A4, {
      name: "Wrap",
    });
    expect(sheets).toHaveLength(1);
    expect(sheets[0]).toMatchObject({ name: "Wrap", width: 210, height: 297 });
    expect(inked(within(sheets[0]!, "piece"))).toBeCloseTo(Math.hypot(100, 50), 9);
    expect(within(sheets[0]!, "joins")).toEqual([]);
    expect(words(sheets[0]!)).toContain("Wrap · sheet 1 of 1");
    const noted = tile(wave(520, 100), A4, { name: "Wrap", note: "Print at 100 %, then measure." });
    for (const sheet of noted) expect(words(sheet)).toContain("Print at 100 %, then measure.");
  });

  test("the sheet lies down when that takes fewer", () => {
    expect(tile(wave(250, 60), A4, { name: "Wrap" })).toHaveLength(1);
    expect(tile(wave(250, 60), A4, { name: "Wrap" })[0]).toMatchObject({ width: 297, height: 210 });
    expect(tile(wave(250, 60), A4, { name: "Wrap", lie: "portrait" })).toHaveLength(2);
  });

  test("says which sheet and what joins where, each join with its letter on both sheets", () => {
    const sheets = tile(wave(520, 100), A4, { name: "Wrap", foot: "Harness · left · revision 3" });
    expect(sheets.map((sheet) => sheet.name)).toEqual([
      "Wrap, sheet 1 of 3",
      "Wrap, sheet 2 of 3",
      "Wrap, sheet 3 of 3",
    ]);
    expect(words(sheets[0]!)).toContain("sheet 1 of 3 · join A–A right");
    expect(words(sheets[1]!)).toContain("sheet 2 of 3 · join A–A left, B–B right");
    expect(words(sheets[2]!)).toContain("sheet 3 of 3 · join B–B left");
    for (const sheet of sheets) expect(words(sheet)).toContain("Harness · left · revision 3");
  });

  test.each<[string, number, number, Paper]>([
    ["a strip on A4", 520, 100, A4],
    ["a strip on Letter", 700, 90, LETTER],
    ["a grid on A4", 520, 700, A4],
    ["a tall one on Letter lying", 150, 900, landscape(LETTER)],
  ])("%s: laid join on join, the pieces make the drawing again", (_, width, height, paper) => {
    const drawing = wave(width, height);
    const sheets = tile(drawing, paper, { name: "Wrap", overlap: 15 });
    const joins = new Map<string, { sheet: number; marks: Point[] }[]>();
    sheets.forEach((sheet, i) => {
      const found = within(sheet, "joins");
      for (const letter of new Set(found.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))) {
        // marks come before their letter: line, then (cross, cross, circle, letter) twice
        const at = found.findIndex((mark) => mark.kind === "text" && mark.text === letter);
        const rings = found
          .slice(at - 4, at + 5)
          .flatMap((mark) => (mark.kind === "circle" ? [mark.centre] : []));
        joins.set(letter, [...(joins.get(letter) ?? []), { sheet: i, marks: rings }]);
      }
    });
    expect(joins.size).toBeGreaterThan(0);
    // walk over the joins from sheet 1 and note where each sheet lies
    const place = new Map<number, Point>([[0, [0, 0]]]);
    for (let round = 0; round < sheets.length; round++)
      for (const sides of joins.values()) {
        expect(sides).toHaveLength(2);
        for (const [a, b] of [sides, [...sides].reverse()] as const) {
          const known = place.get(a!.sheet);
          if (!known || !b) continue;
          const moved: Point = [
            known[0] + a!.marks[0]![0] - b.marks[0]![0],
            known[1] + a!.marks[0]![1] - b.marks[0]![1],
          ];
          const before = place.get(b.sheet);
          if (before) expect(Math.hypot(before[0] - moved[0], before[1] - moved[1])).toBeLessThan(1e-9);
          place.set(b.sheet, moved);
          expect(a!.marks[1]![0] + known[0]).toBeCloseTo(b.marks[1]![0] + moved[0], 9);
          expect(a!.marks[1]![1] + known[1]).toBeCloseTo(b.marks[1]![1] + moved[1], 9);
        }
      }
    expect(place.size).toBe(sheets.length);
    // every place of the curve, moved back, is on the curve of the drawing; together they miss nothing
    const start = within(sheets[0]!, "piece").find((mark) => mark.kind === "circle");
    const source = record(drawing).find((mark) => mark.kind === "polyline");
    if (start?.kind !== "circle" || source?.kind !== "polyline")
      throw new Error("the drawing is not on the sheets");
    const shift: Point = [start.centre[0] - MARK[0], start.centre[1] - MARK[1]];
    const covered = new Set<number>();
    sheets.forEach((sheet, i) => {
      const [dx, dy] = [place.get(i)![0] - shift[0], place.get(i)![1] - shift[1]];
      for (const mark of within(sheet, "piece")) {
        if (mark.kind !== "polyline") continue;
        for (const [x, y] of mark.points)
          source.points.forEach((p, k) => {
            if (Math.hypot(x + dx - p[0], y + dy - p[1]) < 1e-6) covered.add(k);
          });
      }
    });
    expect(covered.size).toBe(source.points.length);
  });

  test("every word of the drawing is on a sheet, and none runs off the paper's safe edge, seed 3", () => {
    const random = seeded(3);
    for (let n = 0; n < 10; n++) {
      const drawing = wave(250 + 500 * random(), 80 + 100 * random());
      const sheets = tile(drawing, A4, { name: "Wrap" });
      for (let i = 0; i < 12; i++)
        expect(sheets.some((sheet) => words(sheet).includes(`word ${i}`))).toBe(true);
      for (const sheet of sheets)
        for (const mark of record(sheet)) {
          const points =
            mark.kind === "polyline" ? mark.points : mark.kind === "text" ? [mark.at] : [mark.centre];
          for (const [x, y] of points) {
            expect(Math.min(x, sheet.width - x)).toBeGreaterThan(SAFE_MARGIN - 1e-6);
            expect(Math.min(y, sheet.height - y)).toBeGreaterThan(SAFE_MARGIN - 1e-6);
          }
        }
    }
  });

  test("at the size of its window and one hair more", () => {
    const at = (width: number): number =>
      tile({ width, height: 10, marks: [circle([1, 1], 1, "cut")] }, A4, { name: "W", lie: "portrait" })
        .length;
    // 210 less two margins of 10 and 11 for the upright rule
    expect([at(178.9), at(179), at(179 + 1e-9), at(179.001)]).toEqual([1, 1, 1, 2]);
  });

  test("an overlap wider than the sheet is refused", () => {
    expect(() => tile(wave(500, 50), A4, { name: "W", overlap: 300 })).toThrow("overlap of 300 mm");
  });
});
