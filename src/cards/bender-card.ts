import type { PlannedBend } from "../core/bend/index.ts";
import { checksAfter, fromOwnEnds, turnedRound, turnsOf } from "../core/bend/index.ts";
import { deg } from "../core/numeric/index.ts";
import type { AsMade } from "../core/plan/index.ts";
import { circle, group, line, type Mark, type Paper, paragraph, type Sheet, text } from "../draw/index.ts";
import {
  AS_MADE,
  BENDER,
  cautionOn,
  sawnLines,
  sayOwnEnds,
  sayPoints,
  sayTurn,
  written,
} from "../words/index.ts";
import { dangerBlocks, findingBlocks, fromBlocks } from "./blocks.ts";
import { finishedBar } from "./finished-bar.ts";
import { type Block, figure, fitted, flow, heading, words } from "./flow.ts";
import { bentRecord, changedBlocks, sawnRecord } from "./made-record.ts";
import { markedTube } from "./marked-tube.ts";
import { barFields, type Subject, sawnLength } from "./subject.ts";
import { OPERATOR_VIEW, operatorView } from "./tube-end.ts";

/** What the bender (or, for a straight bar, the saw) needs of one bar. */
export function benderSheets(s: Subject, paper: Paper): Sheet[] {
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
function recordSheets(s: Subject, paper: Paper): Sheet[] {
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
  const { turnSide } = s.plan.job.bender;
  const turns = turnsOf(s.bar.bar, turnSide);
  const checks = checksAfter(s.bar.bar, s.bar.leastBack);
  const lead = s.bar.bar.fromEnd;
  const blocks = inOrder(s).map((bend, i) => {
    const turn = turns[i - 1];
    const mark = lead === "A" ? bend.mark : bend.markB;
    const marks: Mark[] = [];
    const columns = { mark: 15, view: 61, turn: 61 + OPERATOR_VIEW.width + 3, set: width - 36 };
    marks.push(
      circle([6.5, 9], 6, "visible"),
      text([6.5, 12], `${bend.n}`, 6, { anchor: "middle", bold: true }),
    );
    marks.push(
      ...figure(
        [columns.mark, 0],
        columns.view - columns.mark - 3,
        BENDER.mark,
        s.write.length(mark),
        BENDER.fromSawn(lead),
        7,
      ).marks,
    );
    marks.push(group("operator view", operatorView(turn, bend.n, turnSide).marks, { at: [columns.view, 0] }));
    const room = columns.set - columns.turn - 3;
    const says = turn ? BENDER.turning(sayTurn(turn, s.write)) : BENDER.firstBend(turnSide);
    marks.push(text([columns.turn, 2.2], BENDER.turn(bend.n), 2.2));
    if (turn && turn.amount > 0)
      marks.push(fitted([columns.turn, 9.2], s.write.angle(deg(turn.amount)), 5, room, { bold: true }));
    const saysTop = turn && turn.amount > 0 ? 10.2 : 3;
    const said = paragraph([columns.turn, saysTop], room, says, { size: 2.4 });
    marks.push(...said.marks);
    marks.push(...setting(s, bend, columns.set, width - columns.set));
    let y = Math.max(OPERATOR_VIEW.height, saysTop + said.height) + 2;
    const after = checks.find((c) => c.bend === bend.n);
    if (after && after.checks.length > 0) {
      marks.push(text([0, y + 2.4], BENDER.checks(bend.n), 2.4, { bold: true }));
      y += 4;
      for (const check of after.checks) {
        const value = fitted([40, y + 3.2], s.write.length(check.value), 3, 38, {
          anchor: "end",
          bold: true,
        });
        const wording = paragraph([43, y + 0.2], width - 43, written(check.across, s.write, s.names), {
          size: 2.2,
        });
        marks.push(value, ...wording.marks);
        y += Math.max(4.6, wording.height + 0.8);
      }
    }
    marks.push(line([0, y + 1], [width, y + 1], "narrow"));
    return { marks, height: y + 1 };
  });
  return [heading(BENDER.steps, width), ...blocks];
}

function setting(s: Subject, bend: PlannedBend, x: number, room: number): Mark[] {
  const wanted = s.write.angle(deg(bend.angle));
  if (!bend.set) return [...figure([x, 0], room, BENDER.reach, wanted, BENDER.reachBelow, 7).marks];
  const sd = bend.set.sd === undefined ? undefined : s.write.angle(deg(bend.set.sd));
  const below = BENDER.setBelow(wanted, sd, bend.set.basis === "ratio");
  return [...figure([x, 0], room, BENDER.set, s.write.angle(deg(bend.set.set)), below, 7).marks];
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
