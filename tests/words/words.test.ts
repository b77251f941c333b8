import { describe, expect, it } from "vitest";
import { isSentence, literalsIn, sourcesUnder } from "../house/literals.ts";
import { faultsOf } from "./wording.ts";

describe("the lists bite", () => {
  it.each([
    ["the saw stands square", "stands"],
    ["how the bar lies", "lies"],
    ["which was said to be good to {sd}", "said"],
    ["cut its ends anew", "anew"],
    ["turned so that the heel is up", "so"],
    ["its record holds no more than its name", "no more"],
    ["springing it would take more than hands give", "hands give"],
    ["the gaps felt", "felt"],
    ["deepening costs 2 mm", "costs"],
    ["start shallow: it pays here", "pays"],
    ["the blank is sawn to {length}", "blank"],
    ["leave more trim", "trim"],
    ["roll the notch {}", "roll"],
    ["check turn 1", "turn 1"],
    ["the bar then stands off {gap}", "stand"],
    ["it leaves up to {most} standing", "standing"],
    ["its joints hold it, by proof", "hold"],
    ["{end} within {length} in 95 of 100", "percentage"],
    ["it seats in 9 in 10", "percentage"],
    ["worth it from 3 to 1", "percentage"],
    ["Mark bend 2 at", "preposition"],
    ["End A onto:", "preposition"],
    ["notch the end to its cope", "notch and cope"],
    [
      "end {end}: part of the rim passes {host} without touching ({arcs}, {missed} in all); the joint stays open there, all the way round",
      "words",
    ],
  ])("%s", (text, why) => {
    expect(faultsOf(text).join()).toContain(why);
  });
  it.each([
    ["the foot stands on plate {plate}"],
    ["Put the car on axle stands."],
    ["it can't be told from these readings"],
    ["SAW TO"],
    ["95 % within {length}"],
    ["The end is 12.5 mm long. It is cut square."],
  ])("nothing is wrong with: %s", (text) => expect(faultsOf(text)).toEqual([]));
});

it("every sentence in words", () => {
  const all = sourcesUnder("src/words").flatMap(literalsIn);
  expect(all.filter((l) => isSentence(l.text)).length).toBeGreaterThan(200);
  const faults = all
    .filter((l) => !l.unread && /\s/.test(l.text))
    .flatMap((l) => faultsOf(l.text).map((why) => `${l.file}:${l.line}: ${why}`));
  expect(faults).toEqual([]);
});
