import type { Mark, Point } from "../types.ts";

/** Half the width of a head over its length: 20° between its sides (ISO 129-1 gives 15° and 30° heads as examples). */
const SLENDER = Math.tan((10 * Math.PI) / 180);

/** A closed filled head with its tip at `tip`, pointing along `way` (a unit vector). */
export function arrowhead(tip: Point, way: Point, length: number): Mark {
  const half = length * SLENDER;
  const [bx, by] = [tip[0] - length * way[0], tip[1] - length * way[1]];
  return {
    kind: "polyline",
    points: [tip, [bx - half * way[1], by + half * way[0]], [bx + half * way[1], by - half * way[0]]],
    closed: true,
    fill: "ink",
  };
}
