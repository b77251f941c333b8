import { closestOnPiece, type Piece, placeAt } from "../bar/index.ts";
import type { CopeResult } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { along, cross, dist, dot, len, lerp, scale, sub, unit, type Vec } from "../space/index.ts";
import { maximise } from "./lp.ts";
import { inwardFrom, rimPlace } from "./solid.ts";

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

/** A small rigid move: turn by `turn` (radians, right-handed) about `about`, and shift by `shift` (mm). */
export interface Twist {
  readonly shift: Vec;
  readonly turn: Vec;
  readonly about: Vec;
}

/** An arc of an end's rim that holds the bar (degrees, from may be greater than to: across 0). */
export interface Lip {
  readonly end: End;
  readonly host: string;
  readonly from: number;
  readonly to: number;
}

export interface Mobility {
  readonly contacts: readonly Contact[];
  /** Directions (length 1) in which the bar may leave straight, most open first. */
  readonly slides: readonly Vec[];
  /** Small moves with a turn in them, most open first; sought only where nothing slides. */
  readonly tips: readonly Twist[];
  /** No move at all, to first order: proved for rigid hosts and copes cut true. */
  readonly locked: boolean;
  /** What holds it, where it neither slides nor tips. */
  readonly lips: readonly Lip[];
  /** Ends that land on no bar. */
  readonly open: readonly End[];
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
      (piece) => closestOnPiece(piece, landing).distance <= reach + host.tube.od / 2 + 1,
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
    const off = dist(at, foot) - host.tube.od / 2;
    if (Math.abs(off) < Math.abs(least)) {
      least = off;
      best = { host: host.id, normal: unit(sub(at, foot)) };
    }
  }
  return best;
}

/** A value of a programme below this is none: rows have length about 1, the box is 1 wide. */
const MOVES = 1e-6;

/**
 * Whether a seated bar is free to leave, to first order (geometry of form closure; F. Reuleaux 1876; linear
 * programmes over rigid twists as in A. S. Goldman & A. W. Tucker and Lakshminarayana 1978).
 *
 * A small move (shift v, turn w about the bar's middle c) carries the contact at pᵢ by v + w × (pᵢ − c); it does not
 * enter its host when nᵢ·(v + w × (pᵢ − c)) ≥ 0. The moves that enter no host form a cone.
 * - Straight moves (w = 0): for a straight host the half-space nᵢ·(x − pᵢ) ≤ 0 holds all of it near the contact, so
 *   a direction of the cone is good for any distance as far as these contacts go. Copes that wrap half round their
 *   host (equal diameters: the lips reach ±90°, where nᵢ is square to the bar) leave of each host's plane only the
 *   way straight out along the bar and the ways along the host; a smaller bar's lips stop at asin(r/R) and leave a
 *   wedge of 90° − asin(r/R) on either side. Both ends' cones must meet: parallel hosts meet along the hosts,
 *   converging ones on the side where they part.
 * - If the cone holds nothing but 0, no motion whatever starts from the seat: the contacts sampled are among those
 *   there are, and more contacts only take away. That is a proof, for hosts that do not give and cuts that are true.
 * The cone is searched with the most of the mean opening and of each coordinate, both ways: it is {0} exactly when
 * none of the latter is above 0. Units: turns are made lengths by the bar's half length. Each answer is checked
 * against every contact here, whatever the solver says.
 */
export function mobilityOf(bar: ResolvedBar, contacts: readonly Contact[]): Mobility {
  const open = (["A", "B"] as const).filter((end) => bar.seat[end].kind !== "on");
  const c = lerp(bar.centreline.start, bar.centreline.finish, 0.5);
  const half = bar.centreline.length / 2;
  const straight = contacts.map((k) => [...k.normal]);
  const slides = directions(straight, 3).found.map((x) => unit([x.x[0]!, x.x[1]!, x.x[2]!]));
  if (slides.length > 0)
    return { contacts, slides: distinct(slides), tips: [], locked: false, lips: [], open };
  const rows = contacts.map((k) => [...k.normal, ...scale(cross(sub(k.at, c), k.normal), 1 / half)]);
  const { found, held } = directions(rows, 6);
  const tips = found.map(({ x }): Twist => {
    const size = Math.hypot(...x);
    const k = 1 / size;
    return {
      shift: [x[0]! * k, x[1]! * k, x[2]! * k],
      turn: [(x[3]! * k) / half, (x[4]! * k) / half, (x[5]! * k) / half],
      about: c,
    };
  });
  return { contacts, slides: [], tips, locked: tips.length === 0, lips: lipsOf(contacts, held), open };
}

