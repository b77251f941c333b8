// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the job's own bars and their checked references, and each is done in turn.
import { bar as barQuantity } from "../findings/index.ts";
import type { Job } from "../job/types.ts";
import { layAsBuilt } from "./asbuilt.ts";
import { sameBasis } from "./basis.ts";
import { placingOf } from "./kinds/index.ts";
import { mirrorBar, twinsOf } from "./mirror.ts";
import { needsFirst } from "./order.ts";
import { layPath, leastBend, needs } from "./path.ts";
import { placesKnown } from "./stands.ts";
import type { LaidOut, Layout, ResolvedBar } from "./types.ts";

/**
 * Every bar of a job with its place in the car (mm, car axes), in the job's order; what has no geometry has findings.
 * Given the layout before an edit, a bar whose own description and hosts did not change keeps its identity.
 * Bars that `asBuilt` knows, or that were tacked, lie where that says, and what lands on them follows: `layAsBuilt`.
 */
export function layOut(job: Job, before?: Layout): Layout {
  const wanted = layWanted(job, before?.wanted ?? before);
  const built = placesKnown(job);
  return Object.keys(built).length > 0 ? layAsBuilt(job, built, wanted, before) : wanted;
}

/** Every bar as it is wanted, whatever was really made. */
function layWanted(job: Job, before?: Layout): Layout {
  const byId = new Map<string, ResolvedBar>();
  const done = new Map<string, LaidOut>();
  const old = new Map(before?.bars.map((b) => [b.id, b]));
  const order = needsFirst(Object.keys(job.bars), (id) => needs(job.bars[id]!));
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
  const nodes = bar.kind === "path" ? bar.path : [];
  const used = {
    bar,
    trim: job.shop.trim,
    least: leastBend(job),
    tube: bar.kind === "path" ? job.tubes[bar.tube] : undefined,
    die: bar.kind === "path" && bar.die !== undefined ? job.dies[bar.die] : undefined,
    // what a follower's note is held against
    gap: bar.kind === "path" && bar.follow ? job.shop.gap : undefined,
    nodes: nodes.flatMap((node) => placingOf(node).from?.(node, job) ?? []),
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
  const values = { host: barQuantity(bar.mirrorOf) };
  return {
    id,
    findings: [{ code: "host-without-geometry", place: `bars.${id}.mirrorOf`, bar: id, values }],
  };
}
