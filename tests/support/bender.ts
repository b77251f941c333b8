import { placeAt } from "../../src/core/bar/index.ts";
import type { Hand, Turn } from "../../src/core/bend/index.ts";
import type { ResolvedBar } from "../../src/core/layout/types.ts";
import { turn, type Vec } from "../../src/core/space/index.ts";

/**
 * A bender that does what its card says, as a slow twin of the turns: x points from the operator along the tube to
 * the die, y to the operator's left, z up. The tube lies along x with the end fed first ahead; a bend swings what
 * is ahead about the die's upright axis; a turn turns everything about x.
 */
export interface Bent {
  /** Centreline at the stations asked for, in the bender's axes, when all bends are made. */
  readonly points: readonly Vec[];
  /** Which way the leg ahead of the bend made last points at each turn, once turned. */
  readonly pointing: readonly Vec[];
  /** All of the tube ahead of the die at each turn, once turned: heights are z. */
  readonly ahead: readonly (readonly Vec[])[];
}

/** Stations (mm from A) in order of feeding. */
const fedStations = (bar: ResolvedBar, count: number): number[] => {
  const { length } = bar.centreline;
  const s = Array.from({ length: count }, (_, i) => (length * i) / (count - 1));
  return bar.fromEnd === "A" ? s : s.map((v) => length - v);
};

export function bendByCard(bar: ResolvedBar, turns: readonly Turn[], turnSide: Hand, count = 201): Bent {
  const { length, bends } = bar.centreline;
  const fed = fedStations(bar, count).map((s) => (bar.fromEnd === "A" ? s : length - s));
  const order = bends.map((b) =>
    bar.fromEnd === "A"
      ? { n: b.n, start: b.start, end: b.end, clr: b.clr, angle: b.angle }
      : { n: b.n, start: length - b.end, end: length - b.start, clr: b.clr, angle: b.angle },
  );
  if (bar.fromEnd === "B") order.reverse();
  const hand = turnSide === "left" ? 1 : -1;
  const pointing: Vec[] = [];
  const ahead: Vec[][] = [];
  // The tube lies on −x behind the die's tangent point at the origin, x = its station fed so far less its own.
  let at = fed.map((s): Vec => [-s, 0, 0]);
  let lead: Vec = [1, 0, 0];
  let fedSoFar = 0;
  order.forEach((bend, i) => {
    const shift = bend.start - fedSoFar;
    at = at.map(([x, y, z]): Vec => [x + shift, y, z]);
    fedSoFar = bend.start;
    if (i > 0) {
      const step = turns[i - 1]!;
      if (step.bend !== bend.n) throw new Error("the turns are not in order of bending");
      const clockwise = step.way === "counter-clockwise" ? -step.amount : step.amount;
      at = at.map((p) => turn(p, [1, 0, 0], clockwise));
      lead = turn(lead, [1, 0, 0], clockwise);
      pointing.push(lead);
      ahead.push(at.filter((_, j) => fed[j]! < bend.start));
    }
    const centre: Vec = [0, hand * bend.clr, 0];
    const swung = (p: Vec, angle: number): Vec => {
      const [x, y, z] = turn([p[0], p[1] - centre[1], p[2]], [0, 0, 1], hand * angle);
      return [x, y + centre[1], z];
    };
    at = at.map((p, j) => {
      const s = fed[j]!;
      if (s <= bend.start) return swung(p, bend.angle);
      if (s < bend.end) return swung([0, 0, 0], (bend.end - s) / bend.clr);
      return [p[0] + bend.end - bend.start, p[1], p[2]];
    });
    fedSoFar = bend.end;
    // What the operator sees of the bend just made is the leg ahead of it.
    lead = turn([1, 0, 0], [0, 0, 1], hand * bend.angle);
  });
  return { points: at, pointing, ahead };
}

/** The bar in the car at the same stations. */
export const inCar = (bar: ResolvedBar, count = 201): Vec[] =>
  fedStations(bar, count).map((s) => placeAt(bar.centreline, s).at);
