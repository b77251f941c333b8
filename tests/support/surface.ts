import { rad } from "../../src/core/numeric/index.ts";
import { add, along, anyPerpendicular, cross, scale, turn, type Vec } from "../../src/core/space/index.ts";
import type { Listed } from "./bend.ts";

/** One ring of points on the outside of a tube, with what it belongs to. */
export interface Ring {
  /** Leg 0 is before bend 0; a ring in a bend has none. */
  readonly leg?: number;
  readonly centre: Vec;
  readonly dir: Vec;
  readonly points: readonly Vec[];
}

/**
 * The outside of a bar in many points, walked off from the list that bends it: slow, and by none of the program's own
 * pieces. `straights` has one length more than `list` has bends; bend 0 lies in the plane z = 0 and turns from x
 * toward y.
 */
export function surface(
  list: readonly Listed[],
  lastStraight: number,
  clr: number,
  od: number,
  around = 360,
  steps = 400,
): Ring[] {
  const rings: Ring[] = [];
  let at: Vec = [0, 0, 0];
  let dir: Vec = [1, 0, 0];
  let normal: Vec = [0, 0, 1];
  const ring = (leg?: number): void => {
    const e = anyPerpendicular(dir);
    const f = cross(dir, e);
    const points = Array.from({ length: around }, (_, i): Vec => {
      const a = (2 * Math.PI * i) / around;
      return add(at, add(scale(e, (od / 2) * Math.cos(a)), scale(f, (od / 2) * Math.sin(a))));
    });
    rings.push({ ...(leg !== undefined && { leg }), centre: at, dir, points });
  };
  const straight = (length: number, leg: number): void => {
    ring(leg);
    at = along(at, dir, length);
    ring(leg);
  };
  list.forEach(([length, rotation, angle], i) => {
    straight(length, i);
    normal = turn(normal, dir, rad(rotation));
    const centre = along(at, cross(normal, dir), clr);
    const step = rad(angle) / steps;
    for (let k = 0; k < steps; k++) {
      const from = at;
      at = add(centre, turn([from[0] - centre[0], from[1] - centre[1], from[2] - centre[2]], normal, step));
      dir = turn(dir, normal, step);
      if (k + 1 < steps) ring();
    }
  });
  straight(lastStraight, list.length);
  return rings;
}
