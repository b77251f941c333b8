import { onTube, turnsOf } from "../core/bend/index.ts";
import { joinedArcs } from "../core/cope/index.ts";
import type { End } from "../core/job/index.ts";
import { deg, wrapPi } from "../core/numeric/index.ts";
import type { Plan } from "../core/plan/index.ts";
import { extent, sizeOf } from "../core/tube/index.ts";
import {
  BARS_CSV,
  BENDS_CSV,
  COPES_CSV,
  COPES_CSV_METHOD,
  sayArcs,
  sayNotIssued,
  sayYesNo,
} from "../words/index.ts";
import { endOf, turnOfEnds } from "./ends.ts";
import { madeToCard, type Subject, sawnLength, subjectOf } from "./subject.ts";

type Cell = string | number | undefined;

/** RFC 4180: comma, CRLF, quotes doubled; a cell that a spreadsheet would take for a formula is kept as text. */
export function csv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

function cell(value: Cell): string {
  if (value === undefined) return "";
  if (typeof value === "number") return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

interface Figures {
  readonly unit: "mm" | "in";
  /** Thousandths of a millimetre, or ten-thousandths of an inch. */
  readonly length: (mm: number | undefined) => number | undefined;
  /** Thousandths of a degree, from radians. */
  readonly angle: (radians: number | undefined) => number | undefined;
}

function figures(plan: Plan): Figures {
  const inch = plan.job.show.length === "in";
  const to = (value: number, places: number): number => Number(value.toFixed(places)) + 0;
  return {
    unit: inch ? "in" : "mm",
    length: (mm) => (mm === undefined ? undefined : inch ? to(mm / 25.4, 4) : to(mm, 3)),
    angle: (radians) => (radians === undefined ? undefined : to(deg(radians), 3)),
  };
}

/** Thousandths of a degree, from degrees. */
const degrees = (x: number | undefined): number | undefined =>
  x === undefined ? undefined : Number(x.toFixed(3)) + 0;

const ENDS: readonly End[] = ["A", "B"];

const subjects = (plan: Plan, ids: readonly string[]): Subject[] =>
  ids.flatMap((id) => subjectOf(plan, id) ?? []);

/** One line a bar. Lengths in the job's unit, decimal. */
export function barsCsv(plan: Plan, ids: readonly string[]): string {
  const { unit: u, length, angle } = figures(plan);
  const rows = subjects(plan, ids).map((s) => {
    const { bar, bend, copes } = s.bar;
    return [
      s.id,
      s.label,
      s.hand,
      s.card.on === undefined ? sayNotIssued(s.card.n) : s.card.n,
      s.card.code,
      s.card.on,
      bar.tubeId,
      length(extent(bar.tube)),
      length(sizeOf(bar.tube).wall),
      bar.dieId,
      length(bend.length),
      length(bend.blank),
      length(bend.trim.A),
      length(bend.trim.B),
      s.made ? undefined : length(sawnLength(s.bar)),
      bend.bends.length,
      bar.fromEnd,
      copes.A.cope.onto.join(" + "),
      copes.B.cope.onto.join(" + "),
      angle(turnOfEnds(s, endOf(s, "A"), endOf(s, "B"))),
      plan.job.bars[s.id]?.progress ?? "laid out",
      s.made && length(s.made.sawn.made.length),
      madeToCard(s),
    ];
  });
  return csv([BARS_CSV(u), ...rows]);
}

/** One line a bend, from A. */
export function bendsCsv(plan: Plan, ids: readonly string[]): string {
  const { unit: u, length, angle } = figures(plan);
  const rows = subjects(plan, ids).flatMap((s) => {
    const { bar, bend } = s.bar;
    const turns = turnsOf(bar, plan.job.bender.turnSide);
    return bend.bends.map((b, i) => {
      const turn = turns.find((t) => t.bend === b.n);
      const done = s.made?.bent?.made.bends.find((d) => d.n === b.n);
      return [
        s.id,
        b.n,
        bar.fromEnd === "A" ? i + 1 : bend.bends.length - i,
        length(onTube(bend, b.mark)),
        length(onTube(bend, b.markB)),
        angle(b.angle),
        angle(b.set?.set),
        angle(b.rotation),
        angle(turn?.amount ?? 0),
        turn?.way,
        length(b.clr),
        length(b.straightBefore),
        length(done?.mark),
        s.made?.bent?.made.fed,
        degrees(done?.set),
        degrees(done?.turn),
      ];
    });
  });
  return csv([BENDS_CSV(u), ...rows]);
}

/** One line an end. Angles round the tube from the zero line, counter-clockwise looking at the cut end. */
export function copesCsv(plan: Plan, ids: readonly string[]): string {
  const { unit: u, length, angle } = figures(plan);
  const rows = subjects(plan, ids).flatMap((s) =>
    ENDS.map((end) => {
      const e = endOf(s, end);
      const { cope, notch } = e;
      const cut = notch?.saw?.cut;
      const done = s.made?.notched[end]?.made;
      const [one, more] = done?.cuts ?? [];
      return [
        s.id,
        end,
        cope.onto.join(" + "),
        cope.kind,
        cope.zeroLine,
        length(cope.least),
        length(cope.greatest),
        length(cut && 2 * cut.radius),
        angle(cut ? cut.notch : notch ? undefined : e.tilt),
        angle(e.heel === undefined ? undefined : wrapPi(e.heel)),
        length(cut?.offset),
        length(notch?.hole?.beyondLong),
        length(notch?.hole?.fromSawn),
        length(notch?.hole?.fromBend),
        notch && sayYesNo(notch.exact),
        length(notch?.saw?.gap),
        notch?.saw?.gapAt,
        notch && sayYesNo(notch.useWrap),
        notch && notch.open.length > 0 ? sayArcs(joinedArcs(notch.open), s.write) : undefined,
        done && COPES_CSV_METHOD[done.by],
        more ? undefined : degrees(one?.angle ?? done?.tilt),
        more ? undefined : length(one?.fromSawn),
      ];
    }),
  );
  return csv([COPES_CSV(u), ...rows]);
}
