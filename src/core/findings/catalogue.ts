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
  "straight-short": error("leg {leg} has no room: its bends need {missing} more than there is between the corners"),
  "corner-coincident": error("corners {first} and {second} are one place; move one of them or take it out"),
  "corner-folds": error("corner {corner} turns {angle}: a bar cannot fold back on itself"),
  "die-missing": error("corner {corner} turns {angle}, and the bar names no die to bend it on"),
  "landing-off-host": error("{host} is {length} long; a landing at {along} is off its end by {over}"),
  "crossing-none": error("{host} nowhere crosses {axis} = {value}"),
  "crossing-several": error("{host} crosses {axis} = {value} at {count} places; say which with near"),
  "crossing-tie": error("two crossings of {host} with {axis} = {value} are equally near {near}; say which with a place"),
  "crossing-in-plane": error("a leg of {host} lies in {axis} = {value}; there is no one crossing"),
  "mirror-host": error("the mirrored landing is {off} off {host}, which has no twin and is not its own mirror"),
  "host-without-geometry": error("{host} has no geometry yet, so nothing can land on it"),
  "follow-side": error("the side given for following {host} is along its leg; give a direction square to it"),
  "follow-range": error("{host} is {length} long; from {from} to {to} is no run on it"),
  "toward-end": warning("the closest point of {host} is its end {end}; check that the bar should land there"),
  "toward-tie": warning("{host} comes equally close to that place at {first} and {second}; {first} was taken"),
  "follow-departs": note("at corner {corner} the gap to {host} is {gap}, {departs} from the {wanted} asked for"),
  // dangers and limits that go with every card of a station live in cards
} as const satisfies Record<string, Entry>;

export type Code = keyof typeof CATALOGUE;

// until a room uses them all
void danger;
