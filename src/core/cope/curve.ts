// biome-ignore-all lint/style/noNonNullAssertion: i runs over the LINES entries that ROUND and every curve have; a bar bent in the joint has a bend.
import {
  bar as barQuantity,
  count,
  degrees,
  type Finding,
  list,
  mm,
  phrase,
  plate,
  text,
} from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg, rad, sinCosDeg } from "../numeric/index.ts";
import { dot } from "../space/index.ts";
import type { Lookup } from "./also.ts";
import { endAxes } from "./axes.ts";
import { includedAngle, type Joint, jointOf } from "./joint.ts";
import { arcsOf, joinedArcs, longPoint } from "./rim.ts";
import { LINES, ROUND } from "./round.ts";
import type { Cope } from "./types.ts";
import { isOneStretch, type WallCurve } from "./where.ts";

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
export function copeOf(
  bar: ResolvedBar,
  end: End,
  hosts: readonly ResolvedBar[],
  lookup?: Lookup,
): CopeResult {
  const seat = bar.seat[end];
  const outerRadius = bar.tube.od / 2;
  const boreRadius = outerRadius - bar.tube.wall;
  const axes = endAxes(bar.centreline, end);
  const base = {
    bar: bar.id,
    end,
    landing: axes.landing,
    out: axes.out,
    zero: axes.zero,
    zeroLine: axes.zeroLine,
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
      beyondHost: [],
    };
    return { cope, findings: [] };
  }
  const quick = curvesOf(jointOf(bar, end, hosts, lookup, true), outerRadius, boreRadius);
  const sure = !quick.joint.assumed || isOneStretch(quick.joint.solids, quick.walls, ROUND);
  const { joint, walls } = sure ? quick : curvesOf(jointOf(bar, end, hosts, lookup), outerRadius, boreRadius);
  const [{ curve: outer }, { curve: bore }] = walls;
  const long = longPoint(joint, outerRadius, boreRadius, outer, bore);
  const arcs = (holds: (rho: number, cos: number, sin: number, back: number) => boolean) =>
    arcsOf(
      ROUND.map(([sin, cos], i) => walls.some((w) => holds(w.rho, cos, sin, w.curve[i]!))),
      (phi) => {
        const [sin, cos] = sinCosDeg(phi);
        return walls.some((w) => holds(w.rho, cos, sin, joint.back(w.rho, cos, sin)));
      },
    );
  const misses = walls.some((w) => w.curve.some(Number.isNaN))
    ? arcs((_, __, ___, back) => Number.isNaN(back))
    : [];
  const beyondHost = joint.beyondHost ? arcs(joint.beyondHost) : [];
  const short = greatest(outer, bore);
  const cope: Cope = {
    ...base,
    kind: seat.kind,
    onto: seat.kind === "plate" ? [seat.plate] : joint.hosts.map((h) => h.id),
    outer,
    bore,
    least: long.back,
    leastAt: long.phi,
    greatest: short,
    bentInJoint: joint.walked && short > joint.endStraight,
    misses,
    beyondHost,
  };
  return { cope, joint, findings: copeFindings(bar, end, hosts, joint, cope) };
}

/** A joint's curves on the outside and at the bore. */
function curvesOf(
  joint: Joint,
  outerRadius: number,
  boreRadius: number,
): { readonly joint: Joint; readonly walls: readonly [WallCurve, WallCurve] } {
  const wall = (rho: number): WallCurve => ({ rho, curve: joint.curve(rho) });
  return { joint, walls: [wall(outerRadius), wall(boreRadius)] };
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
  const add = (code: Finding["code"], values: Finding["values"]): void => {
    findings.push({ code, place: `bars.${bar.id}`, bar: bar.id, values: { end: text(end), ...values } });
  };
  const impossible = whyImpossible(bar, end, joint, cope);
  if (impossible) {
    add(...impossible);
    return findings;
  }
  const onto = list(cope.onto.map(barQuantity));
  const round = (arcs: Cope["misses"]) => ({
    arcs: list(joinedArcs(arcs).map(([from, to]) => phrase("arc", { from: degrees(from), to: degrees(to) }))),
    missed: degrees(arcs.reduce((sum, [a, b]) => sum + b - a, 0)),
  });
  if (cope.misses.length > 0) add("cope-misses", { host: onto, ...round(cope.misses) });
  if (joint.apart.length > 0) {
    for (const { id, fartherIn } of joint.apart)
      add(fartherIn ? "also-farther-in" : "also-not-met", { other: barQuantity(id), host: onto });
  }
  const seat = bar.seat[end];
  const [host] = hosts;
  const at = joint.hosts[0];
  if (seat.kind !== "on" || !host || !at) return findings;
  const angle = includedAngle(at.dir);
  if (angle < rad(20)) add("cope-shallow", { host: barQuantity(host.id), angle: degrees(deg(angle)) });
  const toEnd = Math.min(seat.along, host.centreline.length - seat.along);
  const need = (bar.tube.od / 2 + (host.tube.od / 2) * Math.cos(angle)) / Math.sin(angle);
  if (toEnd < need - 1e-6 || cope.beyondHost.length > 0) {
    const values = { host: barQuantity(host.id), distance: mm(toEnd), needed: mm(need) };
    if (cope.beyondHost.length > 0) add("landing-beyond-end", { ...values, ...round(cope.beyondHost) });
    else add("landing-near-end", values);
  }
  if (bar.tube.od > host.tube.od)
    add("tube-over-host", { od: mm(bar.tube.od), host: barQuantity(host.id), hostOd: mm(host.tube.od) });
  if (cope.bentInJoint)
    add("bent-in-joint", { bend: count(bar.centreline.bends.at(end === "A" ? 0 : -1)!.n) });
  return findings;
}

/** Below this angle between a bar and its host (radians) no cut seats it. */
const RUNS_ALONG = rad(0.1);

/** What leaves an end without a cut, as an error's code and values. */
function whyImpossible(
  bar: ResolvedBar,
  end: End,
  joint: Joint,
  cope: Cope,
): [Finding["code"], Finding["values"]] | undefined {
  const seat = bar.seat[end];
  if (seat.kind === "plate" && dot(seat.normal, cope.out) >= 0)
    return ["plate-behind", { plate: plate(seat.plate) }];
  const host = {
    host: seat.kind === "plate" ? plate(seat.plate) : barQuantity(joint.hosts[0]?.id ?? ""),
  };
  const at = joint.hosts[0];
  if (at && includedAngle(at.dir) < RUNS_ALONG) return ["cope-parallel", host];
  if (joint.along) {
    const { outer, inner } = joint.along;
    return ["cope-runs-along", { ...host, from: mm(Math.max(0, outer)), to: mm(inner) }];
  }
  const meets = (curve: Float64Array, rho: number): boolean =>
    curve.some((b, i) => !Number.isNaN(b) && joint.meetsFirst(rho, ROUND[i]![1], ROUND[i]![0], b));
  if (!meets(cope.outer, cope.outerRadius) && !meets(cope.bore, cope.boreRadius)) return ["cope-none", host];
  const { bends, length } = bar.centreline;
  const second = bends.at(end === "A" ? 1 : -2);
  if (bends.length > 1 && second && cope.greatest > (end === "A" ? second.end : length - second.start))
    return ["cope-past-bends", { ...host, bend: count(second.n) }];
  return undefined;
}
