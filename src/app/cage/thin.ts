/** A name that wants room in the picture; lengths are CSS pixels, x to the right and y down. */
export interface Wanted {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  /** Where its upper left corner may lie, the best first. */
  readonly spots: readonly (readonly [x: number, y: number])[];
  /** Lesser ones come first; of the same rank, those nearer to the eye. */
  readonly rank: number;
  readonly depth: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Names are apart by this much. */
const GAP = 3;

/** Which names are shown, and where: wholly in the picture, on no other and on none of the boxes that are taken. */
export function thinned(
  wanted: readonly Wanted[],
  [width, height]: readonly [number, number],
  taken: readonly Box[] = [],
): ReadonlyMap<string, Box> {
  const inOrder = wanted.toSorted((a, b) => a.rank - b.rank || a.depth - b.depth || (a.id < b.id ? -1 : 1));
  const shown = new Map<string, Box>();
  const full = [...taken];
  for (const name of inOrder) {
    const box = name.spots
      .map(([x, y]): Box => ({ x, y, width: name.width, height: name.height }))
      .find((b) => isInside(b, width, height) && !full.some((other) => overlap(b, other)));
    if (!box) continue;
    full.push(box);
    shown.set(name.id, box);
  }
  return shown;
}

const isInside = (b: Box, width: number, height: number): boolean =>
  b.x >= 0 && b.y >= 0 && b.x + b.width <= width && b.y + b.height <= height;

const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width + GAP &&
  b.x < a.x + a.width + GAP &&
  a.y < b.y + b.height + GAP &&
  b.y < a.y + a.height + GAP;

/** Right, left, above and below of a place, this far from it. */
export function around(x: number, y: number, width: number, height: number, off: number): Wanted["spots"] {
  return [
    [x + off, y - height / 2],
    [x - off - width, y - height / 2],
    [x - width / 2, y - off - height],
    [x - width / 2, y + off],
  ];
}