interface Found {
  readonly x: readonly number[];
  /** Mean opening over the contacts, per unit of move. */
  readonly opening: number;
}

/** Moves that the rows leave open, and the rows that hold back the answer of any of the programmes. */
function directions(
  rows: readonly (readonly number[])[],
  n: number,
): { readonly found: readonly Found[]; readonly held: ReadonlySet<number> } {
  const unknowns = Array.from({ length: n }, (_, k) => k);
  const box = unknowns.map(() => 1);
  const atLeast = rows.map(() => 0);
  const mean = unknowns.map((k) => rows.reduce((sum, row) => sum + row[k]!, 0) / Math.max(1, rows.length));
  const axes = unknowns.flatMap((k) => [1, -1].map((sign) => unknowns.map((j) => (j === k ? sign : 0))));
  const found: Found[] = [];
  const held = new Set<number>();
  const see = (x: readonly number[]): void => {
    const size = Math.hypot(...x);
    if (size < 1e-3) return;
    const along = rows.map((row) => row.reduce((sum, r, k) => sum + r * x[k]!, 0) / size);
    if (along.some((a) => a < -1e-8)) return;
    found.push({ x, opening: along.reduce((sum, a) => sum + a, 0) / Math.max(1, rows.length) });
  };
  for (const c of [mean, ...axes]) {
    const solved = maximise({ c, rows, atLeast, box });
    if (!solved.ok) continue;
    for (const [i, force] of solved.held) if (force > 1e-6) held.add(i);
    if (solved.value >= MOVES) see(solved.x);
  }
  // Where the cone is wide, the plain ways out are in it: the mean normal, and the car's own axes.
  if (found.length > 0) for (const x of [mean, ...axes]) see(x);
  return { found: found.sort((a, b) => b.opening - a.opening), held };
}

/** Contacts that stand closer together than this round an end are one lip (degrees). */
const ONE_LIP = 24;

function lipsOf(contacts: readonly Contact[], held: ReadonlySet<number>): readonly Lip[] {
  const lips: Lip[] = [];
  const groups = new Map<string, { end: End; host: string; phis: number[] }>();
  for (const i of held) {
    const k = contacts[i]!;
    const key = `${k.end} ${k.host}`;
    const group = groups.get(key) ?? { end: k.end, host: k.host, phis: [] };
    group.phis.push(k.phi);
    groups.set(key, group);
  }
  for (const { end, host, phis } of groups.values()) {
    const sorted = [...new Set(phis)].sort((a, b) => a - b);
    // Cut the ring at its widest empty arc, then wherever an empty arc is wide enough.
    const gap = (i: number): number => (sorted[(i + 1) % sorted.length]! - sorted[i]! + 360) % 360 || 360;
    const start = sorted.reduce((best, _, i) => (gap(i) > gap(best) ? i : best), 0);
    let from = sorted[(start + 1) % sorted.length]!;
    for (let n = 1; n <= sorted.length; n++) {
      const i = (start + n) % sorted.length;
      if (n < sorted.length && gap(i) < ONE_LIP) continue;
      lips.push({ end, host, from, to: sorted[i]! });
      from = sorted[(i + 1) % sorted.length]!;
    }
  }
  return lips;
}

function distinct(dirs: readonly Vec[]): readonly Vec[] {
  const out: Vec[] = [];
  for (const d of dirs) if (!out.some((o) => dot(o, d) > 0.999)) out.push(d);
  return out;
}

/** A direction of the car in words: "up and rearward", "to the left". Parts under a third of it are not named. */
export function inWords(v: Vec): string {
  const size = len(v) || 1;
  const names: readonly (readonly [string, string])[] = [
    ["forward", "rearward"],
    ["to the left", "to the right"],
    ["up", "down"],
  ];
  return ([2, 0, 1] as const)
    .filter((k) => Math.abs(v[k]) / size > 0.34)
    .sort((a, b) => Math.abs(v[b]) - Math.abs(v[a]))
    .map((k) => names[k]![v[k] > 0 ? 0 : 1])
    .join(" and ");
}
