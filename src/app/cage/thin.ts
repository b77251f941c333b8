import type { Cover, Lying } from "./cover.ts";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface At {
  readonly x: number;
  readonly y: number;
}

/** Where a name points at, with which share of the way along what it names that is. */
export interface Anchor extends At {
  readonly share: number;
  /** How far what is named reaches round it (CSS pixels). */
  readonly reach: number;
}

/** A name that wants room in the picture; lengths are CSS pixels, x to the right and y down. */
export interface Wanted {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  /** Where it may point at, the best first. */
  readonly anchors: readonly Anchor[];
  /** How far from what it names the name begins, the least first. */
  readonly off: readonly number[];
  /** Lesser ones come first; of the same rank, those nearer to the eye. */
  readonly rank: number;
  readonly depth: number;
  /** What it is not to lie on, were that hidden: what it names. */
  readonly own: readonly Lying[];
  /** It is rather left out than placed worse than this (pixels of leader); Infinity: shown wherever there is room at all. */
  readonly worst: number;
  /** Where it was, so that it stays where it is not much worse. */
  readonly before?: Choice;
}

/** What a name points at, and where its upper left corner lies from there. */
export interface Choice {
  readonly share: number;
  readonly dx: number;
  readonly dy: number;
}

export interface Placed extends Choice {
  readonly anchor: At;
  readonly box: Box;
}

/** Names are apart by this much. */
const GAP = 3;
/** A cell of bars under a name is as bad as so many pixels of leader; a name that stays where it was is worth so many. */
const COVERED = 9;
const STAYS = 60;
/** A name on what it names is the worst of all. */
const ON_ITSELF = 5000;
/**
 * Which names are shown, and where: wholly in the picture, on no other, on no other's leader and on none of the boxes
 * that are taken; beside what they name, with short leaders, and rather on the ground than on bars.
 */
export function thinned(
  wanted: readonly Wanted[],
  size: readonly [number, number],
  taken: readonly Box[],
  cover: Cover,
  most = Infinity,
): ReadonlyMap<string, Placed> {
  const shown = new Map<string, Placed>();
  const full = [...taken];
  const leaders: (readonly [At, At])[] = [];
  for (const name of inOrder(wanted)) {
    if (shown.size >= most) break;
    const free = (box: Box, anchor: At): boolean =>
      isFree(box, size, full) &&
      !leaders.some(([a, b]) => crosses(a, b, box)) &&
      ![...shown.values()].some((other) => crosses(anchor, endOf(anchor, box), other.box));
    const best = bestOf(name, cover, free);
    if (!best) continue;
    full.push(best.box);
    leaders.push([best.anchor, endOf(best.anchor, best.box)]);
    shown.set(name.id, best);
  }
  return shown;
}

export const inOrder = <T extends { readonly rank: number; readonly depth: number; readonly id: string }>(
  all: readonly T[],
): T[] => all.toSorted((a, b) => a.rank - b.rank || a.depth - b.depth || (a.id < b.id ? -1 : 1));

/** Wholly in the picture, and on none of these. */
export const isFree = (box: Box, [width, height]: readonly [number, number], full: readonly Box[]): boolean =>
  box.x >= GAP &&
  box.y >= GAP &&
  box.x + box.width <= width - GAP &&
  box.y + box.height <= height - GAP &&
  !full.some((other) => overlap(box, other));

/** Where a leader from a place ends: the nearest place of the name. */
export const endOf = ({ x, y }: At, box: Box): At => ({
  x: Math.min(box.x + box.width, Math.max(box.x, x)),
  y: Math.min(box.y + box.height, Math.max(box.y, y)),
});

function bestOf(name: Wanted, cover: Cover, free: (box: Box, anchor: At) => boolean): Placed | undefined {
  let best: Placed | undefined;
  let least = name.worst;
  const weigh = (anchor: Anchor, { x, y }: At, cost: number): void => {
    if (cost >= least) return;
    const box = { x, y, width: name.width, height: name.height };
    const whole = cost + COVERED * cover.under(box) + (liesOn(box, name.own) ? ON_ITSELF : 0);
    if (whole >= least || !free(box, anchor)) return;
    least = whole;
    best = { share: anchor.share, dx: x - anchor.x, dy: y - anchor.y, anchor, box };
  };
  const { before, anchors } = name;
  const kept = before && anchors.find((a) => Math.abs(a.share - before.share) < 1e-9);
  if (before && kept) weigh(kept, { x: kept.x + before.dx, y: kept.y + before.dy }, -STAYS);
  for (const off of name.off) {
    anchors.forEach((anchor, i) => {
      for (const [spot, more] of around(anchor, name, anchor.reach + off))
        weigh(anchor, spot, off + 3 * i + more);
    });
  }
  return best;
}

/** Right and left, above and below of a place and between these, this far from it; some look better than others. */
function around(
  { x, y }: At,
  { width: w, height: h }: Pick<Box, "width" | "height">,
  off: number,
): readonly (readonly [At, number])[] {
  const slant = off * Math.SQRT1_2;
  return [
    [{ x: x + off, y: y - h / 2 }, 0],
    [{ x: x - off - w, y: y - h / 2 }, 2],
    [{ x: x + slant, y: y - slant - h }, 0],
    [{ x: x - slant - w, y: y - slant - h }, 2],
    [{ x: x + slant, y: y + slant }, 2],
    [{ x: x - slant - w, y: y + slant }, 4],
    [{ x: x - w / 2, y: y - off - h }, 4],
    [{ x: x - w / 2, y: y + off }, 4],
  ];
}

export const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width + GAP &&
  b.x < a.x + a.width + GAP &&
  a.y < b.y + b.height + GAP &&
  b.y < a.y + a.height + GAP;

function liesOn({ x, y, width, height }: Box, line: readonly Lying[]): boolean {
  return line.some((a, i) => {
    const b = line[i + 1] ?? a;
    const reach = Math.max(a.reach, b.reach);
    return crosses(a, b, {
      x: x - reach,
      y: y - reach,
      width: width + 2 * reach,
      height: height + 2 * reach,
    });
  });
}

/** Whether a line from a to b comes to a box. */
export const crosses = (a: At, b: At, box: Box): boolean =>
  within(
    a,
    b,
    { x: box.x - GAP, y: box.y - GAP },
    { x: box.x + box.width + GAP, y: box.y + box.height + GAP },
  ) !== undefined;

/** Which part of the line from a to b (0 to 1) is within a box, given by its corners; undefined: none. */
export function within(a: At, b: At, low: At, high: At): readonly [number, number] | undefined {
  let from = 0;
  let to = 1;
  for (const axis of ["x", "y"] as const) {
    const span = b[axis] - a[axis];
    if (Math.abs(span) < 1e-9) {
      if (a[axis] < low[axis] || a[axis] > high[axis]) return undefined;
      continue;
    }
    const [u, v] = [(low[axis] - a[axis]) / span, (high[axis] - a[axis]) / span];
    from = Math.max(from, Math.min(u, v));
    to = Math.min(to, Math.max(u, v));
  }
  return from <= to ? [from, to] : undefined;
}
