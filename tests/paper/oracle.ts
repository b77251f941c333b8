import { printed, type Wanted } from "./figure.ts";
import { type Around, wanted } from "./quantities/index.ts";
import { ENDS } from "./report.ts";
import type { Oracle, Place } from "./scan.ts";

export function oracleOf(around: Around): Oracle {
  const { second } = around;
  const ask = (quantity: string, place: Place) => {
    if (quantity.startsWith("scale."))
      return { value: place[quantity] as number, slack: 0.004 * ((place[quantity] as number) || 0) };
    if (quantity === "die" && place.overview) return { accepts: () => true };
    if (quantity === "step") {
      const order = second.bar(place.bar!).order;
      const step = (place.step as number | undefined) ?? 0;
      place.step = step + 1;
      return { words: order[step] === place.bend ? "true" : "false" };
    }
    return wanted(around, quantity, place);
  };
  return {
    fraction: second.job.fraction,
    wanted: ask,
    choices: (quantity, place) => choices(around, quantity, place),
    pass: (name, words, place) => {
      if (name === "bend") place.bend = Number(words);
      if (name === "base") place.base = printed(words, second.job.fraction).value;
      if (name === "row") place.bar = second.ids[Number(words) - 1] ?? "";
      if (name === "dangerBar") {
        place.bar = second.bySay(words);
        delete place.bend;
      }
      if (/^(clashBar|clashOther|host)$/.test(name)) place[name] = second.bySay(words);
      if (name === "findingBar") {
        place.bar = second.bySay(words);
        delete place.bend;
      }
    },
  };
}

/** All words that a quantity may be on a sheet: of one bar, or of all where a sheet is about all. */
function choices(around: Around, quantity: string, place: Place): string[] {
  const { second } = around;
  if (/^(findingBar|host|clash(Bar|Other|\.bar|\.other))$/.test(quantity))
    return second.ids.map((id) => second.called(id));
  if (quantity === "clashPlate") return second.clashes.flatMap((c) => c.plate ?? []);
  if (quantity === "dangerBar") return second.ids.map((id) => second.called(id));
  if (quantity === "die" && place.overview) return Object.keys(second.job.dies);
  if (quantity === "step.open") return ["heel", "toe", "flank"];
  const bars = place.overview ? second.ids : place.bar === undefined ? [] : [place.bar];
  const found = new Set<string>();
  const add = (at: Place): void => {
    const w = wanted(around, quantity, at) as Wanted | undefined;
    if (w?.words) found.add(w.words);
  };
  if (bars.length === 0) add(place);
  for (const bar of bars) {
    const { laid } = second.bar(bar);
    const path = second.job.bars[laid.own.mirrorOf ?? bar]!.path.length;
    if (quantity.startsWith("node."))
      for (let i = 0; i < path; i++) add({ bar, node: i === 0 ? "A" : i === path - 1 ? "B" : `corner ${i}` });
    else if (/^(turn|round)\./.test(quantity)) for (const b of laid.line.bends) add({ bar, bend: b.n });
    else if (quantity.startsWith("step."))
      for (const end of ENDS) for (const cut of ["1", "2", "3"]) add({ bar, end, cut });
    else if (quantity.startsWith("crowd."))
      for (const end of ENDS)
        for (const host of second.bar(bar).cope[end].joint.onto) add({ bar, end, host });
    else for (const end of ENDS) add({ bar, end });
  }
  return [...found];
}
