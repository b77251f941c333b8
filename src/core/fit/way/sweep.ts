// biome-ignore-all lint/style/noNonNullAssertion: last and then have three entries a thing; indices of poses run below their number; a bar has two rims.
import { type Centreline, placeAt } from "../../bar/index.ts";
import type { CopeResult } from "../../cope/index.ts";
import type { End } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { goldenLeast } from "../../numeric/index.ts";
import { dist, type Vec } from "../../space/index.ts";
import { halfExtent } from "../../tube/index.ts";
import {
  barThing,
  boundingSphere,
  interpolate,
  inwardFrom,
  type Obstacle,
  type Over,
  type Pose,
  partThing,
  placer,
  rimPlace,
  type Thing,
  tipsOf,
} from "../scene/index.ts";
import { travel } from "./advance.ts";

/** What a sweep of a way found. */
export interface Swept {
  /** Least distance to what the bar does not touch at its seat (mm), and to what; Infinity where there is nothing. */
  readonly clearance: number;
  readonly nearest?: string;
  /** Deepest overlap with anything (mm, 0 where there is none), and with what. */
  readonly overlap: number;
  readonly deepest?: string;
  readonly poses: number;
  /** Where on each move it overlaps most, if by more than `enough`: the move's index, and how far along it (0 to 1). */
  readonly spots: readonly { readonly move: number; readonly t: number }[];
}

/** The bar's own shape: its centreline where it is whole, and places of its two rims, each with a sphere round it. */
interface Shape {
  readonly line: Centreline;
  readonly r: number;
  readonly from: number;
  readonly to: number;
  readonly rims: readonly { readonly places: readonly Vec[]; readonly centre: Vec; readonly reach: number }[];
  readonly reach: number;
}

/** Pieces of the centreline on which the distance is taken to have one least value (mm). */
const APART = 20;
/** Of what it touches at its seat, distances above this are not needed exactly (mm). */
const CARE = 0.5;
/** Twice the longest step (mm), however far everything is. */
const FAR = 400;
/** Twice the share of the clearance by which it may be stated too great. */
const SURE = 0.02;

interface Sweeping {
  readonly step?: number;
  readonly over?: Over;
  readonly enough?: number;
  readonly all?: boolean;
}

/**
 * Follows a way in even steps and measures the bar against everything anew, by another road than the search took:
 * the tubes as true straights and bends (no chords), the bar as places of its rims (every 2°, outside and bore, and their sharp points) and
 * as its own centreline between them, nearest places found by golden section. Steps are at most `step` mm of the
 * fastest point (0.25 mm, by which 0.1° of a 140 mm lever is held too) wherever anything is near; where the nearest
 * thing is d away, up to d/2, and no longer than leaves the clearance known to 1 % and 0.25 mm. The slow twin of the search's own check. `over` as in solidOf; `enough` (mm): a sweep
 * that has met more overlap than this stops there, unless `all` of the way is asked for.
 */
export function sweep(
  bar: ResolvedBar,
  copes: Readonly<Record<End, CopeResult>>,
  poses: readonly Pose[],
  tacked: readonly ResolvedBar[],
  parts: readonly Obstacle[],
  { step = 0.25, over = {}, enough = Infinity, all = false }: Sweeping = {},
): Swept {
  const shape = shapeOf(bar, copes, over);
  const things = [...tacked.map(barThing), ...parts.map(partThing)];
  const at0 = poses[poses.length - 1]!;
  const seat = placer(at0, shape.line.start);
  const touches = things.map((thing) =>
    [0, 1, 2].some((part) => measure(shape, part, seat, thing, 1) < 0.05),
  );
  let clearance = Infinity;
  let nearest: string | undefined;
  let overlap = 0;
  let deepest: string | undefined;
  let count = 0;
  let now = FAR;
  // What each part of the bar was last measured at, and how far the bar had gone by then: nothing can have come
  // nearer by more than the bar's fastest point has gone since, so that what is far is rarely asked.
  const last = new Float64Array(things.length * 3).fill(-Infinity);
  const then = new Float64Array(things.length * 3);
  const look = (pose: Pose, gone: number): number => {
    count++;
    let least = FAR;
    let apart = FAR;
    const put = placer(pose, shape.line.start);
    things.forEach((thing, k) => {
      for (let part = 0; part < 3; part++) {
        const i = 3 * k + part;
        const care = touches[k] ? CARE : Math.min(FAR / 2, clearance);
        const bound = last[i]! - (gone - then[i]!);
        if (bound >= care && bound >= last[i]! / 2) {
          if (bound < least) least = bound;
          if (!touches[k] && bound < apart) apart = bound;
          continue;
        }
        // Exact wherever it could be the least of what is reported; else a bound that it does not fall below.
        const d = measure(shape, part, put, thing, care);
        last[i] = d;
        then[i] = gone;
        if (d < least) least = d;
        if (!touches[k] && d < apart) apart = d;
        if (!touches[k] && d < clearance) {
          clearance = d;
          nearest = thing.id;
        }
        if (-d > overlap) {
          overlap = -d;
          deepest = thing.id;
        }
      }
    });
    now = least;
    // Between two places s apart that are d away, no place is nearer than d − s/2.
    return clearance === Infinity
      ? least / 2
      : Math.min(least / 2, 2 * (apart - clearance) + SURE * clearance + 2 * step);
  };
  let gone = 0;
  const spots: Swept["spots"][number][] = [];
  for (let i = 0; i + 1 < poses.length && (all || overlap <= enough); i++) {
    const [a, b] = [poses[i]!, poses[i + 1]!];
    const total = travel(a, b, shape.reach);
    let worst = enough;
    let spot: number | undefined;
    for (let t = 0; t < 1 && (all || overlap <= enough); ) {
      const far = look(interpolate(a, b, t), gone + t * total);
      if (-now > worst) {
        worst = -now;
        spot = t;
      }
      t += total > 0 ? Math.max(step, far) / total : 1;
    }
    if (spot !== undefined) spots.push({ move: i, t: spot });
    gone += total;
  }
  if (all || overlap <= enough) look(at0, gone);
  return {
    clearance,
    ...(nearest === undefined ? {} : { nearest }),
    overlap,
    ...(deepest === undefined ? {} : { deepest }),
    poses: count,
    spots,
  };
}

