import { mm } from "../../findings/index.ts";
import type { AlongWhere } from "../../job/types.ts";
import { SAME_PLACE } from "../../numeric/index.ts";
import { onOtherSide } from "../other-side.ts";
import type { LandingBy } from "./kind.ts";

export const along: LandingBy<AlongWhere> = {
  land(where, { line, fail, land }) {
    const s = where.along < 0 ? line.length + where.along : where.along;
    const over = s < 0 ? -s : s - line.length;
    if (over > SAME_PLACE) {
      return fail("landing-off-host", { length: mm(line.length), along: mm(where.along), over: mm(over) });
    }
    return land(Math.min(line.length, Math.max(0, s)));
  },
  mirrored: (where, { bars }, itself) =>
    itself === undefined ? where : { by: "along", along: onOtherSide(where.along, itself, bars) },
};
