import { HANDS_AND_STRAP, isByGap } from "../../core/fit/index.ts";
import { ORDER_LINE } from "../../words/index.ts";
import type { Look } from "./looking.ts";
import type { Tag } from "./row.ts";

/** How the whole row is, in one line. */
export function rowSays({ row, run }: Look): string {
  const solid = row.filter((t) => t.state !== "placeless");
  const [seen, all] = [solid.filter((t) => t.state !== "unseen").length, solid.length];
  const bad = solid.filter((t) => t.state === "no").length;
  if (all === 0) return ORDER_LINE.none;
  if (run?.what === "find") return ORDER_LINE.finding(run.at);
  if (run) return ORDER_LINE.checking(seen, all, run.at);
  const noes = bad === 0 ? "" : ORDER_LINE.noes(bad, all);
  if (seen === 0) return ORDER_LINE.unchecked;
  if (seen < all) return ORDER_LINE.part(seen, all, noes);
  return noes === "" ? `${ORDER_LINE.all(all)}${sprungSays(solid)}` : noes;
}

/** Gaps and springing are named, and where that is more than two hands can do it is no way in to count on. */
function sprungSays(row: readonly Tag[]): string {
  const all = row.filter((t) => t.state === "spring");
  const gaps = all.filter((t) => t.judged && isByGap(t.judged)).length;
  const sprung = all.length - gaps;
  const hard = all.filter((t) => (t.judged?.force ?? 0) > HANDS_AND_STRAP).length - gaps;
  return [
    sprung > 0 ? ORDER_LINE.sprung(sprung) : "",
    hard > 0 ? ORDER_LINE.byForce(hard, HANDS_AND_STRAP) : "",
    gaps > 0 ? ORDER_LINE.byGap(gaps) : "",
  ].join("");
}
