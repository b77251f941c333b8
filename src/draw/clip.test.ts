import { describe, expect, test } from "vitest";
import { seeded } from "../core/numeric/index.ts";
import { arc, circle, line, polygon, polyline, text } from "./build.ts";
import { contains, corners, cut, endOf, type Leaf, middle } from "./clip.ts";
import { textWidth } from "./lettering.ts";
import { onCircle } from "./place.ts";
import type { Arc, Point, Polyline, Rect, Text } from "./types.ts";

const BOX: Rect = { x: 0, y: 0, width: 10, height: 6 };
const asLine = (mark: Leaf | undefined): Polyline => {
  if (mark?.kind !== "polyline") throw new Error("not a polyline");
  return mark;
};

const length = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - points[i]![0], p[1] - points[i]![1]), 0);

const area = (ring: readonly Point[]): number =>
  Math.abs(ring.reduce((sum, b, i) => sum + (ring.at(i - 1)![0] * b[1] - b[0] * ring.at(i - 1)![1]) / 2, 0));

describe("a path", () => {
  test("is cut where it crosses, and joined where it does not leave", () => {
    const found = cut(
      polyline([
        [-5, 3],
        [5, 3],
        [5, 5],
        [20, 5],
      ]),
      BOX,
    );
    expect(found).toEqual([
      {
        kind: "polyline",
        points: [
          [0, 3],
          [5, 3],
          [5, 5],
          [10, 5],
        ],
        line: "visible",
      },
    ]);
  });

  test("that leaves and comes back is two pieces", () => {
    const found = cut(
      polyline([
        [1, 1],
        [1, -5],
        [4, -5],
        [4, 1],
      ]),
      BOX,
    );
    expect(found.map((mark) => asLine(mark).points)).toEqual([
      [
        [1, 1],
        [1, 0],
      ],
      [
        [4, 0],
        [4, 1],
      ],
    ]);
  });

  test("on the edge belongs to the inside; past a corner it does not", () => {
    expect(cut(line([0, -1], [0, 7]), BOX).map((mark) => asLine(mark).points)).toEqual([
      [
        [0, 0],
        [0, 6],
      ],
    ]);
    expect(cut(line([-1, 1], [1, -1]), BOX)).toEqual([]);
    expect(cut(line([-2, 1], [1, -2]), BOX)).toEqual([]);
  });

  test("slow twin: the length kept is the length that small steps find inside, seed 5", () => {
    const random = seeded(5);
    for (let n = 0; n < 60; n++) {
      const points = Array.from({ length: 5 }, (): Point => [-5 + 20 * random(), -4 + 14 * random()]);
      const kept = cut(polyline(points), BOX).reduce((sum, mark) => sum + length(asLine(mark).points), 0);
      let stepped = 0;
      const steps = 4000;
      points.slice(1).forEach((b, i) => {
        const a = points[i]!;
        for (let k = 0; k < steps; k++) {
          const t = (k + 0.5) / steps;
          if (contains(BOX, [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]))
            stepped += Math.hypot(b[0] - a[0], b[1] - a[1]) / steps;
        }
      });
      // each crossing costs at most one step, and each of four segments crosses at most twice
      expect(Math.abs(kept - stepped)).toBeLessThan((8 * 25) / steps);
    }
  });
});

describe("a fill", () => {
  test("slow twin: the area kept is what a grid finds inside, for stars too, seed 6", () => {
    const random = seeded(6);
    for (let n = 0; n < 20; n++) {
      const ring = Array.from({ length: 10 }, (_, i) => onCircle([5, 3], 1 + 7 * random(), 36 * i));
      const found = cut(polygon(ring, undefined, "shade"), BOX);
      const inside = ([x, y]: Point): boolean =>
        ring.reduce((odd, b, i) => {
          const a = ring.at(i - 1)!;
          const crosses = a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
          return crosses ? !odd : odd;
        }, false);
      let counted = 0;
      for (let i = 0; i < 200; i++)
        for (let k = 0; k < 120; k++)
          if (inside([(i + 0.5) * 0.05, (k + 0.5) * 0.05])) counted += 0.05 * 0.05;
      expect(Math.abs(area(asLine(found[0]).points) - counted)).toBeLessThan(0.5);
    }
  });
});

describe("circles and arcs", () => {
  test("an arc's end below its start is a turn further", () => {
    expect(endOf(arc([0, 0], 1, 350, 10))).toBe(370);
    expect(endOf(arc([0, 0], 1, 10, 350))).toBe(350);
  });

  test("slow twin: the degrees kept are those whose places are inside, seed 7", () => {
    const random = seeded(7);
    for (let n = 0; n < 300; n++) {
      const [from, span] = [-360 + 720 * random(), 360 * random()];
      const mark = arc([-3 + 16 * random(), -3 + 12 * random()], 0.5 + 8 * random(), from, from + span);
      const kept = cut(mark, BOX) as Arc[];
      let stepped = 0;
      for (let k = 0; k < 3600; k++)
        if (contains(BOX, onCircle(mark.centre, mark.radius, from + ((k + 0.5) * span) / 3600)))
          stepped += span / 3600;
      const degrees = kept.reduce((sum, piece) => sum + endOf(piece) - piece.from, 0);
      expect(Math.abs(degrees - stepped)).toBeLessThan((9 * span) / 3600);
    }
  });

  test("a circle over the right-hand edge is one arc", () => {
    const found = cut(circle([0, 3], 2, "cut"), BOX);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ kind: "arc", from: 270, to: 450, line: "cut" });
  });

  test("a filled circle that is cut keeps half its area", () => {
    const [fill] = cut(circle([0, 3], 2, undefined, "ink"), BOX);
    expect(Math.abs(area(asLine(fill).points) - 2 * Math.PI)).toBeLessThan(0.03);
  });

  test("inside it stays a circle, outside nothing stays", () => {
    expect(cut(circle([5, 3], 3, "cut"), BOX)).toEqual([circle([5, 3], 3, "cut")]);
    expect(cut(circle([5, 3], 30, "cut"), BOX)).toEqual([]);
    expect(cut(circle([50, 3], 3, "cut", "ink"), BOX)).toEqual([]);
  });
});

describe("words", () => {
  const word = (at: Point, options: Partial<Text> = {}): Text => ({ ...text(at, "weld", 2), ...options });

  test("stay whole when their middle is inside, else go", () => {
    const half = textWidth("weld", 2) / 2;
    expect(cut(word([-half + 0.01, 3]), BOX)).toHaveLength(1);
    expect(cut(word([-half - 0.01, 3]), BOX)).toEqual([]);
    expect(cut(word([half - 0.01, 3], { anchor: "end" }), BOX)).toEqual([]);
    expect(cut(word([0, 3], { anchor: "middle" }), BOX)).toHaveLength(1);
  });

  test("reading upward from their place, they lie above it and to its left", () => {
    const width = textWidth("weld", 2);
    const box = corners(word([5, 5], { rotate: -90 }));
    expect(box[1]).toEqual([5, 5 - width]);
    expect(box[2]).toEqual([3, 5 - width]);
    expect(middle(word([5, 5], { rotate: -90 }))).toEqual([4, 5 - width / 2]);
  });
});
