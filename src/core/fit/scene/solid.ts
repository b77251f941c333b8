// biome-ignore-all lint/style/noNonNullAssertion: a centreline has one piece at least, a wall line steps + 1 places, and i runs over the whole degrees of a cope's curves.
import { type Centreline, placeAt, reversed } from "../../bar/index.ts";
import type { CopeResult } from "../../cope/index.ts";
import type { End } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { rad } from "../../numeric/index.ts";
import { add, cross, dist, scale, turn, type Vec } from "../../space/index.ts";
import { halfExtent } from "../../tube/index.ts";
import { boundingSphere, type Capsules, capsulesOf } from "./capsules.ts";
import { type Tip, tipsOf } from "./tips.ts";

/**
 * Lines round an end that stand for its wall: every 2°, between which a 60 mm tube bulges by less than 0.005 mm; and one
 * at each sharp point of its rim.
 */
const WALLS = 180;

/** One shaped end of a bar at its seat. */
export interface SolidEnd {
  readonly end: End;
  /** Outer wall lines from the rim back to where the tube is whole, six numbers each; in `perWall` pieces a line. */
  readonly walls: Float64Array;
  readonly perWall: number;
  /** Places of the rim at the bore, three numbers each. */
  readonly bore: Float64Array;
  /** Of these the lines and places at its sharp points (`tipsOf`). */
  readonly tips: { readonly walls: Float64Array; readonly bore: Float64Array };
  readonly centre: Vec;
  readonly reach: number;
}

/** A bar that is to be moved, at its seat (car axes, mm): exact where it matters, coarse where that is enough. */
export interface Solid {
  readonly id: string;
  /** Its A landing: turns are about this place. */
  readonly about: Vec;
  readonly radius: number;
  readonly length: number;
  /** Holds the whole bar: capsules from long point to long point. */
  readonly whole: Capsules;
  /** Held by the bar: the part in which the tube is all there, rounded off inside it. May have no segments. */
  readonly core: Capsules;
  readonly ends: readonly [SolidEnd, SolidEnd];
  /** No point of the bar is farther than this from `about`. */
  readonly reach: number;
}

/** Extra length left on an end (mm); negative: a gap at its joint. */
export type Over = Partial<Record<End, number>>;

/** The bar as a solid, its ends cut true, or `over` long. */
export function solidOf(bar: ResolvedBar, copes: Readonly<Record<End, CopeResult>>, over: Over = {}): Solid {
  const r = halfExtent(bar.tube);
  const { centreline: line } = bar;
  const back = { A: copes.A.cope.greatest - (over.A ?? 0), B: copes.B.cope.greatest - (over.B ?? 0) };
  const middle = line.length / 2;
  const whole = { A: Math.min(back.A + r, middle), B: Math.min(back.B + r, middle) };
  const endAt = (end: End): SolidEnd =>
    endOf(inwardFrom(line, end), end, copes[end], whole[end], over[end] ?? 0);
  const ends = [endAt("A"), endAt("B")] as const;
  const coarse = capsulesOf(
    line,
    copes.A.cope.least - (over.A ?? 0),
    line.length - copes.B.cope.least + (over.B ?? 0),
    r,
  );
  let reach = 0;
  for (let i = 0; i < coarse.segments.length; i += 3) {
    reach = Math.max(
      reach,
      dist(line.start, [coarse.segments[i]!, coarse.segments[i + 1]!, coarse.segments[i + 2]!]),
    );
  }
  return {
    id: bar.id,
    about: line.start,
    radius: r,
    length: line.length,
    whole: coarse,
    core: capsulesOf(line, whole.A, line.length - whole.B, r),
    ends,
    reach: reach + r,
  };
}

/** One end; `line` runs from it inward. φ is right-handed about the outward direction from the zero line. */
function endOf(line: Centreline, end: End, made: CopeResult, backTo: number, over: number): SolidEnd {
  const { cope } = made;
  const quarter = cross(cope.out, cope.zero);
  const first = line.pieces[0]!.length;
  const steps = backTo <= first ? 1 : Math.ceil((backTo - Math.min(first, 0)) / 3);
  const all: Vec[] = [];
  const sideAt = (phi: number): Vec =>
    add(scale(cope.zero, Math.cos(rad(phi))), scale(quarter, Math.sin(rad(phi))));
  const wallAt = ({ phi, back }: Tip): number[] => {
    const off = scale(sideAt(phi), cope.outerRadius);
    const from = Math.min(back - over, backTo);
    const places = Array.from({ length: steps + 1 }, (_, k) =>
      onWall(line, from + ((backTo - from) * k) / steps, off),
    );
    all.push(places[0]!, places[steps]!);
    return places.slice(1).flatMap((q, k) => [...places[k]!, ...q]);
  };
  const boreAt = ({ phi, back }: Tip): Vec => {
    const p = onWall(line, Math.min(back - over, backTo), scale(sideAt(phi), cope.boreRadius));
    all.push(p);
    return p;
  };
  const tips = tipsOf(made);
  return {
    end,
    walls: Float64Array.from(linesOf(cope.outer, tips.outer, cope.greatest).flatMap(wallAt)),
    perWall: steps,
    bore: Float64Array.from(linesOf(cope.bore, tips.bore, cope.greatest).flatMap(boreAt)),
    tips: {
      walls: Float64Array.from(tips.outer.flatMap(wallAt)),
      bore: Float64Array.from(tips.bore.flatMap(boreAt)),
    },
    ...boundingSphere(all),
  };
}

/** The lines that stand for a rim, round the end in turn; those that miss are cut where the tube is cut deepest. */
function linesOf(curve: Float64Array, tips: readonly Tip[], missed: number): readonly Tip[] {
  const step = 360 / WALLS;
  const lines = Array.from({ length: WALLS }, (_, i): Tip => {
    const back = curve[i * step]!;
    return { phi: i * step, back: Number.isNaN(back) ? missed : back };
  });
  return [...lines, ...tips].sort((a, b) => a.phi - b.phi);
}

/** The place `back` mm inward of the landing on the wall line that stands `off` from the centreline at the end. */
function onWall(line: Centreline, back: number, off: Vec): Vec {
  let side = off;
  for (const piece of line.pieces) {
    if (piece.kind === "arc" && back > piece.s0) {
      side = turn(side, piece.n, Math.min(back - piece.s0, piece.length) / piece.radius);
    }
  }
  return add(placeAt(line, back).at, side);
}

/** A centreline run from one of its ends inward. */
export const inwardFrom = (line: Centreline, end: End): Centreline => (end === "A" ? line : reversed(line));

/**
 * The place of an end's rim, `over` mm long, at φ (whole degrees, unless its back is given), outside or at the bore;
 * `inward` runs from there.
 */
export function rimPlace(
  inward: Centreline,
  made: CopeResult,
  wall: "outer" | "bore",
  phi: number,
  over = 0,
  back = made.cope[wall][phi]!,
): Vec {
  const { cope } = made;
  const side = add(
    scale(cope.zero, Math.cos(rad(phi))),
    scale(cross(cope.out, cope.zero), Math.sin(rad(phi))),
  );
  const rho = wall === "outer" ? cope.outerRadius : cope.boreRadius;
  return onWall(inward, back - over, scale(side, rho));
}
