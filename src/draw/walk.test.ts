import { describe, expect, test } from "vitest";
import { seeded } from "../core/numeric/index.ts";
import type { Mark, Point } from "./index.ts";
import { arc, circle, group, line, polygon, polyline, rectangle, text } from "./index.ts";
import { record } from "./sinks/record.ts";

const only = (marks: readonly Mark[]) => {
  const found = record({ marks });
  expect(found).toHaveLength(1);
  return found[0]!;
};

describe("placement", () => {
  test("a quarter turn is clockwise as seen, and exact", () => {
    const mark = only([group("g", [line([1, 0], [0, 2])], { at: [10, 20], rotate: 90 })]);
    expect(mark).toEqual({
      kind: "polyline",
      points: [
        [10, 21],
        [8, 20],
      ],
      line: "visible",
      within: "g",
    });
  });

  test("arcs and words turn with their group", () => {
    const [a, t] = record({
      marks: [group("g", [arc([1, 0], 5, 10, 40), text([1, 0], "up")], { at: [10, 20], rotate: -90 })],
    });
    expect(a).toMatchObject({ centre: [10, 19], radius: 5, from: -80, to: -50 });
    expect(t).toMatchObject({ at: [10, 19], rotate: -90 });
  });

  test("law: groups in groups are one rigid motion, seed 11", () => {
    const random = seeded(11);
    const between = (low: number, high: number): number => low + (high - low) * random();
    for (let n = 0; n < 200; n++) {
      const p: Point = [between(-90, 90), between(-90, 90)];
      const q: Point = [between(-90, 90), between(-90, 90)];
      const motions = Array.from({ length: 3 }, () => ({
        at: [between(-50, 50), between(-50, 50)] as const,
        rotate: between(-720, 720),
      }));
      const nested = motions.reduce<Mark>((inner, motion) => group("g", [inner], motion), polyline([p, q]));
      const mark = only([nested]);
      // slow twin: complex numbers
      const twin = motions.reduce<Point[]>(
        (points, { at, rotate }) =>
          points.map(([x, y]) => {
            const [c, s] = [Math.cos((rotate * Math.PI) / 180), Math.sin((rotate * Math.PI) / 180)];
            return [at[0] + x * c - y * s, at[1] + x * s + y * c];
          }),
        [p, q],
      );
      if (mark.kind !== "polyline") throw new Error("a polyline became something else");
      mark.points.forEach(([x, y], i) => {
        expect(x).toBeCloseTo(twin[i]![0], 9);
        expect(y).toBeCloseTo(twin[i]![1], 9);
      });
      expect(mark.within).toBe("g/g/g");
    }
  });

  test("a clip is cut in its own frame, then turned", () => {
    const mark = only([
      group("g", [line([-5, 1], [5, 1])], {
        at: [100, 0],
        rotate: 90,
        clip: { x: 0, y: 0, width: 3, height: 3 },
      }),
    ]);
    expect(mark).toMatchObject({
      points: [
        [99, 0],
        [99, 3],
      ],
    });
  });
});

describe("what is drawn", () => {
  test("keeps the order of the drawing", () => {
    const marks = [circle([0, 0], 1, "cut"), group("a", [text([0, 0], "x")]), line([0, 0], [1, 1])];
    expect(record({ marks }).map((mark) => mark.kind)).toEqual(["circle", "text", "polyline"]);
  });

  test("leaves out what has no extent", () => {
    const marks = [text([0, 0], "  "), polyline([[1, 1]]), circle([0, 0], 0, "cut")];
    expect(record({ marks })).toEqual([]);
  });

  test("stops at a mark that cannot be drawn, and names it", () => {
    expect(() => record({ marks: [line([0, Number.NaN], [1, 1])] })).toThrow("a polyline has a coordinate");
    expect(() => record({ marks: [circle([0, 0], 1)] })).toThrow("a circle has neither line nor fill");
    expect(() => record({ marks: [circle([0, 0], Number.POSITIVE_INFINITY, "cut")] })).toThrow(
      "a circle has a coordinate",
    );
  });

  test("words are one line: no control characters, no broken surrogates", () => {
    expect(only([text([0, 0], "a\nb\u0000c\ud800d\u2028e")])).toMatchObject({ text: "a b c d e" });
    expect(only([text([0, 0], "Ø44.5 😀")])).toMatchObject({ text: "Ø44.5 😀" });
  });

  test("a closed shape that is cut leaves its line open and its fill closed", () => {
    const found = record({
      marks: [
        group(
          "g",
          [
            polygon(
              [
                [0, 0],
                [4, 0],
                [4, 4],
                [0, 4],
              ],
              "visible",
              "shade",
            ),
          ],
          {
            clip: { x: -1, y: -1, width: 3, height: 9 },
          },
        ),
      ],
    });
    expect(found.map((mark) => mark.kind === "polyline" && [mark.line, mark.fill, mark.closed])).toEqual([
      [undefined, "shade", true],
      ["visible", undefined, undefined],
      ["visible", undefined, undefined],
    ]);
  });

  test("a rectangle inside its clip stays the mark that it was", () => {
    const mark = rectangle({ x: 0, y: 0, width: 2, height: 1 }, "frame");
    const clip = { x: 0, y: 0, width: 2, height: 1 };
    expect(only([group("g", [mark], { clip })])).toEqual({ ...mark, within: "g" });
  });
});
