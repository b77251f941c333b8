import { centrelineOf } from "../src/core/bar/index.ts";
import type { End } from "../src/core/job/index.ts";
import type { ResolvedBar, Seat } from "../src/core/layout/index.ts";
import type { Vec } from "../src/core/space/index.ts";

interface Landing {
  readonly on: string;
  readonly along: number;
  readonly off?: Vec;
  readonly also?: readonly string[];
}

/** A bar for a test, laid through its nodes, each corner a bend however small; ends are square unless they land on something. */
export function barOf(
  id: string,
  od: number,
  wall: number,
  nodes: readonly Vec[],
  ends: Partial<Record<End, Landing | Extract<Seat, { kind: "plate" }>>> = {},
  clr = 3 * od,
): ResolvedBar {
  const built = centrelineOf(nodes, clr, { bar: id, place: `bars.${id}.path` }, 0);
  if (!built.ok) throw new Error(`${id}: ${built.findings.map((f) => f.code).join(", ")}`);
  const seat = (end: End): Seat => {
    const given = ends[end];
    if (!given) return { kind: "square" };
    if ("kind" in given) return given;
    return {
      kind: "on",
      hosts: [given.on, ...(given.also ?? [])],
      along: given.along,
      off: given.off ?? [0, 0, 0],
    };
  };
  return {
    id,
    label: id,
    tubeId: `${od}x${wall}`,
    tube: { od, wall },
    die: { od, clr, mark: 0, arcFactor: 1, tests: [] },
    dieId: "die",
    centreline: built.centreline,
    seat: { A: seat("A"), B: seat("B") },
    trim: { A: 0, B: 0 },
    fromEnd: "A",
    dependsOn: [],
  };
}
