import { expect, it } from "vitest";
import { rad } from "../numeric/index.ts";
import { dist } from "../space/index.ts";
import { lineOf } from "./shape.ts";

// Trade-checks C5: geometry, computed independently.
it("both bends of a U with legs of 400 out by ½° open its mouth by 6.98", () => {
  const mouth = (off: number): number => {
    const { start, finish } = lineOf(
      {
        straights: [400, 900, 400],
        angles: [rad(90 - off), rad(90 - off)],
        turns: [0, 0],
        radii: [1e-6, 1e-6],
        numbers: [1, 2],
      },
      { at: [0, 0, 0], dir: [0, 0, 1], inside: [1, 0, 0] },
    );
    return dist(start, finish);
  };
  expect(mouth(0)).toBeCloseTo(900, 3);
  expect(mouth(0.5) - mouth(0)).toBeCloseTo(6.98, 2);
});
