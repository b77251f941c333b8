import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { type Easing, type Freedom, type Verdict, verdictOn } from "../trestles/index.ts";
import { sameTube } from "../tube/index.ts";
import { seated } from "./seat.ts";
import type { Ends, WantedBar } from "./spots.ts";
import type { MadeBar, MadeVerdict } from "./types.ts";

/** What is wanted of a bar now. */
export interface Want extends WantedBar {
  readonly hosts: Readonly<Record<End, readonly ResolvedBar[]>>;
  /** What it would be sawn to with no allowance: long point to long point, before bending (mm). */
  readonly net: number;
  readonly allowance: Readonly<Record<End, number>>;
}

export interface Limits {
  readonly freedom: Freedom;
  /** Greatest gap that the shop accepts (mm). */
  readonly gap: number;
}

const ENDS = ["A", "B"] as const;

/** A stick sawn by hand is seldom nearer (mm): the design's. */
const OVER = 0.5;

/**
 * What becomes of a bar that exists, now that another is wanted in its place (the design's table: sawn, bent, notched).
 * Units: mm, radians. Bars that stand in the car are not for this.
 */
export function judgeMade(made: MadeBar, want: Want, limits: Limits): MadeVerdict {
  const to = { bar: made.id, step: made.step };
  if (!sameTube(made.tube, want.bar.tube))
    return { ...to, verdict: "make again", reason: "other-tube", short: 0 };
  const isNotched = ENDS.some((e) => made.rims[e]);
  if (made.step === "sawn" && !isNotched) return { ...to, ...sawnVerdict(made, want) };
  if (made.shape.angles.length !== want.bar.centreline.bends.length)
    return { ...to, verdict: "make again", reason: "other-bends", short: 0 };
  if (!isNotched) return { ...to, ...bentVerdict(made, want, limits) };
  return { ...to, ...notchedVerdict(made, want, limits) };
}

type Found = Omit<MadeVerdict, "bar" | "step">;

/** A straight stick: what it is too long is shared by the ends as the allowance is. */
function sawnVerdict({ sawn }: MadeBar, { net, allowance }: Want): Found {
  const over = sawn - net;
  const all = allowance.A + allowance.B;
  // Never more at A than its allowance: what is too much is sawn off in one cut, at B.
  const atA =
    over <= 0 || all <= 0 ? Math.min(0, over) / 2 : Math.min(allowance.A, (over * allowance.A) / all);
  return byLength({ A: atA, B: over - atA }, allowance);
}

function byLength(ends: Record<End, number>, allowance: Readonly<Record<End, number>>): Found {
  const sum = ends.A + ends.B;
  if (sum < -1e-6) return { verdict: "make again", reason: "short", ends, short: -sum };
  const isLong = ENDS.some((e) => ends[e] > allowance[e] + OVER);
  return isLong
    ? { verdict: "saw off", reason: "long", ends, short: 0 }
    : { verdict: "good", reason: "serves", ends, short: 0 };
}

function bentVerdict(made: MadeBar, want: Want, limits: Limits): Found {
  const found = verdictOn(made.shape, want, limits.freedom, limits.gap);
  const ends = found.placed && endsOf(found.placed);
  const at = ends ? { ends } : {};
  switch (found.kind) {
    case "good":
    case "moved":
      return byLength(endsOf(found.placed), want.allowance);
    case "ease":
      return { verdict: "ease", reason: "eased", ...at, ease: easings(found), short: 0 };
    case "short":
      return { verdict: "make again", reason: "short", ...at, short: found.missing };
    case "off":
      return { verdict: "make again", reason: "off", ...at, short: 0 };
  }
}

const easings = ({ bend, by, also }: Extract<Verdict, { kind: "ease" }>): readonly Easing[] => [
  { bend, by },
  ...(also ? [also] : []),
];

const endsOf = ({ landings }: NonNullable<Verdict["placed"]>): Record<End, number> => ({
  A: landings.A.spare,
  B: landings.B.spare,
});

/** Fouling below this is the search's own rounding (mm). */
const NONE = 0.002;

/** What the search does not find is no reason to throw a bar away. */
const NOT_FOUND = { verdict: "unknown", reason: "not-found", short: 0 } as const;

/** The old notches against the new joints; then one end's cut again, the shorter cut first, then both. */
function notchedVerdict(made: MadeBar, want: Want, { freedom, gap: most }: Limits): Found {
  const left = ENDS.filter((e) => !made.rims[e]);
  const how = (again: readonly End[]): Ends => ({
    A: again.includes("A") ? "cut" : "keep",
    B: again.includes("B") ? "cut" : "keep",
  });
  const asIs = seated(made, want, how(left), freedom);
  if (!asIs) return NOT_FOUND;
  const { ends, gap } = asIs;
  const fits = (s: NonNullable<typeof asIs>): boolean =>
    s.fouls <= NONE && Object.values(s.gap).every((g) => g <= most);
  if (fits(asIs)) return { verdict: "good", reason: "serves", ends, gap, accepted: most, short: 0 };
  let isFound = true;
  const tried = (ways: readonly (readonly End[])[]) =>
    ways
      .flatMap((again) => {
        const s = seated(made, want, how(again), freedom);
        if (!s) isFound = false;
        return s && fits(s) ? [{ again, ...s }] : [];
      })
      .sort((a, b) => sum(a) - sum(b))[0];
  const best = (left.length === 0 && tried([["A"], ["B"]])) || tried([ENDS]);
  if (best)
    return {
      verdict: "notch again",
      reason: "recut",
      ends: best.ends,
      gap: best.gap,
      accepted: most,
      again: best.again,
      short: 0,
    };
  if (!isFound) return NOT_FOUND;
  const missing = Math.max(0, -(ends.A + ends.B));
  const again = { verdict: "make again", ends, gap, accepted: most, short: missing } as const;
  if (missing > 0) return { ...again, reason: "short" };
  return asIs.fouls > NONE ? { ...again, reason: "foul", enters: asIs.fouls } : { ...again, reason: "gap" };
}

const sum = ({ ends }: { readonly ends: Readonly<Record<End, number>> }): number => ends.A + ends.B;
