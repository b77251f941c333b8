import { NO_LENGTH } from "../numeric/index.ts";
import { along, len, rejection, sub, type Vec } from "../space/index.ts";

/**
 * Where a tape's mark lies on a tube's round section, seen from the tape's other end: `reach` from the section's
 * centre square to the tube, away from the other end (negative: toward it). A tube seen along its own axis gives its
 * centre. Convention: `dir` is the tube's direction there, of length 1. Units: mm.
 */
export function tapeMark(centre: Vec, dir: Vec, reach: number, other: Vec): Vec {
  if (reach === 0) return centre;
  const across = rejection(sub(other, centre), dir);
  const distance = len(across);
  return distance > NO_LENGTH ? along(centre, across, -reach / distance) : centre;
}
