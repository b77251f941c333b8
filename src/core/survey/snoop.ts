import { CRITICAL } from "../estimate/index.ts";
import { deg } from "../numeric/index.ts";
import { type Fit, type Found, fitFrom } from "./adjust.ts";
import { bySource, type Checked, checks, type Parts, worstOf } from "./outcome.ts";
import { slipOf } from "./slips.ts";
import type { Suspect } from "./types.ts";

/** Normalised residuals this near to each other (as a share) cannot be told apart. */
const TIED = 1e-6;

type Bad = ReturnType<typeof bySource>[number] & { readonly normalized: number };

export interface Snooped {
  /** What is left, adjusted. */
  readonly fit: Fit;
  readonly suspects: readonly Suspect[];
  /** Points whose given places do not fit, and were taken out too. */
  readonly misplaced: readonly number[];
}

/** An equation that was taken out, and what it would read without its slip, if one explains it. */
export interface Gone {
  readonly equation: Fit["equations"][number];
  readonly meant: number;
}

/**
 * Readings that do not fit, by data snooping: that with the greatest normalised residual beyond the critical value is taken out, the
 * rest adjusted again, until none is beyond it. A place given with an error is taken out in the same way, and is told
 * apart. A reading whose slip a unit explains is taken out before greater ones.
 * Where several are alike to the last digit (one reading to spare: any of them explains all), the first is taken and
 * the others are named beside it. `settled` has the last word where what is left suits several places as well: told are
 * the readings that are gone, and what was meant by them.
 * Source: W. Baarda, A testing procedure for use in geodetic networks, Netherlands Geodetic Commission, 1968.
 */
export function snoop(found: Found, settled: (fit: Fit, gone: readonly Gone[]) => Fit): Snooped {
  let { fit } = found;
  const out: (Omit<Suspect, "computed"> & { readonly parts: Parts })[] = [];
  const lost: Gone[] = [];
  const misplaced: number[] = [];
  for (;;) {
    const bad = beyond(fit);
    const [worst] = bad;
    if (!worst) break;
    const tied = bad.filter((b) => Math.abs(b.normalized) >= Math.abs(worst.normalized) * (1 - TIED));
    const slipped = bad
      .slice(0, MOST_SLIPS)
      .flatMap((b) => {
        const slip = slipOf(worstOf(b.parts).equation, { ...found, fit });
        return slip ? [{ b, slip }] : [];
      })
      .at(0);
    const first = slipped ? slipped.b : tied.reduce((a, b) => (order(b) < order(a) ? b : a));
    const gone = new Set(first.parts.map((part) => part.equation));
    const rest = fit.equations.filter((e) => !gone.has(e));
    const next = nearest(fit, rest, found);
    if (!next) break;
    fit = next;
    lost.push(
      ...first.parts.map(({ equation }) => ({ equation, meant: slipped?.slip.meant ?? equation.read })),
    );
    if ("place" in first) misplaced.push(first.place);
    else {
      const among = tied
        .flatMap((b) => ("reading" in b && b !== first ? [b.reading] : []))
        .sort((a, b) => a - b);
      const { equation } = worstOf(first.parts);
      out.push({
        index: first.reading,
        unit: equation.isAngle ? "deg" : "mm",
        read: equation.isAngle ? deg(equation.read) : equation.read,
        normalized: first.normalized,
        ...(slipped ? { slip: slipped.slip.slip } : among.length > 0 ? { among } : {}),
        parts: first.parts,
      });
    }
  }
  if (fit !== found.fit) fit = settled(fit, lost);
  const suspects = out.map(({ parts, ...suspect }) => ({ ...suspect, computed: computedFrom(fit, parts) }));
  return { fit, suspects, misplaced };
}

/** So many of the worst are asked whether a unit explains them. */
const MOST_SLIPS = 12;

/** What is beyond chance, worst first. */
const beyond = (fit: Fit): readonly Bad[] =>
  bySource(checks(fit))
    .map((s): Bad => ({ ...s, normalized: worstOf(s.parts).normalized ?? 0 }))
    .filter(({ normalized }) => Math.abs(normalized) > CRITICAL)
    .sort((a, b) => Math.abs(b.normalized) - Math.abs(a.normalized));

const order = (b: Bad): number => ("reading" in b ? b.reading : Number.MAX_SAFE_INTEGER);

/** χ² over freedom beyond which a gross slip may have dragged the places off to where they would not find back from. */
const DRAGGED = 100;

/** The rest adjusted from where it stood; after gross slips from where most readings agree, if that suits it better. */
function nearest(fit: Fit, rest: Fit["equations"], { consensus }: Found): Fit | undefined {
  const here = fitFrom(fit.model, rest, fit.network);
  if (here && fit.chi2 <= DRAGGED * fit.freedom) return here;
  const there = fitFrom(fit.model, rest, consensus);
  if (!here || !there) return here ?? there;
  return there.chi2 < here.chi2 ? there : here;
}

function computedFrom({ network }: Fit, parts: Parts): number {
  const read = ({ equation }: Checked): number => equation.observe(network).value;
  const [first, ...more] = parts;
  const value = more.length === 0 ? read(first) : Math.hypot(...parts.map(read));
  return first.equation.isAngle ? deg(value) : value;
}
