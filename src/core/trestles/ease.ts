// biome-ignore-all lint/style/noNonNullAssertion: pair, by and found are two each, and a bend to be eased is one of the shape, which has a straight on either side of it
import { deg, rad } from "../numeric/index.ts";
import { bestChange, type Freedom, type Placed, placeBar, type Wanted } from "./place.ts";
import type { BarShape } from "./shape.ts";

/** One bend opened or closed a little, cold (radians, positive: closed further). `bend` is its number on the card. */
export interface Easing {
  readonly bend: number;
  readonly by: number;
}

/** More than this is bending anew, not easing (common practice, no source): the bender, not a pull by hand. */
const EASED = 2;

/** A shop eases by halves of a degree at the least. */
const STEP = 0.5;

/** No bend is opened until nothing is left of it (degrees). */
const LEAST = 0.5;

/** A bar eased so that it lies in its place. */
export interface Eased {
  /** One or two bends, the larger easing first. */
  readonly bends: readonly [Easing, ...Easing[]];
  readonly placed: Placed;
}

/**
 * The least easing that makes a bar fit: of one bend, in halves of a degree up to 2°; where no one bend alone does, of
 * two. `fits` says whether a place will do.
 */
export function easeBar(
  shape: BarShape,
  wanted: Wanted,
  freedom: Freedom,
  fits: (placed: Placed) => boolean,
): Eased | undefined {
  const tryOut = (bends: Eased["bends"]): readonly Eased[] => {
    const eased = easedShape(shape, bends);
    const placed = eased && placeBar(eased, wanted, freedom);
    return placed && fits(placed) ? [{ bends, placed }] : [];
  };
  for (let by = STEP; by <= EASED; by += STEP) {
    const tried = shape.numbers.flatMap((bend) =>
      [-by, by].flatMap((change) => tryOut([{ bend, by: rad(change) }])),
    );
    if (tried.length > 0) return nearest(tried);
  }
  const pairs = shape.numbers.flatMap((first, i) =>
    shape.numbers.slice(i + 1).map((second) => [first, second] as const),
  );
  const tried = pairs.flatMap((pair) => choices(shape, pair, wanted, freedom).flatMap(tryOut));
  if (tried.length === 0) return undefined;
  const least = Math.min(...tried.map(sizeOf));
  return nearest(tried.filter((e) => sizeOf(e) <= least + 1e-9));
}

const sizeOf = ({ bends }: Eased): number => bends.reduce((sum, { by }) => sum + Math.abs(by), 0);

const nearest = (tried: readonly Eased[]): Eased =>
  tried.reduce((a, b) => (b.placed.worst.off < a.placed.worst.off ? b : a));

/** Halves of a degree next to what suits two bends best, the place being found with them. */
function choices(
  shape: BarShape,
  pair: readonly [number, number],
  wanted: Wanted,
  freedom: Freedom,
): readonly Eased["bends"][] {
  const both = (by: readonly number[]) => pair.map((bend, k): Easing => ({ bend, by: rad(by[k]!) }));
  const found = bestChange((by) => easedShape(shape, both(by)) ?? shape, 2, wanted, freedom);
  if (!found) return [];
  const steps = found.map((v) => [Math.floor(v / STEP) * STEP, Math.ceil(v / STEP) * STEP]);
  return steps[0]!
    .flatMap((a) => steps[1]!.map((b) => [a, b]))
    .filter((by) => by.every((v) => v !== 0 && Math.abs(v) <= EASED))
    .map((by) => {
      const [a, b] = both(by) as [Easing, Easing];
      return Math.abs(a.by) < Math.abs(b.by) ? [b, a] : [a, b];
    });
}

/** The bar with bends eased; undefined where next to nothing would be left of one. */
function easedShape(shape: BarShape, bends: readonly Easing[]): BarShape | undefined {
  const angles = shape.angles.slice();
  const straights = shape.straights.slice();
  for (const { bend, by } of bends) {
    const i = shape.numbers.indexOf(bend);
    angles[i]! += by;
    if (!(deg(angles[i]!) > LEAST)) return undefined;
    // The tube is what it is: what a bend uses more of, R·δ, comes half from the straight on each side.
    const half = (shape.radii[i]! * by) / 2;
    straights[i]! -= half;
    straights[i + 1]! -= half;
  }
  return { ...shape, angles, straights };
}
