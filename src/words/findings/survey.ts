import type { Code } from "../../core/findings/index.ts";

export const SURVEY = {
  "survey-no-datum":
    "give the places of three points that are not on one line: nothing ties the readings to the car",
  "survey-no-solution":
    "look for an error of almost nothing or a reading far too large: no places suit these readings",
  "survey-far-out":
    "look first at {reading}: no places suit these readings. Is its unit right, and are its points?",
  "survey-tangled":
    "give some points a rough place with a large error, and try again. No places suit the readings: {astray} of {all} disagree",
  "survey-undetermined": "to place {point} take {fix}: it has too few readings ({count})",
  "survey-mirror":
    "take {settle}: {points} may as well be mirrored. {point} could be at {other} instead of {at}",
  "survey-suspect":
    "read {reading} again: it reads {read}, the others say {computed}. The cleaned places leave it out",
  "survey-suspect-among":
    "read {reading} again, or {others}: it reads {read}, the others say {computed}. One more reading shows which is wrong",
  "survey-no-place":
    "read {reading} again, and {others}: it reads {read}, and no place of {point} suits all of them",
  "survey-unit": "read {reading} again: it reads {read}, the others say {computed}. Was it {likely}?",
  "survey-exact":
    "check {reading} and the places given: it reads {read}, the places make it {computed}. One of them is wrong",
  "survey-misplaced":
    "check the place given for {point}: it comes out {off} away, its errors are given as {sd}. The cleaned places leave it out",
  "survey-test":
    "check the errors given: the readings disagree {sigma0} times as much as these allow. No one reading is the cause",
  "survey-same-place": "check points {first} and {second}: they come out at one place",
  "survey-unchecked": "no other reading checks these, and a slip in one would not show: {places}",
  "survey-lean-half": "the shell's lean was read {way} only: the other way it is taken as level",
  "door-gap-changed":
    "support and level the shell again: the door gap at {at} was {before} and is {after} now. Two readings differ by at most {allowed}. Readings taken meanwhile may be off",
  "survey-bar-missing": "left out: {host} has no geometry, and no tape can be held on it",
  "survey-off-bar": "left out: {host} is {length} long, and {along} is off its end",
  "survey-no-bend": "left out: {host} has {count} bends, and no bend {bend}",
  "reading-unit":
    "read {reading} again: {read} where about {expected} is expected. Was it {likely}? It is left out",
  "bar-on-adjusted": "uses places as the readings adjust them: {points}",
  "bar-on-doubtful":
    "settle the readings that do not fit before this bar is cut: without them {point} moves {off}",
  "bar-on-mirrored": "take {settle} before this bar is cut: {point} may as well be mirrored, at {other}",
  "survey-own-bar": "left out: {host} stands on {point} itself, and a tape between the two does not place it",
  "survey-bars-circle":
    "take readings of these points from elsewhere: bars they were read from stand on the points themselves. The places may be {off} off",
} as const satisfies Partial<Record<Code, string>>;
