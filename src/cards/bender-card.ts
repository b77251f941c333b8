import type { PlannedBend } from "../core/bend/index.ts";
import { checksAfter, fromOwnEnds, turnedRound, turnsOf } from "../core/bend/index.ts";
import type { AsMade } from "../core/plan/index.ts";
import type { Paper } from "../draw/index.ts";
import { AS_MADE, BENDER, cautionOn, sawnLines, sayOwnEnds, sayPoints } from "../words/index.ts";
import { bendStep } from "./bend-step.ts";
import { dangerBlocks, findingBlocks, fromBlocks } from "./blocks.ts";
import { finishedBar } from "./finished-bar.ts";
import { type Block, figure, flow, heading, words } from "./flow.ts";
import type { Laid } from "./laid.ts";
import { bentRecord, changedBlocks, sawnRecord } from "./made-record.ts";
import { markedTube } from "./marked-tube.ts";
import { barFields, type Subject, sawnLength } from "./subject.ts";

/** What the bender (or, for a straight bar, the saw) needs of one bar. */
export function benderSheets(s: Subject, paper: Paper): Laid[] {
  const bent = s.bar.bend.bends.length > 0;
  if (s.made && (!bent || s.made.bent)) return recordSheets(s, paper);
  const card = {
    title: BENDER.title(s.label, bent),
    fields: barFields(s),
    note: cautionOn(bent ? "bender card" : "saw card"),
  };
  return flow(paper, card, ({ width }) => [
    ...dangerBlocks(s, width),
    ...changedBlocks(s, width),
    ...head(s, width),
    markedTube(s, width),
    ...(bent ? steps(s, width) : []),
    ...(bent ? ownEnds(s, width) : []),
    ...(bent ? [{ ...finishedBar(s, width, 76) }] : []),
    ...findingBlocks(s.bar.findings, s, width),
    ...fromBlocks(
      s,
      width,
      s.bar.bend.bends.some((b) => b.set?.sd !== undefined),
    ),
  ]);
}

/** Of a bar that is sawn, and bent where it has bends: what that was made to, and nothing to do again. */
function recordSheets(s: Subject, paper: Paper): Laid[] {
  const isBent = s.made?.bent !== undefined;
  const sawn = s.write.length(s.made?.sawn.made.length ?? 0);
  const card = {
    title: isBent ? AS_MADE.record.bender(s.label) : AS_MADE.record.saw(s.label),
    fields: barFields(s),
    note: cautionOn("made record"),
  };
  return flow(paper, card, ({ width }) => [
    ...dangerBlocks(s, width),
    ...changedBlocks(s, width),
    words((isBent ? AS_MADE.head.bent : AS_MADE.head.sawn)(sawn), width, { size: 3, bold: true }),
    ...sawnRecord(s, width),
    ...bentRecord(s, width),
  ]);
}

function head(s: Subject, width: number): Block[] {
  const { bend, bar } = s.bar;
  const { trim } = bend;
  const { length } = s.write;
  const sum = BENDER.sawing(length(bend.blank), length(trim.A), length(trim.B));
  const third = width / 3;
  const figures = [
    s.made
      ? sawnFigure(s.made.sawn, s, third * 1.35 - 3)
      : figure([0, 0], third * 1.35 - 3, BENDER.sawTo, length(sawnLength(s.bar)), sum, 8),
  ];
  if (bend.bends.length > 0) {
    const other = bar.fromEnd === "A" ? "B" : "A";
    figures.push(
      figure(
        [third * 1.35, 0],
        third * 0.65 - 3,
        BENDER.fedFirst,
        BENDER.end(bar.fromEnd),
        BENDER.tail(other),
        8,
      ),
      figure(
        [third * 2, 0],
        third,
        BENDER.die,
        bar.dieId ?? "",
        BENDER.dieBelow(length(bar.die?.clr ?? 0), bend.bends.length),
        8,
      ),
    );
  } else {
    figures.push(
      figure([third * 1.35, 0], third * 1.6, BENDER.bends, BENDER.straight, BENDER.straightBelow, 8),
    );
  }
  return [{ marks: figures.flatMap((f) => f.marks), height: Math.max(...figures.map((f) => f.height)) }];
}

function sawnFigure(sawn: AsMade["sawn"], s: Subject, width: number) {
  const [line] = sawnLines(sawn, s.write);
  if (!line) throw new Error("a sawn bar has its length");
  return figure([0, 0], width, AS_MADE.sawnTo, line.made, AS_MADE.sawnBelow(line.wanted), 8);
}

/** Bends in order of bending. */
const inOrder = (s: Subject): readonly PlannedBend[] =>
  s.bar.bar.fromEnd === "A" ? s.bar.bend.bends : [...s.bar.bend.bends].reverse();

function steps(s: Subject, width: number): Block[] {
  const turns = turnsOf(s.bar.bar, s.plan.job.bender.turnSide);
  const checks = checksAfter(s.bar.bar, s.bar.leastBack);
  const blocks = inOrder(s).map((bend, i) => {
    const after = checks.find((c) => c.bend === bend.n);
    return bendStep(s, bend, turns[i - 1], after?.checks ?? [], width);
  });
  return [heading(BENDER.steps, width), ...blocks];
}

/** Two bends may both be marked from their own ends, the tube turned round between them. */
function ownEnds(s: Subject, width: number): Block[] {
  const marks = fromOwnEnds(s.bar.bend);
  const points = turnedRound(s.bar.bar, s.plan.job.bender.turnSide);
  const [bend, second] = inOrder(s).map((b) => b.n);
  if (!marks || !points || bend === undefined || second === undefined) return [];
  const [end, other] = s.bar.bar.fromEnd === "A" ? (["A", "B"] as const) : (["B", "A"] as const);
  const said = sayOwnEnds({
    bend,
    second,
    mark: s.write.length(marks[end]),
    secondMark: s.write.length(marks[other]),
    end,
    other,
    points: sayPoints(bend, points, s.write),
  });
  return [heading(BENDER.ownEnds, width), words(said, width)];
}
