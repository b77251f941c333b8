import type { Hand, Turn } from "../../../core/bend/index.ts";
import { deg } from "../../../core/numeric/index.ts";
import { CHECK_SIZES, BENDER_PAGE as PAGE, type Step, sayTurn, sentence } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import type { BarResult } from "../../model/compute/index.ts";

/** One step at the bender: one thing to do, one figure. */
export interface BenderStep {
  readonly key: string;
  readonly kind: "saw" | "mark" | "turn" | "bend" | "check";
  /** What one does, in a word or two. */
  readonly does: string;
  /** The figure, with its unit; absent where there is nothing to measure. */
  readonly figure?: string;
  readonly says: readonly string[];
  /** The bend that it is about, by its place in the order of bending (0 first). */
  readonly bend?: number;
  readonly turn?: Turn;
  /** The number of that bend, counted from A: for a turn and a check. */
  readonly n?: number;
}

/** What each kind of step must be done with care for; with the last one the bar is taken out of the die. */
export function cautionedSteps({ kind, bend }: BenderStep, isLast: boolean): readonly Step[] {
  if (kind === "saw") return ["saw"];
  return isLast && bend !== undefined ? ["bender", "lifting"] : ["bender"];
}

/** All steps of a bar at the bender, in order: saw, marks, and for every bend its turn, its angle and its checks. */
export function benderSteps(result: BarResult, turnSide: Hand, write: Write): readonly BenderStep[] {
  const { bend, bar } = result;
  const lead = bar.fromEnd;
  const ordered = lead === "A" ? bend.bends : [...bend.bends].reverse();
  const allowances = (["A", "B"] as const)
    .filter((end) => bend.trim[end] > 0)
    .map((end) => PAGE.allowance(write.length(bend.trim[end]), end));
  const steps: BenderStep[] = [
    {
      key: "saw",
      kind: "saw",
      does: PAGE.saw,
      figure: write.length(bend.blank + bend.trim.A + bend.trim.B),
      says: [
        `${PAGE.square} ${PAGE.net(write.length(bend.blank), allowances)}`,
        ordered.length === 0 ? PAGE.straight : PAGE.ends(lead, lead === "A" ? "B" : "A"),
      ],
    },
  ];
  for (const [i, b] of ordered.entries())
    steps.push({
      key: `mark ${b.n}`,
      kind: "mark",
      does: PAGE.mark(b.n),
      figure: write.length(lead === "A" ? b.mark : b.markB),
      says: [PAGE.measure(lead)],
      bend: i,
    });
  for (const [i, b] of ordered.entries()) {
    const turn = i === 0 ? undefined : result.turns[i - 1];
    steps.push({
      key: `turn ${b.n}`,
      kind: "turn",
      does: turn ? PAGE.turn(b.n) : PAGE.first(b.n),
      ...(turn && turn.amount > 0 ? { figure: write.angle(deg(turn.amount)) } : {}),
      says: turn
        ? [sentence(sayTurn(turn, write)), PAGE.setMark(b.n)]
        : [PAGE.feed(lead), PAGE.side(turnSide)],
      bend: i,
      n: b.n,
      ...(turn ? { turn } : {}),
    });
    steps.push({
      key: `bend ${b.n}`,
      kind: "bend",
      does: b.set ? PAGE.set(b.n) : PAGE.reach(b.n),
      figure: write.angle(deg(b.set?.set ?? b.angle)),
      says: b.set
        ? [
            PAGE.springsBack(
              write.angle(deg(b.angle)),
              b.set.sd === undefined ? undefined : write.angle(deg(b.set.sd)),
            ),
            ...(b.set.basis === "ratio" ? [PAGE.oneAngle] : []),
          ]
        : [PAGE.noTests],
      bend: i,
    });
    steps.push({
      key: `check ${b.n}`,
      kind: "check",
      does: PAGE.check(b.n),
      figure: write.angle(deg(b.angle)),
      says: [CHECK_SIZES.read],
      bend: i,
      n: b.n,
    });
  }
  return steps;
}
