import type { Writer } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import { deg, rad } from "../numeric/index.ts";
import { len, type Vec } from "../space/index.ts";
import { type Freedom, type Placed, placeBar, type Wanted } from "./place.ts";
import type { BarShape } from "./shape.ts";

/** What is to be done with a bent bar. */
export type Verdict =
  /** Cut its new copes and put it in; landings within the shop's gap of the planned ones. */
  | { readonly kind: "good"; readonly placed: Placed }
  /** The same, landed elsewhere on its hosts. */
  | { readonly kind: "moved"; readonly placed: Placed }
  /** One bend opened or closed a little, cold (radians, positive: closed further), and read again. */
  | { readonly kind: "ease"; readonly placed: Placed; readonly bend: number; readonly by: number }
  /** Tube is missing (mm, both ends together), most of it at the end named. */
  | { readonly kind: "short"; readonly placed: Placed; readonly end: End; readonly missing: number }
  /** Nothing of these helps: it stands too far from where it was wanted. */
  | { readonly kind: "off"; readonly placed?: Placed };

/** More than this is bending anew, not easing (common practice, no source): the bender, not a pull by hand. */
const EASED = rad(2);

/** A shop eases by halves of a degree at the least. */
const STEP = rad(0.5);

/**
 * What can be done with a bar as bent: as it is, landed elsewhere, with one bend eased, or not at all.
 *
 * Units: mm, radians; `gap` is what the shop accepts, `freedom` how far the bar may stand from where it was wanted.
 * Range: single bends eased by halves of a degree up to 2°; a bar that wants two bends eased is told as off.
 */
export function verdictOn(
  shape: BarShape,
  wanted: Wanted,
  freedom: Freedom,
  gap: number,
  may: { readonly ease: boolean } = { ease: true },
): Verdict {
  const placed = placeBar(shape, wanted, freedom);
  if (placed && within(placed, freedom)) return lands(placed, gap);
  const eased = may.ease ? ease(shape, wanted, freedom) : undefined;
  if (eased) return eased;
  const there = placeBar(shape, wanted, freedom, { short: true });
  const short = there && shortest(there);
  if (there && short && inPlace(there, freedom)) return { kind: "short", placed: there, ...short };
  return { kind: "off", ...(placed ? { placed } : {}) };
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

/** The least easing of a single bend, in halves of a degree up to 2°, that makes the bar fit. */
function ease(shape: BarShape, wanted: Wanted, freedom: Freedom): Verdict | undefined {
  for (let by = STEP; by <= EASED + 1e-9; by += STEP) {
    const tried = shape.angles.flatMap((_, i) =>
      [-by, by].flatMap((change) => {
        const angles = shape.angles.map((a, k) => (k === i ? a + change : a));
        if (!(angles[i]! > rad(0.5))) return [];
        // The tube of the straights beside it stays what it is; the bend's own tube grows or shrinks by R·δ, half each side.
        const half = (shape.radii[i]! * change) / 2;
        const straights = shape.straights.map((s, k) => (k === i || k === i + 1 ? s - half : s));
        const placed = placeBar({ ...shape, angles, straights }, wanted, freedom);
        return placed && within(placed, freedom) ? [{ placed, bend: i + 1, by: change }] : [];
      }),
    );
    if (tried.length > 0) {
      const best = tried.reduce((a, b) => (b.placed.worst.off < a.placed.worst.off ? b : a));
      return { kind: "ease", ...best };
    }
  }
  return undefined;
}

/** The verdict in one sentence. */
export function sayVerdict(verdict: Verdict, writer: Writer): string {
  const { length, angle } = writer;
  switch (verdict.kind) {
    case "good":
      return "good: cut its ends anew for the place found and put it in";
    case "moved": {
      const { landings } = verdict.placed;
      const where = ENDS.filter((e) => len(landings[e].moved) >= 0.05).map(
        (e) => `end ${e} landed ${sayMove(landings[e].moved, writer)}`,
      );
      return `good if ${where.join(" and ")}: cut its ends anew for that place`;
    }
    case "ease":
      return `${verdict.by > 0 ? "close" : "ease"} bend ${verdict.bend} by ${angle(Math.abs(deg(verdict.by)))}, cold, and read it again (leave it if it shows a kink; never heat it)`;
    case "short":
      return `too short by ${length(verdict.missing)}`;
    case "off":
      return verdict.placed
        ? `not for this place: it stands ${length(verdict.placed.worst.off)} from where it was wanted, and no easing of one bend by 2° or less cures it`
        : "not for this place: it cannot be laid on its hosts";
  }
}

/** "4.0 mm lower", the greatest of the three ways in the car first. */
function sayMove(moved: Vec, { length }: Writer): string {
  const names = [
    ["farther forward", "farther back"],
    ["farther left", "farther right"],
    ["higher", "lower"],
  ] as const;
  const size = len(moved);
  const axis = [0, 1, 2].reduce((a, b) => (Math.abs(moved[b]!) > Math.abs(moved[a]!) ? b : a));
  return `${length(size)} ${names[axis]![moved[axis]! > 0 ? 0 : 1]}`;
}
