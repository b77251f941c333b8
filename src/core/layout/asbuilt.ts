// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the job's own bars and their checked references, each of which is laid out before what hangs on it; an end that lands has a host first; lists compared entry by entry are as long as each other.
import { type Centreline, centrelineOf, closestTo, placeAt } from "../bar/index.ts";
import type { End, Job } from "../job/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { dist, len, ORIGIN, sub, type Vec } from "../space/index.ts";
import { sizeOf } from "../tube/index.ts";
import { sameBasis } from "./basis.ts";
import { twinsOf } from "./mirror.ts";
import { mirroredPath } from "./mirrored-path.ts";
import { needsFirst } from "./order.ts";
import type { Both } from "./other-side.ts";
import { layPath, leastBend, needs } from "./path.ts";
import type { Standing } from "./stands.ts";
import type { LaidOut, Layout, ResolvedBar, Seat } from "./types.ts";

/**
 * The bars of a job as they stand: those that `asBuilt` knows lie where it says, the rest is laid out anew on them.
 *
 * A bar that hangs on nothing as built, or on what was built within 0.001 mm of what was wanted, keeps its identity
 * from `wanted`. A mirrored bar is the mirror image of what its original was meant to be, not of how that was built:
 * where a host of its own was built, its path is mirrored node by node and laid on that. A landing given by its
 * station keeps the station (a mirrored one from the end on its own side), one given by a plane or a place is sought on the host as built.
 * Units: mm, car axes. A bar as built keeps its tube, die, hosts and (but for `over`) trim; each end lands on its host where it comes
 * closest, with what is between as `off`. Why so: docs/decisions/as-built.md.
 */
export function layAsBuilt(
  job: Job,
  asBuilt: Readonly<Record<string, Standing>>,
  wanted: Layout,
  before?: Layout,
): Layout {
  const twins = twinsOf(job);
  const meant = new Map(wanted.bars.map((b) => [b.id, b]));
  const old = before?.wanted ? new Map(before.bars.map((b) => [b.id, b])) : new Map<string, LaidOut>();
  const done = new Map<string, LaidOut>();
  const byId = new Map<string, ResolvedBar>();
  const hosts = (id: string): ResolvedBar | undefined => byId.get(id);
  const bars: Both = { wanted: (id) => wanted.byId.get(id), built: hosts };
  const order = builtOrder(job, wanted, twins);
  for (const id of order) {
    const plain = meant.get(id)!;
    const on = hangsOn(id, job, plain, twins);
    const built = asBuilt[id];
    const moved = on.some((host) => byId.get(host) !== wanted.byId.get(host));
    let laid = plain;
    if (built || moved) {
      const basis = {
        text: JSON.stringify([plain.basis?.text, built, twins.get(id)]),
        hosts: [plain.bar, ...on.map(hosts)],
      };
      const kept = old.get(id);
      const asBefore = kept?.basis && sameBasis(kept.basis, basis);
      laid = asBefore
        ? kept
        : {
            ...(built ? standing(plain, built, hosts, job) : anew(id, job, plain, twins, bars)),
            basis,
          };
      if (laid.bar && plain.bar && same(laid.bar, plain.bar)) laid = plain;
    }
    done.set(id, laid);
    if (laid.bar) byId.set(id, laid.bar);
  }
  return { bars: Object.keys(job.bars).map((id) => done.get(id)!), byId, order, wanted };
}

/** What a bar's place hangs on here: a mirrored bar on its own hosts, no longer on its original. */
function hangsOn(id: string, job: Job, laid: LaidOut, twins: ReadonlyMap<string, string>): readonly string[] {
  const bar = job.bars[id]!;
  if (bar.kind === "path") return needs(bar);
  const original = job.bars[bar.mirrorOf]!;
  const own = laid.bar
    ? [laid.bar.seat.A, laid.bar.seat.B].flatMap((s) => (s.kind === "on" ? [s.hosts[0]!] : []))
    : [];
  return [...new Set([...own, ...needs(original).map((host) => twins.get(host) ?? host)])].filter(
    (h) => h !== id,
  );
}

