import type { BarOf, Die, End, JobOf, Node, Tube } from "./job.ts";
import { closestOn, crossingsOf, type Line, lineThrough, mirrorLine, placeOn } from "./line.ts";
import { across, apart, flipped, go, inner, minus, outer, plus, spun, times, toOne, type V } from "./vec.ts";

export type SeatOf =
  | { kind: "square" }
  | { kind: "plate"; plate: string; at: V; normal: V }
  | { kind: "on"; hosts: string[]; along: number; off: V };

export interface Laid {
  id: string;
  own: BarOf;
  tube: Tube;
  die?: Die;
  line: Line;
  seat: Record<End, SeatOf>;
  trim: Record<End, number>;
  fromEnd: End;
  /** Where a follower's gap departs from the one asked for, by corner. */
  departs: { corner: number; gap: number }[];
  /** Landings by `toward` that fall on a host's end. */
  towardEnd: { end: End; hostEnd: End; host: string }[];
}

/** Every bar of the job in the car, hosts before what lands on them (job-file.md). */
export function layJob(job: JobOf): Map<string, Laid> {
  const done = new Map<string, Laid>();
  const busy = new Set<string>();
  const lay = (id: string): Laid => {
    const ready = done.get(id);
    if (ready) return ready;
    if (busy.has(id)) throw new Error(`${id} lands on itself`);
    busy.add(id);
    const own = job.bars[id]!;
    const laid = own.mirrorOf === undefined ? layPath(id, own, job, lay) : layMirror(id, own, job, lay);
    done.set(id, laid);
    return laid;
  };
  for (const id of Object.keys(job.bars)) lay(id);
  return new Map(Object.keys(job.bars).map((id) => [id, done.get(id)!]));
}

const SIDE: Record<string, [0 | 1 | 2, 1 | -1]> = {
  left: [1, 1],
  right: [1, -1],
  front: [0, 1],
  rear: [0, -1],
  top: [2, 1],
  bottom: [2, -1],
};

interface Found {
  at: V;
  seat: SeatOf;
  towardEnd?: End;
}

function find(node: Node, before: V | undefined, job: JobOf, lay: (id: string) => Laid): Found {
  switch (node.kind) {
    case "at":
      return { at: node.at, seat: { kind: "square" } };
    case "point":
      return { at: plus(job.points[node.point]!, node.by), seat: { kind: "square" } };
    case "step":
      return { at: plus(before!, node.step), seat: { kind: "square" } };
    case "plate": {
      const { at, normal } = job.plates[node.plate]!;
      return { at, seat: { kind: "plate", plate: node.plate, at, normal } };
    }
    case "on": {
      const { line } = lay(node.on);
      const s = stationOf(node, line, job, lay);
      const at = plus(placeOn(line, s).at, node.off);
      const near = node.toward && (s < 0.001 ? "A" : s > line.length - 0.001 ? "B" : undefined);
      return {
        at,
        seat: { kind: "on", hosts: [node.on, ...node.also], along: s, off: node.off },
        ...(near ? { towardEnd: near } : {}),
      };
    }
  }
}

function stationOf(
  node: Extract<Node, { kind: "on" }>,
  line: Line,
  job: JobOf,
  lay: (id: string) => Laid,
): number {
  if (node.along !== undefined) return node.along < 0 ? line.length + node.along : node.along;
  if (node.toward) return closestOn(line, find(node.toward, undefined, job, lay).at).s;
  const found = crossingsOf(line, node.axis!, node.value!);
  const rank = (s: number): number => {
    const { at } = placeOn(line, s);
    if (node.near === undefined) return 0;
    if (typeof node.near !== "string") return apart(at, node.near);
    const [axis, sign] = SIDE[node.near]!;
    return -sign * at[axis];
  };
  return found.reduce((a, b) => (rank(b) < rank(a) ? b : a));
}

function layPath(id: string, own: BarOf, job: JobOf, lay: (id: string) => Laid): Laid {
  const found: Found[] = [];
  for (const node of own.path) found.push(find(node, found[found.length - 1]?.at, job, lay));
  const places = found.map((f) => f.at);
  const tube = job.tubes[own.tube]!;
  const host = own.follow && lay(own.follow.bar);
  if (own.follow && host) {
    const last = places.pop()!;
    const corners = followed(own.follow, host, tube.od / 2);
    places.push(...corners.filter((c) => apart(c, places[0]!) > 0.001 && apart(c, last) > 0.001), last);
  }
  const die = own.die === undefined ? undefined : job.dies[own.die]!;
  const line = lineThrough(places, die?.clr ?? 0);
  const trim = { A: own.trim.A ?? job.trim, B: own.trim.B ?? job.trim };
  const [a, b] = [found[0]!, found[found.length - 1]!];
  return {
    id,
    own,
    tube,
    ...(die ? { die } : {}),
    line,
    seat: { A: a.seat, B: b.seat },
    trim,
    fromEnd: own.fromEnd ?? "A",
    departs: own.follow && host ? departures(own.follow.gap, line, tube, host) : [],
    towardEnd: (
      [
        ["A", a],
        ["B", b],
      ] as const
    ).flatMap(([end, f]) =>
      f.towardEnd && f.seat.kind === "on" ? [{ end, hostEnd: f.towardEnd, host: f.seat.hosts[0]! }] : [],
    ),
  };
}

