import { type Centreline, placeAt, reversed } from "../../bar/index.ts";
import type { CopeResult } from "../../cope/index.ts";
import type { End } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { rad } from "../../numeric/index.ts";
import { add, cross, dist, scale, turn, type Vec } from "../../space/index.ts";
import { type Chain, chainOf, sphereRound } from "./chain.ts";

/** Lines round an end that stand for its wall: every 2°, between which a 60 mm tube bulges by less than 0.005 mm. */
export const WALLS = 180;

/** One shaped end of a bar at its seat. */
export interface SolidEnd {
  readonly end: End;
  /** Outer wall lines from the rim back to where the tube is whole, six numbers each; in `perWall` pieces a line. */
  readonly walls: Float64Array;
  readonly perWall: number;
  /** Places of the rim at the bore, three numbers each. */
  readonly bore: Float64Array;
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
  /** Holds the whole bar: a chain from long point to long point. */
  readonly whole: Chain;
  /** Held by the bar: the part in which the tube is all there, rounded off inside it. May have no rods. */
  readonly core: Chain;
  readonly ends: readonly [SolidEnd, SolidEnd];
  /** No point of the bar is farther than this from `about`. */
  readonly reach: number;
}

/** Extra length left on an end (mm); negative: a gap at its joint. */
export type Over = Partial<Record<End, number>>;

/** The bar as a solid, its ends cut true, or `over` long. */
export function solidOf(bar: ResolvedBar, copes: Readonly<Record<End, CopeResult>>, over: Over = {}): Solid {
  const r = bar.tube.od / 2;
  const { centreline: line } = bar;
  const back = { A: copes.A.cope.greatest - (over.A ?? 0), B: copes.B.cope.greatest - (over.B ?? 0) };
  const middle = line.length / 2;
  const whole = { A: Math.min(back.A + r, middle), B: Math.min(back.B + r, middle) };
  const ends = (["A", "B"] as const).map((end) =>
    endOf(inwardFrom(line, end), end, copes[end], whole[end], over[end] ?? 0),
  ) as unknown as readonly [SolidEnd, SolidEnd];
  const coarse = chainOf(
    line,
    copes.A.cope.least - (over.A ?? 0),
    line.length - copes.B.cope.least + (over.B ?? 0),
    r,
  );
  let reach = 0;
  for (let i = 0; i < coarse.rods.length; i += 3) {
    reach = Math.max(reach, dist(line.start, [coarse.rods[i]!, coarse.rods[i + 1]!, coarse.rods[i + 2]!]));
  }
  return {
    id: bar.id,
    about: line.start,
    radius: r,
    length: line.length,
    whole: coarse,
    core: chainOf(line, whole.A, line.length - whole.B, r),
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
  const walls: number[] = [];
  const bore: number[] = [];
  const all: Vec[] = [];
  const step = 360 / WALLS;
  for (let i = 0; i < WALLS; i++) {
    const phi = rad(i * step);
    const side = add(scale(cope.zero, Math.cos(phi)), scale(quarter, Math.sin(phi)));
    const rim = (curve: Float64Array): number => {
      const b = curve[i * step]!;
      return (Number.isNaN(b) ? cope.greatest : b) - over;
    };
    const from = Math.min(rim(cope.outer), backTo);
    let p = onWall(line, from, scale(side, cope.outerRadius));
    all.push(p);
    for (let k = 1; k <= steps; k++) {
      const q = onWall(line, from + ((backTo - from) * k) / steps, scale(side, cope.outerRadius));
      walls.push(...p, ...q);
      p = q;
    }
    all.push(p);
    const b = onWall(line, Math.min(rim(cope.bore), backTo), scale(side, cope.boreRadius));
    bore.push(...b);
    all.push(b);
  }
  return {
    end,
    walls: Float64Array.from(walls),
    perWall: steps,
    bore: Float64Array.from(bore),
    ...sphereRound(all),
  };
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

/** The place of an end's rim, `over` mm long, at φ (whole degrees), outside or at the bore; `inward` runs from there. */
export function rimPlace(
  inward: Centreline,
  made: CopeResult,
  wall: "outer" | "bore",
  phi: number,
  over = 0,
): Vec {
  const { cope } = made;
  const side = add(
    scale(cope.zero, Math.cos(rad(phi))),
    scale(cross(cope.out, cope.zero), Math.sin(rad(phi))),
  );
  const rho = wall === "outer" ? cope.outerRadius : cope.boreRadius;
  return onWall(inward, cope[wall][phi]! - over, scale(side, rho));
}
