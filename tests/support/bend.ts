import { centrelineOf } from "../../src/core/bar/index.ts";
import type { Writer } from "../../src/core/findings/index.ts";
import type { Die, End } from "../../src/core/job/types.ts";
import type { ResolvedBar } from "../../src/core/layout/types.ts";
import { rad } from "../../src/core/numeric/index.ts";
import { along, turn, type Vec } from "../../src/core/space/index.ts";

export const NO_BACK = { A: 0, B: 0 };

/** A die that nobody has measured. */
const die = (od: number, clr: number, more: Partial<Die> = {}): Die => ({
  od,
  clr,
  mark: 0,
  arcFactor: 1,
  tests: [],
  ...more,
});

export interface BarOptions {
  readonly od?: number;
  readonly clr?: number;
  readonly die?: Partial<Die>;
  readonly trim?: Partial<Record<End, number>>;
  readonly fromEnd?: End;
}

/** A free bar through corners, as the layout would hand it over. */
export function barThrough(nodes: readonly Vec[], options: BarOptions = {}): ResolvedBar {
  const od = options.od ?? 45;
  const clr = options.clr ?? 135;
  const built = centrelineOf(nodes, clr, { bar: "bar", place: "bars.bar" });
  if (!built.ok) throw new Error(`no geometry: ${JSON.stringify(built.findings)}`);
  return {
    id: "bar",
    label: "Bar",
    tubeId: "t",
    tube: { od, wall: 2.5 },
    dieId: "d",
    die: die(od, clr, options.die),
    centreline: built.centreline,
    seat: { A: { kind: "square" }, B: { kind: "square" } },
    trim: { A: options.trim?.A ?? 0, B: options.trim?.B ?? 0 },
    fromEnd: options.fromEnd ?? "A",
    dependsOn: [],
  };
}

/** One bend as a bender's list has it: straight before it (mm), turn from the bend before and angle (degrees). */
export type Listed = readonly [straight: number, rotation: number, angle: number];

/** Corners of the bar that such a list describes, walked off leg by leg from the origin along x, bend 1 toward y. */
export function cornersOf(list: readonly Listed[], lastStraight: number, clr: number): Vec[] {
  const tangents = list.map(([, , angle]) => clr * Math.tan(rad(angle) / 2));
  let at: Vec = [0, 0, 0];
  let dir: Vec = [1, 0, 0];
  let normal: Vec = [0, 0, 1];
  const nodes: Vec[] = [at];
  list.forEach(([straight, rotation, angle], i) => {
    at = along(at, dir, (tangents[i - 1] ?? 0) + straight + tangents[i]!);
    nodes.push(at);
    normal = turn(normal, dir, rad(rotation));
    dir = turn(dir, normal, rad(angle));
  });
  nodes.push(along(at, dir, (tangents[tangents.length - 1] ?? 0) + lastStraight));
  return nodes;
}

/** Millimetres and degrees to one place. */
export const WRITER: Writer = {
  length: (mm) => `${mm.toFixed(1)} mm`,
  angle: (degrees) => `${degrees.toFixed(1)}°`,
};
