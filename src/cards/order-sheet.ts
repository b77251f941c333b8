import { type Judged, packingOf, type Reach } from "../core/fit/index.ts";
import { dangersOf, fittingOf, type Plan } from "../core/plan/index.ts";
import { extent } from "../core/tube/index.ts";
import { writerFor } from "../core/units/index.ts";
import { group, line, type Mark, type Paper, paragraph, rectangle, text } from "../draw/index.ts";
import {
  cautionOn,
  FIELD,
  type FitWords,
  FORCES,
  goesIn,
  goesInSays,
  HONEST,
  ORDER,
  packingSays,
  partSays,
  sayCard,
  sayFoul,
  sayPercent,
} from "../words/index.ts";
import { allDangerBlocks } from "./blocks.ts";
import { type Block, fitted, flow, heading, words } from "./flow.ts";
import type { Laid } from "./laid.ts";
import { dangerField, type Subject, subjectOf } from "./subject.ts";

/** An order of fitting with what was found of it. A bar without an answer was not checked. */
export interface OrderFound {
  readonly order: readonly string[];
  readonly judged: readonly Judged[];
  readonly reach: readonly Reach[];
}

/** Columns, mm from the left. */
const BOX = 5;
const NUMBER = 16.5;
const TEXT = 20;

/** The order in which the bars go in, one entry a bar with a box to tick; what does not go in is said first. */
export function orderSheets(plan: Plan, found: OrderFound, paper: Paper): Laid[] {
  const ids = found.order.filter((id) => plan.byId.has(id));
  const judged = new Map(found.judged.map((j) => [j.bar, j]));
  const bad = ids.filter((id) => judged.get(id)?.goesIn === "no");
  const isSeen = (id: string): boolean => (judged.get(id)?.goesIn ?? "unknown") !== "unknown";
  const unseen = ids.filter((id) => !isSeen(id));
  const fields: [string, string][] = [
    [FIELD.job, plan.job.name],
    [FIELD.bars, `${ids.length}`],
    [ORDER.checked, unseen.length === 0 ? ORDER.all : ORDER.some(ids.length - unseen.length, unseen.length)],
    [ORDER.noWay, bad.length === 0 ? ORDER.none : `${bad.length}`],
    ...dangerField(dangersOf(plan).length, "first"),
  ];
  const isSprung = ids.some((id) => judged.get(id)?.goesIn === "spring");
  const note = isSprung ? `${cautionOn("fitting order", "sprung")} ${FORCES}` : cautionOn("fitting order");
  const packings = new Map(fittingOf(plan).bars.map((b) => [b.bar.id, packingOf(b)]));
  return flow(paper, { title: ORDER.title, fields, note }, ({ width }) => [
    ...allDangerBlocks(plan, writerFor(plan.job.show), width),
    words(HONEST, width, { size: 2.3 }),
    heading(ORDER.heading, width),
    ...ids.map((id, i) => {
      const s = subjectOf(plan, id);
      if (!s) throw new Error(`bar ${id} of the order has no geometry`);
      const w = wordsFor(s);
      const lines = linesOf(
        s,
        ids.slice(0, i),
        judged.get(id),
        found.reach,
        packingSays(packings.get(id), w),
      );
      return entry(i + 1, s, stateOf(judged.get(id), w), lines, width);
    }),
  ]);
}

const wordsFor = (s: Subject): FitWords => ({
  called: (id) => (s.plan.byId.has(id) ? s.called(id) : partSays(id, s.plan.job.plates)),
  length: s.write.length,
  fine: s.fine,
});

const stateOf = (j: Judged | undefined, w: FitWords): string =>
  j === undefined || j.goesIn === "unknown"
    ? ORDER.notChecked
    : j.goesIn === "no"
      ? ORDER.goesNot
      : goesIn(j, w);

function linesOf(
  s: Subject,
  before: readonly string[],
  j: Judged | undefined,
  reach: readonly Reach[],
  packing: string | undefined,
): readonly string[] {
  const w = wordsFor(s);
  const out: string[] = [];
  const hosts = [
    ...new Set(
      (["A", "B"] as const).flatMap((e) => (s.bar.bar.seat[e].kind === "on" ? s.bar.bar.seat[e].hosts : [])),
    ),
  ];
  const missing = hosts.filter((h) => !before.includes(h));
  out.push(hosts.length === 0 ? ORDER.noHosts : ORDER.after(hosts.map(w.called)));
  if (j && j.goesIn !== "unknown") out.push(goesInSays(j, missing, w));
  if (j?.goesIn === "spring") out.push(...springing(j, w));
  const needs = s.plan.job.bars[s.id]?.needs;
  if (needs === "body on") out.push(ORDER.bodyOn);
  if (needs === "roof off") out.push(ORDER.roofOff);
  for (const r of reach.filter((each) => each.bar === s.id)) {
    for (const b of r.before) out.push(ORDER.weldBefore(r.end, w.called(b.bar), sayPercent(b.share)));
    if (r.last < 0.995 && r.before.length === 0) out.push(ORDER.reach(r.end, sayPercent(r.last)));
  }
  if (packing) out.push(packing);
  return out;
}

const springing = (j: Judged, w: FitWords): readonly string[] => [
  ...j.fouls.map((f) => sayFoul(w.called(f.id), w.fine(f.by))),
  ...(j.gap === undefined ? [] : [ORDER.withGap(w.fine(j.gap))]),
];

function entry(n: number, s: Subject, state: string, lines: readonly string[], width: number): Block {
  const right = Math.min(62, width * 0.36);
  const isBad = state === state.toUpperCase();
  const said = paragraph([TEXT, 5.6], width - TEXT, lines.join(" "), { size: 2.3 });
  const height = Math.max(11, 5.6 + said.height) + 1.6;
  const marks: Mark[] = [
    rectangle({ x: 0, y: 0.4, width: BOX, height: BOX }, "visible"),
    text([NUMBER, 5], `${n}`, 4, { anchor: "end", bold: true }),
    fitted(
      [TEXT, 3.6],
      ORDER.bar(s.called(s.id), s.size(extent(s.bar.bar.tube)), sayCard(s.card)),
      2.8,
      width - TEXT - right - 3,
      {
        bold: true,
      },
    ),
    fitted([width, 3.6], state, 2.8, right, { anchor: "end", bold: isBad }),
    ...said.marks,
    line([0, height], [width, height], "narrow"),
  ];
  return { marks: [group("bar", marks)], height };
}
