// biome-ignore-all lint/style/noNonNullAssertion: corners has one more entry than start, and steps and every corner are as long as start
export interface Least {
  readonly at: readonly number[];
  readonly value: number;
  readonly iterations: number;
}

/**
 * A local least of f near `start` by the downhill simplex of Nelder and Mead (The Computer Journal 7, 1965, 308-313;
 * coefficients 1, 2, ½, ½), for functions with creases, which gradients cannot follow. `steps` are the first edges.
 * Ends when all values of the simplex lie within `width` of each other, or after `iterations`. A local answer only.
 */
export function nelderMead(
  f: (x: readonly number[]) => number,
  start: readonly number[],
  steps: readonly number[],
  limits: { readonly iterations: number; readonly width: number },
): Least {
  const n = start.length;
  let corners = [start, ...start.map((_, i) => start.map((x, j) => (i === j ? x + steps[i]! : x)))].map(
    (at) => ({
      at,
      value: f(at),
    }),
  );
  const sort = (): void => {
    corners.sort((a, b) => a.value - b.value);
  };
  sort();
  let iterations = 0;
  while (iterations < limits.iterations && corners[n]!.value - corners[0]!.value > limits.width) {
    iterations++;
    const worst = corners[n]!;
    const centre = start.map((_, j) => corners.slice(0, n).reduce((sum, c) => sum + c.at[j]!, 0) / n);
    const probe = (k: number): { at: number[]; value: number } => {
      const at = centre.map((c, j) => c + k * (worst.at[j]! - c));
      return { at, value: f(at) };
    };
    const over = probe(-1);
    if (over.value < corners[0]!.value) {
      const far = probe(-2);
      corners[n] = far.value < over.value ? far : over;
    } else if (over.value < corners[n - 1]!.value) {
      corners[n] = over;
    } else {
      const half = over.value < worst.value ? probe(-0.5) : probe(0.5);
      if (half.value < Math.min(over.value, worst.value)) corners[n] = half;
      else {
        const best = corners[0]!.at;
        corners = corners.map((c, i) => {
          if (i === 0) return c;
          const at = c.at.map((x, j) => best[j]! + (x - best[j]!) / 2);
          return { at, value: f(at) };
        });
      }
    }
    sort();
  }
  return { at: corners[0]!.at, value: corners[0]!.value, iterations };
}
