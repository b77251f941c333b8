// biome-ignore-all lint/style/noNonNullAssertion: a path has one piece at least, and i is checked against its length before it is raised.
import { GRAZE, ROOT } from "../numeric/index.ts";
import { type Host, hostClearance, type Part } from "./host.ts";
import { type Meet, meetOf, meetWall, type Ray } from "./meet.ts";
import { type EndPath, wallAt, wallLine } from "./path.ts";

/** A part of a host, and how straight lines meet it. */
interface MetPart extends Part {
  readonly meet: Meet;
}

/** The hosts of a joint made ready to be met by the wall lines of an end, from back `from` outward. */
export interface Lines {
  readonly parts: readonly MetPart[];
  readonly path: EndPath;
  readonly from: number;
  /** The line at hand: its place across the tube, and in z1 the end of its march. Numbers in here are not made anew. */
  readonly ray: Ray;
}

export const readyToMeet = (hosts: readonly Host[], path: EndPath, from: number): Lines => ({
  parts: hosts.flat().map((part) => ({ ...part, meet: meetOf(part.piece) })),
  path,
  from,
  ray: { x: 0, y: 0, z0: -Math.min(from, path[0]!.b1), z1: 0, met: Number.NaN },
});

/**
 * Back (mm) at which the wall line in `ray` first meets the hosts; NaN where it misses them. Straights are met in closed
 * form, bends by the safe march; past a bend of the bar itself its own lines are walked.
 */
export function firstBack({ parts, path, from, ray }: Lines): number {
  if (from > path[0]!.b1) {
    let i = 0;
    while (i + 1 < path.length && from > path[i]!.b1) i++;
    for (; i > 0; i--) {
      const met = walkedBack(parts, path, i, ray.x, ray.y, Math.min(from, path[i]!.b1), -ray.z1);
      if (!Number.isNaN(met)) return met;
    }
  }
  let first = Number.NaN;
  for (const part of parts) {
    part.meet(ray);
    const met = part.cuts.length === 0 ? -ray.met : onMetal(part, path, ray.x, ray.y, -ray.met, -ray.z1);
    if (!(met <= first) && !Number.isNaN(met)) first = met;
  }
  return first === 0 ? 0 : first;
}

/** The same on piece i of the path, a bend or what is past one, from back `inner` on. */
function walkedBack(
  parts: readonly MetPart[],
  path: EndPath,
  i: number,
  x: number,
  y: number,
  inner: number,
  to: number,
): number {
  const { b0 } = path[i]!;
  const line = wallLine(path[i]!, x, y);
  let first = Number.NaN;
  for (const part of parts) {
    const s = meetWall(part.piece, line, (inner - b0) * line.speed, 0);
    const met = onMetal(part, path, x, y, b0 + s / line.speed, to);
    if (!(met <= first) && !Number.isNaN(met)) first = met;
  }
  return first;
}

/** Where a line goes into a part's shape at back `met`: there, or where it comes on to what is not cut off. */
function onMetal(part: Part, path: EndPath, x: number, y: number, met: number, to: number): number {
  if (Number.isNaN(met)) return met;
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
