import type { End } from "../job/types.ts";
import { len } from "../space/index.ts";
import { type Easing, easeBar } from "./ease.ts";
import { type Freedom, type Placed, placeBar, type Wanted } from "./place.ts";
import type { BarShape } from "./shape.ts";
import { type Sprung, springInto } from "./spring.ts";

/** What is to be done with a bent bar; `spring`: it could be held in its place by hand instead, as it is. */
export type Verdict = { readonly spring?: Sprung } & (
  | /** Cut its new copes and put it in; landings within the shop's gap of the planned ones. */
  { readonly kind: "good"; readonly placed: Placed }
  /** The same, landed elsewhere on its hosts. */
  | { readonly kind: "moved"; readonly placed: Placed }
  /** One bend opened or closed a little, cold (radians, positive: closed further), and read again; `also`: a second one. */
  | ({ readonly kind: "ease"; readonly placed: Placed; readonly also?: Easing } & Easing)
  /** Tube is missing (mm, both ends together), most of it at the end named. */
  | { readonly kind: "short"; readonly placed: Placed; readonly end: End; readonly missing: number }
  /** Nothing of these helps: it stands too far from where it was wanted. */
  | { readonly kind: "off"; readonly placed?: Placed }
);

/**
 * What can be done with a bar as bent: as it is, landed elsewhere, with a bend or two eased, or not at all; and whether
 * a few millimetres of springing by hand would do instead.
 *
 * Units: mm, radians; `gap` is what the shop accepts, `freedom` how far the bar may stand from where it was wanted.
 * Range: one bend eased by halves of a degree up to 2°, or two of them.
 */
export function verdictOn(
  shape: BarShape,
  wanted: Wanted,
  freedom: Freedom,
  gap: number,
  may: { readonly ease: boolean } = { ease: true },
): Verdict {
  const placed = placeBar(shape, wanted, freedom);
  if (placed && within(placed, freedom)) {
    const found = lands(placed, gap);
    return found.kind === "good" || !may.ease
      ? found
      : { ...found, ...sprung(shape, wanted, freedom, (p) => lands(p, gap).kind === "good") };
  }
  const short = (): Verdict | undefined => {
    const there = placeBar(shape, wanted, freedom, { short: true });
    const missing = there && shortest(there);
    return there && missing && inPlace(there, freedom)
      ? { kind: "short", placed: there, ...missing }
      : undefined;
  };
  if (!may.ease) return short() ?? { kind: "off", ...(placed ? { placed } : {}) };
  const spring = sprung(shape, wanted, freedom, (p) => within(p, freedom));
  const eased = easeBar(shape, wanted, freedom, (p) => within(p, freedom));
  if (eased) {
    const [first, also] = eased.bends;
    return { kind: "ease", placed: eased.placed, ...first, ...(also ? { also } : {}), ...spring };
  }
  return short() ?? { kind: "off", ...(placed ? { placed } : {}), ...spring };
}

function sprung(
  shape: BarShape,
  wanted: Wanted,
  freedom: Freedom,
  fits: (placed: Placed) => boolean,
): { readonly spring?: Sprung } {
  const spring = springInto(shape, wanted, freedom);
  return spring && fits(spring.placed) ? { spring } : {};
}

const lands = (placed: Placed, gap: number): Verdict => ({
  kind: ENDS.every((e) => len(placed.landings[e].moved) <= gap) ? "good" : "moved",
  placed,
});

const ENDS = ["A", "B"] as const;

const inPlace = (p: Placed, { slide, aside }: Freedom): boolean =>
  p.worst.off <= aside && ENDS.every((e) => len(p.landings[e].moved) <= slide && p.landings[e].misses < 0.5);

const within = (p: Placed, freedom: Freedom): boolean => inPlace(p, freedom) && !shortest(p);

function shortest(p: Placed): { readonly end: End; readonly missing: number } | undefined {
  const end = p.landings.A.spare < p.landings.B.spare ? "A" : "B";
  const missing = ENDS.reduce((sum, e) => sum + Math.max(0, -p.landings[e].spare), 0);
  return missing > 0 ? { end, missing } : undefined;
}
