import type { Code } from "../../core/findings/index.ts";

export const LAYOUT = {
  "straight-short":
    "lengthen leg {leg} or turn its corners less: its bends need {missing} more than there is between the corners",
  "corner-coincident": "move corner {first} or {second}, or take one out: they are one place",
  "corner-folds": "move corner {corner}: it turns {angle}, and a bar cannot fold back on itself",
  "die-missing": "name a die for the bar: corner {corner} turns {angle}",
  "landing-off-host":
    "move the landing by {over}: {host} is {length} long, and a landing at {along} is off its end",
  "crossing-none": "choose another place on {host}: it nowhere crosses {axis} = {value}",
  "crossing-several": "choose the crossing with near: {host} crosses {axis} = {value} at {count} places",
  "crossing-tie":
    "choose the crossing by a place: two crossings of {host} with {axis} = {value} are equally near {near}",
  "crossing-in-plane": "choose another place on {host}: one of its legs runs in {axis} = {value}",
  "mirror-host": "give {host} a twin, or lay the bar out by itself: its mirrored landing is {off} off {host}",
  "host-without-geometry": "mend {host} first: it has no geometry yet, and nothing can land on it",
  "point-unplaced":
    "take readings of point {point} or give it a place (at): it has none yet. tubewright survey lists the readings that place it",
  "follow-side": "give a side square to {host}: the one given runs along its leg",
  "follow-range": "give another run on {host}: it is {length} long, and {from} to {to} is no run on it",
  "toward-end": "check that the bar should land at end {end} of {host}: that is its closest point",
  "toward-tie":
    "check the landing: {host} comes equally close to that place at {first} and {second}. The first was taken",
  "follow-departs":
    "at corner {corner} the gap to {host} is {gap}: {departs} from the {wanted} of the bar's follow",
  "ends-coped-to-each-other":
    "take one bar out of also: end {end} is coped to {other}, whose end {otherEnd} is coped to it",
  "nearly-in-line":
    "land {bar} and {other} both {along} along {host}, if they are meant to be in line: they are {angle} out",
} as const satisfies Partial<Record<Code, string>>;
