import { SEVERITIES, severityOf } from "../core/findings/index.ts";
import { allFindings, type BarPlan, dangersOf, type Plan } from "../core/plan/index.ts";
import { halfExtent } from "../core/tube/index.ts";
import { writerFor } from "../core/units/index.ts";
import {
  group,
  type Mark,
  type Paper,
  type Placed,
  type Point,
  paragraph,
  polygon,
  polyline,
  table,
  text,
} from "../draw/index.ts";
import {
  AS_MADE,
  cautionOn,
  FIELD,
  labels,
  OVERVIEW,
  say,
  sayCard,
  sayPlace,
  sayScale,
  WHO_DECIDES,
} from "../words/index.ts";
import { allDangerBlocks } from "./blocks.ts";
import { type Block, flow, heading, words } from "./flow.ts";
import type { Laid } from "./laid.ts";
import { balloon } from "./marked-tube.ts";
import { calledIn } from "./names.ts";
import {
  bounds,
  FROM_ABOVE,
  FROM_FRONT,
  FROM_LEFT,
  type Silhouette,
  silhouettes,
  type View,
} from "./outline.ts";
import { reduction } from "./scale.ts";
import { dangerField, madeToCard, type Subject, sawnLength, sayOnto, subjectFor } from "./subject.ts";

/** The whole job: the cage in three straight views with its bars numbered, a table of the bars, all findings. */
export function overviewSheets(plan: Plan, paper: Paper): Laid[] {
  const fields: [string, string][] = [
    [FIELD.job, plan.job.name],
    [FIELD.bars, `${Object.keys(plan.job.bars).length}`],
    ...dangerField(dangersOf(plan).length, "findings"),
  ];
  const pictures = flow(
    paper,
    { title: OVERVIEW.pictures, fields, note: cautionOn("overview"), lie: "landscape" },
    (inside) => (plan.bars.length === 0 ? [words(OVERVIEW.empty, inside.width)] : [threeViews(plan, inside)]),
  );
  const lists = flow(paper, { title: OVERVIEW.bars, fields, note: cautionOn("overview") }, (inside) =>
    barTable(plan, inside),
  );
  const found = flow(paper, { title: OVERVIEW.findings, fields, note: cautionOn("overview") }, ({ width }) =>
    findingList(plan, width),
  );
  return [...pictures, ...lists, ...found];
}

interface Room {
  readonly width: number;
  readonly height: number;
}

function threeViews(plan: Plan, room: Room): Block {
  const gap = 6;
  const label = 5;
  const see = (name: string, view: View): Seen => {
    const all = plan.bars.map((bar, i) => ({
      bar,
      n: i + 1,
      parts: silhouettes(bar.bar.centreline, halfExtent(bar.bar.tube), view),
    }));
    return { name, view, all, box: bounds(all.flatMap((b) => b.parts.flatMap((p) => p.rim))) };
  };
  const left = see(OVERVIEW.views.left, FROM_LEFT);
  const front = see(OVERVIEW.views.front, FROM_FRONT);
  const above = see(OVERVIEW.views.above, FROM_ABOVE);
  const wide = Math.max(left.box.width, above.box.width) + front.box.width;
  const high = Math.max(left.box.height, front.box.height) + above.box.height;
  const n = reduction(wide, high, { width: room.width - gap - 6, height: room.height - 2 * label - gap });
  const k = 1 / n;
  const column = Math.max(left.box.width, above.box.width) * k + gap;
  const row = Math.max(left.box.height, front.box.height) * k + label + gap;
  const put = (s: Seen, at: Point, high: number): Mark => group("view", oneView(s, k, high), { at });
  const tall = Math.max(left.box.height, front.box.height) * k;
  return {
    marks: [
      put(left, [3, 0], tall),
      put(front, [3 + column, 0], tall),
      put(above, [3, row], above.box.height * k),
      ...paragraph([3 + column, row + 4], room.width - column - 6, OVERVIEW.numbers(sayScale(n)), {
        size: 2.5,
      }).marks,
    ],
    height: row + above.box.height * k + label,
  };
}

interface Seen {
  readonly name: string;
  readonly view: View;
  readonly all: readonly {
    readonly bar: BarPlan;
    readonly n: number;
    readonly parts: readonly Silhouette[];
  }[];
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

/** Nearer tubes are drawn over farther ones; words at the foot. */
function oneView({ name, all, box }: Seen, k: number, high: number): Mark[] {
  const dy = high - box.height * k;
  const on = (p: Point): Point => [(p[0] - box.x) * k, dy + (p[1] - box.y) * k];
  const marks: Mark[] = [];
  const parts = all.flatMap((b) => b.parts).sort((a, b) => a.near - b.near);
  for (const part of parts) {
    marks.push(polygon(part.rim.map(on), undefined, "paper"));
    for (const side of part.sides) marks.push(polyline(side.map(on), "narrow"));
  }
  marks.push(...numbers(all, on));
  marks.push(text([0, high + 4], name, 2.2));
  return marks;
}

const RING = 1.9;

/** A ring on each bar, at the place along it that keeps clear of the others' rings best; none on bars seen end on. */
function numbers(all: Seen["all"], on: (p: Point) => Point): Mark[] {
  const taken: Point[] = [];
  const marks: Mark[] = [];
  for (const { n, parts } of all) {
    const axis = parts.flatMap((p) => p.axis.map(on));
    const [middle, ...outward] = along(axis);
    if (!middle) continue;
    const room = (p: Point): number =>
      Math.min(...taken.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1])), 2 * RING + 0.6);
    let best = middle;
    for (const spot of outward) if (room(spot) > room(best) + 1e-9) best = spot;
    if (room(best) < 2 * RING - 0.2) continue;
    taken.push(best);
    marks.push(...balloon(best, n, RING));
  }
  return marks;
}

