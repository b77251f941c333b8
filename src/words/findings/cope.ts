import type { Code } from "../../core/findings/index.ts";

export const COPE = {
  "plate-behind": "turn the normal of plate {plate} toward the bar: end {end} comes from behind it",
  "cope-none": "move the landing of end {end} or the corner next to it: the end misses {host} all round",
  "cope-runs-along":
    "move the corner next to end {end} away from {host}: the end runs along it from {from} to {to}",
  "cope-past-bends":
    "move the landing of end {end} or bend {bend}: the joint with {host} reaches past that bend",
  "cope-misses":
    "end {end}: part of the rim passes {host} without touching ({arcs}, {missed} in all). The joint stays open there",
  "cope-parallel": "turn end {end} toward {host}: it runs along it, and no cut seats it",
  "cope-shallow": "end {end} meets {host} at only {angle}: the cut is long and the toe a feather",
  "landing-near-end":
    "end {end} lands {distance} from the end of {host}: it needs {needed} to seat all round",
  "landing-beyond-end":
    "end {end} lands {distance} from the end of {host}: it needs {needed}. There is no metal under {arcs} ({missed} in all)",
  "also-farther-in": "end {end} is cut to {host} alone: it meets {other} farther in, away from its joint",
  "also-not-met": "end {end} is cut to {host} alone: it does not meet {other}",
  "tube-over-host": "end {end}: a {od} tube on {host} of {hostOd} is wider than its host",
  "notch-steep": "end {end} leans {angle} off square: the notcher goes to {steepest}",
  "notch-no-saw":
    "end {end}: cut to the wrap. No listed hole saw notches this {od} tube here, and {missing} is not listed",
  "notch-no-cut": "end {end}: cut to the wrap. No single hole saw cut comes nearer than the tube's own {od}",
  "notch-gap":
    "end {end}: cut to the wrap. One saw cut leaves a gap of {gap} at {at}, over the {accepted} accepted",
  "bent-in-joint": "end {end}: bend {bend} runs into the joint. The cut follows the bend",
} as const satisfies Partial<Record<Code, string>>;