/** IDs so that what a bar hangs on comes before it. */
function builtOrder(job: Job, wanted: Layout, twins: ReadonlyMap<string, string>): string[] {
  const laid = new Map(wanted.bars.map((b) => [b.id, b]));
  return needsFirst(wanted.order, (id) => [...hangsOn(id, job, laid.get(id)!, twins)]);
}

/** A bar where it stands. Its bends keep the numbers of the bar as wanted, where it has as many. */
function standing(
  plain: LaidOut,
  built: Standing,
  hosts: (id: string) => ResolvedBar | undefined,
  job: Job,
): LaidOut {
  const { id, bar } = plain;
  if (!bar) return plain;
  const place = job.asBuilt?.[id] ? `asBuilt.${id}.path` : `made.${id}.to`;
  const line = centrelineOf(built.path, built.clr ?? bar.die?.clr, { bar: id, place }, leastBend(job));
  if (!line.ok) return { id, findings: [...plain.findings, ...line.findings] };
  const centreline = numberedAs(line.centreline, bar.centreline);
  const seat = (end: End): Seat => {
    const meant = bar.seat[end];
    const host = meant.kind === "on" ? hosts(meant.hosts[0]!) : undefined;
    if (meant.kind !== "on" || !host) return meant;
    const at = end === "A" ? centreline.start : centreline.finish;
    const { s } = closestTo(host.centreline, at);
    const off = sub(at, placeAt(host.centreline, s).at);
    return { ...meant, along: s, off: len(off) > SAME_PLACE ? off : ORIGIN };
  };
  return {
    id,
    findings: plain.findings,
    bar: {
      ...bar,
      tube: { ...bar.tube, ...built.tube },
      centreline,
      trim: { ...bar.trim, ...built.over },
      seat: { A: seat("A"), B: seat("B") },
    },
  };
}

/** A centreline whose bends are numbered as those of another that has as many; corners left out are then that one's. */
function numberedAs(line: Centreline, like: Centreline): Centreline {
  if (line.bends.length !== like.bends.length || line.small.length > 0) return line;
  return { ...line, bends: line.bends.map((b, i) => ({ ...b, n: like.bends[i]!.n })) };
}

/** Whether a bar stands as it was wanted, at the same stations of its hosts. */
function same(a: ResolvedBar, b: ResolvedBar): boolean {
  const places = ({ centreline: c }: ResolvedBar): readonly Vec[] => [
    c.start,
    ...c.bends.map((x) => x.corner),
    c.finish,
  ];
  const [p, q] = [places(a), places(b)];
  const landed = (end: End): boolean => {
    const [s, t] = [a.seat[end], b.seat[end]];
    return s.kind !== "on" || t.kind !== "on" || Math.abs(s.along - t.along) <= SAME_PLACE;
  };
  const over = (end: End): boolean => Math.abs(a.trim[end] - b.trim[end]) <= SAME_PLACE;
  const [size, other] = [sizeOf(a.tube), sizeOf(b.tube)];
  return (
    over("A") &&
    over("B") &&
    size.od === other.od &&
    size.wall === other.wall &&
    a.centreline.bends.every((x, i) => x.clr === b.centreline.bends[i]?.clr) &&
    p.length === q.length &&
    p.every((at, i) => dist(at, q[i]!) <= SAME_PLACE) &&
    landed("A") &&
    landed("B")
  );
}

/** A bar laid out anew on its hosts as built. */
function anew(id: string, job: Job, plain: LaidOut, twins: ReadonlyMap<string, string>, bars: Both): LaidOut {
  const bar = job.bars[id]!;
  if (bar.kind === "path") return layPath(id, bar, job, bars.built);
  const original = job.bars[bar.mirrorOf]!;
  // Without geometry as wanted there is nothing to say where it lands; its findings stand.
  if (original.kind !== "path" || !plain.bar) return plain;
  const { path, plates, turned } = mirroredPath(bar, original, job, plain.bar, twins, bars);
  const withPlates = { ...job, plates: { ...job.plates, ...plates } };
  const laid = layPath(id, path, withPlates, bars.built, turned);
  if (!laid.bar) return laid;
  const { trim, fromEnd } = plain.bar;
  return {
    ...laid,
    bar: { ...laid.bar, trim, fromEnd, mirrorOf: bar.mirrorOf, dependsOn: plain.bar.dependsOn },
  };
}
