import type { Piece } from "../../../core/bar/index.ts";
import { feedOf, type Hand, partBent } from "../../../core/bend/index.ts";
import { add, along, cross, dot, neg, scale, sub, type Vec } from "../../../core/space/index.ts";
import type { BarResult } from "../../model/compute/index.ts";

/** A place as the operator has it: across to the right, ahead toward the die, up (mm), from the mark at the die. */
export type Seen = readonly [right: number, ahead: number, up: number];

/** The tube in the bender, as one stands behind its tail and looks toward the die. */
export interface InDie {
  /** Centreline, from the end fed first to the tail. */
  readonly line: readonly Seen[];
  /** Centre of the die's bend (mm), level with the tube. */
  readonly die: Seen;
  readonly clr: number;
  readonly od: number;
  /** The end fed first, and the tail. */
  readonly names: readonly [string, string];
}

/**
 * The tube as it is in the bender with bend `i` of the feed at the die (0 first): `made` false before that bend is
 * pulled, true after. The tail runs straight back to the operator; the die bends the leading part, level, to
 * `turnSide`. Lengths mm. Undefined where the bar has no such bend.
 *
 * Derivation: partBent gives the bar with bends 0 … i made in car axes, the tail along d. Before the bend is pulled
 * the leading part is that of bends 0 … i−1 with its straight running on. The operator looks along −d; the inside of
 * bend i (n × d turned to the feed) is on the turn side, level.
 */
export function inDie(result: BarResult, turnSide: Hand, i: number, made: boolean): InDie | undefined {
  const feed = feedOf(result.bar, result.leastBack);
  const bend = feed.bends[i];
  if (!bend) return undefined;
  const { arc } = bend;
  // where the bend starts, and the directions there: y runs along the feed from the leading end to the tail
  const start = add(arc.centre, scale(arc.x, arc.radius));
  const end = placeOnArc(arc, arc.angle);
  const shape = made ? partBent(feed, i).pieces : before(feed, bend, i);
  const at = made ? end.at : start;
  const back = made ? end.dir : arc.y;
  const inward = made ? neg(end.out) : neg(arc.x);
  const ahead = neg(back);
  const right = turnSide === "right" ? inward : neg(inward);
  const up = cross(right, ahead);
  const seen = (p: Vec): Seen => {
    const v = sub(p, at);
    return [dot(v, right), dot(v, ahead), dot(v, up)];
  };
  const side = turnSide === "right" ? 1 : -1;
  return {
    line: shape.flatMap(sampled).map(seen),
    die: [side * arc.radius, 0, 0],
    clr: arc.radius,
    od: feed.od,
    names: [feed.lead, feed.tail],
  };
}

function placeOnArc(
  arc: { readonly centre: Vec; readonly x: Vec; readonly y: Vec; readonly radius: number },
  a: number,
) {
  const out = add(scale(arc.x, Math.cos(a)), scale(arc.y, Math.sin(a)));
  const dir = add(scale(arc.x, -Math.sin(a)), scale(arc.y, Math.cos(a)));
  return { at: add(arc.centre, scale(out, arc.radius)), dir, out };
}

type Feed = ReturnType<typeof feedOf>;

/** The bar before bend i is pulled: what is made, then straight on through the die to the tail. */
function before(feed: Feed, bend: Feed["bends"][number], i: number): readonly Piece[] {
  const start = add(bend.arc.centre, scale(bend.arc.x, bend.arc.radius));
  const rest = bend.rest + bend.clr * bend.angle;
  const tail: Piece = {
    kind: "straight",
    s0: 0,
    from: along(start, bend.arc.y, -bend.straight),
    dir: bend.arc.y,
    length: bend.straight + rest,
  };
  if (i === 0) return [tail];
  const made = partBent(feed, i - 1).pieces.slice(0, -1);
  return [...made, tail];
}

/** Degrees of a bend between two samples. */
const STEP = Math.PI / 36;

function sampled(piece: Piece): readonly Vec[] {
  if (piece.kind === "straight") return [piece.from, along(piece.from, piece.dir, piece.length)];
  const count = Math.max(2, Math.ceil(piece.angle / STEP));
  return Array.from({ length: count + 1 }, (_, k) => placeOnArc(piece, (piece.angle * k) / count).at);
}
