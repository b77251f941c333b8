// biome-ignore-all lint/style/noNonNullAssertion: indices round a curve are taken modulo its length.
import type { CopeResult } from "../../cope/index.ts";
import { goldenLeast, rad } from "../../numeric/index.ts";

/** A sharp point of a rim between two of its lines: where round the end (degrees), and its back (mm). */
export interface Tip {
  readonly phi: number;
  readonly back: number;
}

/** A tip that sticks out by less than this beyond the lines beside it is none (mm). */
const OUT = 0.002;
/** How exactly it is found (degrees). */
const TO = 1e-4;

const kept = new WeakMap<CopeResult, Readonly<Record<"outer" | "bore", readonly Tip[]>>>();

/**
 * The sharp points of a rim. Between lines 1° apart a smooth rim bulges by thousandths of a millimetre, but where two
 * sides of a host meet, as at the ears of a tube on one of its own size, the rim runs to a point that can stick out by
 * tenths beyond the lines beside it, and is the first to touch. Each place where the back is less than on the lines on
 * either side is sought between them by golden section. Where a rim begins to miss it falls ever more steeply to the last
 * line that meets, which is a sharp point too.
 */
export function tipsOf(made: CopeResult): Readonly<Record<"outer" | "bore", readonly Tip[]>> {
  const have = kept.get(made);
  if (have) return have;
  const found = { outer: tipsOn(made, "outer"), bore: tipsOn(made, "bore") };
  kept.set(made, found);
  return found;
}

function tipsOn({ cope, joint }: CopeResult, wall: "outer" | "bore"): readonly Tip[] {
  if (!joint) return [];
  const curve = cope[wall];
  const rho = wall === "outer" ? cope.outerRadius : cope.boreRadius;
  const back = (phi: number): number => {
    const b = joint.back(rho, Math.cos(rad(phi)), Math.sin(rad(phi)));
    return Number.isNaN(b) ? Infinity : b;
  };
  const n = curve.length;
  const out: Tip[] = [];
  for (let i = 0; i < n; i++) {
    const here = curve[i]!;
    for (const beside of [i - 1, i + 1]) {
      if (Number.isNaN(here) || !Number.isNaN(curve[(beside + n) % n]!)) continue;
      const phi = lastMet(back, i, beside);
      if (back(phi) < here - OUT) out.push({ phi: (phi + 360) % 360, back: back(phi) });
    }
    if (!(here <= curve[(i + n - 1) % n]! && here < curve[(i + 1) % n]!)) continue;
    const phi = goldenLeast(back, i - 1, i + 1, TO);
    const least = back(phi);
    if (least < here - OUT) out.push({ phi: (phi + 360) % 360, back: least });
  }
  return out;
}

/** The last line that meets (degrees), between one that meets and one that misses. */
function lastMet(back: (phi: number) => number, meets: number, misses: number): number {
  let [a, b] = [meets, misses];
  while (Math.abs(b - a) > TO) {
    const m = (a + b) / 2;
    if (back(m) === Infinity) b = m;
    else a = m;
  }
  return a;
}
