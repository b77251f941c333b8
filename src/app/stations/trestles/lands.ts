import { len, type Vec } from "../../../core/space/index.ts";
import type { Verdict } from "../../../core/trestles/index.ts";
import type { Write } from "../../kit/index.ts";

type Placed = NonNullable<Verdict["placed"]>;

const WAYS = [
  ["farther forward", "farther back"],
  ["farther left", "farther right"],
  ["higher", "lower"],
] as const;

/** Where each end lands against the plan, and the tube that stands over there once its new cope is cut. */
export function landsWords({ landings, worst }: Placed, write: Write): readonly string[] {
  const ends = (["A", "B"] as const).map((end) => {
    const { moved, spare } = landings[end];
    const where = len(moved) < 0.05 ? "lands as planned" : `lands ${sayMove(moved, write)}`;
    return `End ${end} ${where}; ${write.length(spare)} of tube over beyond its long point.`;
  });
  return [
    ...ends,
    `So laid it stands at most ${write.length(worst.off)} from where it was wanted, ${write.length(worst.along)} from end A.`,
  ];
}

/** "4.0 mm lower", by the greatest of the three ways in the car. */
function sayMove(moved: Vec, write: Write): string {
  const k = [0, 1, 2].reduce((a, b) => (Math.abs(moved[b]!) > Math.abs(moved[a]!) ? b : a));
  return `${write.length(len(moved))} ${WAYS[k]![moved[k]! > 0 ? 0 : 1]}`;
}
