import type { Centreline } from "../../../src/core/bar/index.ts";
import type { Vec } from "../../../src/core/space/index.ts";

/**
 * What a solid kernel that we did not write must do for a coped tube. Places are car axes, lengths mm.
 *
 * Two general-purpose kernels do it: `exactKernel` keeps surfaces as cylinders and tori (boundary representation),
 * `meshKernel` as triangles. Neither knows what a cope is: a tube and its hosts are swept along their centrelines and
 * subtracted.
 */
export interface Kernel<Solid> {
  /** Tube between two stations of a centreline (beyond its ends the end straights run on), with its bore. */
  readonly makeTube: (line: Centreline, run: Run, outer: number, bore: number) => Solid;
  /** The filled outside of a host between two stations. */
  readonly makeHost: (line: Centreline, run: Run, outer: number) => Solid;
  /** What is behind a plate's face: a slab of 300 mm radius. */
  readonly makePlate: (at: Vec, normal: Vec) => Solid;
  /** Tube less hosts, whatever pieces are left; done, not put off, when it returns. */
  readonly subtract: (tube: Solid, hosts: readonly Solid[]) => Solid;
  /** The same: of the pieces, the one that `keep` lies on; the slug beyond the hosts falls off. */
  readonly cut: (tube: Solid, hosts: readonly Solid[], keep: Vec) => Solid;
  readonly volume: (solid: Solid) => number;
  readonly free: (...solids: Solid[]) => void;
}

/** Stations of a centreline, from < to. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The pieces of a centreline between two stations, each with where on it the run begins and ends (mm along it). */
export function piecesOn(
  line: Centreline,
  run: Run,
): { piece: Centreline["pieces"][number]; from: number; to: number }[] {
  const last = line.pieces.length - 1;
  return line.pieces.flatMap((piece, i) => {
    const from = i === 0 ? run.from : Math.max(0, run.from - piece.s0);
    const to = i === last ? run.to - piece.s0 : Math.min(piece.length, run.to - piece.s0);
    return to - from > 1e-6 ? [{ piece, from, to }] : [];
  });
}