/** Corners of a follower: on the host's centreline offset by D = gap + both radii, toward the side asked for. */
function followed(follow: NonNullable<BarOf["follow"]>, host: Laid, radius: number): V[] {
  const { line } = host;
  const D = follow.gap + host.tube.od / 2 + radius;
  const station = (s: number | undefined): number | undefined =>
    s !== undefined && s < 0 ? line.length + s : s;
  const [from, to] = [station(follow.from), station(follow.to)];
  const swap = from !== undefined && to !== undefined && from > to;
  const [low, high] = swap ? [to, from] : [from, to];
  const legs = line.parts.filter((p) => p.kind === "straight");
  const leg = (s: number): number => line.bends.filter((b) => s >= (b.start + b.end) / 2).length;
  const first = leg(low ?? 0);
  const last = leg(high ?? line.length);
  let w = sideOf(follow.side, line, first, last, ((low ?? 0) + (high ?? line.length)) / 2);
  const beside = (s: number, n: number): V => {
    const { from: o, dir } = legs[n]!;
    return go(go(o, dir, inner(minus(placeOn(line, s).at, o), dir)), w, D);
  };
  const corners: V[] = low === undefined ? [] : [beside(low, first)];
  for (const bend of line.bends.slice(first, last)) {
    // the offset lines of both legs meet in the bend's plane; its part along the normal stays
    const next = spun(w, bend.normal, bend.angle);
    const h = inner(w, bend.normal);
    const [a, b] = [across(w, bend.normal), across(next, bend.normal)];
    const mitre = times(plus(a, b), 1 / (1 + Math.cos(bend.angle)));
    corners.push(go(bend.corner, plus(mitre, times(bend.normal, h)), D));
    w = next;
  }
  if (high !== undefined) corners.push(beside(high, last));
  return swap ? corners.reverse() : corners;
}

function sideOf(side: string | V, line: Line, first: number, last: number, middle: number): V {
  const { dir } = line.parts[2 * first]!;
  if (typeof side !== "string") return toOne(across(side, dir));
  const near = (i: number): number => Math.abs((line.bends[i]!.start + line.bends[i]!.end) / 2 - middle);
  const of = last > first ? [first] : [first - 1, first].filter((i) => line.bends[i]);
  const bend = line.bends[of.reduce((a, b) => (near(b) < near(a) ? b : a))]!;
  const inside = toOne(outer(bend.normal, dir));
  return side === "inside" ? inside : times(inside, -1);
}

function departures(gap: number, line: Line, tube: Tube, host: Laid): Laid["departs"] {
  return line.bends.flatMap((bend) => {
    const near = closestOn(host.line, placeOn(line, (bend.start + bend.end) / 2).at);
    const is = near.d - host.tube.od / 2 - tube.od / 2;
    const beside = host.line.bends.some((b) => near.s > b.start && near.s < b.end);
    return beside && Math.abs(is - gap) > 0.001 ? [{ corner: bend.n, gap: is }] : [];
  });
}

/** The mirror image about y = 0 (job-file.md, `mirrorOf`). */
function layMirror(id: string, own: BarOf, job: JobOf, lay: (id: string) => Laid): Laid {
  const of = lay(own.mirrorOf!);
  const twin = (host: string): string | undefined =>
    job.bars[host]!.mirrorOf ?? Object.keys(job.bars).find((b) => job.bars[b]!.mirrorOf === host);
  const seat = (end: End): SeatOf => {
    const s = of.seat[end];
    if (s.kind === "square") return s;
    if (s.kind === "plate") return { ...s, at: flipped(s.at), normal: flipped(s.normal) };
    const [host, ...also] = s.hosts;
    const other = twin(host!);
    const hostLine = lay(host!).line;
    if (other !== undefined) lay(other);
    const along =
      other === undefined ? closestOn(hostLine, flipped(placeOn(hostLine, s.along).at)).s : s.along;
    return {
      kind: "on",
      hosts: [other ?? host!, ...also.map((h) => twin(h) ?? h)],
      along,
      off: flipped(s.off),
    };
  };
  const own2 = job.bars[id]!;
  return {
    ...of,
    id,
    own: own2,
    line: mirrorLine(of.line),
    seat: { A: seat("A"), B: seat("B") },
    trim: { A: own2.trim.A ?? job.trim, B: own2.trim.B ?? job.trim },
    fromEnd: own2.fromEnd ?? "A",
    departs: [],
    towardEnd: [],
  };
}
