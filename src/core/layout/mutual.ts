import { closestTo } from "../bar/index.ts";
import { bar as barQuantity, type Finding, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { Layout, ResolvedBar } from "./types.ts";

/**
 * Ends that are coped to each other: neither can be cut, since each wants the other's outside. End a of X and end b of
 * Y are, when X is among the hosts of b and Y among the hosts of a, and each end is the nearer one of its bar to the
 * other's landing (a bar that is coped to the middle of one which is coped to its other end is no circle).
 */
export function mutualEnds(layout: Layout): Finding[] {
  const findings: Finding[] = [];
  const seen = new Set<string>();
  for (const { bar } of layout.bars) {
    if (!bar) continue;
    for (const end of ["A", "B"] as const) {
      const seat = bar.seat[end];
      if (seat.kind !== "on") continue;
      for (const id of seat.hosts) {
        const other = layout.byId.get(id);
        const back = other && cutTo(other, bar, nearerEnd(other, placeOf(bar, end)));
        if (!other || !back || nearerEnd(bar, placeOf(other, back)) !== end) continue;
        const pair = [`${bar.id} ${end}`, `${id} ${back}`].sort().join(" ~ ");
        if (seen.has(pair)) continue;
        seen.add(pair);
        const values = { end: text(end), other: barQuantity(id), otherEnd: text(back) };
        findings.push({
          code: "ends-coped-to-each-other",
          place: `bars.${bar.id}`,
          bar: bar.id,
          values,
        });
      }
    }
  }
  return findings;
}

/** `end` of `bar`, if that end is coped to `host`. */
function cutTo(bar: ResolvedBar, host: ResolvedBar, end: End): End | undefined {
  const seat = bar.seat[end];
  return seat.kind === "on" && seat.hosts.includes(host.id) ? end : undefined;
}

const placeOf = (bar: ResolvedBar, end: End) => (end === "A" ? bar.centreline.start : bar.centreline.finish);

function nearerEnd(bar: ResolvedBar, place: ReturnType<typeof placeOf>): End {
  return closestTo(bar.centreline, place).s * 2 <= bar.centreline.length ? "A" : "B";
}
