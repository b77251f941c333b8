import type { Arc, Circle, Fill, Group, LineKind, Mark, Point, Polyline, Rect, Text } from "./types.ts";

/** Short ways to write marks. A field that is undefined is left out. */
export const line = (from: Point, to: Point, kind: LineKind = "visible"): Polyline => ({
  kind: "polyline",
  points: [from, to],
  line: kind,
});

export const polyline = (points: readonly Point[], kind: LineKind = "visible"): Polyline => ({
  kind: "polyline",
  points,
  line: kind,
});

export const polygon = (points: readonly Point[], kind?: LineKind, fill?: Fill): Polyline => ({
  kind: "polyline",
  points,
  closed: true,
  ...(kind && { line: kind }),
  ...(fill && { fill }),
});

export const rectangle = (r: Rect, kind?: LineKind, fill?: Fill): Polyline =>
  polygon(
    [
      [r.x, r.y],
      [r.x + r.width, r.y],
      [r.x + r.width, r.y + r.height],
      [r.x, r.y + r.height],
    ],
    kind,
    fill,
  );

export const circle = (centre: Point, radius: number, kind?: LineKind, fill?: Fill): Circle => ({
  kind: "circle",
  centre,
  radius,
  ...(kind && { line: kind }),
  ...(fill && { fill }),
});

/** Angles in degrees, clockwise as seen from +x. */
export const arc = (
  centre: Point,
  radius: number,
  from: number,
  to: number,
  kind: LineKind = "visible",
): Arc => ({
  kind: "arc",
  centre,
  radius,
  from,
  to,
  line: kind,
});

/** `size`: height of the capitals, mm. */
export const text = (
  at: Point,
  words: string,
  size = 3.5,
  options: Pick<Text, "anchor" | "bold" | "rotate"> = {},
): Text => ({ kind: "text", at, text: words, size, ...options });

export const group = (
  name: string,
  marks: readonly Mark[],
  options: Pick<Group, "at" | "rotate" | "clip"> = {},
): Group => ({ kind: "group", name, marks, ...options });
