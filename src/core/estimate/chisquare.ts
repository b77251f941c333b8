/** ln Γ(a), a > 0 (Stirling's series above 10, the recurrence below; error under 1e-12). */
function lnGamma(a: number): number {
  let shift = 0;
  let z = a;
  while (z < 10) shift += Math.log(z++);
  const series = 1 / 12 - (1 / 360 - (1 / 1260 - 1 / 1680 / (z * z)) / (z * z)) / (z * z);
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series / z - shift;
}

/**
 * P(χ² ≤ x) with `freedom` degrees of freedom: the regularised incomplete gamma function P(freedom/2, x/2).
 * Formula: power series below the mean, Legendre's continued fraction above (Abramowitz & Stegun 6.5.29 and 6.5.31,
 * from memory). Accuracy: 1e-8; the printed tables of NIST in tests/outside/survey.test.ts.
 */
export function chiSquareBelow(x: number, freedom: number): number {
  if (!(x > 0)) return 0;
  const [a, z] = [freedom / 2, x / 2];
  const front = Math.exp(a * Math.log(z) - z - lnGamma(a));
  if (z < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; term > sum * 1e-15; n++) sum += term *= z / (a + n);
    return front * sum;
  }
  // Lentz's way through z + 1 − a − 1(1 − a)/(z + 3 − a − …).
  let b = z + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 10_000; n++) {
    const over = -n * (n - a);
    b += 2;
    d = 1 / (over * d + b);
    c = b + over / c;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return 1 - front * fraction;
}

/** The value that χ² stays below with probability p (0 < p < 1), by halving: 1e-9 of itself. */
export function chiSquareLimit(p: number, freedom: number): number {
  let [low, high] = [0, freedom + 10];
  while (chiSquareBelow(high, freedom) < p) high *= 2;
  while (high - low > 1e-9 * high) {
    const middle = (low + high) / 2;
    if (chiSquareBelow(middle, freedom) < p) low = middle;
    else high = middle;
  }
  return high;
}

/** χ² of an adjustment against what chance exceeds once in twenty. */
export interface GlobalTest {
  readonly chi2: number;
  readonly limit: number;
  readonly passed: boolean;
}

/** Whether the readings as a whole are as good as they are stated to be (95 %); undefined where none is to spare. */
export function globalTest(chi2: number, freedom: number): GlobalTest | undefined {
  if (!(freedom > 0)) return undefined;
  const limit = chiSquareLimit(0.95, freedom);
  return { chi2, limit, passed: chi2 <= limit };
}
