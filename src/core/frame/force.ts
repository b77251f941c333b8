// biome-ignore-all lint/style/noNonNullAssertion: known, spots and nodes are alike long, every id is in byId by the filter before; c is square and by as long, and a has a column more
import type { ResolvedBar } from "../layout/types.ts";
import { dot, type Vec } from "../space/index.ts";
import { frameOf, spotNear } from "./build.ts";
import { readyFrame } from "./solve.ts";

/** A place of a bar's skin that is to be pushed aside: from `at` toward `dir` (length 1) by `by` mm. */
export interface Aside {
  readonly id: string;
  readonly at: Vec;
  readonly dir: Vec;
  readonly by: number;
}

/**
 * The greatest of the forces (N) that push all these places of a tacked frame aside at once, each by its own amount.
 *
 * A unit force at each place gives how far every place goes (the compliances cᵢⱼ, along the pushes); the forces solve
 * Σⱼ cᵢⱼ Fⱼ = byᵢ. The push goes through the tube's centreline, as one square to a round skin does. A linear model of
 * rigidly joined, slender, elastic steel bars on feet that do not give: tacks are softer, so the true force is less.
 * For comparison, never approval. Undefined where a bar pushed is not held to any plate, or none is pushed.
 */
export function forceAside(bars: readonly ResolvedBar[], asides: readonly Aside[]): number | undefined {
  const byId = new Map(bars.map((b) => [b.id, b]));
  const known = asides.filter((a) => byId.has(a.id) && a.by > 0);
  if (known.length === 0) return undefined;
  const spots = known.map((a) => spotNear(byId.get(a.id)!, a.at));
  const { frame, nodeAt } = frameOf(bars, spots);
  const nodes = spots.map(nodeAt);
  const ready = frame.nodes.length > 0 ? readyFrame(frame) : undefined;
  if (!ready || nodes.some((n) => n === undefined)) return undefined;
  const compliance = known.map((a, j) => {
    const moved = ready.under([{ node: nodes[j]!, force: a.dir }]);
    return known.map((b, i) => dot(moved[nodes[i]!]!.shift, b.dir));
  });
  const forces = solved(
    compliance,
    known.map((a) => a.by),
  );
  return forces && Math.max(...forces.map(Math.abs));
}

/** Cᵀ = C positive definite: solved by elimination; undefined where two pushes are one and the same. */
function solved(c: readonly (readonly number[])[], by: readonly number[]): readonly number[] | undefined {
  const a = c.map((row, i) => [...row, by[i]!]);
  const n = a.length;
  for (let i = 0; i < n; i++) {
    const pivot = a[i]![i]!;
    if (!(pivot > 1e-9 * c[i]![i]!)) return undefined;
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const f = a[r]![i]! / pivot;
      for (let k = i; k <= n; k++) a[r]![k] = a[r]![k]! - f * a[i]![k]!;
    }
  }
  return a.map((row, i) => row[n]! / row[i]!);
}
