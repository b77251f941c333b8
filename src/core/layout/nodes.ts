import { type Centreline, closestTo, crossings, placeAt } from "../bar/index.ts";
import {
  bar as barQuantity,
  count,
  type Finding,
  mm,
  phrase,
  place as placeQuantity,
  point,
  type Quantity,
  text,
} from "../findings/index.ts";
import type { Job, LandingNode, PathNode, Place, PlaceNode, Side } from "../job/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { add, dist, type Vec } from "../space/index.ts";
import type { ResolvedBar, Seat } from "./types.ts";

/** What a node's place may be computed from. */
export interface Surroundings {
  readonly job: Job;
  readonly hosts: (id: string) => ResolvedBar | undefined;
}

/** A node with its place; no `at` where there is none, and then a finding says why. */
export interface ResolvedNode {
  readonly at?: Vec;
  readonly seat: Seat;
  readonly findings: readonly Finding[];
}

const SQUARE: Seat = { kind: "square" };

/**
 * The place (mm, car axes) that a node of a path stands for, as job-file.md lays it down.
 * `before` is the place of the node before it, which a `step` starts from (a moved landing counts as moved).
 */
export function resolveNode(
  node: PathNode,
  before: Vec | undefined,
  around: Surroundings,
  place: string,
  bar: string,
): ResolvedNode {
  if (node.kind === "on") return resolveLanding(node, around, place, bar);
  if (node.kind === "plate") {
    const plate = around.job.plates[node.plate]!;
    const seat: Seat = { kind: "plate", plate: node.plate, ...plate };
    return { at: plate.at, seat, findings: [] };
  }
  const at = freePlace(node, before, around.job);
  if (at) return { at, seat: SQUARE, findings: [] };
  // A step from a node that has no place has none either: that node has said why.
  const findings: Finding[] =
    node.kind === "point"
      ? [{ code: "point-unplaced", place: `${place}.point`, bar, values: { point: point(node.point) } }]
      : [];
  return { seat: SQUARE, findings };
}

function freePlace(node: PlaceNode, before: Vec | undefined, job: Job): Vec | undefined {
  if (node.kind === "at") return node.at;
  if (node.kind === "step") return before && add(before, node.step);
  const at = job.points[node.point]?.at;
  return at && add(at, node.by);
}

function resolveLanding(node: LandingNode, around: Surroundings, place: string, bar: string): ResolvedNode {
  const host = around.hosts(node.on);
  const fail = (code: Finding["code"], values: Finding["values"]): ResolvedNode => ({
    seat: SQUARE,
    findings: [{ code, place, bar, values: { host: barQuantity(node.on), ...values } }],
  });
  if (!host) return fail("host-without-geometry", {});
  const line = host.centreline;
  const { where } = node;
  const land = (along: number, findings: readonly Finding[] = []): ResolvedNode => ({
    at: add(placeAt(line, along).at, node.off),
    seat: { kind: "on", hosts: [node.on, ...node.also], along, off: node.off },
    findings,
  });

  if (where.by === "along") {
    const s = where.along < 0 ? line.length + where.along : where.along;
    const over = s < 0 ? -s : s - line.length;
    if (over > SAME_PLACE) {
      return fail("landing-off-host", { length: mm(line.length), along: mm(where.along), over: mm(over) });
    }
    return land(Math.min(line.length, Math.max(0, s)));
  }
  if (where.by === "plane") return landOnPlane(line, where, fail, land);

  const target = resolveNode(where.toward, undefined, around, `${place}.toward`, bar);
  if (!target.at) return { seat: SQUARE, findings: target.findings };
  const found = closestTo(line, target.at);
  const findings: Finding[] = [...target.findings];
  const warn = (code: Finding["code"], values: Finding["values"]): void => {
    findings.push({ code, place, bar, values: { host: barQuantity(node.on), ...values } });
  };
  if (found.tie !== undefined) warn("toward-tie", { first: mm(found.s), second: mm(found.tie) });
  if (found.s <= SAME_PLACE) warn("toward-end", { end: text("A") });
  else if (found.s >= line.length - SAME_PLACE) warn("toward-end", { end: text("B") });
  return land(found.s, findings);
}

const AXES = { x: 0, y: 1, z: 2 } as const;
/** The coordinate that a side is the greatest (+) or least (−) of. */
const SIDES: Readonly<Record<Side, readonly [0 | 1 | 2, 1 | -1]>> = {
  left: [1, 1],
  right: [1, -1],
  front: [0, 1],
  rear: [0, -1],
  top: [2, 1],
  bottom: [2, -1],
};

function landOnPlane(
  line: Centreline,
  where: Extract<LandingNode["where"], { by: "plane" }>,
  fail: (code: Finding["code"], values: Finding["values"]) => ResolvedNode,
  land: (along: number) => ResolvedNode,
): ResolvedNode {
  const plane = { axis: text(where.axis), value: mm(where.value) };
  const found = crossings(line, AXES[where.axis], where.value);
  if (found.kind === "in-plane") return fail("crossing-in-plane", plane);
  const { at } = found;
  if (at.length === 0) return fail("crossing-none", plane);
  const { near } = where;
  if (near === undefined) {
    return at.length === 1 ? land(at[0]!) : fail("crossing-several", { ...plane, count: count(at.length) });
  }
  const order = (s: number): number => {
    const p = placeAt(line, s).at;
    return typeof near === "string" ? -SIDES[near][1] * p[SIDES[near][0]] : dist(p, near);
  };
  const ranked = at.map((s) => ({ s, by: order(s) })).sort((a, b) => a.by - b.by);
  const [first, second] = ranked;
  if (second && second.by - first!.by <= SAME_PLACE) {
    return fail("crossing-tie", { ...plane, near: nearQuantity(near) });
  }
  return land(first!.s);
}

const nearQuantity = (near: Side | Place): Quantity =>
  typeof near === "string" ? phrase("side", { side: text(near) }) : placeQuantity(near);
