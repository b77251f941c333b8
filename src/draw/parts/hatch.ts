import { line } from "../build.ts";
import { placed } from "../place.ts";
import type { Mark, Point } from "../types.ts";

/**
 * Parallel narrow lines over the inside (even-odd) of a polygon, after ISO 128-3; spacing mm, angle degrees clockwise
 * as seen (−45 rises to the right). The lines are counted from the origin, so that neighbours hatched alike line up.
 */
export function hatch(polygon: readonly Point[], spacing = 3, angle = -45): Mark[] {
  if (!(spacing > 0)) throw new Error("hatch lines need a spacing above 0 mm");
  const level = polygon.map((p) => placed(p, { at: [0, 0], rotate: -angle }));
  const rows = level.map(([, y]) => y / spacing);
  const out: Mark[] = [];
  for (let row = Math.ceil(Math.min(...rows)); row <= Math.max(...rows); row++) {
    const cuts = crossings(level, row * spacing);
    const at = (x: number): Point => placed([x, row * spacing], { at: [0, 0], rotate: angle });
    for (const [i, to] of cuts.entries()) {
      const from = cuts[i - 1];
      // from the first to the second, from the third to the fourth: between those the line lies inside
      if (from !== undefined && i % 2 === 1 && to > from) out.push(line(at(from), at(to), "hatch"));
    }
  }
  return out;
}

/** Where a level line crosses the polygon, from left to right. A corner counts with the side above it only. */
function crossings(polygon: readonly Point[], y: number): number[] {
  const out: number[] = [];
  polygon.forEach((b, i) => {
    const a = polygon.at(i - 1) ?? b;
    if (a[1] <= y !== b[1] <= y) out.push(a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
  });
  return out.sort((p, q) => p - q);
}
