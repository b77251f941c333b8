// biome-ignore-all lint/style/noNonNullAssertion: names were checked when the job was read; a path has two nodes at least, each with its seat.
import { centrelineOf, reversed } from "../bar/index.ts";
import { bar as barQuantity, type Finding, isError } from "../findings/index.ts";
import type { Job, JobBar, PathBar } from "../job/types.ts";
import { LEAST_BEND, rad, SAME_PLACE } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { halfExtent } from "../tube/index.ts";
import { followCorners, followDepartures } from "./follow.ts";
import { placingOf } from "./kinds/index.ts";
import type { LaidOut, ResolvedBar, Seat } from "./types.ts";

/** The bars that must have a place before `bar` can have one. */
export function needs(bar: JobBar): string[] {
  if (bar.kind === "mirror") return [bar.mirrorOf];
  return [
    ...bar.path.flatMap((node) => placingOf(node).hosts?.(node) ?? []),
    ...(bar.follow ? [bar.follow.bar] : []),
  ];
}

/** Corners that turn less (radians) are left out where they can be: no shop makes one truer than its angles. */
export const leastBend = (job: Job): number => Math.max(LEAST_BEND, rad(job.shop.errors.angle));

/** A bar that is described by its path, laid through it. `turned`: the bar that it follows is read from its end B. */
export function layPath(
  id: string,
  bar: PathBar,
  job: Job,
  hosts: (id: string) => ResolvedBar | undefined,
  turned = false,
): LaidOut {
  const findings: Finding[] = [];
  const places: Vec[] = [];
  const seats: Seat[] = [];
  let before: Vec | undefined;
  const tube = job.tubes[bar.tube]!;
  bar.path.forEach((node, i) => {
    const around = { job, hosts, place: `bars.${id}.path[${i}]`, bar: id, before };
    const found = placingOf(node).resolve(node, around);
    findings.push(...found.findings);
    seats.push(found.seat);
    before = found.at;
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
        values: { host: barQuantity(bar.follow.bar) },
      });
    } else {
      const host = turned ? { ...followed, centreline: reversed(followed.centreline) } : followed;
      const run = followCorners(bar.follow, halfExtent(tube), host, place, id);
      findings.push(...run.findings);
      const last = places.pop();
      // A run that begins or ends where the bar does adds no corner there.
      const corner = (c: Vec): boolean => ![places[0], last].some((p) => p && dist(p, c) <= SAME_PLACE);
      places.push(...run.corners.filter(corner), ...(last ? [last] : []));
    }
  }
  if (findings.some(isError)) return { id, findings };

  const die = bar.die === undefined ? undefined : job.dies[bar.die]!;
  const built = centrelineOf(places, die?.clr, { bar: id, place: `bars.${id}.path` }, leastBend(job));
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
  if (bar.follow && followed) {
    const limits = { place: `bars.${id}.follow`, shopGap: job.shop.gap };
    findings.push(...followDepartures(bar.follow, resolved, followed, limits));
  }
  return { id, bar: resolved, findings };
}
