import { type Cope, carriedAngle, cutOnto, type Notch, squareDirection } from "../core/cope/index.ts";
import type { End } from "../core/job/index.ts";
import { rad } from "../core/numeric/index.ts";
import { notchAt, notchFrom } from "../core/plan/index.ts";
import { angleBetween, dot, neg, rejection } from "../core/space/index.ts";
import { END_SIDES } from "../words/index.ts";
import type { Subject } from "./subject.ts";

/** One end as the cards speak of it (radians, mm). */
export interface EndOf {
  readonly end: End;
  readonly cope: Cope;
  /** Absent for ends that are sawn flat. */
  readonly notch?: Notch;
  /**
   * φ of the side that is named when the end is set against the other: the heel of a notch, the long point of a
   * flat cut; absent for an end that is square all round.
   */
  readonly heel?: number;
  /** How far a flat cut leans off square; 0 for a notch and for a square end. */
  readonly tilt: number;
}

/** A plate that leans less off square needs no clock (radians). */
const LEVEL = rad(0.01);

export function endOf(s: Subject, end: End): EndOf {
  const { cope, joint } = s.bar.copes[end];
  const seat = s.bar.bar.seat[end];
  if (seat.kind === "plate") {
    const tilt = angleBetween(cope.out, neg(seat.normal));
    if (tilt < LEVEL) return { end, cope, tilt: 0 };
    // the flat runs farthest out on the side to which the plate's normal leans
    const side = rejection(seat.normal, cope.out);
    if (!joint) throw new Error("an end on a plate has a joint");
    const { axes } = joint;
    return { end, cope, tilt, heel: Math.atan2(dot(side, axes.quarter), dot(side, axes.zero)) };
  }
  const notch = notchFrom(notchAt(s.plan, s.id, end), s.made?.extra[end] ?? 0);
  const host = joint?.hosts[0];
  const heel = notch?.saw?.cut.clock ?? (host && cutOnto(host).clock);
  return { end, cope, tilt: 0, ...(notch && { notch }), ...(heel === undefined ? {} : { heel }) };
}

/**
 * End B against end A: the turn (radians, positive clockwise seen from A toward B) from A's side to B's, carried
 * along the bar. Undefined where one of the ends is alike all round.
 */
export function turnOfEnds(s: Subject, a: EndOf, b: EndOf): number | undefined {
  if (a.heel === undefined || b.heel === undefined) return undefined;
  return carriedAngle(s.bar.bar, squareDirection(a.cope, a.heel), squareDirection(b.cope, b.heel));
}

/** The side of an end that is named when it is set against the other. */
export const sideName = (e: EndOf): string => (e.cope.kind === "plate" ? END_SIDES.flat : END_SIDES.notch);
