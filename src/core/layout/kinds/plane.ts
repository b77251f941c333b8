import { crossings, placeAt } from "../../bar/index.ts";
import { count, mm, phrase, place as placeQuantity, type Quantity, text } from "../../findings/index.ts";
import type { Place, PlaneWhere, Side } from "../../job/types.ts";
import { SAME_PLACE } from "../../numeric/index.ts";
import { dist, mirrored } from "../../space/index.ts";
import type { LandingBy } from "./kind.ts";

const AXES = { x: 0, y: 1, z: 2 } as const;
/** The coordinate that a side is the greatest (+) or least (−) of. */
const SIDES: Readonly<Record<Side, readonly [0 | 1 | 2, 1 | -1]>> = {
  left: [1, 1],
  right: [1, -1],
  front: [0, 1],
  rear: [0, -1],
  top: [2, 1],
  bottom: [2, -1],
};
const OTHER: Readonly<Record<Side, Side>> = {
  left: "right",
  right: "left",
  front: "front",
  rear: "rear",
  top: "top",
  bottom: "bottom",
};

const nearQuantity = (near: Side | Place): Quantity =>
  typeof near === "string" ? phrase("side", { side: text(near) }) : placeQuantity(near);

export const plane: LandingBy<PlaneWhere> = {
  land({ axis, value, near }, { line, fail, land }) {
    const plane = { axis: text(axis), value: mm(value) };
    const found = crossings(line, AXES[axis], value);
    if (found.kind === "in-plane") return fail("crossing-in-plane", plane);
    const order = (s: number): number => {
      const p = placeAt(line, s).at;
      if (near === undefined) return 0;
      return typeof near === "string" ? -SIDES[near][1] * p[SIDES[near][0]] : dist(p, near);
    };
    const ranked = found.at.map((s) => ({ s, by: order(s) })).sort((a, b) => a.by - b.by);
    const [first, second] = ranked;
    if (!first) return fail("crossing-none", plane);
    if (near === undefined) {
      return second ? fail("crossing-several", { ...plane, count: count(ranked.length) }) : land(first.s);
    }
    if (second && second.by - first.by <= SAME_PLACE) {
      return fail("crossing-tie", { ...plane, near: nearQuantity(near) });
    }
    return land(first.s);
  },
  mirrored(where) {
    const { near } = where;
    const across =
      near === undefined ? {} : { near: typeof near === "string" ? OTHER[near] : mirrored(near) };
    return { ...where, value: where.axis === "y" ? -where.value : where.value, ...across };
  },
};
