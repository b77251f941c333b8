import { type Centreline, placeAt } from "../bar/index.ts";
import { bar as barQuantity, degrees, type Finding, mm } from "../findings/index.ts";
import { deg } from "../numeric/index.ts";
import { along, angleBetween, dist, dot, len, sub, unit, type Vec } from "../space/index.ts";
import { halfExtent } from "../tube/index.ts";
import type { ResolvedBar } from "./types.ts";

/**
 * What an angle finder reads (degrees), and beyond what two halves are plainly meant to make a corner. Common practice,
 * no source.
 */
const READ = 0.5;
const CORNER = 8;
/** In line, once moved: less than this share of what they are out now. */
const MENDED = 0.2;
/** The host must be straight between where they land and where they would (mm). */
const STRAIGHT = 0.5;

interface Half {
  readonly bar: ResolvedBar;
  readonly host: ResolvedBar;
  /** Where its far end's straight begins, seen from the host. */
  readonly far: Vec;
  readonly along: number;
}

/**
 * Two halves of a cross that were meant to be one line and are not: they land opposite each other at one place of a
 * bar, make an angle that an angle finder reads but no corner, and would be in line if both landed elsewhere on it.
 * One note a pair, with the angle (degrees) and where on the host both would have to land (mm from its A landing): the
 * place of the host nearest to the line between their far ends.
 */
export function nearlyInLine(bars: Iterable<ResolvedBar>): Finding[] {
  const byId = new Map([...bars].map((bar) => [bar.id, bar]));
  const onHost = new Map<string, Half[]>();
  for (const bar of byId.values()) for (const half of halvesOf(bar, byId)) put(onHost, half);
  const found: Finding[] = [];
  for (const halves of onHost.values()) {
    halves.forEach((one, i) => {
      for (const other of halves.slice(i + 1)) found.push(...ofTwo(one, other));
    });
  }
  return found;
}

function put(onHost: Map<string, Half[]>, half: Half): void {
  const there = onHost.get(half.host.id);
  if (there) there.push(half);
  else onHost.set(half.host.id, [half]);
}

function halvesOf(bar: ResolvedBar, byId: ReadonlyMap<string, ResolvedBar>): Half[] {
  return (["A", "B"] as const).flatMap((end): Half[] => {
    const seat = bar.seat[end];
    if (seat.kind !== "on" || len(seat.off) > 1e-6) return [];
    const host = byId.get(seat.hosts[0] ?? "");
    return host ? [{ bar, host, far: farOf(bar.centreline, end), along: seat.along }] : [];
  });
}

/** The other end of the straight that this end is at. */
function farOf(line: Centreline, end: "A" | "B"): Vec {
  const s = end === "A" ? (line.bends[0]?.start ?? line.length) : line.length - line.lastStraight;
  return placeAt(line, s).at;
}

function ofTwo(one: Half, other: Half): Finding[] {
  const { host } = one;
  if (one.bar === other.bar || Math.abs(one.along - other.along) > halfExtent(host.tube)) return [];
  const out = outOf(one, other, one.along, other.along);
  if (out < READ || out > CORNER) return [];
  const to = lined(one, other);
  if (to === undefined || outOf(one, other, to, to) > MENDED * out) return [];
  return [
    {
      code: "nearly-in-line",
      place: `bars.${one.bar.id}`,
      bar: one.bar.id,
      values: {
        bar: barQuantity(one.bar.id),
        other: barQuantity(other.bar.id),
        host: barQuantity(host.id),
        angle: degrees(out),
        along: mm(to),
      },
    },
  ];
}

/** How far they are from one line (degrees), landing there. */
function outOf(one: Half, other: Half, a: number, b: number): number {
  const line = one.host.centreline;
  return deg(angleBetween(sub(placeAt(line, a).at, one.far), sub(other.far, placeAt(line, b).at)));
}

/** Where the host comes nearest to the line between their far ends; undefined where it bends on the way there. */
function lined(one: Half, other: Half): number | undefined {
  const line = one.host.centreline;
  const here = placeAt(line, one.along);
  const way = unit(sub(other.far, one.far));
  const w = sub(here.at, one.far);
  const c = dot(here.dir, way);
  // Along the line there is no nearest place.
  if (1 - c * c < 1e-3) return undefined;
  const t = (c * dot(way, w) - dot(here.dir, w)) / (1 - c * c);
  const to = one.along + t;
  if (to < 0 || to > line.length) return undefined;
  return dist(placeAt(line, to).at, along(here.at, here.dir, t)) < STRAIGHT ? to : undefined;
}
