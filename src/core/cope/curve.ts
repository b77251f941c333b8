import { count, degrees, type Finding, mm, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg, goldenLeast, rad, sinCosDeg } from "../numeric/index.ts";
import { dot } from "../space/index.ts";
import { endFrame } from "./frame.ts";
import { includedAngle, type Joint, jointOf } from "./joint.ts";
import type { Cope } from "./types.ts";

/** Lines round an end. */
export const LINES = 360;

const ROUND: readonly (readonly [number, number])[] = Array.from({ length: LINES }, (_, i) => sinCosDeg(i));

/** A cope, the joint that it was computed from (absent for a square end), and what there is to say of it. */
export interface CopeResult {
  readonly cope: Cope;
  readonly joint?: Joint;
  readonly findings: readonly Finding[];
}

/**
 * The curve of one shaped end: how far back from the landing each wall line of the bar first meets what it lands on.
 *
 * Convention (geometry.md, "A cope"): φ right-handed about the outward direction u from the zero line, so
 * counter-clockwise looking at the cut end; back b along the centreline, positive toward the bar's inside. Computed
 * at 360 lines on the outside (OD/2) and at the bore (OD/2 − wall). The long point is sought between the lines too.
 * Units: mm, φ in degrees. NaN where a line misses; the missing arcs are refined to 0.001° and stand in `misses`.
 * One method for every host: the first z at which the distance to a host's centreline is its outside radius, in
 * closed form for straights and planes, by a safe march for bends. Accuracy: 1e-9 mm along the line.
 */
export function copeOf(bar: ResolvedBar, end: End, hosts: readonly ResolvedBar[]): CopeResult {
  const seat = bar.seat[end];
  const outerRadius = bar.tube.od / 2;
  const boreRadius = outerRadius - bar.tube.wall;
  const frame = endFrame(bar.centreline, end);
  const base = {
    bar: bar.id,
    end,
    landing: frame.landing,
    out: frame.out,
    zero: frame.zero,
    zeroLine: frame.zeroLine,
    outerRadius,
    boreRadius,
  };
  if (seat.kind === "square") {
    const flat = new Float64Array(LINES);
    const cope: Cope = {
      ...base,
      kind: "square",
      onto: [],
      outer: flat,
      bore: flat,
      least: 0,
      leastAt: 0,
      greatest: 0,
      bentInJoint: false,
      misses: [],
    };
    return { cope, findings: [] };
  }
  const joint = jointOf(bar, end, hosts);
  const outer = new Float64Array(LINES);
  const bore = new Float64Array(LINES);
  for (let i = 0; i < LINES; i++) {
    const [sin, cos] = ROUND[i]!;
    outer[i] = joint.back(outerRadius, cos, sin);
    bore[i] = joint.back(boreRadius, cos, sin);
  }
  const long = longPoint(joint, outerRadius, boreRadius, outer, bore);
  const misses = missingArcs(joint, outerRadius, boreRadius, outer, bore);
  const short = greatest(outer, bore);
  const cope: Cope = {
    ...base,
    kind: seat.kind,
    onto: seat.kind === "plate" ? [seat.plate] : seat.hosts,
    outer,
    bore,
    least: long.back,
    leastAt: long.phi,
    greatest: short,
    bentInJoint: joint.walked && short > joint.endStraight,
    misses,
  };
  return { cope, joint, findings: copeFindings(bar, end, hosts, joint, cope) };
}

const greatest = (outer: Float64Array, bore: Float64Array): number => {
  let most = -Infinity;
  for (const curve of [outer, bore]) for (const b of curve) if (b > most) most = b;
  return most === -Infinity ? 0 : most;
};

/**
 * Least back over both walls and all φ: the least of the 360 lines, then a golden-section search on either side of
 * every line that is a local least and could still hold it. 0 where every line misses.
 */
function longPoint(
  joint: Joint,
  outerR: number,
  boreR: number,
  outer: Float64Array,
  bore: Float64Array,
): { back: number; phi: number } {
  let best = { back: Infinity, phi: 0 };
  const see = (back: number, phi: number): void => {
    if (back < best.back) best = { back, phi };
  };
  for (let i = 0; i < LINES; i++) {
    see(outer[i]!, i);
    see(bore[i]!, i);
  }
  if (best.back === Infinity) return { back: 0, phi: 0 };
  const floor = best.back;
  for (const [curve, rho] of [
    [outer, outerR],
    [bore, boreR],
  ] as const) {
    for (let i = 0; i < LINES; i++) {
      const b = curve[i]!;
      const before = curve[(i + LINES - 1) % LINES]!;
      const after = curve[(i + 1) % LINES]!;
      // Between two lines the curve can dip below them by no more than it falls from its neighbours.
      if (!(b <= before && b <= after) || b - floor > Math.max(before, after) - b) continue;
      const at = (phi: number): number => joint.back(rho, Math.cos(rad(phi)), Math.sin(rad(phi)));
      const phi = goldenLeast(at, i - 1, i + 1, 1e-5);
      see(at(phi), (phi + 360) % 360);
    }
  }
  return best;
}

