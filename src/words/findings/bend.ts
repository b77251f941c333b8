import type { Code } from "../../core/findings/index.ts";

export const BEND = {
  "die-other-tube": "the die is for tube of {die}, this bar is {tube}",
  "bend-tight":
    "the die bends to a radius of {clr}; cage rules commonly ask 3 times the outside diameter, {least}, or more",
  "die-uncalibrated": "the die is not calibrated; its card lacks: {lacks}",
  "clamp-short": "bend {bend} has {has} of straight before it from end {end}; the clamp needs {needs}",
  "bends-close": "bends {first} and {second} have {has} of straight between them; the die needs {needs}",
  "tail-short": "bend {bend} has {has} of tube behind it to end {end}; the bender needs {needs}",
  "angle-beyond-die": "bend {bend} is {angle}; the die goes to {most}",
  "set-beyond-die": "bend {bend} is {angle} and has to be set to {set}; the die goes to {most}",
  "bend-small":
    "bend {bend} turns only {angle}, too small to make: leave it out and run the tube straight; the bar is then {off} off that corner",
  "bend-kept-small":
    "bend {bend} turns only {angle}, less than the shop bends true; leaving it out would move the bar by over {most}, so it stays: move the corner",
  "bend-off-tube":
    "bend {bend} runs {by} past sawn end {end}: leave that much more over there, or lengthen the leg",
  "mark-off-tube": "the mark of bend {bend} falls {by} off the tube at sawn end {end}; {remedy}",
  "check-negative": "after bend {bend} no tape reads a size of {value}: {what}; check the path and the die",
  "blank-nothing": "the cuts at both ends take {taken} and the bar is {length} long: nothing is left to saw",
  "set-impossible":
    "by die {die} bend {bend} of {angle} needs a setting of {set}; a bender is set from 0° to {most}: check the die's springback",
  "bend-into-floor":
    "{first}: at bend {bend} the bent part swings into the floor; it hangs {below} under the die, the floor is {height} under it; fed from end {otherEnd} it would hang {otherBelow} at most",
  "bend-into-operator":
    "keep out of the swing at bend {bend}: the bent part comes {reach} back past the die on your {side}, at body height, within {aside} of the tube; fed from end {otherEnd} it would come {otherReach} at most",
} as const satisfies Partial<Record<Code, string>>;
