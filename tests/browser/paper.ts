import type { Grey } from "../pgm.ts";

/** A straight stroke of a picture, in pixels: where it stands, where it starts and how long it is. */
export interface Upright {
  readonly at: number;
  readonly from: number;
  readonly length: number;
}

/**
 * The strokes of at least `least` pixels that run down the picture ("across": measured across them), or along its rows
 * ("down"). Neighbouring rows of pixels are one stroke, in their middle weighed by how dark they are.
 */
export function uprights(grey: Grey, way: "across" | "down", least = 400): readonly Upright[] {
  const [count, long] = way === "across" ? [grey.width, grey.height] : [grey.height, grey.width];
  const dark = (i: number, j: number): number =>
    255 - grey.pixels[way === "across" ? j * grey.width + i : i * grey.width + j]!;
  const found: { weight: number; moment: number; last: number; from: number; to: number }[] = [];
  for (let i = 0; i < count; i++)
    for (let j = 0, from = -1, sum = 0; j <= long; j++) {
      const ink = j < long ? dark(i, j) : 0;
      if (ink > 25) {
        if (from < 0) [from, sum] = [j, 0];
        sum += ink;
        continue;
      }
      if (from >= 0 && j - from >= least) {
        const mean = sum / (j - from);
        const same = found.find((f) => f.last >= i - 1 && f.from < j && f.to > from);
        if (same) {
          same.weight += mean;
          same.moment += mean * (i + 0.5);
          same.last = i;
          [same.from, same.to] = [Math.min(same.from, from), Math.max(same.to, j)];
        } else found.push({ weight: mean, moment: mean * (i + 0.5), last: i, from, to: j });
      }
      from = -1;
    }
  return found.map((f) => ({ at: f.moment / f.weight, from: f.from, length: f.to - f.from }));
}
