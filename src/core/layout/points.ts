// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the job's own bars and their checked references, hosts before what lands on them.
import type { Job, PathNode } from "../job/types.ts";
import { placingOf } from "./kinds/index.ts";
import { needsFirst } from "./order.ts";
import { needs } from "./path.ts";

const namedIn = (node: PathNode): readonly string[] => placingOf(node).points?.(node) ?? [];

/** The points that each bar's path names; a mirrored bar's are those of its original. */
export function pointsNamed(job: Job): ReadonlyMap<string, readonly string[]> {
  return new Map(
    Object.entries(job.bars).map(([id, bar]) => {
      const own = bar.kind === "path" ? bar : job.bars[bar.mirrorOf];
      return [id, own?.kind === "path" ? [...new Set(own.path.flatMap(namedIn))] : []];
    }),
  );
}

/** The points that each bar's place hangs on: its own, and those under its hosts, theirs, and so on. */
export function pointsUnder(job: Job): ReadonlyMap<string, ReadonlySet<string>> {
  const named = pointsNamed(job);
  const under = new Map<string, Set<string>>();
  for (const id of needsFirst(Object.keys(job.bars), (bar) => needs(job.bars[bar]!))) {
    const hosts = needs(job.bars[id]!).flatMap((host) => [...under.get(host)!]);
    under.set(id, new Set([...named.get(id)!, ...hosts]));
  }
  return under;
}
