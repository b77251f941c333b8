import { centrelineOf } from "../bar/index.ts";
import { type Finding, isError, text } from "../findings/index.ts";
import type { Job, JobBar, PathBar, PathNode } from "../job/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { followCorners, followDepartures } from "./follow.ts";
import { mirrorBar, twinsOf } from "./mirror.ts";
import { resolveNode } from "./nodes.ts";
import type { LaidOut, Layout, ResolvedBar, Seat } from "./types.ts";

/** The bars that a node's place is computed from. */
function nodeHosts(node: PathNode): string[] {
  if (node.kind !== "on") return [];
  return [node.on, ...(node.where.by === "toward" ? nodeHosts(node.where.toward) : [])];
}

/** The bars that must have a place before `bar` can have one. */
function needs(bar: JobBar): string[] {
  if (bar.kind === "mirror") return [bar.mirrorOf];
  return [...bar.path.flatMap(nodeHosts), ...(bar.follow ? [bar.follow.bar] : [])];
}

/** IDs so that what a bar needs stands before it. The job was checked for circles when it was read. */
function landingOrder(job: Job): string[] {
  const order: string[] = [];
  const seen = new Set<string>();
  // An explicit stack: a chain of thousands of bars, each on the one before, must not exhaust the call stack.
  for (const root of Object.keys(job.bars)) {
    const stack: { id: string; left: string[] }[] = [];
    const enter = (id: string): void => {
      if (seen.has(id)) return;
      seen.add(id);
      stack.push({ id, left: needs(job.bars[id]!) });
    };
    enter(root);
    while (stack.length > 0) {
      const top = stack[stack.length - 1]!;
      const next = top.left.pop();
      if (next !== undefined) enter(next);
      else order.push(stack.pop()!.id);
    }
  }
  return order;
}

/**
 * Every bar of a job with its place in the car (mm, car axes), in the job's order; what has no geometry has findings.
 * Given the layout before an edit, a bar whose own description and hosts did not change keeps its identity.
 */
export function layOut(job: Job, before?: Layout): Layout {
  const byId = new Map<string, ResolvedBar>();
  const done = new Map<string, LaidOut>();
  const old = new Map(before?.bars.map((b) => [b.id, b]));
  const order = landingOrder(job);
  const hosts = (id: string): ResolvedBar | undefined => byId.get(id);
  const twins = twinsOf(job);
  for (const id of order) {
    const basis = basisOf(id, job, twins, hosts);
    const kept = old.get(id);
    const same = kept?.basis && sameBasis(kept.basis, basis);
    const laid = same ? kept : { ...layOne(id, job, twins, hosts), basis };
    done.set(id, laid);
    if (laid.bar) byId.set(id, laid.bar);
  }
  return { bars: Object.keys(job.bars).map((id) => done.get(id)!), byId, order };
}

function basisOf(
  id: string,
  job: Job,
  twins: ReadonlyMap<string, string>,
  hosts: (id: string) => ResolvedBar | undefined,
): NonNullable<LaidOut["basis"]> {
  const bar = job.bars[id]!;
  const nodes = bar.kind === "path" ? bar.path.flatMap(withTargets) : [];
  const used = {
    bar,
    trim: job.shop.trim,
    tube: bar.kind === "path" ? job.tubes[bar.tube] : undefined,
    die: bar.kind === "path" && bar.die !== undefined ? job.dies[bar.die] : undefined,
    plates: nodes.map((n) => (n.kind === "plate" ? job.plates[n.plate] : undefined)),
    points: nodes.map((n) => (n.kind === "point" ? job.points[n.point] : undefined)),
  };
  const on = needs(bar);
  if (bar.kind === "mirror") {
    // Who its hosts are also hangs on which bars of the job are twins.
    const original = hosts(bar.mirrorOf);
    const seats = original ? [original.seat.A, original.seat.B] : [];
    const far = seats.flatMap((s) => (s.kind === "on" ? s.hosts : []));
    return {
      text: JSON.stringify([used, far.map((h) => twins.get(h) ?? "")]),
      hosts: [...on, ...far].map(hosts),
    };
  }
  return { text: JSON.stringify(used), hosts: on.map(hosts) };
}

const withTargets = (node: PathNode): PathNode[] =>
  node.kind === "on" && node.where.by === "toward" ? [node, ...withTargets(node.where.toward)] : [node];

const sameBasis = (a: NonNullable<LaidOut["basis"]>, b: NonNullable<LaidOut["basis"]>): boolean =>
  a.text === b.text && a.hosts.length === b.hosts.length && a.hosts.every((h, i) => h === b.hosts[i]);

function layOne(
  id: string,
  job: Job,
  twins: ReadonlyMap<string, string>,
  hosts: (id: string) => ResolvedBar | undefined,
): LaidOut {
  const bar = job.bars[id]!;
  if (bar.kind === "path") return layPath(id, bar, job, hosts);
  const original = hosts(bar.mirrorOf);
  if (original) return mirrorBar(id, bar, original, twins, hosts);
  const values = { host: text(bar.mirrorOf) };
  return {
    id,
    findings: [{ code: "host-without-geometry", place: `bars.${id}.mirrorOf`, bar: id, values }],
  };
}

function layPath(
  id: string,
  bar: PathBar,
  job: Job,
  hosts: (id: string) => ResolvedBar | undefined,
): LaidOut {
  const findings: Finding[] = [];
  const places: Vec[] = [];
  const seats: Seat[] = [];
  let before: Vec | undefined;
  const tube = job.tubes[bar.tube]!;
  bar.path.forEach((node, i) => {
    const found = resolveNode(node, before, { job, hosts }, `bars.${id}.path[${i}]`, id);
    findings.push(...found.findings);
    seats.push(found.seat);
    before = found.at ?? before;
    if (found.at) places.push(found.at);
  });
  const followed = bar.follow && hosts(bar.follow.bar);
  if (bar.follow) {
    const place = `bars.${id}.follow`;
    if (!followed) {
      findings.push({
        code: "host-without-geometry",
        place,
        bar: id,
        values: { host: text(bar.follow.bar) },
      });
    } else {
      const run = followCorners(bar.follow, tube.od / 2, followed, place, id);
      findings.push(...run.findings);
      const last = places.pop();
      // A run that begins or ends where the bar does adds no corner there.
      const corner = (c: Vec): boolean => ![places[0], last].some((p) => p && dist(p, c) <= SAME_PLACE);
      places.push(...run.corners.filter(corner), ...(last ? [last] : []));
    }
  }
  if (findings.some(isError)) return { id, findings };

  const die = bar.die === undefined ? undefined : job.dies[bar.die]!;
  const built = centrelineOf(places, die?.clr, { bar: id, place: `bars.${id}.path` });
  if (!built.ok) return { id, findings: [...findings, ...built.findings] };
  const resolved: ResolvedBar = {
    id,
    label: bar.label,
    tubeId: bar.tube,
    tube,
    ...(bar.die !== undefined && die ? { dieId: bar.die, die } : {}),
    centreline: built.centreline,
    seat: { A: seats[0]!, B: seats[seats.length - 1]! },
    trim: { A: bar.trim.A ?? job.shop.trim, B: bar.trim.B ?? job.shop.trim },
    fromEnd: bar.fromEnd,
    dependsOn: [...new Set([...needs(bar), ...seats.flatMap((s) => (s.kind === "on" ? s.hosts : []))])],
  };
  if (bar.follow && followed)
    findings.push(...followDepartures(bar.follow, resolved, followed, `bars.${id}.follow`));
  return { id, bar: resolved, findings };
}
