import { count, degrees, type Finding, mm, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg, rad, sinCosDeg } from "../numeric/index.ts";
import { dot } from "../space/index.ts";
import { endFrame } from "./frame.ts";
import { includedAngle, type Joint, jointOf } from "./joint.ts";
import { joinedArcs, longPoint, missingArcs } from "./rim.ts";
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
  else if (joint.startsInside) add("cope-starts-inside", { host: text(cope.onto.join(", ")) });
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
