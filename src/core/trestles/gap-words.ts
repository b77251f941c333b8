import type { Writer } from "../findings/index.ts";
import { deg, wrapPi } from "../numeric/index.ts";
import type { GapProblem, GapsRead } from "./gaps.ts";
import { type NextCut, sideOf } from "./next-cut.ts";

/** Less than this in length or angle is no instruction: nobody sets it. */
const NOTHING = { mm: 0.05 };

/** What is to be done at the notcher, and what the joint will then show: sentences, the first the most needed. */
export function sayNextCut(read: GapsRead, next: NextCut, madeClock: number, writer: Writer): string[] {
  const { length, angle } = writer;
  const { joint, sd } = read;
  const said = [
    `${angle(deg(joint.notch))} off square (± ${angle(deg(sd.notch))})`,
    sayRoll(next, madeClock, writer),
  ];
  if (Math.abs(next.aside) > NOTHING.mm) {
    const way = next.aside > 0 ? "counter-clockwise" : "clockwise";
    said.push(
      `shift the saw ${length(Math.abs(next.aside))} toward the side a quarter turn ${way} of the heel`,
    );
  }
  said.push(sayHole(next, writer));
  const lines = [said.join("; "), `it takes up to ${length(next.takes)} off`];
  if (next.short.gap > NOTHING.mm) {
    const at = sideOf(next.short.phi, joint.clock);
    const place = at === "side" ? `the side at ${angle(next.short.phi)}` : `the ${at}`;
    lines.push(
      `after that cut ${place} will be ${length(next.short.gap)} short; the bar would have to be ${length(next.short.along)} shorter for a seat all round`,
    );
  } else lines.push("after that cut it seats all round");
  if (!next.final) {
    lines.push(
      `the readings leave the joint this uncertain: the hole is held ${length(next.heldBack)} outboard of the final one, so that nothing is lost; read the gaps again after it`,
    );
  }
  return lines;
}

/** Where its hole goes: from the final hole's place, as every shift is, and what that is from the hole just cut. */
function sayHole({ heldBack, inboard }: NextCut, { length }: Writer): string {
  const from =
    heldBack > NOTHING.mm ? `${length(heldBack)} outboard of the final hole` : "in its final place";
  const moved =
    Math.abs(inboard) > NOTHING.mm
      ? `${length(Math.abs(inboard))} ${inboard > 0 ? "inboard" : "outboard"} of the hole just cut`
      : "as the hole just cut";
  return `hole centre ${from} (${moved})`;
}

function sayRoll(next: NextCut, madeClock: number, { length }: Writer): string {
  if (Math.abs(next.rollRound) < NOTHING.mm) return "no roll";
  const way = next.roll > 0 ? "counter-clockwise" : "clockwise";
  const [before, after] = [Math.abs(wrapPi(madeClock)), Math.abs(wrapPi(next.cut.clock))];
  const mark = after < before ? "toward the zero line" : "away from the zero line";
  return `roll the notch ${length(Math.abs(next.rollRound))} ${mark} (${way}, looking at the cut end)`;
}

/** Why there is no answer, and what would give one. */
export function sayGapProblem(problem: GapProblem, writer: Writer): string {
  switch (problem.why) {
    case "few":
      return `gaps at ${problem.places} places cannot tell angle, roll, side and stand-off apart; read four or more, spread all round`;
    case "loose": {
      const names = {
        notch: "the angle",
        clock: "the roll",
        offset: "the side shift",
        standsOff: "the stand-off",
      };
      return `gaps at these places leave ${problem.free.map((f) => names[f]).join(" and ")} open; read between them too, as at 45°, 135°, 225° and 315° from the heel`;
    }
    case "none":
      return "no joint of these two tubes gives such gaps; check the places and the unit";
    case "no edge":
      return `the cut made leaves no edge at ${writer.angle(problem.phi)}; read beside it`;
  }
}
