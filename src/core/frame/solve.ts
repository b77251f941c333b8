// biome-ignore-all lint/style/noNonNullAssertion: members and loads name nodes of the frame, rank has an entry a node, and the node of rank p fills 6p to 6p + 5 of first and b
import type { Vec } from "../space/index.ts";
import { stiffnessOf } from "./element.ts";
import { addTo, factor, lowOrder, skyline, solve } from "./skyline.ts";
import type { Frame, Load, Moved } from "./types.ts";

/** A frame made ready to be loaded. */
export interface Ready {
  /** How every node moves under some loads. */
  readonly under: (loads: readonly Load[]) => readonly Moved[];
}

/**
 * A linear frame: the stiffness of its members added up, its held nodes taken out. Small moves, elastic material,
 * rigid joints. Undefined where some of it can move without being held.
 */
export function readyFrame({ nodes, members, held }: Frame): Ready | undefined {
  const neighbours = nodes.map((): number[] => []);
  for (const { a, b } of members) {
    neighbours[a]!.push(b);
    neighbours[b]!.push(a);
  }
  const fixed = new Set(held);
  const rank = new Int32Array(nodes.length).fill(-1);
  let free = 0;
  for (const n of lowOrder(neighbours)) if (!fixed.has(n)) rank[n] = free++;
  const first = new Int32Array(6 * free).map((_, i) => 6 * Math.floor(i / 6));
  for (const { a, b } of members) {
    const [lo, hi] = [Math.min(rank[a]!, rank[b]!), Math.max(rank[a]!, rank[b]!)];
    if (lo < 0) continue;
    for (let i = 6 * hi; i < 6 * hi + 6; i++) first[i] = Math.min(first[i]!, 6 * lo);
  }
  const matrix = skyline(first);
  for (const { a, b, of } of members) {
    const k = stiffnessOf(nodes[a]!, nodes[b]!, of);
    const at = [rank[a]!, rank[b]!];
    for (let i = 0; i < 12; i++) {
      const p = at[i < 6 ? 0 : 1]!;
      if (p < 0) continue;
      for (let j = 0; j <= i; j++) {
        const q = at[j < 6 ? 0 : 1]!;
        if (q >= 0) addTo(matrix, 6 * p + (i % 6), 6 * q + (j % 6), k[12 * i + j]!);
      }
    }
  }
  if (!factor(matrix)) return undefined;
  return {
    under: (loads) => {
      const b = new Float64Array(6 * free);
      for (const { node, force, moment = [0, 0, 0] } of loads) {
        const p = rank[node]!;
        if (p < 0) continue;
        for (let i = 0; i < 3; i++) {
          b[6 * p + i] = b[6 * p + i]! + force[i]!;
          b[6 * p + 3 + i] = b[6 * p + 3 + i]! + moment[i]!;
        }
      }
      solve(matrix, b);
      return nodes.map((_, n): Moved => {
        const p = rank[n]!;
        const three = (from: number): Vec =>
          p < 0 ? [0, 0, 0] : [b[6 * p + from]!, b[6 * p + from + 1]!, b[6 * p + from + 2]!];
        return { shift: three(0), turn: three(3) };
      });
    },
  };
}
