import type { Code } from "../../core/findings/index.ts";

export const BEND = {
  "die-other-tube": "the die is for tube of {die}: this bar is {tube}",
  "bend-tight":
    "the die bends to a radius of {clr}: cage rules commonly ask 3 times the outside diameter, {least}, or more",
  "die-uncalibrated": "the die is not calibrated: its card lacks {lacks}",
  "clamp-short": "bend {bend} has {has} of straight before it from end {end}: the clamp needs {needs}",
  "bends-close": "bends {first} and {second} have {has} of straight between them: the die needs {needs}",
  "tail-short": "bend {bend} has {has} of tube behind it to end {end}: the bender needs {needs}",
  "angle-beyond-die": "bend {bend} is {angle}: the die goes to {most}",
  "set-beyond-die": "bend {bend} is {angle} and has to be set to {set}: the die goes to {most}",
  "bend-small":
    "leave out bend {bend} and run the tube straight: it turns only {angle}, too small to make. The bar is then {off} off that corner",
  "bend-kept-small":
    "move the corner of bend {bend}: it turns only {angle}, less than the shop bends true. It stays, as the bar would move by over {most} without it",
  "bend-off-tube":
    "leave {by} more allowance at end {end}, or lengthen the leg: bend {bend} runs past the sawn end",
  "mark-off-tube": "{remedy}: the mark of bend {bend} falls {by} off the tube at sawn end {end}",
  "check-negative":
    "check the path and the die: after bend {bend} no tape can read {value}. The size: {what}",
  "blank-nothing":
    "lengthen the bar: it is {length} long, the cuts at both ends take {taken}, and nothing is left to saw",
  "set-impossible":
    "check the springback of die {die}: bend {bend} of {angle} needs a setting of {set}. A bender is set from 0° to {most}",
  "bend-into-floor":
    "{first}: at bend {bend} the bent part swings into the floor. It hangs {below} under the die, the floor is {height} under it. Fed from end {otherEnd} it would hang {otherBelow} at most",
  "bend-into-operator":
    "keep out of the swing at bend {bend}. The bent part comes {reach} back past the die on your {side}. It comes at body height, within {aside} of the tube. Fed from end {otherEnd} it would come {otherReach} at most",
} as const satisfies Partial<Record<Code, string>>;
