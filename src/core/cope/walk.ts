import { GRAZE, ROOT } from "../numeric/index.ts";
import { type Host, hostClearance, type Part } from "./host.ts";
import { type Meet, meetOf, meetWall } from "./meet.ts";
import { type EndPath, wallAt, wallLine } from "./path.ts";

/** A part of a host, and how straight lines meet it. */
interface MetPart extends Part {
  readonly meet: Meet;
}

/** Hosts made ready to be met by many lines. */
export type MetHosts = readonly (readonly MetPart[])[];

export const readyToMeet = (hosts: readonly Host[]): MetHosts =>
  hosts.map((host) => host.map((part) => ({ ...part, meet: meetOf(part.piece) })));

/**
 * Back (mm) at which the wall line at (x, y) across the tube first meets the hosts, coming from back `from` down to
 * `to`; NaN where it misses them. Straights are met in closed form, bends by the safe march.
 */
export function firstBack(
  hosts: MetHosts,
  path: EndPath,
  x: number,
  y: number,
  from: number,
  to: number,
): number {
  let met = Number.NaN;
  let i = 0;
  while (i + 1 < path.length && from > path[i]!.b1) i++;
  for (; i >= 0 && Number.isNaN(met); i--) {
    const inner = Math.min(from, path[i]!.b1);
    for (const host of hosts) {
      met = further(met, meetHost(host, path, i, x, y, inner, to));
    }
  }
  return met === 0 ? 0 : met;
}

/** Of two backs that which is met first, coming from inside; NaN is none. */
const further = (a: number, b: number): number => (b <= a || Number.isNaN(b) ? a : b);

/** The same for one host, from back `inner` on piece i of the path. */
function meetHost(
  host: MetHosts[number],
  path: EndPath,
  i: number,
  x: number,
  y: number,
  inner: number,
  to: number,
): number {
  let met = Number.NaN;
  if (i === 0) {
    for (const part of host) met = further(met, onMetal(part, path, x, y, -part.meet(x, y, -inner, -to), to));
    return met;
  }
  const { b0 } = path[i]!;
  const line = wallLine(path[i]!, x, y);
  for (const part of host) {
    const s = meetWall(part.piece, line, (inner - b0) * line.speed, 0);
    met = further(met, onMetal(part, path, x, y, b0 + s / line.speed, to));
  }
  return met;
}

/** Where a line goes into a part's shape at back `met`: there, or where it comes on to what is not cut off. */
function onMetal(part: Part, path: EndPath, x: number, y: number, met: number, to: number): number {
  if (part.cuts.length === 0 || Number.isNaN(met)) return met;
  const p = wallAt(path, x, y, met);
  return part.cuts.every((cut) => cut(p[0], p[1], p[2]) <= GRAZE) ? met : walkOn(part, path, x, y, met, to);
}

/**
 * From where the line goes into the tube that a host would be, had it not been cut off, on to its metal: by the
 * distance to that, half GRAZE at the least, then halved down to ROOT.
 */
function walkOn(part: Part, path: EndPath, x: number, y: number, from: number, to: number): number {
  const clear = (b: number): number => {
    const p = wallAt(path, x, y, b);
    return hostClearance([part], p[0], p[1], p[2]);
  };
  let outside = from;
  let b = from;
  for (let f = clear(b); f > 0; f = clear(b)) {
    if (b <= to) return Number.NaN;
    outside = b;
    // Half: a wall line on a bend's outside is longer than the centreline, less than twice as long.
    b = Math.max(to, b - Math.max(f / 2, GRAZE / 2));
  }
  let inside = b;
  while (outside - inside > ROOT) {
    const m = (outside + inside) / 2;
    if (clear(m) > 0) outside = m;
    else inside = m;
  }
  return inside;
}
