// biome-ignore-all lint/style/noNonNullAssertion: an end that lands has a host first, and hosts have a place before what lands on them.
import { closestTo, mirroredLine, placeAt } from "../bar/index.ts";
import { bar as barQuantity, type Finding, mm } from "../findings/index.ts";
import type { End, Job, MirrorBar } from "../job/types.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { mirrored } from "../space/index.ts";
import { mirroredPlate } from "./kinds/index.ts";
import type { LaidOut, ResolvedBar, Seat } from "./types.ts";

/** Which bar is whose mirror image, both ways. */
export function twinsOf(job: Job): ReadonlyMap<string, string> {
  const twins = new Map<string, string>();
  for (const [id, bar] of Object.entries(job.bars)) {
    if (bar.kind !== "mirror") continue;
    twins.set(id, bar.mirrorOf);
    if (!twins.has(bar.mirrorOf)) twins.set(bar.mirrorOf, id);
  }
  return twins;
}

/**
 * A bar mirrored about the car's centre plane y = 0. A stays A; places, offsets, plates and hosts are mirrored.
 * The host is the original host's twin; else the same host, where the mirrored landing lies on its centreline within
 * 0.001 mm (then s becomes L − s, found as the closest station); else the bar has no geometry.
 */
export function mirrorBar(
  id: string,
  bar: MirrorBar,
  original: ResolvedBar,
  twins: ReadonlyMap<string, string>,
  hosts: (id: string) => ResolvedBar | undefined,
): LaidOut {
  const findings: Finding[] = [];
  const dependsOn = new Set([original.id]);
  const hostFor = (host: string, along: number, end: End): { id: string; along: number } => {
    const twin = twins.get(host);
    if (twin !== undefined) return { id: twin, along };
    const line = hosts(host)!.centreline;
    const found = closestTo(line, mirrored(placeAt(line, along).at));
    if (found.distance > SAME_PLACE) {
      const values = { host: barQuantity(host), off: mm(found.distance) };
      findings.push({ code: "mirror-host", place: `bars.${id}.mirrorOf (end ${end})`, bar: id, values });
    }
    return { id: host, along: found.s };
  };
  const seat = (end: End): Seat => {
    const from = original.seat[end];
    if (from.kind === "square") return from;
    if (from.kind === "plate") return { ...from, ...mirroredPlate(from) };
    const [host, ...also] = from.hosts;
    const landing = hostFor(host!, from.along, end);
    const crowd = also.map((other) => {
      const line = hosts(other)?.centreline;
      const at = placeAt(hosts(host!)!.centreline, from.along).at;
      return hostFor(other, line ? closestTo(line, at).s : 0, end).id;
    });
    for (const used of [landing.id, ...crowd]) dependsOn.add(used);
    return { kind: "on", hosts: [landing.id, ...crowd], along: landing.along, off: mirrored(from.off) };
  };
  const seats = { A: seat("A"), B: seat("B") };
  if (findings.length > 0) return { id, findings };
  dependsOn.delete(id);
  return {
    id,
    findings,
    bar: {
      ...original,
      id,
      label: bar.label,
      centreline: mirroredLine(original.centreline, mirrored),
      seat: seats,
      trim: { ...original.trim, ...bar.trim },
      fromEnd: bar.fromEnd ?? original.fromEnd,
      mirrorOf: original.id,
      dependsOn: [...dependsOn],
    },
  };
}
