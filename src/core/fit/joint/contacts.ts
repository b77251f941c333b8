// biome-ignore-all lint/style/noNonNullAssertion: φ runs below the 360 lines of a cope's curves.
import { closestOnPiece, type Piece, placeAt } from "../../bar/index.ts";
import type { CopeResult } from "../../cope/index.ts";
import type { End } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { along, dist, dot, sub, unit, type Vec } from "../../space/index.ts";
import { halfExtent } from "../../tube/index.ts";
import { inwardFrom, rimPlace } from "../scene/index.ts";

/** Where a seated bar touches: a place of its rim on the host's skin, and the host's outward direction there. */
export interface Contact {
  readonly end: End;
  readonly host: string;
  /** Degrees round the end, as on the tube. */
  readonly phi: number;
  /** On the outside rim, not at the bore. */
  readonly outer: boolean;
  readonly at: Vec;
  readonly normal: Vec;
}

/**
 * Contacts of a seated bar: its rim at the outside (every 2°) and at the bore (every 6°). Each rim place lies on a
 * host's skin, whose outward normal there runs from the nearest point of the host's centreline (a plate: its normal).
 * Arcs of the rim that miss touch nothing; a square end touches nothing.
 */
export function contactsOf(
  bar: ResolvedBar,
  copes: Readonly<Record<End, CopeResult>>,
  hosts: Readonly<Record<End, readonly ResolvedBar[]>>,
): readonly Contact[] {
  return (["A", "B"] as const).flatMap((end) => {
    const { cope } = copes[end];
    const seat = bar.seat[end];
    if (seat.kind === "square") return [];
    const inward = inwardFrom(bar.centreline, end);
    const reach = cope.outerRadius + Math.max(Math.abs(cope.least), Math.abs(cope.greatest));
    const near = nearPieces(hosts[end], cope.landing, reach);
    return (["outer", "bore"] as const).flatMap((wall) => {
      const out: Contact[] = [];
      for (let phi = 0; phi < 360; phi += wall === "outer" ? 2 : 6) {
        const back = cope[wall][phi]!;
        if (Number.isNaN(back)) continue;
        const at = rimPlace(inward, copes[end], wall, phi);
        if (seat.kind === "plate")
          out.push({ end, host: seat.plate, phi, outer: wall === "outer", at, normal: seat.normal });
        else {
          const found = nearestHost(near, at);
          if (found) out.push({ end, phi, outer: wall === "outer", at, ...found });
        }
      }
      return out;
    });
  });
}

interface NearHost {
  readonly host: ResolvedBar;
  readonly pieces: readonly Piece[];
}

/** Of each host the pieces that a rim within `reach` of its landing can lie on. */
const nearPieces = (hosts: readonly ResolvedBar[], landing: Vec, reach: number): readonly NearHost[] =>
  hosts.map((host) => ({
    host,
    pieces: host.centreline.pieces.filter(
      (piece) => closestOnPiece(piece, landing).distance <= reach + halfExtent(host.tube) + 1,
    ),
  }));

function nearestHost(hosts: readonly NearHost[], at: Vec): { host: string; normal: Vec } | undefined {
  let best: { host: string; normal: Vec } | undefined;
  let least = Infinity;
  for (const { host, pieces } of hosts) {
    const line = host.centreline;
    let near = { s: 0, distance: Infinity };
    for (const piece of pieces) {
      const found = closestOnPiece(piece, at);
      if (found.distance < near.distance) near = found;
    }
    if (near.distance === Infinity) continue;
    let { at: foot } = placeAt(line, near.s);
    // A host's end straights run on past its ends, as the cut took them to.
    if (near.s <= 0 || near.s >= line.length) {
      const { at: e, dir } = placeAt(line, near.s);
      foot = along(e, dir, dot(sub(at, e), dir));
    }
    const off = dist(at, foot) - halfExtent(host.tube);
    if (Math.abs(off) < Math.abs(least)) {
      least = off;
      best = { host: host.id, normal: unit(sub(at, foot)) };
    }
  }
  return best;
}
