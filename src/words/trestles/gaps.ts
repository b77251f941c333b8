import type { Writer } from "../../core/findings/index.ts";
import { deg, rad, wrapPi } from "../../core/numeric/index.ts";
import type { GapProblem, GapsRead, NextCut } from "../../core/trestles/index.ts";
import { inLine, inSentences } from "../text.ts";

/** Less than this (mm) is no instruction: nobody sets it. */
const NOTHING = 0.05;

/** A cut this much steeper than its joint went too far (radians). */
const TOO_FAR = rad(0.3);

/** One sentence of `sayNextCut`, with its code. */
interface NextCutLine {
  readonly code: "set-cut" | "cut-too-far" | "takes-off" | "seats" | "stays-open" | "read-again";
  readonly says: string;
}

/** What is to be done at the notcher, and what the joint will then show: sentences, the first the most needed. */
export function sayNextCut(
  { joint, sd }: GapsRead,
  next: NextCut,
  madeClock: number,
  writer: Writer,
): readonly NextCutLine[] {
  const { length, angle } = writer;
  const settings = [
    `${angle(deg(joint.notch))} off square (± ${angle(deg(sd.notch))})`,
    sayClock(next, madeClock, writer),
    ...(Math.abs(next.aside) > NOTHING ? [sayShift(next, writer)] : []),
    sayHole(next, writer),
  ];
  // further than the readings can be wrong by, and than anyone sets
  const isTooFar = -next.steeper > Math.max(2 * sd.notch, TOO_FAR);
  return [
    { code: "set-cut", says: inSentences(settings) },
    ...(isTooFar
      ? [
          {
            code: "cut-too-far" as const,
            says: `the cut just made went too far: it is ${angle(deg(-next.steeper))} steeper than the joint`,
          },
        ]
      : []),
    { code: "takes-off", says: `this cut takes off up to ${length(next.takes)}` },
    saySeat(next, writer),
    ...(next.final
      ? []
      : [
          {
            code: "read-again" as const,
            says: `read the gaps again after this cut: the joint is uncertain, and its hole is ${length(next.heldBack)} outboard for now`,
          },
        ]),
  ];
}

function saySeat({ short }: NextCut, { length, angle }: Writer): NextCutLine {
  if (short.gap <= NOTHING) return { code: "seats", says: "after that cut it seats all round" };
  const place = short.side === "side" ? `the side at ${angle(short.phi)}` : `the ${short.side}`;
  const says = inSentences([
    `after that cut ${place} stays open by ${length(short.gap)}`,
    `a seat all round takes a bar ${length(short.along)} shorter`,
  ]);
  return { code: "stays-open", says };
}

const sayShift = ({ aside }: NextCut, { length }: Writer): string =>
  `move the hole saw ${length(Math.abs(aside))} toward the side a quarter turn ${aside > 0 ? "counter-clockwise" : "clockwise"} of the heel`;

/** Where its hole goes: from the final hole's place, as every shift is, and what that is from the hole just cut. */
function sayHole({ heldBack, inboard }: NextCut, { length }: Writer): string {
  const from = heldBack > NOTHING ? `${length(heldBack)} outboard of the final hole` : "in its final place";
  const moved =
    Math.abs(inboard) > NOTHING
      ? `${length(Math.abs(inboard))} ${inboard > 0 ? "inboard" : "outboard"} of the hole just cut`
      : "as the hole just cut";
  return `hole centre ${from} (${moved})`;
}

function sayClock(next: NextCut, madeClock: number, { length }: Writer): string {
  if (Math.abs(next.rollRound) < NOTHING) return "clock as the cut made";
  const way = next.roll > 0 ? "counter-clockwise" : "clockwise";
  const [before, after] = [Math.abs(wrapPi(madeClock)), Math.abs(wrapPi(next.cut.clock))];
  const mark = after < before ? "toward the zero line" : "away from the zero line";
  return `clock the notch ${length(Math.abs(next.rollRound))} ${mark} (${way}, looking at the cut end)`;
}

const UNKNOWNS = { notch: "the angle", clock: "the clock", offset: "the side offset", standsOff: "the gap" };

/** Why there is no answer, and what would give one. */
export function sayGapProblem(problem: GapProblem, writer: Writer): string {
  switch (problem.why) {
    case "few":
      return `read four gaps or more, spread all round: ${problem.places} places cannot tell angle, clock, side offset and gap apart`;
    case "loose":
      return `read at all eight marks, every 45° from the zero line. These leave ${inLine(problem.free.map((f) => UNKNOWNS[f]))} open`;
    case "none":
      return "check the places and the unit: no joint of these two tubes gives such gaps";
    case "no edge":
      return `read beside ${writer.angle(problem.phi)}: the cut made leaves no edge there`;
  }
}
