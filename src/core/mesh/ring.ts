// biome-ignore-all lint/style/noNonNullAssertion: indices are taken modulo the ring's own size.
/** A closed row of vertices round a tube, their angles ascending within one turn. */
export interface Ring {
  readonly ids: readonly number[];
  /** ψ of each vertex (radians, ascending, the last less than the first + 2π). */
  readonly psi: readonly number[];
}

/** A ring of consecutive vertices. */
export const ringFrom = (first: number, psi: readonly number[]): Ring => ({
  ids: psi.map((_, i) => first + i),
  psi,
});

/** Only some vertices of a ring. */
export function thinned(ring: Ring, keep: (i: number) => boolean): Ring {
  return { ids: ring.ids.filter((_, i) => keep(i)), psi: ring.psi.filter((_, i) => keep(i)) };
}

/**
 * Triangles between two rings that may have different numbers of vertices at different angles. Each ring's own edges
 * are used once each, so that neighbouring bands fit without gaps. With ψ right-handed about the direction from
 * `low` to `high`, the triangles are counter-clockwise seen from outside; `flip` turns them over.
 */
export function zip(indices: number[], low: Ring, high: Ring, flip: boolean): void {
  const n = low.psi.length;
  const m = high.psi.length;
  const next = (ring: Ring, i: number): number => {
    const size = ring.psi.length;
    return ring.psi[(i + 1) % size]! + (i + 1 >= size ? 2 * Math.PI : 0);
  };
  const add = (a: number, b: number, c: number): void => {
    if (flip) indices.push(a, c, b);
    else indices.push(a, b, c);
  };
  let i = 0;
  let j = 0;
  while (i < n || j < m) {
    const a = low.ids[i % n]!;
    const b = high.ids[j % m]!;
    if (j >= m || (i < n && next(low, i) <= next(high, j))) {
      add(a, low.ids[(i + 1) % n]!, b);
      i++;
    } else {
      add(a, high.ids[(j + 1) % m]!, b);
      j++;
    }
  }
}
