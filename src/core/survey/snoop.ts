import { deg } from "../numeric/index.ts";
import { type Fit, type Found, fitFrom } from "./adjust.ts";
import { byReading, type Checked, checks, worstOf } from "./outcome.ts";
import { slipOf } from "./slips.ts";
import type { Suspect } from "./types.ts";

/** A normalised residual beyond this comes by chance once in a thousand (two-sided, normal distribution). */
export const SUSPICIOUS = 3.29;

/** Normalised residuals this near to each other (as a share) cannot be told apart. */
const TIED = 1e-6;

/**
 * Readings that do not fit, by data snooping: that with the greatest normalised residual beyond 3.29 is taken out, the
 * rest adjusted again, until none is beyond it. One whose slip a unit explains is taken out before greater ones.
 * Where several are alike to the last digit (one reading to spare: any of them explains all), the first is taken and
 * the others are named beside it.
 * Source: W. Baarda, A testing procedure for use in geodetic networks, Netherlands Geodetic Commission, 1968.
 */
export function snoop(found: Found): { readonly fit: Fit; readonly suspects: readonly Suspect[] } {
  let { fit } = found;
  const out: (Omit<Suspect, "computed"> & { parts: readonly Checked[] })[] = [];
  for (;;) {
    const bad = [...byReading(checks(fit))]
      .map(([index, parts]) => ({ index, parts, normalized: worstOf(parts).normalized ?? 0 }))
      .filter(({ normalized }) => Math.abs(normalized) > SUSPICIOUS)
      .sort((a, b) => Math.abs(b.normalized) - Math.abs(a.normalized));
    if (bad.length === 0) break;
    const greatest = Math.abs(bad[0]!.normalized);
    const tied = bad.filter((b) => Math.abs(b.normalized) >= greatest * (1 - TIED));
    const slips = bad.slice(0, 12).map((b) => slipOf(worstOf(b.parts).equation, { ...found, fit }));
    const known = slips.findIndex((s) => s !== undefined);
    const first = known >= 0 ? bad[known]! : tied.reduce((a, b) => (b.index < a.index ? b : a));
    const rest = fit.equations.filter((e) => e.reading !== first.index);
    const next = nearest(fit, rest, found);
    if (!next) break;
    const others = tied.flatMap((b) => (b.index === first.index ? [] : [b.index])).sort((a, b) => a - b);
    const { equation } = worstOf(first.parts);
    out.push({
      index: first.index,
      unit: equation.isAngle ? "deg" : "mm",
      read: equation.isAngle ? deg(equation.read) : equation.read,
      normalized: first.normalized,
      ...(known >= 0 ? { likely: slips[known]! } : others.length > 0 ? { among: others } : {}),
      parts: first.parts,
    });
    fit = next;
  }
  const suspects = out.map(({ parts, ...suspect }) => ({ ...suspect, computed: computedFrom(fit, parts) }));
  return { fit, suspects };
}

/** The rest adjusted from where it stood, or from where most readings agree, whichever suits it better. */
function nearest(fit: Fit, rest: Fit["equations"], { consensus }: Found): Fit | undefined {
  const here = fitFrom(fit.model, rest, fit.scene);
  if (here && here.chi2 <= here.freedom) return here;
  const there = fitFrom(fit.model, rest, consensus);
  if (!here || !there) return here ?? there;
  return there.chi2 < here.chi2 ? there : here;
}

function computedFrom({ scene }: Fit, parts: readonly Checked[]): number {
  const values = parts.map(({ equation }) => equation.observe(scene).value);
  const value = values.length === 1 ? values[0]! : Math.hypot(...values);
  return parts[0]!.equation.isAngle ? deg(value) : value;
}
