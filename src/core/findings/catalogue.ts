import type { Severity } from "./finding.ts";

interface Entry {
  readonly severity: Severity;
  /** The sentence; `{name}` stands for one of the finding's values. */
  readonly says: string;
}

const error = (says: string): Entry => ({ severity: "error", says });
const warning = (says: string): Entry => ({ severity: "warning", says });
const note = (says: string): Entry => ({ severity: "note", says });
const danger = (says: string): Entry => ({ severity: "danger", says });

/** Every finding that the program can make: the closed list. Keep a room's codes together. */
export const CATALOGUE = {
  // layout: a bar has no geometry
  "straight-short": error(
    "leg {leg} has no room: its bends need {missing} more than there is between the corners",
  ),
  "corner-coincident": error("corners {first} and {second} are one place; move one of them or take it out"),
  "corner-folds": error("corner {corner} turns {angle}: a bar cannot fold back on itself"),
  "die-missing": error("corner {corner} turns {angle}, and the bar names no die to bend it on"),
  "landing-off-host": error("{host} is {length} long; a landing at {along} is off its end by {over}"),
  "crossing-none": error("{host} nowhere crosses {axis} = {value}"),
  "crossing-several": error("{host} crosses {axis} = {value} at {count} places; say which with near"),
  "crossing-tie": error(
    "two crossings of {host} with {axis} = {value} are equally near {near}; say which with a place",
  ),
  "crossing-in-plane": error("a leg of {host} lies in {axis} = {value}; there is no one crossing"),
  "mirror-host": error(
    "the mirrored landing is {off} off {host}, which has no twin and is not its own mirror",
  ),
  "host-without-geometry": error("{host} has no geometry yet, so nothing can land on it"),
  "point-unplaced": error(
    "point {point} has no place yet; take readings of it (tubewright survey says which) or give its at",
  ),
  "follow-side": error("the side given for following {host} is along its leg; give a direction square to it"),
  "follow-range": error("{host} is {length} long; from {from} to {to} is no run on it"),
  "toward-end": warning("the closest point of {host} is its end {end}; check that the bar should land there"),
  "toward-tie": warning(
    "{host} comes equally close to that place at {first} and {second}; {first} was taken",
  ),
  "follow-departs": note(
    "at corner {corner} the gap to {host} is {gap}, {departs} from the {wanted} asked for",
  ),
  "ends-coped-to-each-other": error(
    "end {end} is coped to {other}, whose end {otherEnd} is coped to it: take one of them out of also",
  ),
  // cope: the shaped ends
  "plate-behind": error("end {end} comes from behind plate {plate}; turn the plate's normal toward the bar"),
  "cope-none": error("end {end} misses {host} all round; move the landing or the corner next to it"),
  "cope-runs-along": error(
    "end {end} runs along {host} from {from} to {to} from its landing; move the corner next to it away from {host}",
  ),
  "cope-past-bends": error(
    "end {end}: the joint with {host} reaches past bend {bend}; move the landing or that bend",
  ),
  "cope-misses": warning(
    "end {end}: part of the rim passes {host} without touching ({arcs}, {missed} in all); the joint stays open there",
  ),
  "cope-parallel": error("end {end} runs along {host}; no cut seats it"),
  "cope-shallow": warning("end {end} meets {host} at only {angle}; the cut is long and the toe a feather"),
  "landing-near-end": warning(
    "end {end} lands {distance} from the end of {host}, and needs {needed} to seat all round",
  ),
  "landing-beyond-end": warning(
    "end {end} lands {distance} from the end of {host}, and needs {needed}; there is no metal under {arcs} ({missed} in all)",
  ),
  "also-farther-in": warning(
    "end {end} meets {other} farther in, away from its joint; it is cut to {host} alone",
  ),
  "also-not-met": warning("end {end} does not meet {other}; it is cut to {host} alone"),
  "tube-over-host": warning("end {end}: a {od} tube on {host} of {hostOd} is wider than what it lands on"),
  "notch-steep": note("end {end} leans {angle} off square; the notcher goes to {steepest}"),
  "notch-no-saw": warning(
    "end {end}: cut to the wrap; no listed hole saw notches this {od} tube here, and {missing} is not listed",
  ),
  "notch-no-cut": warning(
    "end {end}: cut to the wrap; no single hole saw cut comes nearer than the tube's own {od}",
  ),
  "notch-gap": note(
    "end {end}: one saw cut leaves a gap of {gap} at {at}, over the {accepted} accepted; cut to the wrap",
  ),
  "bent-in-joint": note("end {end}: bend {bend} runs into the joint; the cut follows the bend"),
  // survey: the car as measured
  "survey-no-datum": error(
    "nothing ties the readings to the car; give the places of three points that do not lie on one line",
  ),
  "survey-no-solution": error(
    "no places suit these readings well enough to settle; look for an error of almost nothing or a reading beyond all measure",
  ),
  "survey-far-out": error(
    "no places suit these readings well enough to settle; look first at {reading}: is it in the right unit and between the right points?",
  ),
  "survey-tangled": error(
    "no places were found on which the readings agree ({astray} of {all} are out of step); give some of the points a rough place with a large error, and try again",
  ),
  "survey-undetermined": error("{point} cannot be placed; readings of it: {count}; to fix it take {fix}"),
  "survey-mirror": warning(
    "{points} could as well stand elsewhere, mirrored: {point} at {other} instead of {at}; {settle} settles it",
  ),
  "survey-suspect": warning(
    "{reading} does not fit: it reads {read}, the others say {computed}; it is left out of the cleaned places, not of the others",
  ),
  "survey-suspect-among": warning(
    "{reading} or as well {others} does not fit: it reads {read}, the others say {computed}; one more reading is needed to tell which",
  ),
  "survey-no-place": warning(
    "{reading} reads {read}, and no place of {point} suits it together with {others}; read them again",
  ),
  "survey-unit": warning("{reading} reads {read}, the others say {computed}; was it {likely}?"),
  "survey-exact": warning(
    "{reading} reads {read}, the places given make it {computed}; the reading or one of the places is wrong",
  ),
  "survey-misplaced": warning(
    "{point} comes out {off} from the place given for it, which was said to be good to {sd}; it is left out of the cleaned places",
  ),
  "survey-test": warning(
    "the readings disagree {sigma0} times as much as their errors allow, without one that stands out; are the errors stated too small?",
  ),
  "survey-same-place": warning("points {first} and {second} come out at one place; is one of them a slip?"),
  "survey-unchecked": note("checked by no other reading, so that a slip would not be seen: {places}"),
  "survey-lean-half": note("the shell's lean was read {way} only; the other way it is taken as level"),
  "survey-bar-missing": warning("left out: {host} has no geometry to hold a tape on"),
  "survey-off-bar": warning("left out: {host} is {length} long; {along} is off its end"),
  "survey-no-bend": warning("left out: {host} has {count} bends; there is no bend {bend}"),
  // trestles: readings of bars as they were made
  "reading-unit": warning(
    "read {reading} again: {read} where about {expected} is expected; was it {likely}? It is left out",
  ),
  // plan: bars that stand on measured points
  "bar-on-adjusted": note("stands on places as the readings adjust them: {points}"),
  "bar-on-doubtful": warning(
    "{point} comes {off} elsewhere when the readings that do not fit are left out; settle them before this bar is cut",
  ),
  "bar-on-mirrored": warning(
    "{point} could as well stand mirrored, at {other}; {settle} settles it before this bar is cut",
  ),
  "survey-own-bar": warning(
    "left out: {host} stands on {point} itself, so a tape between the two does not place it",
  ),
  "survey-bars-circle": warning(
    "readings are taken from bars that stand on what those readings place, and the two do not settle; the places are good to {off} at best",
  ),
  // bend: what test bends say of a die
  "die-test-got": warning(
    "test bend {n} is left out: it got {got}; a test bend is 1 degree or more and less than 180",
  ),
  "die-test-set": warning(
    "test bend {n} is left out: it was set to {set}; give the angle that the bender was set to",
  ),
  "die-test-over": warning(
    "test bend {n} is left out: it got {got} from {set} set; tube springs back, never on",
  ),
  "die-test-leg": warning(
    "test bend {n} is left out: a leg of {leg} is shorter than the {least} that the bend itself takes up; measure from the sawn end to where the outer lines meet",
  ),
  "die-test-stick": warning(
    "test bend {n} is left out: a stick of {stick} is as long as both outside legs together, {legs}; it was shorter",
  ),
  "die-test-no-stick": warning(
    "test bend {n} is left out: its stick is {stick}; give its length before the bend",
  ),
  "die-test-half": note("test bend {n} tells springback alone: the radius wants both legs and the stick"),
  "die-test-unlikely": warning(
    "test bend {n}: the legs are together {gain} longer than the stick where {expected} was to be expected; were they measured outside, to where the outer lines meet?",
  ),
  "die-springback-ratio": note(
    "springback is taken in proportion to the angle, from bends about {tested} alone: below that, expect to pull again; above it, stop short and measure; a second test bend at another angle ends the guess",
  ),
  "die-tests-disagree": warning(
    "the test bends do not lie on one springback line; test bend {n} is {off} off it",
  ),
  "die-springback-odd": warning(
    "by these test bends a bend set to {set} would come out at {got}; tube does not spring on, so one reading is wrong",
  ),
  "die-radius-sharpness": note(
    "the radius is known to ± {sd}; an error in one leg would move it {times} as far",
  ),
  "die-radius-untold": note(
    "test bends up to {widest} are too small to tell the radius: an error in one leg would move it {times} as far; bend one of 90 degrees or more",
  ),
  "die-arc-one-test": note(
    "one angle cannot tell radius from growth: the arc factor is taken as 1, and each percent that it is really more makes the radius {perPercent} larger",
  ),
  "die-arc-angles-close": note(
    "test bends from {least} to {widest} are too close together or too small to tell radius from growth: the arc factor is taken as 1, and each percent that it is really more makes the radius {perPercent} larger",
  ),
  "die-legs-disagree": warning(
    "the legs of the test bends do not agree; those of test bend {n} are {off} off",
  ),
  "die-clr-differs": warning(
    "the test bends say a radius of {found} ± {sd}; the die says {clr}, and that is what bars are laid out with",
  ),
  // bend: what stands in the way at the bender
  "die-other-tube": warning("the die is for tube of {die}, this bar is {tube}"),
  "bend-tight": warning(
    "the die bends to a radius of {clr}; cage rules commonly ask 3 times the outside diameter, {least}, or more",
  ),
  "die-uncalibrated": warning("the die is not calibrated; its card lacks: {lacks}"),
  "clamp-short": warning(
    "bend {bend} has {has} of straight before it from end {end}; the clamp needs {needs}",
  ),
  "bends-close": warning(
    "bends {first} and {second} have {has} of straight between them; the die needs {needs}",
  ),
  "tail-short": warning("bend {bend} has {has} of tube behind it to end {end}; the bender needs {needs}"),
  "angle-beyond-die": warning("bend {bend} is {angle}; the die goes to {most}"),
  "set-beyond-die": warning("bend {bend} is {angle} and has to be set to {set}; the die goes to {most}"),
  "bend-small": warning(
    "bend {bend} turns only {angle}, too small to make: leave it out and run the tube straight; the bar is then {off} off that corner",
  ),
  "bend-kept-small": warning(
    "bend {bend} turns only {angle}, less than the shop bends true; leaving it out would move the bar by over {most}, so it stays: move the corner",
  ),
  "bend-off-tube": error(
    "bend {bend} runs {by} past sawn end {end}: leave that much more over there, or lengthen the leg",
  ),
  "mark-off-tube": error("the mark of bend {bend} falls {by} off the tube at sawn end {end}; {remedy}"),
  "check-negative": error(
    "after bend {bend} no tape reads a size of {value}: {what}; check the path and the die",
  ),
  "blank-nothing": error(
    "the cuts at both ends take {taken} and the bar is {length} long: nothing is left to saw",
  ),
  "set-impossible": error(
    "by die {die} bend {bend} of {angle} needs a setting of {set}; a bender is set from 0° to {most}: check the die's springback",
  ),
  "bend-into-floor": danger(
    "{first}: at bend {bend} the bent part swings into the floor; it hangs {below} under the die, the floor is {height} under it; fed from end {otherEnd} it would hang {otherBelow} at most",
  ),
  "bend-into-operator": danger(
    "keep out of the swing at bend {bend}: the bent part comes {reach} back past the die on your {side}, at body height, within {aside} of the tube; fed from end {otherEnd} it would come {otherReach} at most",
  ),
  // cards: what a bar's sheets cannot hold
  "sheets-many": warning(
    "the {part} takes {sheets} sheets, and one bar's cards have at most {most}; {instead}",
  ),
  // fit: what wants the same room when all bars are at their places
  clash: danger(
    "move {bar} or {other}, or cope one to the other: they overlap by {overlap} at x {x}, y {y}, z {z} ({along} along {bar}, {otherAlong} along {other})",
  ),
  "clash-self": danger(
    "move a corner: the bar runs into itself by {overlap} at x {x}, y {y}, z {z} ({first} and {second} along it)",
  ),
  "clash-plate": danger(
    "move {bar} or plate {plate}: they overlap by {overlap} at x {x}, y {y}, z {z} ({along} along the bar)",
  ),
} as const satisfies Record<string, Entry>;

export type Code = keyof typeof CATALOGUE;
