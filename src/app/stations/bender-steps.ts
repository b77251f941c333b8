import type { ChecksAfter, Hand, Turn } from "../../core/bend/index.ts";
import { deg } from "../../core/numeric/index.ts";
import { IDS, type Step, sayTurn, written } from "../../words/index.ts";
import type { BarResult } from "../compute/index.ts";
import type { Write } from "./write.ts";

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
  /** Sizes to hold, for a check. */
  readonly sizes?: readonly { readonly value: string; readonly words: string }[];
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
  const trims = (["A", "B"] as const)
    .filter((end) => bend.trim[end] > 0)
    .map((end) => `${write.length(bend.trim[end])} at end ${end}`);
  const steps: BenderStep[] = [
    {
      key: "saw",
      kind: "saw",
      does: "Saw square to",
      figure: write.length(bend.blank + bend.trim.A + bend.trim.B),
      says: [
        trims.length === 0
          ? "Long point to long point, nothing left over."
          : `Blank ${write.length(bend.blank)}, long point to long point, and left over ${trims.join(", ")}.`,
        ...(ordered.length === 0
          ? ["A straight bar: no bends. Go on to the notcher."]
          : [`Write ${lead} on the end fed first, ${lead === "A" ? "B" : "A"} on the tail.`]),
      ],
    },
  ];
  for (const [i, b] of ordered.entries())
    steps.push({
      key: `mark ${b.n}`,
      kind: "mark",
      does: `Mark bend ${b.n} at`,
      figure: write.length(lead === "A" ? b.mark : b.markB),
      says: [
        `From sawn end ${lead}${i > 0 ? ", the same end as before" : ""}. All marks are measured from there, never from each other.`,
      ],
      bend: i,
    });
  for (const [i, b] of ordered.entries()) {
    const turn = i === 0 ? undefined : result.turns[i - 1];
    steps.push({
      key: `turn ${b.n}`,
      kind: "turn",
      does: turn ? "Turn the tube" : `Put mark ${b.n} at the die`,
      ...(turn && turn.amount > 0 ? { figure: write.angle(deg(turn.amount)) } : {}),
      says: turn
        ? [sentence(sayTurn(turn, write)), `Mark ${b.n} at the die's mark.`]
        : [
            `Feed end ${lead} first. The tube may lie any way round: scribe a line along its top.`,
            `You stand behind the tail and look toward the die; it bends to your ${turnSide}.`,
          ],
      bend: i,
      ...(turn ? { turn } : {}),
    });
    steps.push({
      key: `bend ${b.n}`,
      kind: "bend",
      does: b.set ? `Bend ${b.n}: set` : `Bend ${b.n}: until it is`,
      figure: write.angle(deg(b.set?.set ?? b.angle)),
      says: b.set
        ? [
            `Springs back to ${write.angle(deg(b.angle))}${b.set.sd === undefined ? "" : `, ± ${write.angle(deg(b.set.sd))} by the test bends`}.`,
            ...(b.set.basis === "ratio"
              ? ["Known from one test angle only: stop short, measure, pull again."]
              : []),
          ]
        : ["This die has no test bends: bend and measure until the angle finder reads this."],
      bend: i,
    });
    const sizes = sizesAfter(result.checks, b.n, write);
    if (sizes.length > 0)
      steps.push({
        key: `check ${b.n}`,
        kind: "check",
        does: `Check bend ${b.n}`,
        figure: sizes[0]!.value,
        says: [sizes[0]!.words],
        sizes: sizes.slice(1),
        bend: i,
      });
  }
  return steps;
}

const sizesAfter = (checks: readonly ChecksAfter[], n: number, write: Write) =>
  (checks.find((c) => c.bend === n)?.checks ?? []).map((c) => ({
    value: write.length(c.value),
    words: capital(written(c.across, write, IDS)),
  }));

const capital = (said: string): string => `${said.charAt(0).toUpperCase()}${said.slice(1)}`;
const sentence = (said: string): string => `${capital(said)}.`;
