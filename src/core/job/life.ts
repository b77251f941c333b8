import { given } from "./given.ts";
import { has, isDict, listOf, own } from "./peek.ts";
import type { Path } from "./problem.ts";
import { PROGRESS, type Progress, stands } from "./types.ts";

/** Values to set in a job's document, in one step; undefined takes one out. */
export type Edits = readonly (readonly [path: Path, to: unknown])[];

/** What each step keeps, in the order of the steps; a bar only laid out keeps nothing. */
const KEEPS: readonly (readonly [Progress, string])[] = [
  ["sawn", "sawn"],
  ["bent", "bent"],
  ["notched", "notched"],
  ["fitted", "fitted"],
  ["tacked", "tacked"],
];

const rank = (progress: Progress): number => PROGRESS.indexOf(progress);

/** How far a bar of a document has come. */
function progressOf(document: unknown, id: string): Progress {
  const found = own(own(own(document, "bars"), id), "progress");
  return PROGRESS.find((p) => p === found) ?? "laid out";
}

/**
 * Back to an earlier step: what the later ones kept was never made, and goes. What was read stays; where the bar was in
 * the car goes with its tacks, but not where it was put to be notched (`over`). No edit where it has not come so far.
 */
export function backTo(document: unknown, id: string, progress: Progress): Edits {
  if (rank(progressOf(document, id)) <= rank(progress)) return [];
  const edits: (readonly [Path, unknown])[] = [
    [["bars", id, "progress"], progress === "laid out" ? undefined : progress],
  ];
  const to = own(own(own(document, "made"), id), "to");
  if (isDict(to)) {
    const kept = KEEPS.flatMap(([step, key]) =>
      rank(step) <= rank(progress) && has(to, key) ? [[key, own(to, key)] as const] : [],
    );
    edits.push([["made", id, "to"], kept.length > 0 ? Object.fromEntries(kept) : undefined]);
  }
  const built = own(own(document, "asBuilt"), id);
  const isLoose = !stands(progress);
  if (isDict(built) && isLoose && !(has(built, "over") && rank(progress) >= rank("bent")))
    edits.push([["asBuilt", id], undefined]);
  return edits;
}

/** What a bar keeps of one that was made. */
const KNOWN = ["to", "bent", "tacked", "gaps"] as const;

/**
 * Thrown away, to be made again: what was made and read of the bar goes into its `past`, and it is only laid out. No
 * edit where nothing was made or read.
 */
export function thrownAway(document: unknown, id: string): Edits {
  const made = own(own(document, "made"), id);
  const asBuilt = own(own(document, "asBuilt"), id);
  const progress = progressOf(document, id);
  const isThere = progress !== "laid out" || asBuilt !== undefined || KNOWN.some((key) => has(made, key));
  if (!isThere) return [];
  const thrown = given({
    ...(progress === "laid out" ? {} : { progress }),
    ...Object.fromEntries(KNOWN.map((key) => [key, own(made, key)])),
    asBuilt,
  });
  return [
    [["made", id], { past: [...listOf(own(made, "past")), thrown] }],
    ...(progress === "laid out" ? [] : [[["bars", id, "progress"], undefined] as const]),
    ...(asBuilt === undefined ? [] : [[["asBuilt", id], undefined] as const]),
  ];
}
