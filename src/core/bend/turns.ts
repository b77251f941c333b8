import type { ResolvedBar } from "../layout/types.ts";
import { NO_BEND, wrapPi } from "../numeric/index.ts";
import { feedOf } from "./feed.ts";

export type Hand = "left" | "right";

/** Where a bend that is already made points, as the operator sees it. */
export interface Points {
  /** Above level (below: less than 0), radians, −π/2 to π/2. */
  readonly above: number;
  /** Which side of the operator; absent when it stands straight up or hangs straight down. */
  readonly side?: Hand;
}

/** How the tube is turned between two bends. Angles radians, lengths mm. */
export interface Turn {
  /** The bend that comes next, and the one made last, both counted from A. */
  readonly bend: number;
  readonly last: number;
  /** None, half round (either way is right), or some way round. */
  readonly code: "no-turn" | "half-turn" | "turn";
  /** How far, 0 to π. */
  readonly amount: number;
  /** As the operator sees it, looking along the tube toward the die; absent for no turn and for half a turn. */
  readonly way?: "clockwise" | "counter-clockwise";
  /** The turn as a length round the outside of the tube: OD/2 · amount. */
  readonly roundTube: number;
  /** Where the last bend points once the tube is turned. */
  readonly points: Points;
}

/**
 * The turns between the bends of a bar, in order of bending from `fromEnd`.
 *
 * The setting: the tube lies level; the end fed first goes through the die ahead; the operator stands behind the
 * tail and looks along the tube toward the die, which bends the leading part in the level plane to `turnSide`.
 * Derivation: let d run along the tube from the end fed first to the tail, so the operator looks along −d. The
 * inside of bend i points square to d along m_i = n_i × d, and m_i+1 is m_i turned by the rotation φ about d,
 * right-handed. The die wants m_i+1 where it had m_i: the tube turns by −φ about d, which is +φ about the way the
 * operator looks: φ > 0 is clockwise to the operator, from either end. It takes m_i from the turn side, level, to φ
 * clockwise of there: up from the left, down from the right.
 * The leading leg at bend i leans from d along m_i as well, so m_i is where the operator sees that leg point.
 */
export function turnsOf(bar: ResolvedBar, turnSide: Hand): readonly Turn[] {
  const { bends, od } = feedOf(bar, { A: 0, B: 0 });
  return bends.flatMap((bend, i): Turn[] => {
    const last = bends[i - 1];
    if (!last) return [];
    const phi = flat(bend.rotation);
    const amount = Math.abs(phi);
    const way = phi > 0 ? "clockwise" : "counter-clockwise";
    const code = amount === 0 ? "no-turn" : amount < Math.PI ? "turn" : "half-turn";
    return [
      {
        bend: bend.n,
        last: last.n,
        code,
        amount,
        ...(code === "turn" && { way }),
        roundTube: (od / 2) * amount,
        points: clockwiseFrom(turnSide, phi),
      },
    ];
  });
}

/**
 * Where the bend already made points, on the tail beside the operator, when a bar of two bends is turned round and
 * the other end is fed. The tail leg is seen from its own end: the operator looks along d, so it stands φ
 * counter-clockwise of the turn side. Absent for any other number of bends.
 */
export function turnedRound(bar: ResolvedBar, turnSide: Hand): Points | undefined {
  const { bends } = feedOf(bar, { A: 0, B: 0 });
  const second = bends[1];
  return bends.length === 2 && second ? clockwiseFrom(turnSide, -flat(second.rotation)) : undefined;
}

/** A turn under 0.001°, or within that of half a turn, is none, or half a turn. */
const flat = (phi: number): number => {
  if (Math.abs(phi) < NO_BEND) return 0;
  return Math.PI - Math.abs(phi) < NO_BEND ? Math.PI : phi;
};

function clockwiseFrom(side: Hand, phi: number): Points {
  // Angle up from the operator's right, counter-clockwise: left is π, and clockwise takes away.
  const at = wrapPi((side === "left" ? Math.PI : 0) - phi);
  const across = Math.PI / 2 - Math.abs(at);
  if (Math.abs(across) < NO_BEND) return { above: at > 0 ? Math.PI / 2 : -Math.PI / 2 };
  const level = across > 0 ? at : at > 0 ? Math.PI - at : -Math.PI - at;
  return { above: Math.abs(level) < NO_BEND ? 0 : level, side: across > 0 ? "right" : "left" };
}
