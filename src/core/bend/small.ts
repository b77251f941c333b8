import { count, degrees, type Finding, mm, type Quantity } from "../findings/index.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg } from "../numeric/index.ts";

/** An angle of a fraction of a degree, to two figures that count. */
const size = (angle: number): Quantity => degrees(deg(angle), 2);

/**
 * Corners of a bar that are too small to make, each with what leaving it out costs, and bends as small that stay because
 * leaving them out would move the bar. `least` is the least angle that the shop makes true (radians).
 */
export function smallBends(bar: ResolvedBar, least: number): readonly Finding[] {
  const { small, bends } = bar.centreline;
  const place = `bars.${bar.id}`;
  const left = small.map(({ n, angle, off }): Finding => {
    const values = { bend: count(n), angle: size(angle), off: mm(off) };
    return { code: "bend-small", place, bar: bar.id, values };
  });
  const stay = bends
    .filter((b) => b.angle < least - 1e-9)
    .map(({ n, angle }): Finding => {
      const values = { bend: count(n), angle: size(angle), most: mm(1) };
      return { code: "bend-kept-small", place, bar: bar.id, values };
    });
  return [...left, ...stay];
}