function shapeOf(bar: ResolvedBar, copes: Readonly<Record<End, CopeResult>>, over: Over): Shape {
  const { centreline: line } = bar;
  const r = halfExtent(bar.tube);
  // A tube that ends in a round is none: its last bit before an end is left to the rim.
  const from = copes.A.cope.greatest - (over.A ?? 0) + r;
  const to = line.length - copes.B.cope.greatest + (over.B ?? 0) - r;
  const rims = (["A", "B"] as const).map((end) => {
    const places: Vec[] = [];
    const inward = inwardFrom(line, end);
    for (const wall of ["outer", "bore"] as const) {
      // Odd degrees: the search has the even ones.
      for (let phi = 1; phi < 360; phi += 2) {
        if (!Number.isNaN(copes[end].cope[wall][phi]!))
          places.push(rimPlace(inward, copes[end], wall, phi, over[end] ?? 0));
      }
      for (const tip of tipsOf(copes[end])[wall])
        places.push(rimPlace(inward, copes[end], wall, tip.phi, over[end] ?? 0, tip.back));
    }
    return {
      places,
      ...boundingSphere(places.length > 0 ? places : [end === "A" ? line.start : line.finish]),
    };
  });
  let reach = Math.max(...rims.flatMap((e) => e.places.map((p) => dist(p, line.start))));
  for (let s = from; s < to; s += APART) reach = Math.max(reach, dist(placeAt(line, s).at, line.start) + r);
  return { line, r, from, to, rims, reach: reach + APART };
}

type Put = (p: Vec) => Vec;

/** Distance of one part of the posed bar (0 the tube, 1 and 2 its rims) from a thing; exact below `care`, else a bound. */
function measure(shape: Shape, part: number, put: Put, thing: Thing, care: number): number {
  if (part === 0) return tube(shape, put, thing, care);
  const { places, centre, reach } = shape.rims[part - 1]!;
  const c = put(centre);
  const rough = dist(c, thing.centre) - thing.reach - reach - thing.radius;
  if (rough > care) return rough;
  const nearer = thing.far(c[0], c[1], c[2]) - reach - thing.radius;
  if (nearer > care) return nearer;
  let best = Infinity;
  for (const p of places) {
    const [x, y, z] = put(p);
    const d = thing.far(x, y, z);
    if (d < best) best = d;
  }
  return best - thing.radius;
}

/**
 * Distance of the whole tube: its centreline is halved again and again, and a half is left as soon as what lies at
 * its middle is farther than what was found by more than half its length; what is left is searched by golden section.
 */
function tube(shape: Shape, put: Put, thing: Thing, care: number): number {
  const { line, r, from, to } = shape;
  if (to <= from) return Infinity;
  const thick = r + thing.radius;
  const at = (s: number): number => {
    const [x, y, z] = put(placeAt(line, s).at);
    return thing.far(x, y, z) - thick;
  };
  const middle = put(placeAt(line, (from + to) / 2).at);
  const rough = dist(middle, thing.centre) - (to - from) / 2 - thing.reach - thick;
  if (rough > care) return rough;
  let best = Infinity;
  let bound = Infinity;
  const search = (lo: number, hi: number, m: number): void => {
    const half = (hi - lo) / 2;
    if (m - half >= Math.min(best, care)) {
      bound = Math.min(bound, m - half);
      return;
    }
    if (2 * half <= APART) {
      best = Math.min(best, m, at(goldenLeast(at, lo, hi, 0.02)));
      return;
    }
    const [a, b] = [at(lo + half / 2), at(hi - half / 2)];
    if (a <= b) {
      search(lo, lo + half, a);
      search(lo + half, hi, b);
    } else {
      search(lo + half, hi, b);
      search(lo, lo + half, a);
    }
  };
  search(from, to, at((from + to) / 2));
  return best <= care ? best : Math.min(best, bound);
}
