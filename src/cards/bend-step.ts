import type { ChecksAfter, PlannedBend, Turn } from "../core/bend/index.ts";
import { deg } from "../core/numeric/index.ts";
import { circle, group, line, type Mark, type Placed, paragraph, text, textWidth } from "../draw/index.ts";
import { BENDER, sayTurn, written } from "../words/index.ts";
import { type Block, figure, fitted } from "./flow.ts";
import { OPERATOR_VIEW, operatorView } from "./operator-view.ts";
import type { Subject } from "./subject.ts";

/** Columns, mm from the left; the operator's view is at the right edge, the angle to set beside it. */
const MARK = 15;
const TURN = 61;
const SET = 36;
const AIR = 3;
/** What the view's pictures and words leave free at its left, below its horizontal line (mm). */
const BESIDE_VIEW = 5;

/** One bend: its mark, the turn before it, the angle to set, the tube as its operator sees it, what is checked after it. */
export function bendStep(
  s: Subject,
  bend: PlannedBend,
  turn: Turn | undefined,
  checks: ChecksAfter["checks"],
  width: number,
): Block {
  const { turnSide } = s.plan.job.bender;
  const lead = s.bar.bar.fromEnd;
  const view = width - OPERATOR_VIEW.width;
  const set = view - AIR - SET;
  const mark = figure(
    [MARK, 0],
    TURN - MARK - AIR,
    BENDER.mark,
    s.write.length(lead === "A" ? bend.mark : bend.markB),
    BENDER.fromSawn(lead),
    7,
  );
  const toSet = setting(s, bend, set, SET);
  const high = Math.max(mark.height, toSet.height);
  const turned = turning(s, bend, turn, { width: set - TURN - AIR, high, below: set + SET - MARK });
  const top = Math.max(high, turned.height);
  const told = checked(s, bend, checks, top + 0.5, { view: view + BESIDE_VIEW, width });
  const foot = Math.max(OPERATOR_VIEW.height, told.height) + 0.6;
  return {
    marks: [
      circle([6.5, 9], 6, "visible"),
      text([6.5, 12], `${bend.n}`, 6, { anchor: "middle", bold: true }),
      ...mark.marks,
      group("operator view", operatorView(turn, bend.n, turnSide).marks, { at: [view, 0] }),
      ...turned.marks,
      ...toSet.marks,
      ...told.marks,
      line([0, foot], [width, foot], "narrow"),
    ],
    height: foot,
    air: 2,
  };
}

/** How the tube is turned before a bend: in its column if the words are few, else in a row of their own below. */
function turning(
  s: Subject,
  bend: PlannedBend,
  turn: Turn | undefined,
  room: { readonly width: number; readonly high: number; readonly below: number },
): Placed {
  const isTurned = turn !== undefined && turn.amount > 0;
  const says = turn ? BENDER.turning(sayTurn(turn, s.write)) : BENDER.firstBend(s.plan.job.bender.turnSide);
  const marks: Mark[] = [text([TURN, 2.2], BENDER.turn(bend.n), 2.2)];
  if (isTurned)
    marks.push(fitted([TURN, 9.2], s.write.angle(deg(turn.amount)), 5, room.width, { bold: true }));
  const top = isTurned ? 10.2 : 3;
  const beside = paragraph([TURN, top], room.width, says, { size: 2.4 });
  const height = top + beside.height;
  const below = paragraph([MARK, room.high + 0.6], room.below, says, { size: 2.4 });
  const down = room.high + 0.6 + below.height;
  return height <= down
    ? { marks: [...marks, ...beside.marks], height }
    : { marks: [...marks, ...below.marks], height: down };
}

/** What the tape must read, the words no farther to the right than the view where they are beside it. */
function checked(
  s: Subject,
  bend: PlannedBend,
  checks: ChecksAfter["checks"],
  top: number,
  right: { readonly view: number; readonly width: number },
): Placed {
  if (checks.length === 0) return { marks: [], height: top };
  const marks: Mark[] = [text([0, top + 2.4], BENDER.checks(bend.n), 2.4, { bold: true })];
  const values = checks.map((check) => s.write.length(check.value));
  const column = Math.max(...values.map((value) => textWidth(value, 3, true))) + 1;
  let y = top + 3.7;
  for (const [i, check] of checks.entries()) {
    const room = (y < OPERATOR_VIEW.height ? right.view : right.width) - column - AIR;
    const wording = paragraph([column + AIR, y + 0.2], room, written(check.across, s.write, s.names), {
      size: 2.2,
    });
    marks.push(text([column, y + 3.2], values[i] ?? "", 3, { anchor: "end", bold: true }), ...wording.marks);
    y += Math.max(4.3, wording.height + 0.6);
  }
  return { marks, height: y };
}

function setting(s: Subject, bend: PlannedBend, x: number, room: number): Placed {
  const wanted = s.write.angle(deg(bend.angle));
  if (!bend.set) return figure([x, 0], room, BENDER.reach, wanted, BENDER.reachBelow, 7);
  const sd = bend.set.sd === undefined ? undefined : s.write.angle(deg(bend.set.sd));
  const below = BENDER.setBelow(wanted, sd, bend.set.basis === "ratio");
  return figure([x, 0], room, BENDER.set, s.write.angle(deg(bend.set.set)), below, 7);
}
