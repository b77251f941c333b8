import type { Code } from "../../core/findings/index.ts";

export const LAYOUT = {
  "straight-short": "leg {leg} has no room: its bends need {missing} more than there is between the corners",
  "corner-coincident": "corners {first} and {second} are one place; move one of them or take it out",
  "corner-folds": "corner {corner} turns {angle}: a bar cannot fold back on itself",
  "die-missing": "corner {corner} turns {angle}, and the bar names no die to bend it on",
  "landing-off-host": "{host} is {length} long; a landing at {along} is off its end by {over}",
  "crossing-none": "{host} nowhere crosses {axis} = {value}",
  "crossing-several": "{host} crosses {axis} = {value} at {count} places; say which with near",
  "crossing-tie":
    "two crossings of {host} with {axis} = {value} are equally near {near}; say which with a place",
  "crossing-in-plane": "a leg of {host} lies in {axis} = {value}; there is no one crossing",
  "mirror-host": "the mirrored landing is {off} off {host}, which has no twin and is not its own mirror",
  "host-without-geometry": "{host} has no geometry yet, so nothing can land on it",
  "point-unplaced":
    "point {point} has no place yet; take readings of it (tubewright survey says which) or give its at",
  "follow-side": "the side given for following {host} is along its leg; give a direction square to it",
  "follow-range": "{host} is {length} long; from {from} to {to} is no run on it",
  "toward-end": "the closest point of {host} is its end {end}; check that the bar should land there",
  "toward-tie": "{host} comes equally close to that place at {first} and {second}; {first} was taken",
  "follow-departs": "at corner {corner} the gap to {host} is {gap}, {departs} from the {wanted} asked for",
  "ends-coped-to-each-other":
    "end {end} is coped to {other}, whose end {otherEnd} is coped to it: take one of them out of also",
} as const satisfies Partial<Record<Code, string>>;
