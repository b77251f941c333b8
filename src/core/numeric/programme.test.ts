import { expect, test } from "vitest";
import { seeded } from "./index.ts";
import { maximise } from "./programme.ts";

test("a corner that can be worked out by hand", () => {
  // x + y ≤ 1.5 in the unit box: the most of 2x + y is at x = 1, y = 0.5; that row holds it with multiplier 1.
  const got = maximise({ c: [2, 1], rows: [[-1, -1]], atLeast: [-1.5], box: [1, 1] });
  expect(got.ok && got.value).toBeCloseTo(2.5, 9);
  expect(got.ok && got.held.get(0)).toBeCloseTo(1, 7);
});

test("rows that cannot hold together are said so", () => {
  const got = maximise({
    c: [1, 0],
    rows: [
      [1, 1],
      [-1, -1],
    ],
    atLeast: [0.5, 0.5],
    box: [1, 1],
  });
  expect(got).toEqual({ ok: false, why: "infeasible" });
});

test("many rows through one corner, and an aim along an edge, end all the same", () => {
  const random = seeded(7);
  const rows = Array.from({ length: 300 }, () => {
    const v = [random() - 0.5, random() - 0.5, 1];
    const size = Math.hypot(...v);
    return v.map((k) => k / size);
  });
  const got = maximise({ c: [0, 0, -1], rows, atLeast: rows.map(() => 0), box: [1, 1, 1] });
  expect(got.ok && Math.abs(got.value)).toBeLessThan(1e-7);
});

test("two unknowns against all their corners (seed 11)", () => {
  const random = seeded(11);
  let bounded = 0;
  for (let n = 0; n < 200; n++) {
    const rows = Array.from({ length: 12 }, () => [random() * 2 - 1, random() * 2 - 1]);
    const atLeast = rows.map(() => random() * 0.8 - 0.7);
    const c = [random() * 2 - 1, random() * 2 - 1];
    const lines = [...rows.map((r, i) => [...r, atLeast[i]!]), [1, 0, 1], [1, 0, -1], [0, 1, 1], [0, 1, -1]];
    let best = -Infinity;
    for (const [i, p] of lines.entries()) {
      for (const q of lines.slice(i + 1)) {
        const det = p[0]! * q[1]! - p[1]! * q[0]!;
        const x = (p[2]! * q[1]! - p[1]! * q[2]!) / det;
        const y = (p[0]! * q[2]! - p[2]! * q[0]!) / det;
        const fits = rows.every((r, k) => r[0]! * x + r[1]! * y >= atLeast[k]! - 1e-9);
        if (fits && Math.abs(x) <= 1 + 1e-9 && Math.abs(y) <= 1 + 1e-9)
          best = Math.max(best, c[0]! * x + c[1]! * y);
      }
    }
    const got = maximise({ c, rows, atLeast, box: [1, 1] });
    expect(got.ok).toBe(best > -Infinity);
    if (!got.ok) continue;
    bounded++;
    expect(got.value).toBeCloseTo(best, 7);
  }
  expect(bounded).toBeGreaterThan(100);
});

test("every answer has a certificate: no programme of the kind can have more (weak duality; seed 5)", () => {
  const random = seeded(5);
  let solved = 0;
  for (let n = 0; n < 60; n++) {
    const unknowns = 3 + Math.floor(random() * 11);
    const number = (): number => random() * 2 - 1;
    const row = (): number[] => Array.from({ length: unknowns }, number);
    const c = row();
    const rows = Array.from({ length: 20 + Math.floor(random() * 200) }, row);
    // Some cones, some with slack, some that ask for more than there is.
    const shift = [0, -0.3, 0.6][n % 3]!;
    const atLeast = rows.map(() => (shift === 0 ? 0 : number() * 0.2 + shift));
    const got = maximise({ c, rows, atLeast, box: c.map(() => 1) });
    if (!got.ok) {
      expect(got.why).toBe("infeasible");
      continue;
    }
    solved++;
    const { x, held } = got;
    for (const [i, r] of rows.entries()) {
      expect(r.reduce((sum, v, k) => sum + v * x[k]!, 0)).toBeGreaterThanOrEqual(atLeast[i]! - 1e-9);
    }
    for (const v of x) expect(Math.abs(v)).toBeLessThanOrEqual(1 + 1e-9);
    // c·x = (c + Σ λᵢaᵢ)·x − Σ λᵢ aᵢ·x ≤ Σ |c + Σ λᵢaᵢ|ₖ − Σ λᵢbᵢ for every x that fits, as λ ≥ 0.
    let bound = 0;
    for (let k = 0; k < unknowns; k++) {
      let left = c[k]!;
      for (const [i, force] of held) left += force * rows[i]![k]!;
      bound += Math.abs(left);
    }
    for (const [i, force] of held) {
      expect(force).toBeGreaterThan(0);
      bound -= force * atLeast[i]!;
    }
    expect(bound - got.value).toBeLessThan(1e-5);
    expect(bound - got.value).toBeGreaterThan(-1e-5);
  }
  expect(solved).toBeGreaterThan(25);
});

test("where it begins changes nothing of what is found; a place that holds nothing back is not begun at (seed 3)", () => {
  const random = seeded(3);
  const number = (): number => random() * 2 - 1;
  let sooner = 0;
  for (let n = 0; n < 60; n++) {
    // Two ways, the size of each, and the greatest of some gaps: least gap, with no more motion than that needs.
    const gaps = Array.from({ length: 3 + Math.floor(random() * 40) }, () => [number(), number(), 0, 0, 1]);
    const still = [
      [1, 0, 1, 0, 0],
      [-1, 0, 1, 0, 0],
      [0, 1, 0, 1, 0],
      [0, -1, 0, 1, 0],
      [0, 0, 0, 0, 1],
    ];
    const rows = [...gaps, ...still];
    const task = {
      c: [0, 0, -1e-3, -1e-3, -1],
      rows,
      atLeast: [...gaps.map(number), ...still.map(() => 0)],
      box: [3, 3, 3, 3, 100],
    };
    const plain = maximise(task);
    const begun = maximise({ ...task, from: still.map((_, i) => gaps.length + i) });
    // Wrong way round: c is no mix of these with positive weights.
    const wrong = maximise({ ...task, from: [0, 1, 2, gaps.length, gaps.length + 2] });
    if (!plain.ok || !begun.ok || !wrong.ok)
      throw new Error("each of these has an answer: no motion, and the gaps as they are");
    expect(begun.value).toBeCloseTo(plain.value, 7);
    expect(wrong.value).toBeCloseTo(plain.value, 7);
    if (begun.rounds < plain.rounds) sooner++;
  }
  expect(sooner).toBeGreaterThan(50);
});
