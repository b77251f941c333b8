import type { Code } from "../../core/findings/index.ts";

export const COPE = {
  "plate-behind": "end {end} comes from behind plate {plate}; turn the plate's normal toward the bar",
  "cope-none": "end {end} misses {host} all round; move the landing or the corner next to it",
  "cope-runs-along":
    "end {end} runs along {host} from {from} to {to} from its landing; move the corner next to it away from {host}",
  "cope-past-bends":
    "end {end}: the joint with {host} reaches past bend {bend}; move the landing or that bend",
  "cope-misses":
    "end {end}: part of the rim passes {host} without touching ({arcs}, {missed} in all); the joint stays open there",
  "cope-parallel": "end {end} runs along {host}; no cut seats it",
  "cope-shallow": "end {end} meets {host} at only {angle}; the cut is long and the toe a feather",
  "landing-near-end":
    "end {end} lands {distance} from the end of {host}, and needs {needed} to seat all round",
  "landing-beyond-end":
    "end {end} lands {distance} from the end of {host}, and needs {needed}; there is no metal under {arcs} ({missed} in all)",
  "also-farther-in": "end {end} meets {other} farther in, away from its joint; it is cut to {host} alone",
  "also-not-met": "end {end} does not meet {other}; it is cut to {host} alone",
  "tube-over-host": "end {end}: a {od} tube on {host} of {hostOd} is wider than what it lands on",
  "notch-steep": "end {end} leans {angle} off square; the notcher goes to {steepest}",
  "notch-no-saw":
    "end {end}: cut to the wrap; no listed hole saw notches this {od} tube here, and {missing} is not listed",
  "notch-no-cut": "end {end}: cut to the wrap; no single hole saw cut comes nearer than the tube's own {od}",
  "notch-gap":
    "end {end}: one saw cut leaves a gap of {gap} at {at}, over the {accepted} accepted; cut to the wrap",
  "bent-in-joint": "end {end}: bend {bend} runs into the joint; the cut follows the bend",
} as const satisfies Partial<Record<Code, string>>;
