/** What no tube, die, direction or plate of a job can be, wherever one stands. */
import { text } from "../findings/index.ts";
import { directionOf, lengthAt, own } from "./peek.ts";
import { type Fault, type Path, problem } from "./problem.ts";

/** A number as it was given, not rounded. */
export const number = (value: number) => text(String(value));

/** A direction shorter than this has none; the job room has no geometry to borrow the tolerance from. */
const NO_DIRECTION = 1e-9;

/** Sine of the angle to a plate's normal below which a direction says nothing of a way in the plate. */
const ALONG_NORMAL = 1e-3;

export function boreProblem(path: Path, tube: unknown): readonly Fault[] {
  const [od, wall] = [lengthAt(own(tube, "od")), lengthAt(own(tube, "wall"))];
  if (od === undefined || wall === undefined || od <= 0 || wall < od / 2) return [];
  return [problem([...path, "wall"], "no-bore", { wall: number(wall), od: number(od) })];
}

export function radiusProblem(path: Path, die: unknown): readonly Fault[] {
  const [od, clr] = [lengthAt(own(die, "od")), lengthAt(own(die, "clr"))];
  if (od === undefined || clr === undefined || clr <= 0 || clr > od / 2) return [];
  return [problem([...path, "clr"], "clr-small", { clr: number(clr), od: number(od) })];
}

export function directionProblem(path: Path, value: unknown): readonly Fault[] {
  const given = directionOf(value);
  return given && Math.hypot(...given) < NO_DIRECTION ? [problem(path, "no-direction")] : [];
}

/** The way a plate's first size runs lies in the plate: of what is given, the part square to the normal counts. */
function alongProblem(path: Path, normal: unknown, along: unknown): readonly Fault[] {
  const nothing = directionProblem(path, along);
  if (nothing.length > 0) return nothing;
  return isParallel(normal, along) ? [problem(path, "along-normal")] : [];
}

/** Whether both are directions and run along one line, one way or the other. */
export function isParallel(first: unknown, second: unknown): boolean {
  const [n, a] = [directionOf(first), directionOf(second)];
  if (!n || !a) return false;
  const across = Math.hypot(a[1] * n[2] - a[2] * n[1], a[2] * n[0] - a[0] * n[2], a[0] * n[1] - a[1] * n[0]);
  return across < ALONG_NORMAL * Math.hypot(...n) * Math.hypot(...a);
}

export const plateProblems = (path: Path, plate: unknown): readonly Fault[] => [
  ...directionProblem([...path, "normal"], own(plate, "normal")),
  ...alongProblem([...path, "along"], own(plate, "normal"), own(plate, "along")),
];