/** The arcs in which the outside or the bore misses every host (degrees, ascending, none across 0). */
function missingArcs(
  joint: Joint,
  outerR: number,
  boreR: number,
  outer: Float64Array,
  bore: Float64Array,
): (readonly [number, number])[] {
  const missing = (i: number): boolean => Number.isNaN(outer[i]!) || Number.isNaN(bore[i]!);
  const missesAt = (phi: number): boolean => {
    const cos = Math.cos(rad(phi));
    const sin = Math.sin(rad(phi));
    return Number.isNaN(joint.back(outerR, cos, sin)) || Number.isNaN(joint.back(boreR, cos, sin));
  };
  /** The edge between a line that meets and one that misses. */
  const edge = (meets: number, misses: number): number => {
    let a = meets;
    let b = misses;
    while (Math.abs(b - a) > 1e-4) {
      const m = (a + b) / 2;
      if (missesAt(m)) b = m;
      else a = m;
    }
    return b;
  };
  const arcs: (readonly [number, number])[] = [];
  let from: number | undefined;
  for (let i = 0; i <= LINES; i++) {
    const now = i < LINES ? missing(i) : false;
    if (now && from === undefined)
      from = i === 0 ? (missing(LINES - 1) ? 0 : Math.max(0, edge(-1, 0))) : edge(i - 1, i);
    if (!now && from !== undefined) {
      arcs.push([from, i === LINES ? (missing(0) ? 360 : Math.min(360, edge(360, 359))) : edge(i, i - 1)]);
      from = undefined;
    }
  }
  return arcs;
}

function copeFindings(
  bar: ResolvedBar,
  end: End,
  hosts: readonly ResolvedBar[],
  joint: Joint,
  cope: Cope,
): Finding[] {
  const findings: Finding[] = [];
  const place = `bars.${bar.id}`;
  const add = (code: Finding["code"], values: Finding["values"]): void => {
    findings.push({ code, place, bar: bar.id, values: { end: text(end), ...values } });
  };
  const seat = bar.seat[end];
  if (seat.kind === "plate" && dot(seat.normal, cope.out) >= 0)
    add("plate-behind", { plate: text(seat.plate) });
  if (joint.startsInside) add("cope-starts-inside", { host: text(cope.onto.join(", ")) });
  if (cope.misses.length > 0) {
    const missed = cope.misses.reduce((sum, [a, b]) => sum + b - a, 0);
    add("cope-misses", {
      host: text(cope.onto.join(", ")),
      arcs: text(joinedArcs(cope.misses)),
      missed: degrees(missed),
    });
  }
  if (seat.kind !== "on") return findings;
  const [host] = hosts;
  const at = joint.hosts[0];
  if (!host || !at) return findings;
  if (includedAngle(at.dir) < rad(0.1)) add("cope-parallel", { host: text(host.id) });
  else if (includedAngle(at.dir) < rad(20))
    add("cope-shallow", { host: text(host.id), angle: degrees(deg(includedAngle(at.dir))) });
  const toEnd = Math.min(seat.along, host.centreline.length - seat.along);
  const need = host.tube.od / 2 + bar.tube.od / 2;
  if (toEnd < need - 1e-6)
    add("landing-near-end", { host: text(host.id), distance: mm(toEnd), needed: mm(need) });
  if (bar.tube.od > host.tube.od)
    add("tube-over-host", { od: mm(bar.tube.od), host: text(host.id), hostOd: mm(host.tube.od) });
  if (cope.bentInJoint) add("bent-in-joint", { bend: count(end === "A" ? 1 : bar.centreline.bends.length) });
  return findings;
}

/** Arcs for a person: the two that meet at 0 are one. */
export function joinedArcs(arcs: readonly (readonly [number, number])[]): string {
  const list = arcs.map(([a, b]) => [a, b] as [number, number]);
  const last = list[list.length - 1];
  if (list.length > 1 && list[0]![0] === 0 && last![1] === 360) {
    list[0] = [last![0], list[0]![1]];
    list.pop();
  }
  return list.map(([a, b]) => `${a.toFixed(1)}° to ${b.toFixed(1)}°`).join(" and ");
}