/** Places along a polyline, its middle first, then outward to either side. */
function along(axis: readonly Point[]): Point[] {
  const legs = axis.slice(1).flatMap((b, i) => {
    const a = axis[i];
    return a ? [{ a, b, length: Math.hypot(b[0] - a[0], b[1] - a[1]) }] : [];
  });
  const total = legs.reduce((sum, { length }) => sum + length, 0);
  if (total < 2 * RING) return [];
  const at = (t: number): Point => {
    let s = t * total;
    for (const [i, { a, b, length }] of legs.entries()) {
      if (s <= length || i === legs.length - 1) {
        const u = length > 0 ? s / length : 0;
        return [a[0] + u * (b[0] - a[0]), a[1] + u * (b[1] - a[1])];
      }
      s -= length;
    }
    throw new Error("a place along a line that has no leg");
  };
  const out: Point[] = [at(0.5)];
  for (let d = 0.04; d < 0.42; d += 0.04) out.push(at(0.5 - d), at(0.5 + d));
  return out;
}

/** Columns of numbers. */
const NUMBERS: ReadonlySet<number> = new Set([0, 3, 4, 5]);

function barTable(plan: Plan, { width, height }: Room): Block[] {
  const widths = [10, width - 10 - 18 - 26 - 26 - 14 - 44, 18, 26, 26, 14, 44];
  const columns = OVERVIEW.columns.map((title, i) => ({
    title,
    width: widths[i] ?? 0,
    ...(NUMBERS.has(i) ? { anchor: "end" as const } : {}),
  }));
  const rows = plan.bars.map((bar, i) => {
    const s = subjectFor(plan, bar);
    const onto = OVERVIEW.ends(sayOnto(s, "A"), sayOnto(s, "B"));
    return [
      `${i + 1}`,
      OVERVIEW.bar(s.called(bar.id), sayCard(s.card), sayDone(s)),
      bar.bar.tubeId,
      s.write.length(bar.bend.length),
      s.made ? AS_MADE.cell(s.write.length(s.made.sawn.made.length)) : s.write.length(sawnLength(bar)),
      `${bar.bend.bends.length}`,
      onto,
    ];
  });
  return tableBlocks(columns, rows, 1.9, height);
}

/** How far a bar has come, and the card that it was made to where that is another one now. */
function sayDone(s: Subject): string | undefined {
  const progress = s.plan.job.bars[s.id]?.progress ?? "laid out";
  if (!s.made) return undefined;
  const ends = (["A", "B"] as const).filter((end) => s.made?.notched[end]);
  const n = madeToCard(s);
  return [
    progress,
    ...(ends.length === 1 ? [AS_MADE.ends(ends)] : []),
    ...(n === undefined ? [] : [AS_MADE.toCard(n)]),
  ].join(", ");
}

/** A long table as blocks that each fill a sheet, with their head. */
function tableBlocks(
  columns: Parameters<typeof table>[1],
  rows: readonly (readonly string[])[],
  size: number,
  room: number,
): Block[] {
  const blocks: Placed[] = [];
  for (let i = 0; i < rows.length; ) {
    let n = 1;
    while (i + n < rows.length && table([0, 0], columns, rows.slice(i, i + n + 1), size).height <= room) n++;
    blocks.push(table([0, 0], columns, rows.slice(i, i + n), size));
    i += n;
  }
  return blocks;
}

function findingList(plan: Plan, width: number): Block[] {
  const write = writerFor(plan.job.show);
  const all = allFindings(plan);
  const called = calledIn(plan);
  if (all.length === 0) return [words(`${OVERVIEW.none} ${WHO_DECIDES}`, width)];
  const dangers = allDangerBlocks(plan, write, width);
  const rest = SEVERITIES.filter((s) => s !== "danger").flatMap((severity) => {
    const these = all.filter((f) => severityOf(f) === severity);
    if (these.length === 0) return [];
    const lines = these.map((f): Block => {
      const where = paragraph([0, 0], 58, sayPlace(f, called), { size: 2 });
      const said = paragraph([60, 0], width - 60, say(f, write, labels(called)), { size: 2.2 });
      return { marks: [...where.marks, ...said.marks], height: Math.max(where.height, said.height) };
    });
    return [heading(OVERVIEW.severity(severity, these.length), width), ...lines];
  });
  return [...dangers, ...rest];
}
